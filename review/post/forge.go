package post

import "context"

// A Forge is one pull request on a forge. Its errors are Failures.
type Forge interface {
	Reader
	Liner
	Summarizer
	Status(ctx context.Context, commit string, s Status) error
}

// A Reader tells how the pull request stands.
type Reader interface {
	Pull(ctx context.Context) (Pull, error)
	Comments(ctx context.Context) ([]Comment, error)  // on lines, of everybody
	Summaries(ctx context.Context) ([]Comment, error) // on the whole, of everybody
}

// A Liner writes comments on lines. Review posts all or none of them; Amend and
// Remove may be repeated, and what is no longer there is no failure.
type Liner interface {
	Review(ctx context.Context, commit string, drafts []Draft) error
	Amend(ctx context.Context, c Comment, body string) error
	Remove(ctx context.Context, c Comment) error
}

// A Summarizer writes comments on the whole.
type Summarizer interface {
	AddSummary(ctx context.Context, body string) error
	AmendSummary(ctx context.Context, c Comment, body string) error
	RemoveSummary(ctx context.Context, c Comment) error
}

// A Resolver is a Forge that can fold a thread away, or open it again.
type Resolver interface {
	Resolve(ctx context.Context, c Comment, resolved bool) error
}

// A Placer is a Forge that places a comment otherwise than asked.
type Placer interface {
	Place(s Spot) Spot
}

// A Patcher is a Forge that gives the diff that it shows, by path. A file that it
// leaves out is missing.
type Patcher interface {
	Patches(ctx context.Context) (map[string]string, error)
}

// A Pull is a pull request.
type Pull struct {
	Head string // the commit that would be merged
	Base string // the branch that it would be merged into
	Tip  string // the commit of that branch
	Open bool
}

// A Status is the verdict beside a commit.
type Status struct {
	Context string `json:"context"` // its name, which a rule of the forge may require
	Blocks  bool   `json:"blocks"`
	Text    string `json:"text"` // at most 140 characters
	Link    string `json:"link,omitempty"`
}
