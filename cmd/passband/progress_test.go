package main

import (
	"bytes"
	"testing"
	"time"

	"passband.example/plandiff/chronicle"
)

// TestProgressLine wants nothing of a short reading, and one line of a long one,
// which is wiped out before anything else is written.
func TestProgressLine(t *testing.T) {
	var out bytes.Buffer
	now := time.Date(2026, 1, 1, 12, 0, 0, 0, time.UTC)
	clock := func() time.Time { return now }
	a := &app{stdout: &out, stderr: &out, env: func(string) string { return "" }, now: clock}
	if p := a.newProgress(); p != nil {
		t.Error("there is a line where nobody watches")
	}
	var none *progressLine
	none.show(chronicle.Progress{Commits: 1})
	none.clear()

	p := &progressLine{w: &out, now: clock, begun: now, last: now}
	back := time.Date(2024, 3, 1, 0, 0, 0, 0, time.UTC)
	for i := range 100 { // five seconds
		p.show(chronicle.Progress{Commits: i, Back: back})
		if i == 9 && out.Len() > 0 {
			t.Errorf("after %d commits at once it says %q", i, out.String())
		}
		now = now.Add(50 * time.Millisecond)
	}
	if n := bytes.Count(out.Bytes(), []byte{'\r'}); n < 20 || n > 50 {
		t.Errorf("in five seconds the line is written %d times", n)
	}
	if want := "\r98 commits read, back to 2024-03-01\x1b[K"; !bytes.HasSuffix(out.Bytes(), []byte(want)) {
		t.Errorf("the last line is %q", out.String()[out.Len()-40:])
	}
	out.Reset()
	p.clear()
	p.clear()
	if out.String() != "\r\x1b[K" {
		t.Errorf("wiping out writes %q", out.String())
	}
}
