package chronicle

import (
	"path"

	"passband.example/plandiff/plan"
)

// An origin is the plan in the folder where it stood before.
type origin struct {
	departure
	at *snapshot
}

// departed finds where a plan that appears in a folder came from: a plan that
// goes away in the same commit and has a file of the same bytes, or the same
// name. It gives nil where the plan is a new one.
func (w *walker) departed(s *step) (*origin, error) {
	parent, err := w.repo.Commit(w.ctx, s.commit.Parents[0])
	if err != nil {
		return nil, err
	}
	changes, err := w.repo.Changes(w.ctx, parent, s.commit, "")
	if err != nil {
		return nil, err
	}
	for _, change := range changes {
		if path.Base(change.Path) != plan.RootFile || !change.Old.IsFile() || change.New.Exists() {
			continue
		}
		folder := path.Dir(change.Path)
		if folder == "." {
			folder = ""
		}
		was, err := w.snapshot(w.ctx, parent, folder)
		if err != nil {
			return nil, err
		}
		same, err := w.samePlan(was, s.now)
		if err != nil {
			return nil, err
		}
		if same {
			return &origin{departure{parent, folder}, was}, nil
		}
	}
	return nil, nil
}

func (w *walker) samePlan(a, b *snapshot) (bool, error) {
	hashes := make(map[string]bool)
	for _, v := range a.files {
		hashes[v.Hash] = true
	}
	for _, v := range b.files {
		if hashes[v.Hash] {
			return true, nil
		}
	}
	title, err := w.title(a)
	if err != nil || title == "" {
		return false, err
	}
	other, err := w.title(b)
	return title == other, err
}

// title gives the name of a plan, or "" where it has none that can be read.
func (w *walker) title(s *snapshot) (string, error) {
	if err := w.judge(w.ctx, s); err != nil {
		if isVerdict(err) {
			err = nil
		}
		return "", err
	}
	p, err := w.records(w.ctx, s)
	if err != nil {
		return "", err
	}
	return p.Header.Title.Or(""), nil
}
