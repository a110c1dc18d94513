package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"time"

	"golang.org/x/term"
	"passband.example/plandiff/chronicle"
	"passband.example/plandiff/history"
	"passband.example/review/report"
)

// A progressLine tells on a terminal how far a long reading has come, on one line
// that is wiped out again. The nil line says nothing.
type progressLine struct {
	w     io.Writer
	now   func() time.Time
	begun time.Time
	last  time.Time
	shown bool
}

// How long a reading may take before anything is said, and how often then.
const (
	patience = 500 * time.Millisecond
	rhythm   = 100 * time.Millisecond
)

// newProgress gives a line where standard error is a terminal, else nil.
func (a *app) newProgress() *progressLine {
	f, ok := a.stderr.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) || a.env("TERM") == "dumb" {
		return nil
	}
	now := a.now()
	return &progressLine{w: a.stderr, now: a.now, begun: now, last: now}
}

func (p *progressLine) show(at chronicle.Progress) {
	if p == nil {
		return
	}
	now := p.now()
	if now.Sub(p.begun) < patience || now.Sub(p.last) < rhythm {
		return
	}
	p.last, p.shown = now, true
	fmt.Fprintf(p.w, "\r%d commits read, back to %s\x1b[K", at.Commits, at.Back.Format(time.DateOnly))
}

// clear wipes the line out before something else is written.
func (p *progressLine) clear() {
	if p != nil && p.shown {
		fmt.Fprint(p.w, "\r\x1b[K")
		p.shown = false
	}
}

// reading opens the history of the plan for the time of a call.
func (a *app) reading(ctx context.Context, read func(*history.Repository, *chronicle.Reader) error) error {
	sides, err := history.At(ctx, a.plan)
	if err != nil {
		return err
	}
	defer sides.Close()
	repo, err := sides.Repository()
	if err != nil {
		return err
	}
	repo.ExpectMuch(ctx)
	r := chronicle.New(repo, repo.Prefix())
	a.progress = a.newProgress()
	defer a.progress.clear()
	r.Progress = a.progress.show
	return read(repo, r)
}

// commitOrigin names a commit for a report.
func commitOrigin(name string, c history.Commit) *report.Origin {
	return &report.Origin{Name: name, Hash: c.Hash, Subject: c.Subject}
}
