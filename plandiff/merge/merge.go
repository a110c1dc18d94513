package merge

import (
	"fmt"
	"maps"
	"slices"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/rewrite"
)

// Files holds the files of a plan by their names, with / between folders.
type Files map[string][]byte

// Labels name the sides in the marks of a conflict.
type Labels struct {
	Ours, Theirs string // "ours" and "theirs" where they are empty
	Marker       int    // how long a mark is; 7 where it is 0, as in git
}

// A Result is what a merge came to.
type Result struct {
	Files     Files      // all files of the merged plan, with marks where there are conflicts
	Marked    []string   // the files that hold marks, sorted
	Conflicts []Conflict // what a person must decide
	After     []string   // what is wrong though each side alone was right
}

// An Unreadable says that one of the three is no plan that can be merged as one.
type Unreadable struct {
	Side    string // base, ours or theirs
	Problem plan.Problem
}

// Error names the side and the place.
func (u *Unreadable) Error() string {
	return fmt.Sprintf("%s cannot be merged as a plan: %v", u.Side, u.Problem)
}

// Unwrap gives the problem.
func (u *Unreadable) Unwrap() error { return u.Problem }

// Plans merges whole plans, whose texts must not be changed afterwards. The error is an *Unreadable where one of them cannot
// be read; then their texts can still be merged as texts.
func Plans(base, ours, theirs Files, labels Labels) (*Result, error) {
	w, err := newWork(base, ours, theirs)
	if err != nil {
		return nil, err
	}
	r, err := w.merge(labels)
	if err != nil {
		return nil, err
	}
	r.After = w.after()
	return r, nil
}

// File merges one file of a plan, named by its path from the root of the plan,
// without the others. References to other files are not looked at.
func File(name string, base, ours, theirs []byte, labels Labels) (*Result, error) {
	with := func(text []byte) Files {
		files := Files{name: text}
		if name != plan.RootFile {
			files[plan.RootFile] = nil
		}
		return files
	}
	w, err := newWork(with(base), with(ours), with(theirs))
	if err != nil {
		return nil, err
	}
	r, err := w.merge(labels)
	if err != nil {
		return nil, err
	}
	r.Files = Files{name: r.Files[name]}
	r.After = sameIDs(w.even[1].plan, w.even[2].plan, w.merged)
	return r, nil
}

// A version of the plan: its texts, and what they mean.
type tip struct {
	files Files
	plan  *plan.Plan
}

func (s shelf) tip(name string, files Files) (tip, error) {
	p, err := s.load(files)
	if err != nil {
		return tip{}, fmt.Errorf("%s: %w", name, err)
	}
	if len(p.Problems) > 0 {
		return tip{}, &Unreadable{name, p.Problems[0]}
	}
	return tip{files, p}, nil
}

// work is a merge under way.
type work struct {
	shelf              shelf
	base, ours, theirs tip
	made               [2]*plandiff.Comparison // what ours and theirs made of the base
	merged             *plan.Plan              // with the preferred side where there are conflicts
	even               [3]tip                  // base, ours and theirs with the same keys
	stiff              bool                    // the texts cannot be merged as trees
}

func newWork(base, ours, theirs Files) (*work, error) {
	w := &work{shelf: make(shelf)}
	var err error
	for _, v := range []struct {
		name  string
		files Files
		tip   *tip
	}{{"base", base, &w.base}, {"ours", ours, &w.ours}, {"theirs", theirs, &w.theirs}} {
		if *v.tip, err = w.shelf.tip(v.name, v.files); err != nil {
			return nil, err
		}
	}
	w.even = [3]tip{w.base, w.ours, w.theirs}
	return w, nil
}

// merge merges, once for each side to be preferred where there is something to
// decide: the marks stand where the two differ.
func (w *work) merge(labels Labels) (*Result, error) {
	if side := w.untouched(); side != nil {
		w.merged = side.plan
		return &Result{Files: maps.Clone(side.files)}, nil
	}
	for i, side := range []tip{w.ours, w.theirs} {
		w.made[i] = plandiff.CompareRecords(w.base.plan, side.plan)
	}
	one, err := w.preferring(ourSide)
	if err != nil {
		return nil, err
	}
	r := &Result{Files: one.files, Conflicts: one.conflicts}
	if len(one.conflicts)+one.comments == 0 {
		return r, nil
	}
	stiff, merged := w.stiff, w.merged
	two, err := w.preferring(theirSide)
	if err != nil {
		return nil, err
	}
	if w.stiff != stiff { // the first as well, so that nothing but the conflicts differs
		if one, err = w.preferring(ourSide); err != nil {
			return nil, err
		}
		r.Files = one.files
	}
	w.merged = merged
	r.mark(two.files, labels)
	if len(r.Conflicts) == 0 {
		r.Conflicts = comments(r.Marked)
	}
	return r, nil
}

// untouched gives the side to take whole where the other changed nothing.
func (w *work) untouched() *tip {
	switch {
	case equal(w.ours.files, w.base.files), equal(w.ours.files, w.theirs.files):
		return &w.theirs
	case equal(w.theirs.files, w.base.files):
		return &w.ours
	}
	return nil
}

func equal(a, b Files) bool {
	return maps.EqualFunc(a, b, func(x, y []byte) bool { return string(x) == string(y) })
}

// comments tells of a conflict that is about nothing but comments.
func comments(files []string) []Conflict {
	var all []Conflict
	for _, name := range files {
		all = append(all, Conflict{
			Thing: plan.Thing{Kind: plan.KindPlan}, Field: "a comment in " + name,
			Ours: Version{Words: "writes it one way"}, Theirs: Version{Words: "writes it another way"},
		})
	}
	return all
}

// A draft is what comes out where one side is preferred.
type draft struct {
	files     Files
	conflicts []Conflict
	comments  int // that both sides wrote anew
}

// preferring merges the plans and then the texts, with one side taken where only a
// person could decide.
func (w *work) preferring(prefer side) (draft, error) {
	renamed, err := w.evenKeys(prefer)
	if err != nil {
		return draft{}, err
	}
	m := &merger{prefer: prefer, conflicts: renamed}
	if err := m.plans(w.evened()); err != nil {
		return draft{}, err
	}
	w.merged = m.out
	d := draft{conflicts: m.conflicts}
	if !w.stiff {
		if d.files, d.comments, err = w.trees(prefer); err == nil {
			return d, nil
		}
		w.stiff = true
	}
	d.files, err = w.carried()
	return d, err
}

// trees merges the files as trees, and makes sure that they say what the merged
// plan says.
func (w *work) trees(prefer side) (Files, int, error) {
	x := &texter{prefer: prefer}
	for i, v := range w.even {
		x.begin[i] = rewrite.Starts(v.plan)
	}
	files := make(Files)
	for _, name := range Names(w.even[0].files, w.even[1].files, w.even[2].files) {
		text, there, err := w.file(x, name)
		if err != nil {
			return nil, 0, err
		}
		if there {
			files[name] = text
		}
	}
	files, err := w.saying(files)
	return files, x.comments, err
}

// saying gives the files changes so that they say what the merged plan says.
func (w *work) saying(files Files) (Files, error) {
	got, err := w.shelf.tip("merged", files)
	if err != nil {
		return nil, err
	}
	if sameInOrder(got.plan, w.merged) {
		return files, nil
	}
	changes := plandiff.CompareRecords(got.plan, w.merged).Changes
	texts, err := rewrite.Apply(files, got.plan, changes)
	if err != nil {
		return nil, err
	}
	all := maps.Clone(files)
	maps.Copy(all, texts)
	return all, nil
}

// sameInOrder reports whether two plans say the same in the same order, which is
// sooner seen than what differs: most records are the very same in both.
func sameInOrder(a, b *plan.Plan) bool {
	return !slices.ContainsFunc(plan.Sections(), func(s *plan.Section) bool {
		return !slices.EqualFunc(s.All(a), s.All(b), func(x, y plan.Record) bool {
			return x == y || x.Thing() == y.Thing() && sameRecord(s, x, y)
		})
	})
}

// carried carries the changes of one side into the text of the other, for texts
// that cannot be merged as trees. The side whose text says nothing but its changes
// is the one that is carried.
func (w *work) carried() (Files, error) {
	into := w.even[1].files
	if w.isPlain(w.even[1]) && !w.isPlain(w.even[2]) {
		into = w.even[2].files
	}
	return w.saying(into)
}

// isPlain reports whether a side's text is that of the base with the side's changes.
func (w *work) isPlain(v tip) bool {
	base := w.even[0]
	changes := plandiff.CompareRecords(base.plan, v.plan).Changes
	texts, err := rewrite.Apply(base.files, base.plan, changes)
	if err != nil {
		return false
	}
	all := maps.Clone(base.files)
	maps.Copy(all, texts)
	return equal(all, v.files)
}
