package serve

import (
	"errors"
	"strings"
	"testing"
	"time"
)

// TestClockIsSetBack queues a change while the clock runs ahead by years, and the next state of it
// after the clock was mended: the later delivery is judged, and no job waits for years.
func TestClockIsSetBack(t *testing.T) {
	dir := t.TempDir()
	q, err := OpenQueue(dir)
	if err != nil {
		t.Fatal(err)
	}
	ahead, now := time.Date(2106, 2, 7, 0, 0, 0, 0, time.UTC), time.Date(2026, 11, 28, 0, 0, 0, 0, time.UTC)
	push := func(id, head string, number int, at time.Time) {
		t.Helper()
		if fresh, err := q.Push(Job{ID: strings.Repeat(id, 64), Repository: "club/plan", Number: number, Head: head, Received: at}); err != nil || !fresh {
			t.Fatal(fresh, err)
		}
	}
	push("a", "old", 7, ahead)
	push("b", "new", 7, now)
	j, ok, _, _ := q.Take(now)
	if !ok || j.Head != "new" {
		t.Errorf("what is judged is %q, %v", j.Head, ok)
	}
	if given, err := q.Done(j, nil, now); err != nil || given != "done" {
		t.Fatal(given, err)
	}

	push("c", "other", 8, ahead)
	if j, ok, _, _ = q.Take(ahead); !ok || j.Number != 8 {
		t.Fatal(j, ok)
	}
	if given, err := q.Done(j, errors.New("no network"), ahead); err != nil || given != "again" {
		t.Fatal(given, err)
	}
	if q, err = OpenQueue(dir); err != nil { // started anew, the clock mended
		t.Fatal(err)
	}
	if j, ok, again, _ := q.Take(now); !ok {
		t.Errorf("pull request 8 waits for %v: %+v", again, j)
	}
}
