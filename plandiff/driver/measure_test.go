package driver_test

import (
	"context"
	"flag"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/driver"
	"passband.example/plandiff/merge"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/rewrite"
)

var pairs = flag.Int("pairs", 12, "how many pairs of edits TestMeasure merges, and a third as many conflicts; 300 for the figures")

// TestMain lets the test be the program that git calls.
func TestMain(m *testing.M) {
	if len(os.Args) == 7 && os.Args[1] == "merge-driver" {
		marker, _ := strconv.Atoi(os.Args[5])
		clean, err := driver.Merge(context.Background(), driver.Call{
			Base: os.Args[2], Ours: os.Args[3], Theirs: os.Args[4], Marker: marker, Path: os.Args[6], Environ: os.Environ(),
		}, func(line string) { fmt.Fprintln(os.Stderr, line) })
		switch {
		case err != nil:
			fmt.Fprintln(os.Stderr, err)
			os.Exit(2)
		case !clean:
			os.Exit(1)
		}
		os.Exit(0)
	}
	if len(os.Args) == 3 && os.Args[1] == "tidy" {
		if _, err := driver.Tidy(os.Args[2], false); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(2)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// A week is a plan and what two people made of it.
type week struct {
	ours, theirs []edit
	mine, other  merge.Files
	want         *plan.Plan // nil where it is a conflict
}

// base gives the plan of the demo's club, in nine files with comments.
func base(t *testing.T) merge.Files {
	t.Helper()
	files, err := driver.ReadPlan(os.DirFS(filepath.Join("..", "demo", "data", "01-first-plan")))
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// quiet draws a week in which the two do not touch the same thing.
func quiet(t *testing.T, files merge.Files, seed uint64) week {
	a := newAuthor(t, files, seed)
	for {
		var w week
		for range 1 + a.IntN(4) {
			w.ours = append(w.ours, a.draw())
		}
		for range 1 + a.IntN(4) {
			w.theirs = append(w.theirs, a.draw())
		}
		if meet(w.ours, w.theirs) || w.carry(files) != nil {
			continue
		}
		var err error
		if _, w.want, err = does(w.mine, w.theirsAfter()); err != nil {
			continue
		}
		return w
	}
}

func newAuthor(t *testing.T, files merge.Files, seed uint64) *author {
	t.Helper()
	p, err := rewrite.Load(files)
	if err != nil {
		t.Fatal(err)
	}
	return &author{Rand: rand.New(rand.NewPCG(seed, 1)), p: p}
}

func meet(ours, theirs []edit) bool {
	for _, o := range ours {
		for _, t := range theirs {
			if slices.ContainsFunc(o.touches, func(x string) bool { return slices.Contains(t.touches, x) }) {
				return true
			}
		}
	}
	return false
}

func (w *week) carry(files merge.Files) (err error) {
	if w.mine, _, err = does(files, w.ours); err != nil {
		return err
	}
	w.other, _, err = does(files, w.theirs)
	return err
}

// theirsAfter gives their edits in the keys that ours left.
func (w *week) theirsAfter() []edit {
	names := plan.Renames{}
	for _, o := range w.ours {
		maps.Copy(names, o.renames)
	}
	after := slices.Clone(w.theirs)
	for i, e := range w.theirs {
		after[i].do = func(p *plan.Plan, now plan.Renames) (plandiff.Change, bool) {
			all := maps.Clone(names)
			maps.Copy(all, now)
			return e.do(p, all)
		}
	}
	return after
}

// torn draws a week in which the two do contradictory things.
func torn(t *testing.T, files merge.Files, seed uint64) week {
	a := newAuthor(t, files, seed)
	for {
		var w week
		one, two := a.scalar(), a.scalar()
		switch a.IntN(4) {
		case 0: // one field, two values
			if one.touches[1] != two.touches[1] || one.name == two.name {
				continue
			}
		case 1: // removed and edited
			if two = a.removed(); two.touches[0] != one.touches[0] {
				continue
			}
		case 2: // two new keys
			if one, two = a.renamed(), a.renamed(); one.touches[0] != two.touches[0] || one.name == two.name {
				continue
			}
		case 3: // moves that no order serves: the first three items, another one in front
			one, two = a.turn()
		}
		w.ours, w.theirs = []edit{one}, []edit{two}
		if w.carry(files) == nil {
			return w
		}
	}
}

// turn gives two edits of one list: the first item behind the second, and behind the
// third the second.
func (a *author) turn() (one, two edit) {
	t, _ := a.list()
	swap := func(i, j int) edit {
		return edit{name: fmt.Sprintf("swap items %d and %d of %s", i, j, t), do: change(t, "channels", func(old []string) []string {
			old[i], old[j] = old[j], old[i]
			return old
		})}
	}
	return swap(0, 1), swap(1, 2)
}

// A repository holds all weeks as branches.
type repository struct {
	t   *testing.T
	dir string
}

func newRepository(t *testing.T) *repository {
	t.Helper()
	if _, err := exec.LookPath("git"); err != nil {
		t.Skip("there is no git")
	}
	r := &repository{t, t.TempDir()}
	r.git("init", "-q", "-b", "main")
	r.git("config", "user.name", "Pat Example")
	r.git("config", "user.email", "pat@example.org")
	r.write(base(t))
	attributes := "*.yaml merge=passband\noperators.csv merge=passband\n"
	if err := os.WriteFile(filepath.Join(r.dir, ".gitattributes"), []byte(attributes), 0o644); err != nil {
		t.Fatal(err)
	}
	r.git("add", "-A")
	r.git("commit", "-q", "-m", "base")
	return r
}

func (r *repository) git(args ...string) string {
	r.t.Helper()
	out, err := r.run(args...)
	if err != nil {
		r.t.Fatalf("git %s: %v\n%s", strings.Join(args, " "), err, out)
	}
	return out
}

func (r *repository) run(args ...string) (string, error) {
	cmd := exec.Command("git", args...)
	cmd.Dir = r.dir
	cmd.Env = append(os.Environ(), "GIT_CONFIG_GLOBAL="+os.DevNull, "GIT_CONFIG_NOSYSTEM=1", "LC_ALL=C")
	out, err := cmd.CombinedOutput()
	return strings.TrimSpace(string(out)), err
}

func (r *repository) write(files merge.Files) {
	r.t.Helper()
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(r.dir, name), text, 0o644); err != nil {
			r.t.Fatal(err)
		}
	}
}

// merges does git merge of a week, with or without the driver, and gives the plan.
func (r *repository) merges(w week, with bool) (p *plan.Plan, clean bool) {
	r.t.Helper()
	r.git("reset", "-q", "--hard", "base")
	r.git("checkout", "-q", "-B", "theirs", "base")
	r.write(w.other)
	r.git("commit", "-q", "-a", "-m", "theirs")
	r.git("checkout", "-q", "-B", "ours", "base")
	r.write(w.mine)
	r.git("commit", "-q", "-a", "-m", "ours")
	args := []string{"merge", "-q", "-m", "both", "theirs"}
	if with {
		self, err := os.Executable()
		if err != nil {
			r.t.Fatal(err)
		}
		args = append([]string{"-c", "merge.passband.driver='" + self + "' merge-driver %O %A %B %L %P"}, args...)
	}
	if _, err := r.run(args...); err != nil {
		r.git("merge", "--abort")
		return nil, false
	}
	files, err := driver.ReadPlan(os.DirFS(r.dir))
	if err != nil {
		return nil, true
	}
	if p, err = rewrite.Load(files); err != nil || len(p.Problems) > 0 {
		return nil, true
	}
	return p, true
}

// TestMeasure tells how many weeks git merges right, with the driver and without.
func TestMeasure(t *testing.T) {
	r := newRepository(t)
	r.git("tag", "base")
	files := base(t)
	type tally struct{ right, wrong, conflict int }
	var tallies [2]tally
	for i := range *pairs {
		w := quiet(t, files, uint64(i))
		for j, with := range []bool{true, false} {
			p, clean := r.merges(w, with)
			switch {
			case !clean:
				tallies[j].conflict++
				if with {
					t.Logf("week %d: a conflict that is none:%s", i, w)
				}
			case p != nil && differences(p, w) == "":
				tallies[j].right++
			default:
				tallies[j].wrong++
				if with {
					t.Logf("week %d: merged wrong:%s\n%s", i, w, differences(p, w))
				}
			}
		}
	}
	var reported [2]int
	conflicts := *pairs / 3
	for i := range conflicts {
		w := torn(t, files, uint64(i))
		for j, with := range []bool{true, false} {
			if _, clean := r.merges(w, with); !clean {
				reported[j]++
			} else if with {
				t.Logf("conflict %d is not reported:%s", i, w)
			}
		}
	}
	for j, name := range []string{"git merge with the driver", "git merge without it"} {
		t.Logf("%-26s of %d weeks: %d right, %d wrong, %d left to decide; of %d true conflicts: %d reported",
			name, *pairs, tallies[j].right, tallies[j].wrong, tallies[j].conflict, conflicts, reported[j])
	}
	if reported[0] < conflicts || tallies[0].right < tallies[1].right || tallies[0].wrong > tallies[1].wrong {
		t.Error("the driver does worse than it should")
	}
}

func (w week) String() string {
	var b strings.Builder
	for _, e := range w.ours {
		b.WriteString("\n  ours:   " + e.name)
	}
	for _, e := range w.theirs {
		b.WriteString("\n  theirs: " + e.name)
	}
	return b.String()
}

// differences compares a merged plan with what both sides wanted. Where both changed
// one list, the order of what they put in is free.
func differences(got *plan.Plan, w week) string {
	if got == nil {
		return "it cannot be read"
	}
	var all []string
	for _, c := range plandiff.Compare(plan.Expand(w.want), plan.Expand(got)).Changes {
		free := c.Op == plandiff.Changed && w.shares(c.Thing)
		for _, e := range c.Edits {
			free = free && !slices.ContainsFunc(e.Steps, func(s plandiff.Step) bool { return s.Op != plandiff.Moved })
		}
		if !free {
			all = append(all, fmt.Sprintf("%s %s: %v", c.Op, c.Thing, c.Edits))
		}
	}
	return strings.Join(all, "\n")
}

// shares reports whether both sides changed the list of a zone.
func (w week) shares(zone plan.Thing) bool {
	of := func(e edit) bool { return e.list == zone }
	return slices.ContainsFunc(w.ours, of) && slices.ContainsFunc(w.theirs, of)
}
