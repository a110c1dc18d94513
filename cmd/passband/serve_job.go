package main

import (
	"context"
	"path"
	"path/filepath"

	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
	"passband.example/review/post"
	"passband.example/review/rules"
	"passband.example/review/serve"
)

// serveJob reviews a change in each folder that has a plan.
func (a *app) serveJob(ctx context.Context, f *serving, j serve.Job, dir string, access post.Access) error {
	repo, err := history.Open(ctx, dir)
	if err != nil {
		return err
	}
	defer repo.Close()
	for _, folder := range f.folders {
		if err := a.serveFolder(ctx, f, j, repo, path.Clean(filepath.ToSlash(folder)), access); err != nil {
			return err
		}
	}
	return nil
}

func (a *app) serveFolder(ctx context.Context, f *serving, j serve.Job, repo *history.Repository, folder string, access post.Access) error {
	if folder == "." {
		folder = ""
	}
	p, err := post.Propose(ctx, repo, folder, spanOf(j), rules.All(), plan.DateOf(a.now()))
	if err != nil {
		return err
	}
	p.Files = access.Files(p.Head.Hash)
	forge, err := post.Open(access)
	if err != nil {
		return err
	}
	do, diff := post.PostStatus, post.Diff(nil)
	if j.Number > 0 {
		if diff, err = post.ReadDiff(ctx, repo, p.Parted, p.Head, folder); err != nil {
			return err
		}
		do, diff = post.Post, diff.Shown(ctx, forge)
	}
	out, err := do(ctx, forge, p.Posting(diff, f.most), post.DefaultPatience())
	for _, line := range append(out.Lines(), p.Document.Status()) {
		a.say("passband: %s %s: %s", safe(j.Name()), safe(p.StatusName()), safe(line))
	}
	return err
}

// spanOf gives the two ends of a change. Both are on one branch after a push.
func spanOf(j serve.Job) post.Span {
	span := post.Span{Base: j.Base, Head: j.Head, BaseName: j.BaseRef, HeadName: j.HeadRef}
	if j.Number == 0 && j.BaseRef == j.HeadRef {
		span.BaseName += " before"
	}
	return span
}
