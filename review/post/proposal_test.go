package post_test

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"passband.example/plandiff/history"
	"passband.example/review"
	"passband.example/review/post"
	"passband.example/review/rules"
)

// sound is a plan about which no rule has to say anything that blocks.
const sound = `plan: Fern Hollow
edition: 2026
region: US
license: technician
channels:
  call: {label: Call, simplex: 146.52, fm: {}}
`

// A clone is a repository under the hands of a test.
type clone struct {
	t   *testing.T
	dir string
}

func newClone(t *testing.T) clone {
	c := clone{t, t.TempDir()}
	c.git("init", "-q", "-b", "main")
	return c
}

func (c clone) git(args ...string) string {
	c.t.Helper()
	cmd := exec.Command("git", append([]string{"-C", c.dir, "-c", "user.name=Pat Example", "-c", "user.email=pat@example.org"}, args...)...)
	cmd.Env = append(os.Environ(), "GIT_CONFIG_GLOBAL=/dev/null", "GIT_CONFIG_NOSYSTEM=1")
	out, err := cmd.CombinedOutput()
	if err != nil {
		c.t.Fatalf("git %q: %v\n%s", args, err, out)
	}
	return strings.TrimSpace(string(out))
}

// commit records files, given as name, text, name, text; an empty text takes one out.
func (c clone) commit(files ...string) {
	c.t.Helper()
	for i := 0; i < len(files); i += 2 {
		name := filepath.Join(c.dir, files[i])
		if files[i+1] == "" {
			os.Remove(name)
			continue
		}
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			c.t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(files[i+1]), 0o644); err != nil {
			c.t.Fatal(err)
		}
	}
	c.git("add", "-A")
	c.git("commit", "-q", "--allow-empty", "-m", "x")
}

func (c clone) propose(folder string) (*post.Proposal, error) {
	c.t.Helper()
	repo, err := history.Open(context.Background(), c.dir)
	if err != nil {
		c.t.Fatal(err)
	}
	c.t.Cleanup(func() { repo.Close() })
	return post.Propose(context.Background(), repo, folder, post.Span{Base: "main", Head: "new"}, rules.All(), today)
}

// newRules gives "severity rule" of what a change brings.
func newRules(p *post.Proposal) string {
	var out []string
	for _, f := range p.Document.Verdict.Findings {
		if f.Standing == review.New && f.Severity == review.Block {
			out = append(out, f.Rule)
		}
	}
	return strings.Join(out, " ")
}

// TestPropose judges changes of which one side or the other is not as it should be.
func TestPropose(t *testing.T) {
	off := strings.Replace(sound, "146.52", "164.52", 1)
	for _, c := range []struct {
		name, why string
		base, new []string // files of the commits
		want      string   // rules that block
		note      string
		partial   bool
	}{
		{"sound", "nothing blocks", []string{"plan.yaml", sound}, []string{"plan.yaml", sound + "# a\n"}, "", "", false},
		{"a slip", "the change brings it", []string{"plan.yaml", sound}, []string{"plan.yaml", off}, "off-band", "", false},
		{"stood before", "the change is not blamed", []string{"plan.yaml", off}, []string{"plan.yaml", off + "# a\n"}, "", "", false},
		{"the head cannot be read", "its faults are what blocks", []string{"plan.yaml", sound}, []string{"plan.yaml", sound + "zones: {\n"}, "bad-syntax", "What changes for members is not told", true},
		{"a value of the head cannot be read", "the same", []string{"plan.yaml", sound}, []string{"plan.yaml", strings.Replace(sound, "146.52", "146.5x2", 1)}, "bad-value", "not told", true},
		{"the base cannot be read", "the head is judged alone, and that is said", []string{"plan.yaml", sound + "zones: {\n"}, []string{"plan.yaml", off}, "off-band", "The plan of main cannot be read in full", true},
		{"neither can be read", "the change has not made it worse", []string{"plan.yaml", sound + "zones: {\n"}, []string{"plan.yaml", sound + "zones: {\n# a\n"}, "", "cannot be read in full", true},
		{"a first plan", "all of it is new", []string{"README", "x"}, []string{"plan.yaml", off}, "off-band", "There is no plan yet on main", false},
		{"the plan is taken out", "it blocks, and is no crash", []string{"plan.yaml", sound}, []string{"plan.yaml", "", "README", "x"}, "file-refused", "not told", true},
		{"a waiver of its own", "policy is the base's", []string{"plan.yaml", sound}, []string{"plan.yaml", off + "review: {severity: {off-band: note}, accept: [{rule: off-band, at: call, until: 2027-01-01, reason: x}]}\n"}, "off-band", "", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			repo := newClone(t)
			repo.commit(c.base...)
			repo.git("checkout", "-q", "-b", "new")
			repo.commit(c.new...)
			p, err := repo.propose("")
			if err != nil {
				t.Fatal(err)
			}
			if got, notes := newRules(p), strings.Join(p.Notes, "\n"); got != c.want || !strings.Contains(notes, c.note) || (notes != "") != (c.note != "") || p.Partial != c.partial {
				t.Errorf("%s: %q, notes %q, partial %t", c.why, got, notes, p.Partial)
			}
			if p.Document.Verdict.Blocks() != (c.want != "") {
				t.Errorf("%s: blocks is %t", c.why, p.Document.Verdict.Blocks())
			}
			for _, text := range []string{p.Posting(post.Diff{}, 5).Form().Text(), p.JobSummary()} {
				if !strings.Contains(text, "license holder answers") {
					t.Errorf("%s: the text is not whole:\n%s", c.why, text)
				}
			}
		})
	}
}

// TestPolicyOfTheTip begins a branch at a commit with a milder policy than the base
// has now: it is judged by that of now.
func TestPolicyOfTheTip(t *testing.T) {
	mild := sound + "review: {severity: {off-band: note}}\n"
	accepting := strings.Replace(sound, "  call:", "  simplex:", 1) + "review: {accept: [{rule: off-band, at: simplex, until: 2027-06-01, reason: a test}]}\n"
	for _, c := range []struct {
		name, was, tip, want string
	}{
		{"stricter now", mild, sound, "off-band"},
		{"milder now", sound, mild, ""},
		{"accepted now, under a key that is new", sound, accepting, ""},
		{"accepted then", accepting, sound, "off-band"},
	} {
		repo := newClone(t)
		repo.commit("plan.yaml", c.was)
		repo.git("checkout", "-q", "-b", "new")
		repo.commit("plan.yaml", strings.Replace(c.was, "146.52", "164.52", 1))
		repo.git("checkout", "-q", "main")
		repo.commit("plan.yaml", c.tip)
		p, err := repo.propose("")
		if err != nil {
			t.Fatal(err)
		}
		if got := newRules(p); got != c.want {
			t.Errorf("%s: %q", c.name, got)
		}
		if n := len(p.Document.Comparison.Changes); n != 1 {
			t.Errorf("%s: %d changes: the branch is blamed for what others merged", c.name, n)
		}
	}
}

// TestFolders judges one of two plans of a repository, places from its top.
func TestFolders(t *testing.T) {
	repo := newClone(t)
	repo.commit("plans/east/plan.yaml", sound, "plans/west/plan.yaml", sound)
	repo.git("checkout", "-q", "-b", "new")
	repo.commit("plans/east/plan.yaml", strings.Replace(sound, "146.52", "164.52", 1), "plans/west/plan.yaml", strings.Replace(sound, "146.52", "165.52", 1))
	east, err := repo.propose("plans/east")
	if err != nil {
		t.Fatal(err)
	}
	west, err := repo.propose("plans/west")
	if err != nil {
		t.Fatal(err)
	}
	diff, err := post.ReadDiff(context.Background(), mustOpen(t, repo.dir), east.Parted, east.Head, "plans/east")
	if err != nil {
		t.Fatal(err)
	}
	form := east.Posting(diff, 5).Form()
	if len(form.Comments) != 1 || form.Comments[0].Path != "plans/east/plan.yaml" || form.Comments[0].Line != 6 || form.Status.Context != "passband/plans/east" {
		t.Errorf("%+v", form)
	}
	if a, b := east.Posting(nil, 5).Goal.Plan, west.Posting(nil, 5).Goal.Plan; a == b {
		t.Error("the comments of two plans cannot be told apart")
	}
}

func mustOpen(t *testing.T, dir string) *history.Repository {
	t.Helper()
	r, err := history.Open(context.Background(), dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { r.Close() })
	return r
}

// TestProposeFails wants an error that says what to do.
func TestProposeFails(t *testing.T) {
	repo := newClone(t)
	repo.commit("README", "x")
	repo.git("branch", "new")
	if _, err := repo.propose("plans"); err == nil || !strings.Contains(err.Error(), "name the folder of the plan with --plan") {
		t.Errorf("no plan: %v", err)
	}
	repo.git("branch", "-m", "new", "old")
	if _, err := repo.propose(""); err == nil || !strings.Contains(err.Error(), "the head of the change, new, is not in this clone") {
		t.Errorf("no head: %v", err)
	}
}

// TestShallow clones as continuous integration does, and wants the line of the
// workflow to change.
func TestShallow(t *testing.T) {
	repo := newClone(t)
	for i := range 4 {
		repo.commit("plan.yaml", sound+fmt.Sprintf("# %d\n", i))
	}
	repo.git("checkout", "-q", "-b", "new", "HEAD~2")
	repo.commit("plan.yaml", sound+"# new\n")
	cut := clone{t, t.TempDir()}
	cut.git("clone", "-q", "--depth", "1", "--no-single-branch", "file://"+repo.dir, ".")
	cut.git("checkout", "-q", "--detach")
	cut.git("branch", "-f", "new", "origin/new")
	cut.git("branch", "-f", "main", "origin/main")
	if _, err := cut.propose(""); err == nil || !strings.Contains(err.Error(), `"fetch-depth: 0"`) {
		t.Errorf("%v", err)
	}
}
