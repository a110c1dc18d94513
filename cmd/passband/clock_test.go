package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

const clockPlan = `plan: Clocks
edition: 2026
region: US
license: technician
channels:
  off: {label: Off, simplex: 149.52, fm: {}}
  calling: {label: Call, simplex: 146.52, fm: {}}
zones:
  home: {label: Home, channels: [off, calling]}
review:
  accept: [{rule: off-band, at: off, until: 2027-06-01, reason: a test}]
`

// said runs the program in this process with a clock of the test's.
func said(t *testing.T, dir string, now func() time.Time, args ...string) (status int, out string) {
	t.Helper()
	t.Chdir(dir)
	var text bytes.Buffer
	status = run(context.Background(), args, &text, &text, func(string) string { return "" }, now)
	return status, text.String()
}

// TestWrongClock judges a plan on days on which only a wrong clock can be, and on the last
// ones of the forms in which programs keep time (POSIX time_t of 32 bits; RFC 3339's four digits
// of a year). A day decides on acceptances and on nothing else.
func TestWrongClock(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "plan.yaml"), []byte(clockPlan), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		name, why string
		now       time.Time
		accepted  bool
	}{
		{"1970", "a machine without a battery", time.Unix(0, 0).UTC(), true},
		{"no time", "the zero of Go", time.Time{}, true},
		{"the last day", "until is the last day that counts", time.Date(2027, 6, 1, 23, 59, 59, 0, time.UTC), true},
		{"the day after", "the first that does not", time.Date(2027, 6, 2, 0, 0, 0, 0, time.UTC), false},
		{"after 32 bits", "signed seconds end in 2038", time.Unix(1<<31, 0).UTC(), false},
		{"after unsigned 32 bits", "and these in 2106", time.Unix(1<<32, 0).UTC(), false},
		{"2100", "no leap year, though divisible by four", time.Date(2100, 2, 29, 0, 0, 0, 0, time.UTC), false},
		{"five digits", "10000 comes after 2027, though not as text", time.Date(10_000, 1, 1, 0, 0, 0, 0, time.UTC), false},
		{"before Christ", "a year below zero", time.Date(-44, 3, 15, 0, 0, 0, 0, time.UTC), true},
	} {
		t.Run(tt.name, func(t *testing.T) {
			now := func() time.Time { return tt.now }
			want := map[bool]int{true: 0, false: exitBlocks}[tt.accepted]
			for _, args := range [][]string{{"check"}, {"report", "-o", "-"}} {
				if status, out := said(t, dir, now, args...); status != want || strings.Contains(out, "acceptance-expired") == tt.accepted {
					t.Errorf("%s: %s ends with %d:\n%s", tt.why, args[0], status, out)
				}
			}
			for _, args := range [][]string{{"card"}, {"policy"}, {"check", "--json"}, {"check", "--sarif", "-"}} {
				if status, out := said(t, dir, now, args...); status > exitBlocks {
					t.Errorf("%s: %s ends with %d:\n%s", tt.why, args[0], status, out)
				}
			}
		})
	}
}

// TestClockGoesBack reads a history that was made by machines whose clocks disagree by a century,
// with a clock that runs backwards. The last release is the one that came last, whatever its date says.
func TestClockGoesBack(t *testing.T) {
	if _, err := exec.LookPath("git"); err != nil {
		t.Skip("git is needed")
	}
	dir := t.TempDir()
	git := func(date string, args ...string) {
		cmd := exec.Command("git", append([]string{"-C", dir, "-c", "user.name=Pat Example", "-c", "user.email=pat@example.org"}, args...)...)
		cmd.Env = append(os.Environ(), "GIT_CONFIG_GLOBAL=/dev/null", "GIT_CONFIG_NOSYSTEM=1", "GIT_AUTHOR_DATE="+date, "GIT_COMMITTER_DATE="+date)
		if out, err := cmd.CombinedOutput(); err != nil {
			t.Fatalf("git %v: %v\n%s", args, err, out)
		}
	}
	git("@0 +0000", "init", "-q", "-b", "main")
	for _, c := range []struct{ date, label, tag string }{
		{"@1767225600 +0000", "First", ""},
		{"@4102444800 +0000", "Second", "one"}, // 2100
		{"@0 +0000", "Third", "two"},           // 1970
		{"@2147483648 +1400", "Fourth", ""},    // 2038
		{"@1767225600 -1200", "Fifth", ""},
	} {
		if err := os.WriteFile(filepath.Join(dir, "plan.yaml"), []byte(strings.Replace(clockPlan, "label: Call", "label: "+c.label, 1)), 0o600); err != nil {
			t.Fatal(err)
		}
		git(c.date, "add", "-A")
		git(c.date, "commit", "-q", "-m", c.label)
		if c.tag != "" {
			git(c.date, "tag", c.tag)
		}
	}
	day := time.Date(2026, 11, 28, 12, 0, 0, 0, time.UTC)
	backwards := func() time.Time {
		day = day.Add(-24 * time.Hour)
		return day
	}
	for _, path := range []string{os.Getenv("PATH"), "/nowhere"} { // by git, and by the library
		t.Setenv("PATH", path)
		status, out := said(t, dir, backwards, "log", "--json")
		var log struct {
			Entries []struct{ Commit struct{ Subject string } }
		}
		if err := json.Unmarshal([]byte(out), &log); err != nil || status != 0 {
			t.Fatalf("%v\n%s", err, out)
		}
		var subjects []string
		for _, e := range log.Entries {
			subjects = append(subjects, e.Commit.Subject)
		}
		if got := strings.Join(subjects, " "); got != "Fifth Fourth Third Second First" {
			t.Errorf("the log tells %s", got)
		}
		if status, out := said(t, dir, backwards, "notes"); status != 0 || !strings.Contains(out, "compared with two of 1970-01-01") {
			t.Errorf("notes begin at another release (status %d):\n%s", status, out)
		}
		if status, out := said(t, dir, backwards, "trace", "calling"); status != 0 || !strings.Contains(out, "Fifth") {
			t.Errorf("trace (status %d):\n%s", status, out)
		}
	}
}
