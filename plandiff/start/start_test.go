package start

import (
	"context"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
)

// TestPlan wants a plan that loads without a word, works out into channels, and
// says why to each line. That it checks clean is tested where the rules are: in
// cmd/passband.
func TestPlan(t *testing.T) {
	p, err := plan.Load(context.Background(), Plan())
	if err != nil || len(p.Problems) > 0 {
		t.Fatal(err, p.Problems)
	}
	x := plan.Expand(p)
	if len(x.Unresolved)+len(x.Cycles) > 0 || len(x.Channels) < 5 || len(x.Zones) != 1 || len(x.Fits) != 1 {
		t.Errorf("%+v", x)
	}
	for _, l := range x.Fits[0].LeftOut {
		t.Errorf("the example radio leaves out %s: %s", l.Channel.Name, l.Why)
	}
	for _, section := range []plan.Kind{plan.KindRepeater, plan.KindGroup, plan.KindChannel, plan.KindZone, plan.KindScanList, plan.KindMessage, plan.KindShortcut, plan.KindOperator, plan.KindRadio} {
		if len(plan.SectionOf(section).All(p)) == 0 {
			t.Errorf("the example has no %s", section)
		}
	}
}

// TestNothingReal wants callsigns that are never assigned (ITU Radio Regulations
// 19.48: no suffix from QRA to QUZ) and IDs of the internal-use code 999 (ITU-T E.212).
func TestNothingReal(t *testing.T) {
	p, err := plan.Load(context.Background(), Plan())
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range p.Repeaters.All() {
		checkCallsign(t, string(r.Callsign.V))
	}
	for _, o := range p.Operators.All() {
		checkCallsign(t, string(o.Callsign.V))
		if !strings.HasPrefix(o.ID.V.String(), "999") {
			t.Errorf("radio ID %s", o.ID.V)
		}
	}
	for _, g := range p.Groups.All() {
		if !strings.HasPrefix(g.ID.V.String(), "999") {
			t.Errorf("group %s", g.ID.V)
		}
	}
}

func checkCallsign(t *testing.T, callsign string) {
	t.Helper()
	suffix := callsign[strings.LastIndexAny(callsign, "0123456789")+1:]
	if suffix < "QRA" || suffix > "QUZ" || len(suffix) != 3 {
		t.Errorf("callsign %q could be somebody's", callsign)
	}
}

func nothingMore(string) error { return nil }

// TestWrite makes the files, and a repository that git takes.
func TestWrite(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "plan")
	inside, err := Write(context.Background(), dir, nothingMore)
	if err != nil || inside != "" {
		t.Fatal(inside, err)
	}
	err = fs.WalkDir(Plan(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		want, err := fs.ReadFile(Plan(), name)
		if err != nil {
			return err
		}
		got, err := os.ReadFile(filepath.Join(dir, name))
		if string(got) != string(want) {
			t.Errorf("%s differs", name)
		}
		return err
	})
	if err != nil {
		t.Error(err)
	}
	schema, err := os.ReadFile(filepath.Join(dir, plan.SchemaFile))
	if err != nil || string(schema) != string(plan.JSONSchema()) {
		t.Errorf("the schema for editors is not there: %v", err)
	}
	if first, err := fs.ReadFile(Plan(), plan.RootFile); err != nil || !strings.HasPrefix(string(first), plan.SchemaLine+"\n") {
		t.Errorf("no editor finds the schema of %q, %v", first[:60], err)
	}
	repo, err := history.Open(context.Background(), dir)
	if err != nil {
		t.Fatal(err)
	}
	defer repo.Close()
	if head, err := repo.Head(context.Background()); err != nil || head.Branch != "main" || !head.Unborn {
		t.Errorf("%+v %v", head, err)
	}
	if _, err := exec.LookPath("git"); err != nil {
		return // the rest asks the real git
	}
	out, err := exec.Command("git", "-C", dir, "status", "--porcelain", "--branch").CombinedOutput()
	if want := "## No commits yet on main\n?? .plan.schema.json\n?? neighbors.csv\n?? operators.csv\n?? plan.yaml\n"; err != nil || string(out) != want {
		t.Errorf("git says %q, %v", out, err)
	}
}

// TestWriteInside makes no repository in a repository.
func TestWriteInside(t *testing.T) {
	outer, err := filepath.EvalSymlinks(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	outer = filepath.Join(outer, "outer")
	if _, err := Write(context.Background(), outer, nothingMore); err != nil {
		t.Fatal(err)
	}
	inside, err := Write(context.Background(), filepath.Join(outer, "second"), nothingMore)
	if err != nil || inside != outer {
		t.Errorf("%q %v, want %q", inside, err, outer)
	}
	if _, err := os.Stat(filepath.Join(outer, "second", ".git")); !os.IsNotExist(err) {
		t.Errorf("there is a repository in the repository: %v", err)
	}
}

// TestWriteStopped leaves nothing when it is stopped or can't go on.
func TestWriteStopped(t *testing.T) {
	above := t.TempDir()
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Write(ctx, filepath.Join(above, "plan"), nothingMore); err == nil || !strings.Contains(err.Error(), context.Canceled.Error()) {
		t.Errorf("the error is %v", err)
	}
	if entries, err := os.ReadDir(above); err != nil || len(entries) > 0 {
		t.Errorf("it left %v, %v", entries, err)
	}
}
