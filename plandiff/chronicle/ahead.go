package chronicle

import (
	"context"
	"sync"

	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
)

// How far the reading of files runs ahead of understanding them.
const (
	commitsAhead  = 64
	commitsAtOnce = 16 // whose files are asked for at once
	bytesAhead    = 16 << 20
)

// An ahead holds the contents of files that will soon be asked for, so that git
// reads while plans are compared.
type ahead struct {
	mu    sync.Mutex
	blobs map[string][]byte
	size  int
	only  map[string]bool // the paths that are worth it; nil: all
}

// take gives the contents with this hash, once.
func (a *ahead) take(hash string) ([]byte, bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	data, ok := a.blobs[hash]
	delete(a.blobs, hash)
	a.size -= len(data)
	return data, ok
}

// put keeps contents, unless there are many already.
func (a *ahead) put(hash string, data []byte) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if _, ok := a.blobs[hash]; !ok && a.size+len(data) <= bytesAhead {
		if a.blobs == nil {
			a.blobs = make(map[string][]byte)
		}
		a.blobs[hash] = data
		a.size += len(data)
	}
}

// wants reports whether it is worth reading an older version of a file.
func (a *ahead) wants(change history.BlobChange) bool {
	a.mu.Lock()
	defer a.mu.Unlock()
	_, has := a.blobs[change.Old.Hash]
	return !has && a.size <= bytesAhead && (a.only == nil || a.only[change.Path]) && plan.MayMatter(change.Path) && change.Old.IsFile()
}

// want says which files alone are worth reading from now on.
func (a *ahead) want(files map[string]bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	a.only = files
}

// forget drops what nobody asked for.
func (a *ahead) forget() {
	a.mu.Lock()
	defer a.mu.Unlock()
	a.blobs, a.size, a.only = nil, 0, nil
}

// A seen is one commit of a walk.
type seen struct {
	commit  history.Commit
	changes []history.BlobChange
}

// walkAhead is Repository.Walk, with the older versions of the files of each commit
// read before visit asks for them. visit runs on the caller's goroutine.
func (r *Reader) walkAhead(ctx context.Context, span Span, dir string, visit func(history.Commit, []history.BlobChange) error) error {
	ctx, stop := context.WithCancel(ctx)
	commits := make(chan seen, commitsAhead)
	var walked error
	go func() {
		defer close(commits)
		w := &fetching{r: r, ctx: ctx, commits: commits}
		if walked = r.repo.Walk(ctx, span.From, span.To, dir, w.commit); walked == nil {
			walked = w.send()
		}
	}()
	var err error
	for s := range commits {
		if err == nil {
			if err = visit(s.commit, s.changes); err != nil {
				stop()
			}
		}
	}
	stop()
	r.ahead.forget()
	if err == nil {
		err = walked
	}
	return err
}

// A fetching reads the files of some commits at once, and then sends these on: few at first,
// so that the newest are told soon.
type fetching struct {
	r       *Reader
	ctx     context.Context
	commits chan<- seen
	waiting []seen
	sent    int
}

// commit takes one commit of a walk.
func (f *fetching) commit(c history.Commit, changes []history.BlobChange) error {
	f.waiting = append(f.waiting, seen{c, changes})
	if len(f.waiting) > min(f.sent, commitsAtOnce) {
		return f.send()
	}
	return nil
}

// send reads the older versions of files and sends the commits on. What goes wrong is told
// to whoever asks for a file.
func (f *fetching) send() error {
	var hashes []string
	for _, s := range f.waiting {
		for _, change := range s.changes {
			if f.r.ahead.wants(change) {
				hashes = append(hashes, change.Old.Hash)
			}
		}
	}
	f.r.repo.EachBlob(f.ctx, hashes, bytesAhead/commitsAtOnce, f.r.ahead.put)
	for _, s := range f.waiting {
		select {
		case f.commits <- s:
			f.sent++
		case <-f.ctx.Done():
			return f.ctx.Err()
		}
	}
	f.waiting = f.waiting[:0]
	return nil
}
