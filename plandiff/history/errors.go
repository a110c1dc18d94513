package history

import (
	"errors"
	"fmt"
)

// The kinds of failure that a caller may want to tell apart with errors.Is.
// The text that people read is that of the error which wraps them.
var (
	ErrNoRepository    = errors.New("no git repository")
	ErrNeedsGit        = errors.New("the git command is needed")
	ErrUnknownRevision = errors.New("unknown revision")
	ErrUnborn          = errors.New("no commits yet")
	ErrShallow         = errors.New("history was cut by a shallow clone")
	ErrMissing         = errors.New("object is missing")
	ErrDamaged         = errors.New("object is damaged")
)

// fetchMore is the way out of a shallow clone, at home and in continuous
// integration (where the checkout step takes one commit unless told).
const fetchMore = `run "git fetch --unshallow", or in a CI workflow write "fetch-depth: 0" under the "with:" of the checkout step`

// A failure says in its text what to do, and wraps the kind that a caller can test for.
type failure struct {
	text string
	kind error
}

func (f *failure) Error() string { return f.text }
func (f *failure) Unwrap() error { return f.kind }

func fail(kind error, format string, args ...any) error {
	return &failure{fmt.Sprintf(format, args...), kind}
}

func noRepository(dir string) error {
	return fail(ErrNoRepository, "no git repository holds %q, so there are no earlier versions to read; "+
		"go to a clone of the plan's repository, or make one here with \"git init\"", dir)
}

func needsGit(why error) error {
	return fail(ErrNeedsGit, "this repository can only be read with the git command, and there is none on the PATH (%v); "+
		"install git, or make an ordinary clone of the repository", why)
}

// An absent object is what a store reports; explain adds why it is absent.
type absent struct{ id string }

func (a *absent) Error() string {
	if a.id == "" {
		return "an object is missing"
	}
	return fmt.Sprintf("object %s is missing", short(a.id))
}

func (a *absent) Unwrap() error { return ErrMissing }

func missing(id string) error { return &absent{id} }

func damaged(id string, why error) error {
	return fail(ErrDamaged, "object %s is damaged (%v); \"git fsck\" says how much is lost, and a fresh clone is the usual cure", short(id), why)
}

// damagedNames says that what stands for branches, tags or HEAD is no name of a commit.
func damagedNames(why string) error {
	return fail(ErrDamaged, "the repository is damaged: %s; \"git fsck\" says how much is lost, and a fresh clone is the usual cure", why)
}

// explain adds to the failure of a store what caused it and what to do. It
// leaves alone what was explained already.
func (r *Repository) explain(err error) error {
	if _, ok := err.(*absent); !ok {
		return err
	}
	switch {
	case r.at.partial():
		return fail(ErrMissing, "%v: it was left out of this partial clone, and passband fetches nothing by itself; "+
			"clone again without --filter (in a CI workflow, take the \"filter:\" line out of the checkout step)", err)
	case r.Shallow():
		return fail(ErrMissing, "%v: this clone is shallow; %s", err, fetchMore)
	default:
		return fail(ErrMissing, "%v: the repository is not whole; \"git fsck\" says how much is lost, and a fresh clone is the usual cure", err)
	}
}
