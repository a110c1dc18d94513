package main

import (
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/rivo/uniseg"
	"golang.org/x/sys/unix"
)

// A terminal that the program can be run on: pty(7).
type pty struct{ ours, theirs *os.File }

func openPTY(t *testing.T, columns uint16) pty {
	t.Helper()
	ours, err := os.OpenFile("/dev/ptmx", os.O_RDWR|unix.O_NOCTTY, 0)
	if err != nil {
		t.Skipf("there are no terminals here: %v", err)
	}
	t.Cleanup(func() { _ = ours.Close() })
	number, err := unix.IoctlGetInt(int(ours.Fd()), unix.TIOCGPTN)
	if err != nil {
		t.Fatal(err)
	}
	if err := unix.IoctlSetPointerInt(int(ours.Fd()), unix.TIOCSPTLCK, 0); err != nil {
		t.Fatal(err)
	}
	theirs, err := os.OpenFile(fmt.Sprintf("/dev/pts/%d", number), os.O_RDWR|unix.O_NOCTTY, 0)
	if err != nil {
		t.Fatal(err)
	}
	if err := unix.IoctlSetWinsize(int(theirs.Fd()), unix.TIOCSWINSZ, &unix.Winsize{Row: 24, Col: columns}); err != nil {
		t.Fatal(err)
	}
	return pty{ours, theirs}
}

// passband gives the program, run as this test binary: see TestMain.
func passband(t *testing.T, args ...string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self)
	cmd.Args = append([]string{"passband"}, args...)
	return cmd
}

// TestTerminal wants colors on a terminal alone, and only where they are welcome,
// and lines as wide as the terminal.
func TestTerminal(t *testing.T) {
	for _, c := range []struct {
		name, why string
		env       []string
		columns   uint16
		piped     bool
		color     bool
		width     int
	}{
		{name: "a terminal", why: "colors help there", columns: 60, color: true, width: 60},
		{name: "a pipe", why: "a program would read the colors as text", columns: 60, piped: true, width: 80},
		{name: "NO_COLOR", why: "no-color.org: any value but none", env: []string{"NO_COLOR=1"}, columns: 60, width: 60},
		{name: "empty NO_COLOR", why: "no-color.org: not when empty", env: []string{"NO_COLOR="}, columns: 60, color: true, width: 60},
		{name: "dumb", why: "such a terminal would show the codes", env: []string{"TERM=dumb"}, columns: 60, width: 60},
		{name: "COLUMNS", why: "what a person sets goes before what the terminal says", env: []string{"COLUMNS=40"}, columns: 60, color: true, width: 40},
		{name: "COLUMNS in a pipe", why: "the same command gives the same text for a pager", env: []string{"COLUMNS=200"}, columns: 60, piped: true, width: 200},
		{name: "no size", why: "some terminals do not know it", columns: 0, color: true, width: 80},
		{name: "nonsense", why: "it is ignored", env: []string{"COLUMNS=-3"}, columns: 60, color: true, width: 60},
		{name: "very narrow", why: "below 30 wrapping helps nobody", columns: 10, color: true, width: 30},
	} {
		t.Run(c.name, func(t *testing.T) {
			cmd := passband(t, "explain", "split-missing")
			cmd.Env = append([]string{"TERM=xterm", "HOME=" + t.TempDir()}, c.env...)
			out := output(t, cmd, openPTY(t, c.columns), c.piped)
			if got := strings.Contains(out, "\x1b["); got != c.color {
				t.Errorf("colors are %t, want %t: %s", got, c.color, c.why)
			}
			widest := 0
			for line := range strings.Lines(plainText(out)) {
				if strings.HasPrefix(line, "    ") {
					continue // an example stays as it is
				}
				widest = max(widest, uniseg.StringWidth(strings.TrimRight(line, "\r\n")))
			}
			if widest > c.width || widest < c.width-25 && c.width < 100 {
				t.Errorf("the widest line has %d columns, want nearly %d: %s", widest, c.width, c.why)
			}
		})
	}
}

// output runs the program on a terminal, or with its output in a pipe.
func output(t *testing.T, cmd *exec.Cmd, terminal pty, piped bool) string {
	t.Helper()
	if piped {
		out, err := cmd.Output()
		if err != nil {
			t.Fatal(err)
		}
		return string(out)
	}
	cmd.Stdout = terminal.theirs
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	_ = terminal.theirs.Close()         // the last end of it is the program's
	out, _ := io.ReadAll(terminal.ours) // EIO when that is closed (pty(7))
	if err := cmd.Wait(); err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// plainText takes the colors out.
func plainText(s string) string {
	var b strings.Builder
	for i, part := range strings.Split(s, "\x1b[") {
		if i > 0 {
			_, part, _ = strings.Cut(part, "m")
		}
		b.WriteString(part)
	}
	return b.String()
}

// TestInterrupted stops the demo at many moments: it stands whole or not at all.
func TestInterrupted(t *testing.T) {
	sound := filepath.Join(t.TempDir(), "harrow")
	if out, err := passband(t, "demo", sound).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	want, err := filesIn(sound)
	if err != nil || len(want) == 0 {
		t.Fatalf("%d files, %v", len(want), err)
	}
	for i := range 20 {
		above := t.TempDir()
		cmd := passband(t, "demo", filepath.Join(above, "harrow"))
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(i) * time.Millisecond)
		_ = cmd.Process.Signal(os.Interrupt)
		err := cmd.Wait()
		entries, readErr := os.ReadDir(above)
		if readErr != nil {
			t.Fatal(readErr)
		}
		switch {
		case len(entries) == 0 && err == nil:
			t.Error("it ended well and wrote nothing")
		case len(entries) == 1 && entries[0].Name() == "harrow":
			got, err := filesIn(filepath.Join(above, "harrow"))
			if diff := cmp.Diff(want, got); diff != "" || err != nil {
				t.Errorf("stopped after %d ms it differs: %v %s", i, err, diff)
			}
		case len(entries) > 0:
			t.Errorf("stopped after %d ms it left %v", i, entries)
		}
	}
}
