package chronicle

import (
	"context"
	"time"

	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
)

// A Reader reads the history of one plan. It is for one goroutine.
type Reader struct {
	repo   *history.Repository
	dir    string // the folder of the plan, below the top of the repository
	files  *fileCache
	ahead  ahead
	parsed int       // files that were parsed so far
	last   *snapshot // which At looked at

	// Progress, if set, is told after each commit that was looked at.
	Progress func(Progress)
}

// Progress says how far a long reading has come.
type Progress struct {
	Commits int       // that were looked at
	Back    time.Time // the date of the last one
}

// New gives a reader of the plan in the folder dir ("" for the top).
func New(repo *history.Repository, dir string) *Reader {
	return &Reader{repo: repo, dir: dir, files: newFileCache()}
}

// Folder gives the folder of the plan, "" for the top.
func (r *Reader) Folder() string { return r.dir }

// At reads the plan as it was at a commit, worked out. The error is
// plan.ErrNoPlan where there was none, or an *Unreadable.
func (r *Reader) At(ctx context.Context, c history.Commit) (*plan.Expansion, error) {
	s, err := r.sound(ctx, c)
	if err != nil {
		return nil, err
	}
	return r.whole(ctx, s)
}

// sound gives the plan as it was at a commit, as far as it takes to know that it can be
// read. The error is that of At.
func (r *Reader) sound(ctx context.Context, c history.Commit) (*snapshot, error) {
	s, err := r.snapshot(ctx, c, r.dir)
	if err != nil {
		return nil, err
	}
	r.last = s
	return s, r.judge(ctx, s)
}

// recordsAt gives the plan as it was at a commit, not worked out. The error is that of At.
func (r *Reader) recordsAt(ctx context.Context, c history.Commit) (*plan.Plan, error) {
	s, err := r.sound(ctx, c)
	if err != nil {
		return nil, err
	}
	return r.records(ctx, s)
}
