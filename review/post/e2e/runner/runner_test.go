package runner

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"passband.example/plandiff/demo"
	"passband.example/review/post/forgetest"
)

// A bench is a clone of the demo with the example workflow, and a forge.
type bench struct {
	t     *testing.T
	dir   string
	act   string
	club  string
	forge *forgetest.GitHub
	flags []string
}

func run(t *testing.T, dir, name string, args ...string) string {
	t.Helper()
	cmd := exec.Command(name, args...)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "GIT_AUTHOR_NAME=Pat Example", "GIT_AUTHOR_EMAIL=pat@example.org", "GIT_COMMITTER_NAME=Pat Example", "GIT_COMMITTER_EMAIL=pat@example.org")
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%s %q: %v\n%s", name, args, err, out)
	}
	return strings.TrimSpace(string(out))
}

func write(t *testing.T, name, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func newBench(t *testing.T) *bench {
	b := &bench{t: t, dir: t.TempDir(), act: os.Getenv("ACT"), forge: forgetest.NewGitHub(t.Cleanup)}
	if b.act == "" {
		b.act = filepath.Join(b.dir, "act")
		run(t, "", "go", "build", "-o", b.act, "github.com/nektos/act")
	}
	b.club = filepath.Join(b.dir, "club")
	if err := demo.Write(t.Context(), b.club); err != nil {
		t.Fatal(err)
	}
	top, err := filepath.Abs("../../../..")
	if err != nil {
		t.Fatal(err)
	}
	workflow, err := os.ReadFile(filepath.Join(top, "action", "examples", "review.yml"))
	if err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(b.club, ".github", "workflows", "review.yml"), string(workflow))
	nothing := filepath.Join(b.dir, "setup-go")
	write(t, filepath.Join(nothing, "action.yml"), "name: nothing\ndescription: this machine has Go\ninputs: {go-version-file: {description: x}, cache: {description: x}}\nruns: {using: composite, steps: [{run: go version, shell: bash}]}\n")
	run(t, nothing, "git", "init", "-q")
	run(t, nothing, "git", "add", ".")
	run(t, nothing, "git", "commit", "-qm", "x")
	b.flags = []string{"--local-repository", "OWNER/passband@0123456789abcdef0123456789abcdef01234567=" + top}
	action, err := os.ReadFile(filepath.Join(top, "action", "action.yml"))
	if err != nil {
		t.Fatal(err)
	}
	for _, uses := range regexp.MustCompile(`uses: (\S+)`).FindAllStringSubmatch(string(action), -1) {
		b.flags = append(b.flags, "--local-repository", uses[1]+"="+nothing)
	}
	north := run(t, b.club, "git", "rev-parse", demo.Proposal)
	patches := map[string]string{}
	for _, file := range strings.Split("\n"+run(t, b.club, "git", "diff", "-U3", demo.Main+"..."+demo.Proposal), "\ndiff --git ")[1:] {
		_, name, _ := strings.Cut(strings.SplitN(file, "\n", 2)[0], " b/")
		patches[name] = file[strings.Index(file, "\n@@ ")+1:] + "\n"
	}
	b.forge.Push(north, patches, nil)
	return b
}

// review runs the workflow on the pull request, and reports whether its job passed.
func (b *bench) review() (passed bool, log string) {
	b.t.Helper()
	event, err := json.Marshal(map[string]any{
		"number": 7, "pull_request": map[string]any{
			"number": 7, "base": map[string]any{"ref": "main", "sha": run(b.t, b.club, "git", "rev-parse", demo.Main)},
			"head": map[string]any{"ref": demo.Proposal, "sha": b.forge.Head, "repo": map[string]any{"full_name": "owner/plan"}},
		}, "repository": map[string]any{"full_name": "owner/plan", "default_branch": "main"},
	})
	if err != nil {
		b.t.Fatal(err)
	}
	file := filepath.Join(b.dir, "event.json")
	write(b.t, file, string(event))
	home := filepath.Join(b.dir, "home")
	args := append([]string{
		"pull_request", "-P", "ubuntu-latest=-self-hosted", "-e", file, "--container-daemon-socket", "-", "--action-offline-mode",
		"--env", "GITHUB_API_URL=" + b.forge.URL, "--env", "GITHUB_GRAPHQL_URL=" + b.forge.URL + "/graphql", "--env", "GITHUB_REPOSITORY=owner/plan",
		"-s", "GITHUB_TOKEN=" + b.forge.Token, "-W", ".github/workflows/review.yml", "--action-cache-path", filepath.Join(home, "actions"),
	}, b.flags...)
	cmd := exec.Command(b.act, args...)
	cmd.Dir = b.club
	cache := run(b.t, "", "go", "env", "GOMODCACHE")
	cmd.Env = append(os.Environ(), "HOME="+home, "XDG_CACHE_HOME="+home, "GOMODCACHE="+cache, "GOCACHE="+run(b.t, "", "go", "env", "GOCACHE"), "GOFLAGS=-buildvcs=false")
	out, err := cmd.CombinedOutput()
	return err == nil, string(out)
}

// TestWorkflow runs the example workflow as it stands, twice, with and without rights.
func TestWorkflow(t *testing.T) {
	b := newBench(t)
	passed, log := b.review()
	if passed || len(b.forge.LineComments) < 10 || len(b.forge.Comments) != 1 || len(b.forge.Statuses) != 1 || !strings.Contains(log, "passband: Blocked: the change brings") {
		t.Fatalf("passed %t, %d comments, %d summaries\n%s", passed, len(b.forge.LineComments), len(b.forge.Comments), log)
	}
	if !strings.Contains(log, "zone range refers") {
		t.Errorf("there are no annotations:\n%s", log)
	}
	writes := b.forge.Writes
	if passed, log := b.review(); passed || b.forge.Writes != writes+1 {
		t.Errorf("passed %t, and the second run writes %d times\n%s", passed, b.forge.Writes-writes, log)
	}
	t.Logf("%d comments, one summary, one status; the second run wrote the status alone", len(b.forge.LineComments))

	b.forge.ReadOnly = true
	b.forge.LineComments, b.forge.Comments = nil, nil
	if passed, log := b.review(); passed || len(b.forge.LineComments)+len(b.forge.Comments) != 0 || !strings.Contains(log, "all findings are in the summary") {
		t.Errorf("without rights: passed %t\n%s", passed, log)
	}
}

// TestScriptReadsNoInputs wants the script to read none of the variables that this runner
// sets and GitHub's does not.
func TestScriptReadsNoInputs(t *testing.T) {
	text, err := os.ReadFile("../../../../action/review.sh")
	if err != nil {
		t.Fatal(err)
	}
	if strings.Contains(string(text), "INPUT_") {
		t.Error("a composite action gets no INPUT variables on GitHub")
	}
}
