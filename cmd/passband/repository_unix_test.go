//go:build unix

package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestDamagedRepository takes from a repository what a crash, a full disk or a careless hand
// takes from one. What needs no history goes on; the rest says what is lost and what to do, and
// ends with 2, whether git or the library reads it. Never is somebody told to record anew what only
// cannot be read.
func TestDamagedRepository(t *testing.T) {
	if _, err := exec.LookPath("git"); err != nil {
		t.Skip("git is needed")
	}
	program := build(t)
	const fsck = `"git fsck" says how much is lost, and a fresh clone is the usual cure`
	tests := []struct {
		name, why string
		shell     string // damages the repository it is run in, which has one pack
		args      []string
		says      string
		status    int
		needsGit  bool
	}{
		{"pack damaged", "a bad block of the disk", `f=$(ls .git/objects/pack/*.pack); chmod u+w $f; yes | head -c 20000 | dd of=$f bs=1 seek=5000 conv=notrunc 2>/dev/null`, []string{"log"}, fsck, exitFailed, false},
		{"pack cut", "a copy that was stopped", `f=$(ls .git/objects/pack/*.pack); chmod u+w $f; head -c 3000 $f >x; cat x >$f`, []string{"diff"}, fsck, exitFailed, false},
		{"pack gone", "a copy without it", `rm -f .git/objects/pack/*.pack`, []string{"diff"}, fsck, exitFailed, false},
		{"index of the pack gone", "the same", `rm -f .git/objects/pack/*.idx`, []string{"trace", "ridge"}, fsck, exitFailed, false},
		{"history is not needed", "the plan is whole", `rm -f .git/objects/pack/*`, []string{"check"}, "Nothing blocks", 0, false},
		{"no HEAD", "git takes it for no repository either", `rm .git/HEAD`, []string{"log"}, "no git repository holds", exitFailed, false},
		{"HEAD empty", "a crash before it was on the disk", `: >.git/HEAD`, []string{"log"}, "the repository is damaged: its branches and tags cannot be read", exitFailed, false},
		{"HEAD is no name", "an editor", `echo garbage >.git/HEAD`, []string{"log"}, "the repository is damaged: HEAD names neither a branch nor a commit; " + fsck, exitFailed, false},
		{"branch is no hash", "an editor", `mkdir -p .git/refs/heads; echo garbage >.git/refs/heads/main`, []string{"diff"}, `the repository is damaged: the branch "main" names no commit; ` + fsck, exitFailed, false},
		{"branch empty", "a crash before it was on the disk", `mkdir -p .git/refs/heads; : >.git/refs/heads/main`, []string{"diff"}, "the repository is damaged: ", exitFailed, false},
		{"packed branches", "a bad block of the disk", `yes | head -c 500 >.git/packed-refs`, []string{"log"}, "the repository is damaged: ", exitFailed, false},
		{"index locked", "a git that is at work, or was killed", `touch .git/index.lock`, []string{"diff"}, "Nothing changed", 0, false},
		{"index damaged", "nothing is read from it", `echo garbage >.git/index`, []string{"diff"}, "Nothing changed", 0, false},
		{"settings locked", "a git that is at work, or was killed", `touch .git/config.lock`, []string{"git", "install"}, "if none is at work, take the file away that ends in .lock", exitFailed, true},
		{"settings damaged", "an editor", `printf '[core\n' >.git/config`, []string{"git", "install"}, "git cannot read the repository that holds .", exitFailed, true},
		{"of another user", "nothing that stands in it is run", `chown -R 65534 .`, []string{"log"}, "commits shown", 0, false},
		{"of another user, to be set up", "git refuses", `chown -R 65534 .`, []string{"git", "install"}, "belongs to another user", exitFailed, true},
	}
	club := filepath.Join(t.TempDir(), "club")
	command(t, program, "demo", club)
	command(t, "git", "-C", club, "gc", "-q")
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if strings.Contains(tt.shell, "chown") && os.Geteuid() != 0 {
				t.Skip("only the superuser may give files away")
			}
			dir := t.TempDir()
			command(t, "sh", "-ec", `cp -R "$0/." "$1"; cd "$1"; `+tt.shell, club, dir)
			before := standing(t, dir)
			for _, path := range []string{os.Getenv("PATH"), "/nowhere"} {
				if path == "/nowhere" && tt.needsGit {
					continue
				}
				cmd := exec.Command(program, tt.args...)
				cmd.Dir, cmd.Env = dir, []string{"PATH=" + path, "GIT_CONFIG_GLOBAL=/dev/null", "GIT_CONFIG_NOSYSTEM=1"} // and no HOME
				said, _ := cmd.CombinedOutput()                                                                          // its status says how it ended
				if code := cmd.ProcessState.ExitCode(); code != tt.status {
					t.Errorf("%s: it ended with %d", tt.why, code)
				}
				if !strings.Contains(string(said), tt.says) || strings.Contains(string(said), "goroutine ") || strings.Contains(string(said), "git commit") {
					t.Errorf("%s: want a line about %q, got\n%s", tt.why, tt.says, said)
				}
			}
			if standing(t, dir) != before {
				t.Errorf("%s: something is written", tt.why)
			}
		})
	}
}

func command(t *testing.T, name string, args ...string) {
	t.Helper()
	if out, err := exec.Command(name, args...).CombinedOutput(); err != nil {
		t.Fatalf("%s: %v\n%s", name, err, out)
	}
}
