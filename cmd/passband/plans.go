package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
	"passband.example/review/report"
)

// load reads the plan of a side and works it out.
func (a *app) load(ctx context.Context, side history.Side) (*plan.Expansion, error) {
	loaded := plan.LoadEach(ctx, side.Files)[0]
	if err := a.unread(side, loaded.Err); err != nil {
		return nil, err
	}
	return plan.Expand(loaded.Plan), nil
}

// unread says why there is no plan of a side, where there is none.
func (a *app) unread(side history.Side, err error) error {
	if errors.Is(err, plan.ErrNoPlan) {
		return a.noPlan(side)
	}
	if err != nil {
		return fmt.Errorf("the plan of %s cannot be read: %w", side, err)
	}
	return nil
}

// noPlan says where a plan is instead, or how to make one.
func (a *app) noPlan(side history.Side) error {
	if info, err := fs.Stat(side.Files, plan.RootFile); err == nil && info.IsDir() {
		return fmt.Errorf("%s in %s is a folder, and must be a file: it marks the root of a plan", plan.RootFile, side)
	}
	what := fmt.Sprintf("%s holds no plan: there is no file %s in it", side, plan.RootFile)
	if side.Commit != nil && side.Folder != "" {
		what = fmt.Sprintf("%s holds no plan: there is no file %s in its folder %s", side, plan.RootFile, side.Folder)
	}
	below := side.Elsewhere()
	named := below
	if most := 5; len(below) > most+1 {
		named = append(slices.Clone(below[:most]), fmt.Sprintf("%d more", len(below)-most))
	}
	switch {
	case len(below) == 0:
		return fmt.Errorf("%s; name the folder of the plan with --plan, or make a plan with \"passband start DIR\"", what)
	case side.Commit == nil && side.Name != history.WorkTreeName:
		return fmt.Errorf("%s, but in %s below it: name that one", what, strings.Join(named, ", "))
	default:
		return fmt.Errorf("%s, but in %s below it: say which with --plan %s", what, strings.Join(named, ", "), quoted(filepath.Join(a.plan, below[0])))
	}
}

// loadSound reads a plan that must have loaded without problems, since what
// could not be read cannot be compared or shown.
func (a *app) loadSound(ctx context.Context, side history.Side) (*plan.Expansion, error) {
	xs, err := a.eachSound(ctx, side)
	if err != nil {
		return nil, err
	}
	return xs[0], nil
}

// eachSound reads the plans of several sides as loadSound does. What is the same in two
// of them is read once, and all are worked out at a time.
func (a *app) eachSound(ctx context.Context, sides ...history.Side) ([]*plan.Expansion, error) {
	var files []fs.FS
	for _, side := range sides {
		files = append(files, side.Files)
	}
	loaded := plan.LoadEach(ctx, files...)
	for i, side := range sides {
		if err := a.unread(side, loaded[i].Err); err != nil {
			return nil, err
		}
		if err := a.sound(side, loaded[i].Plan.Problems); err != nil {
			return nil, err
		}
	}
	xs := make([]*plan.Expansion, len(sides))
	var work sync.WaitGroup
	for i := range sides {
		work.Go(func() { xs[i] = plan.Expand(loaded[i].Plan) })
	}
	work.Wait()
	return xs, nil
}

// sound says what could not be read of the plan of a side.
func (a *app) sound(side history.Side, problems []plan.Problem) error {
	if len(problems) == 0 {
		return nil
	}
	first := problems[0]
	first.At.File = filepath.ToSlash(filepath.Join(side.Folder, first.At.File))
	if len(problems) == 1 {
		return fmt.Errorf("the plan of %s cannot be read at %w (%q shows more)", side, first, a.checkOf(side))
	}
	return fmt.Errorf("the plan of %s cannot be read at %d places, the first %w (%q shows all)", side, len(problems), first, a.checkOf(side))
}

// checkOf gives the command that checks a side.
func (a *app) checkOf(side history.Side) string {
	words := []string{"passband", "check"}
	if a.plan != "." {
		words = append(words, "--plan", quoted(a.plan))
	}
	switch {
	case side.Commit != nil:
		words = append(words, side.Commit.Short())
	case side.Name != history.WorkTreeName:
		words = append(words, quoted(side.Name))
	}
	return strings.Join(words, " ")
}

// quoted makes one word for a shell of a text that may hold spaces.
func quoted(s string) string {
	plain := func(r rune) bool {
		return 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z' || '0' <= r && r <= '9' || strings.ContainsRune("-_./~^+=,", r)
	}
	if s != "" && strings.TrimFunc(s, plain) == "" {
		return s
	}
	return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'"
}

// origin tells a reader where a side came from.
func origin(side history.Side) *report.Origin {
	o := &report.Origin{Name: side.Name, Note: side.Note, Folder: side.Folder}
	if side.Commit != nil {
		o.Hash, o.Subject = side.Commit.Hash, side.Commit.Subject
	}
	if o.Folder == "." {
		o.Folder = ""
	}
	return o
}

// inGit tells whether a folder lies in a repository, so that git shows what was written there.
func inGit(ctx context.Context, folder string) bool {
	sides, err := history.At(ctx, folder)
	if err != nil {
		return false
	}
	defer sides.Close()
	repo, _ := sides.Repository()
	return repo != nil
}

// one loads the plan that a command was given, or the one being edited.
func (a *app) one(ctx context.Context, names []string, load loader) (*report.Document, error) {
	sides, err := history.At(ctx, a.plan)
	if err != nil {
		return nil, err
	}
	defer sides.Close()
	var side history.Side
	if len(names) > 0 {
		side, err = sides.Named(ctx, names[0])
	} else {
		side, err = sides.Now(ctx)
	}
	if err != nil {
		return nil, err
	}
	x, err := load(ctx, side)
	if err != nil {
		return nil, err
	}
	return &report.Document{New: origin(side), Expansion: x}, nil
}

// A loader reads the plan of a side: app.load or app.loadSound.
type loader func(context.Context, history.Side) (*plan.Expansion, error)
