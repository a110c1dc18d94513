package post

import (
	"context"
	"errors"
	"fmt"
	"io/fs"

	"passband.example/plandiff"
	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/report"
)

// A Proposal is a change to a plan that was judged: what a pull request would bring.
type Proposal struct {
	Document *report.Document
	Notes    []string // what a reader should know about how it was judged
	Partial  bool     // a side could not be read in full, so what changed is not known

	Base, Parted, Head history.Commit // the branch's tip, where the head left it, the head
	Folder             string         // of the plan, from the top of the repository
	Files              string         // where the forge shows the files of the head: Access.Files; "" where it is not known

	tree  fs.FS // of the head
	files map[string][]byte
}

// A Span names the two ends of a change.
type Span struct {
	Base, Head string // what history.Repository.Resolve understands
	BaseName   string // what a reader knows them as; "" for Base and Head
	HeadName   string
}

// Propose loads both plans as git objects and judges the change from where the head
// left the base, under the policy that the base has now. A plan that cannot be read
// is judged as far as it can be: its faults are findings that block. rules and today
// are handed to review.Judge.
func Propose(ctx context.Context, r *history.Repository, folder string, span Span, rules []*review.Rule, today plan.Date) (*Proposal, error) {
	p := &Proposal{Folder: folder}
	if err := p.find(ctx, r, span); err != nil {
		return nil, err
	}
	old, hadPlan, err := p.load(ctx, r, p.Parted)
	if err != nil {
		return nil, err
	}
	now, hasPlan, err := p.load(ctx, r, p.Head)
	if err != nil {
		return nil, err
	}
	if p.tree, err = r.Tree(ctx, p.Head, folder); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	base, err := p.base(ctx, r, old)
	if err != nil {
		return nil, err
	}
	switch {
	case !hasPlan && !hadPlan:
		return nil, p.noPlan()
	case !hadPlan:
		p.note("There is no plan yet on %s, so all of this one is new, and no policy stands against it.", name(span.BaseName, span.Base))
	case !hasPlan:
		now.Problems = append(now.Problems, takenOut())
	}
	p.unread(old, now, base, name(span.BaseName, span.Base))
	c := plandiff.Compare(plan.Expand(old), plan.Expand(now))
	v, err := review.Judge(ctx, rules, c, base, today)
	if err != nil {
		return nil, err
	}
	p.Document = &report.Document{Old: p.origin(p.Parted, span), New: p.origin(p.Head, span), Comparison: c, Verdict: v, Expansion: c.New}
	return p, nil
}

// PlanFolder gives the folder of the plan from the top of the repository, as the head
// has it, or else the base.
func PlanFolder(ctx context.Context, sides *history.Sides, span Span) (string, error) {
	side, err := sides.Named(ctx, span.Head)
	if err == nil {
		return side.Folder, nil
	}
	if side, again := sides.Named(ctx, span.Base); again == nil {
		return side.Folder, nil
	}
	return "", err
}

// find resolves the two ends, and where they parted.
func (p *Proposal) find(ctx context.Context, r *history.Repository, span Span) error {
	var err error
	if p.Base, err = r.Resolve(ctx, span.Base); err != nil {
		return fmt.Errorf("the base of the change, %s, is not in this clone: %w", name(span.BaseName, span.Base), err)
	}
	if p.Head, err = r.Resolve(ctx, span.Head); err != nil {
		return fmt.Errorf("the head of the change, %s, is not in this clone: %w", name(span.HeadName, span.Head), err)
	}
	parted, related, err := r.MergeBase(ctx, p.Base, p.Head)
	if err != nil {
		return err
	}
	if p.Parted = parted; !related {
		p.Parted = p.Base
		p.note("The two have no history in common, so they are compared as they stand.")
	}
	return nil
}

// load reads the plan of a commit; false where it has none.
func (p *Proposal) load(ctx context.Context, r *history.Repository, c history.Commit) (*plan.Plan, bool, error) {
	tree, err := r.Tree(ctx, c, p.Folder)
	if errors.Is(err, fs.ErrNotExist) {
		return new(plan.Plan), false, nil
	}
	if err != nil {
		return nil, false, err
	}
	loaded, err := plan.Load(ctx, tree)
	if errors.Is(err, plan.ErrNoPlan) {
		return new(plan.Plan), false, nil
	}
	return loaded, err == nil, err
}

// base gives the plan whose policy judges: that of the branch's tip, so that a head
// cannot choose a milder one by beginning at an older commit. Where the plan is gone
// from there it is that of the commit where the two parted.
func (p *Proposal) base(ctx context.Context, r *history.Repository, old *plan.Plan) (*plan.Plan, error) {
	if p.Base.Hash == p.Parted.Hash {
		return old, nil
	}
	tip, hasTip, err := p.load(ctx, r, p.Base)
	if err != nil || !hasTip {
		return old, err
	}
	return tip, nil
}

// unread notes which plan could not be read in full.
func (p *Proposal) unread(old, now, base *plan.Plan, name string) {
	if len(old.Problems) > 0 {
		p.note("The plan of %s cannot be read in full, so what it says of the rest of the plan is not known, and faults that it may have had count as new.", name)
	}
	if base != old && len(base.Problems) > 0 {
		p.note("The plan that stands on %s now cannot be read in full, so what it says of the policy may be missing here.", name)
	}
	if p.Partial = len(old.Problems)+len(now.Problems) > 0; p.Partial {
		p.note("What changes for members is not told, since part of a plan cannot be read.")
	}
}

func (p *Proposal) note(format string, args ...any) {
	p.Notes = append(p.Notes, fmt.Sprintf(format, args...))
}

// takenOut is what is wrong where a change leaves no plan.
func takenOut() plan.Problem {
	return plan.Problem{
		Rule: plan.FileRefused, At: plan.Place{File: plan.RootFile}, What: "the plan is gone: there is no " + plan.RootFile + " any more",
		Why: "no radio could be loaded from it", Fix: "if it is to move, say so to those who answer for it, and set up the review for its new folder",
	}
}

func (p *Proposal) noPlan() error {
	where := "the top of the repository"
	if p.Folder != "" {
		where = "the folder " + p.Folder
	}
	return fmt.Errorf("neither the base nor the head has a plan: there is no %s in %s; name the folder of the plan with --plan", plan.RootFile, where)
}

func (p *Proposal) origin(c history.Commit, span Span) *report.Origin {
	o := &report.Origin{Name: c.Short(), Hash: c.Hash, Subject: c.Subject, Folder: p.Folder}
	base, head := name(span.BaseName, span.Base), name(span.HeadName, span.Head)
	switch {
	case c.Hash == p.Head.Hash:
		o.Name = head
	case c.Hash == p.Base.Hash:
		o.Name = base
	default:
		o.Note = "where " + head + " left " + base
	}
	return o
}

func name(known, rev string) string {
	if known != "" {
		return known
	}
	return rev
}
