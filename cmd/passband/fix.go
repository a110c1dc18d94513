package main

import (
	"context"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"

	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/whole"
	"passband.example/review/mend"
	"passband.example/review/report"
	"passband.example/review/rules"
)

// fix mends the plan in a folder, or the one being edited, and reports what it did.
func (a *app) fix(ctx context.Context, names []string) error {
	sides, err := history.At(ctx, a.plan)
	if err != nil {
		return err
	}
	defer sides.Close()
	side, err := a.folder(ctx, sides, names)
	if err != nil {
		return err
	}
	x, err := a.loadSound(ctx, side)
	if err != nil {
		return err
	}
	files := make(map[string][]byte)
	for _, name := range x.Plan.Files {
		if files[name], err = fs.ReadFile(side.Files, name); err != nil {
			return fmt.Errorf("%s cannot be read again: %w", name, err)
		}
	}
	r, err := mend.Plan(ctx, rules.All(), files, plan.DateOf(a.now()))
	if err != nil {
		return err
	}
	if err := whole.Files(filepath.FromSlash(side.Folder), files, r.Files); err != nil {
		return err
	}
	d := report.OfMended(origin(side), r)
	d.InGit = inGit(ctx, filepath.FromSlash(side.Folder))
	if err := a.write(report.Mended(d, r), func(w io.Writer) error { return report.MendedJSON(w, d, r) }); err != nil {
		return err
	}
	if r.Verdict.Blocks() {
		return errBlocks
	}
	return nil
}

// folder gives the plan that a command may write to.
func (a *app) folder(ctx context.Context, sides *history.Sides, names []string) (side history.Side, err error) {
	if len(names) > 0 {
		side, err = sides.Named(ctx, names[0])
	} else {
		side, err = sides.Now(ctx)
	}
	if err == nil && side.Commit != nil {
		err = fmt.Errorf("%s is a commit, and nothing can be mended in one; check the branch out and run \"passband check --fix\" there", side)
	}
	return side, err
}
