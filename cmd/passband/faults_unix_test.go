//go:build unix

package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"passband.example/plandiff/generate"
)

// TestFaults runs the program where the machine fails it. It must say so, end with 2, and lose nothing
// of the plan; a file that cannot be read is a finding like others. Devices that are full stand in
// testdata/script/bad.txtar.
func TestFaults(t *testing.T) {
	program := build(t)
	tests := []struct {
		name, why string
		shell     string // run in the folder of the plan, as a user without rights; $P is the program
		says      string
		status    int
	}{
		{"file too large", "a quota that is used up (RLIMIT_FSIZE, setrlimit(2))", `ulimit -f 8; "$P" tidy`, "plan.yaml cannot be written: file too large", exitFailed},
		{"folder is read-only", "the new text is written beside the old one", `chmod 555 .; "$P" tidy; s=$?; chmod 755 .; exit $s`, "nothing can be written beside plan.yaml: permission denied", exitFailed},
		{"file cannot be read", "what stands in it cannot be judged", `chmod 000 plan.yaml; "$P" check; s=$?; chmod 644 plan.yaml; exit $s`, "permission denied", exitBlocks},
		{"folder cannot be entered", "there may be files in it", `mkdir sub; chmod 000 sub; "$P" check; s=$?; chmod 755 sub; rmdir sub; exit $s`, "permission denied", exitBlocks},
		{"no plan", "the folder is gone", `mv plan.yaml ../away; "$P" check; s=$?; mv ../away plan.yaml; exit $s`, "plan.yaml", exitFailed},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			dir := planAt(t, program)
			before := text(t, dir)
			cmd := exec.Command("sh", "-c", tt.shell)
			cmd.Dir, cmd.Env = dir, append(os.Environ(), "P="+filepath.Join(filepath.Dir(dir), "passband"), "HOME="+dir)
			asNobody(cmd)
			said, _ := cmd.CombinedOutput() // its status says how it ended
			if code := cmd.ProcessState.ExitCode(); code != tt.status {
				t.Errorf("%s: it ended with %d", tt.why, code)
			}
			if !strings.Contains(string(said), tt.says) || strings.Contains(string(said), "goroutine ") {
				t.Errorf("%s: want a line about %q, got\n%s", tt.why, tt.says, said)
			}
			if !bytes.Equal(before, text(t, dir)) {
				t.Errorf("%s: the plan is not what it was", tt.why)
			}
			if left, _ := filepath.Glob(filepath.Join(dir, ".*")); len(left) > 0 {
				t.Errorf("%s: %v is left behind", tt.why, left)
			}
		})
	}
}

// planAt puts a plan and the program where a user without rights may use them.
func planAt(t *testing.T, program string) string {
	t.Helper()
	top, err := os.MkdirTemp("", "faults")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = os.RemoveAll(top) })
	dir := filepath.Join(top, "plan")
	for name, text := range generate.New(generate.Size{Channels: 1_000}, 1).Files() {
		write(t, filepath.Join(dir, name), string(text))
	}
	if err := os.Link(program, filepath.Join(top, "passband")); err != nil {
		t.Fatal(err)
	}
	if os.Geteuid() == 0 {
		for _, path := range []string{top, dir, filepath.Join(dir, "plan.yaml")} {
			if err := os.Chown(path, nobody, nobody); err != nil {
				t.Fatal(err)
			}
		}
	}
	return dir
}

// nobody is the user that owns nothing (overflow user of Linux, proc_sys_kernel(5)).
const nobody = 65534

// asNobody runs a command without root's rights, who may read and write everything.
func asNobody(cmd *exec.Cmd) {
	if os.Geteuid() == 0 {
		cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
	}
}

func text(t *testing.T, dir string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, "plan.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// TestSurroundings: what the program says hangs on the plan alone, not on where, when and by
// whom it is run. PASSBAND_RUNS=100 runs each surrounding so often.
func TestSurroundings(t *testing.T) {
	program := build(t)
	runs := 2
	if n, err := strconv.Atoi(os.Getenv("PASSBAND_RUNS")); err == nil {
		runs = n
	}
	top := t.TempDir()
	dir := filepath.Join(top, "club")
	if out, err := exec.Command(program, "demo", dir).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	path := "PATH=" + os.Getenv("PATH")
	surroundings := map[string][]string{
		"plain":               {path, "HOME=" + top, "TZ=UTC"},
		"no home":             {path},
		"a home that is gone": {path, "HOME=/nowhere", "XDG_CONFIG_HOME=/nowhere"},
		"far east":            {path, "HOME=" + top, "TZ=Pacific/Kiritimati"},
		"another language":    {path, "HOME=" + top, "LANG=tr_TR.UTF-8", "LC_ALL=tr_TR.UTF-8", "LANGUAGE=tr"},
		"one processor":       {path, "HOME=" + top, "GOMAXPROCS=1"},
		"many processors":     {path, "HOME=" + top, "GOMAXPROCS=16", "GOGC=10"},
		"without git":         {"PATH=/nowhere", "HOME=" + top},
	}
	for _, args := range [][]string{
		{"check", "new-repeater-north", "--json"}, {"diff", "main", "new-repeater-north", "--effects"},
		{"log", "--effects"}, {"trace", "ridge"}, {"radios", "--json"},
	} {
		t.Run(args[0], func(t *testing.T) {
			var want []byte
			for name, env := range surroundings {
				for range runs {
					cmd := exec.Command(program, args...)
					cmd.Dir, cmd.Env = dir, env
					out, err := cmd.CombinedOutput()
					if code := cmd.ProcessState.ExitCode(); code > exitBlocks {
						t.Fatalf("%s: %v\n%s", name, err, out)
					}
					if want == nil {
						want = out
					}
					if !bytes.Equal(out, want) {
						t.Fatalf("%s: it says something else:\n%s\nthan\n%s", name, out, want)
					}
				}
			}
		})
	}
}

// TestFileChangesWhileItIsRead: an editor writes the plan while it is checked over and over. Every
// run judges one text or the other, or says what it could not read, and none hangs.
func TestFileChangesWhileItIsRead(t *testing.T) {
	program := build(t)
	dir := t.TempDir()
	file := filepath.Join(dir, "plan.yaml")
	texts := make([]string, 2)
	for i := range texts {
		texts[i] = string(generate.New(generate.Size{Channels: 1_000}, uint64(i)).Files()["plan.yaml"])
	}
	write(t, file, texts[0])
	stop, stopped := make(chan bool), make(chan bool)
	go func() {
		defer close(stopped)
		for i := 0; ; i++ {
			select {
			case <-stop:
				return
			default:
				_ = os.WriteFile(file, []byte(texts[i%2]), 0o644) // in place, as some editors do
			}
		}
	}()
	for range 20 {
		cmd := exec.Command(program, "check")
		cmd.Dir = dir
		cmd.WaitDelay = time.Minute
		out, _ := cmd.CombinedOutput()
		if code := cmd.ProcessState.ExitCode(); code < 0 || code > exitFailed || bytes.Contains(out, []byte("goroutine ")) {
			t.Errorf("it ended with %d:\n%s", code, out)
		}
	}
	close(stop)
	<-stopped
}
