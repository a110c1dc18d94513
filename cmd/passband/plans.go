package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"

	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
	"passband.example/review/report"
)

// load reads the plan of a side and works it out.
func load(ctx context.Context, side history.Side) (*plan.Expansion, error) {
	p, err := plan.Load(ctx, side.Files)
	if errors.Is(err, plan.ErrNoPlan) {
		return nil, fmt.Errorf("%s holds no plan: there is no %s in %s; name the folder of the plan with --plan, or make one with \"passband start DIR\"",
			side.Name, plan.RootFile, folder(side))
	}
	if err != nil {
		return nil, fmt.Errorf("the plan of %s cannot be read: %w", side.Name, err)
	}
	return plan.Expand(p), nil
}

func folder(side history.Side) string {
	if side.Folder == "" {
		return "its root"
	}
	return side.Folder
}

// loadSound reads a plan that must have loaded without problems, since what
// could not be read cannot be compared or shown.
func loadSound(ctx context.Context, side history.Side) (*plan.Expansion, error) {
	x, err := load(ctx, side)
	if err != nil {
		return nil, err
	}
	if n := len(x.Plan.Problems); n > 0 {
		check := "passband check"
		if side.Commit != nil {
			check += " " + side.Commit.Short()
		}
		return nil, fmt.Errorf("the plan of %s has %d places that cannot be read, the first at %w\n(\"%s\" lists them all)", side.Name, n, x.Plan.Problems[0], check)
	}
	return x, nil
}

// origin tells a reader where a side came from.
func origin(side history.Side) *report.Origin {
	o := &report.Origin{Name: side.Name, Note: side.Note}
	if side.Commit != nil {
		o.Hash, o.Subject = side.Commit.Hash, side.Commit.Subject
	}
	return o
}

// way gives the path from the reader to the plan, where it stands on disk.
func (a *app) way(side history.Side) string {
	if side.Commit != nil {
		return side.Folder
	}
	return filepath.ToSlash(filepath.Clean(side.Folder))
}

// one loads the plan that a command was given, or the one being edited.
func (a *app) one(ctx context.Context, names []string) (*report.Document, error) {
	sides, err := history.At(ctx, a.plan)
	if err != nil {
		return nil, err
	}
	defer sides.Close()
	side, err := sides.Now(ctx)
	if len(names) > 0 {
		side, err = sides.Named(ctx, names[0])
	}
	if err != nil {
		return nil, err
	}
	x, err := load(ctx, side)
	if err != nil {
		return nil, err
	}
	return &report.Document{New: origin(side), Expansion: x, Folder: a.way(side)}, nil
}
