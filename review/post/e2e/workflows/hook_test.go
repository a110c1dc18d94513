package workflows

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"testing"

	"gopkg.in/yaml.v3"
)

// TestHook reads the definition of the hook as pre-commit documents it (pre-commit.com,
// "Creating new hooks"): what must be there, of which type, and which files it is for.
func TestHook(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(top, ".pre-commit-hooks.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	var hooks []struct {
		ID            string
		Name          string
		Description   string
		Entry         string
		Language      string
		Files         string
		PassFilenames *bool `yaml:"pass_filenames"`
	}
	if err := yaml.Unmarshal(text, &hooks); err != nil || len(hooks) != 1 {
		t.Fatal(len(hooks), err)
	}
	h := hooks[0]
	if h.ID != "passband-check" || h.Name == "" || h.Description == "" || h.Language != "golang" || h.Entry != "passband check" || h.PassFilenames == nil || *h.PassFilenames {
		t.Errorf("%+v", h)
	}
	files, err := regexp.Compile(h.Files)
	if err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]bool{"plan.yaml": true, "plans/east/zones.yaml": true, "operators.csv": true, "x/operators.csv": true, "license.csv": true, "separation.csv": true, "lists/neighbors.csv": true, "README.md": false, "main.go": false} {
		if files.MatchString(name) != want {
			t.Errorf("%s: the hook is for it: %t", name, !want)
		}
	}
}

// TestPreCommit has the real pre-commit install and run the hook on a plan that is in
// order and on one that is not. pre-commit builds a module cache of its own first, which takes
// a minute or two.
func TestPreCommit(t *testing.T) {
	program, err := exec.LookPath("pre-commit")
	if err != nil {
		t.Fatal("the command pre-commit is needed; install Debian's pre-commit")
	}
	source, err := filepath.Abs(top)
	if err != nil {
		t.Fatal(err)
	}
	club, home := filepath.Join(t.TempDir(), "club"), t.TempDir()
	run := func(dir string, name string, args ...string) (string, error) {
		cmd := exec.Command(name, args...)
		cmd.Dir = dir
		cmd.Env = append(os.Environ(), "PRE_COMMIT_HOME="+home)
		out, err := cmd.CombinedOutput()
		return string(out), err
	}
	if out, err := run(source, "go", "run", "./cmd/passband", "start", club); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	for _, args := range [][]string{{"init", "-q"}, {"add", "-A"}} {
		if out, err := run(club, "git", args...); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
	}
	try := []string{"try-repo", source, "passband-check", "--all-files", "--verbose"}
	out, err := run(club, program, try...)
	t.Log(out)
	if err != nil {
		t.Errorf("a plan in order: %v", err)
	}
	name := filepath.Join(club, "plan.yaml")
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	slip := regexp.MustCompile(`output: 146\.940`).ReplaceAll(text, []byte("output: 149.940"))
	if err := os.WriteFile(name, slip, 0o644); err != nil {
		t.Fatal(err)
	}
	out, err = run(club, program, try...)
	t.Log(out)
	if err == nil || !regexp.MustCompile(`plan\.yaml:\d+:\d+: block \[off-band\]`).MatchString(out) {
		t.Errorf("a plan that blocks: %v", err)
	}
}
