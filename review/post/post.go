package post

import (
	"context"
	"errors"
	"fmt"

	"passband.example/review/report"
)

// A Posting is all that a review would say on a forge.
type Posting struct {
	Goal   Goal
	Base   string // the commit of the base that it was judged against
	Status Status

	// Summary writes the summary, given the findings that have a comment on a line and
	// the text of the summary that stands, or "".
	Summary func(onLine map[string]bool, standing string) string
}

func (p *Posting) signedSummary(onLine map[string]bool, standing string) string {
	return report.Mark{Role: report.MarkSummary, Key: "-", Plan: p.Goal.Plan}.Signed(p.Summary(onLine, standing))
}

// An Outcome is what Post did.
type Outcome struct {
	Posted, Amended, Resolved, Removed int // comments

	Summary string   // "written", "amended", or "" where it stood
	Status  bool     // it was set
	Moved   string   // that the base has moved on since, or ""
	Skipped string   // why nothing was posted: a newer commit, a closed pull request
	Held    []string // what could not be done for want of rights, and where it is told instead
}

// Post makes a pull request say what a posting does. Once it has returned without an
// error, the same call again writes nothing. Where the token may not write, that is
// told in Outcome.Held and is no error; where the forge fails for longer than
// patience lasts the error says so, and the call can be repeated.
func Post(ctx context.Context, f Forge, p *Posting, patience *Patience) (*Outcome, error) {
	s := &poster{forge: f, posting: p, patience: patience, out: new(Outcome)}
	err := s.comment(ctx)
	if moved := (*moved)(nil); errors.As(err, &moved) {
		s.out.Skipped, err = moved.Error(), nil
	}
	if err != nil {
		return s.out, err
	}
	return s.out, s.status(ctx)
}

// PostStatus sets the verdict beside the commit where there is no pull request to comment
// on: in a merge queue, and after a push. Otherwise it is as Post.
func PostStatus(ctx context.Context, f Forge, p *Posting, patience *Patience) (*Outcome, error) {
	s := &poster{forge: f, posting: p, patience: patience, out: &Outcome{Skipped: "there is no pull request"}}
	return s.out, s.status(ctx)
}

// moved says why there is nothing to comment on.
type moved struct{ why string }

func (m *moved) Error() string { return m.why }

// open fails with moved unless the pull request is open and its head is the commit
// that was judged.
func (s *poster) open(ctx context.Context) error {
	pull, err := again(ctx, s.patience, func() (Pull, error) { return s.forge.Pull(ctx) })
	switch {
	case err != nil:
		return err
	case !pull.Open:
		return &moved{"the pull request is closed"}
	case pull.Head != s.posting.Goal.Head:
		return &moved{fmt.Sprintf("a newer commit, %.10s, was pushed meanwhile, and its own run tells of it", pull.Head)}
	case pull.Tip != s.posting.Base && pull.Tip != "":
		s.out.Moved = fmt.Sprintf("%s has moved on to %.10s since this was judged; what merging makes of both is for the merge queue, or the next run, to say", pull.Base, pull.Tip)
	}
	return nil
}

// comment sees to the comments on lines, then to the summary, which names them.
func (s *poster) comment(ctx context.Context) error {
	err := s.open(ctx)
	if errors.Is(err, ErrNoRight) || errors.Is(err, ErrMissing) {
		s.hold("nothing was posted on the pull request; all of it is in the summary of the job", err)
		return nil
	}
	if err != nil {
		return fmt.Errorf("how the pull request stands could not be asked: %w", err)
	}
	if err := s.lines(ctx); err != nil {
		return err
	}
	return s.summary(ctx)
}

type poster struct {
	forge    Forge
	posting  *Posting
	patience *Patience
	out      *Outcome

	onLine    map[string]bool
	unwanted  map[string]bool // drafts that the forge does not take
	unsure    int             // how often a review failed in a way that waiting may mend
	noResolve bool            // the token may not resolve threads
}

// hold notes what could not be done for want of rights.
func (s *poster) hold(what string, err error) {
	s.out.Held = append(s.out.Held, fmt.Sprintf("%s (%v)", what, err))
}

// status sets the verdict beside the commit.
func (s *poster) status(ctx context.Context) error {
	err := repeat(ctx, s.patience, func() error { return s.forge.Status(ctx, s.posting.Goal.Head, s.posting.Status) })
	switch {
	case err == nil:
		s.out.Status = true
	case errors.Is(err, ErrNoRight), errors.Is(err, ErrMissing):
		s.hold("the status beside the commit was not set; the end of the job says the verdict", err)
	default:
		return fmt.Errorf("the status beside the commit could not be set: %w", err)
	}
	return nil
}

// mostRounds bounds how often what stands is looked at again.
const mostRounds = 6

// summary sees to it that one summary stands, and that it says what it should.
func (s *poster) summary(ctx context.Context) error {
	var last error
	for round := range mostRounds {
		done, err := s.summaryRound(ctx)
		switch {
		case errors.Is(err, ErrNoRight), errors.Is(err, ErrMissing):
			s.out.Summary = ""
			s.hold("the summary was not posted; it is in the summary of the job", err)
			return nil
		case errors.Is(err, ErrBusy), errors.Is(err, ErrUnsure):
			last = err
			if err := s.patience.sleep(ctx, err, round); err != nil {
				return fmt.Errorf("the summary could not be posted: %w", err)
			}
		case done, err != nil:
			return err
		}
	}
	return fmt.Errorf("the summary could not be posted: %w", last)
}

// summaryRound looks at what stands, and does one thing about it.
func (s *poster) summaryRound(ctx context.Context) (done bool, err error) {
	all, err := again(ctx, s.patience, func() ([]Comment, error) { return s.forge.Summaries(ctx) })
	if err != nil {
		return false, fmt.Errorf("the comments that stand could not be read: %w", err)
	}
	kept, doubles := ownSummaries(all, s.posting.Goal.Plan)
	for _, double := range doubles {
		if err := s.forge.RemoveSummary(ctx, double); err != nil && !errors.Is(err, ErrMissing) {
			return false, err
		}
		s.out.Removed++
	}
	standing := ""
	if kept != nil {
		standing = kept.text
	}
	body := s.posting.signedSummary(s.onLine, standing)
	switch {
	case kept == nil:
		s.out.Summary = "written"
		return false, s.forge.AddSummary(ctx, body)
	case kept.differs(body):
		if s.out.Summary == "" {
			s.out.Summary = "amended"
		}
		return false, s.forge.AmendSummary(ctx, kept.Comment, body)
	}
	return true, nil
}

// ownSummaries gives the summary of a plan that stands, the first if there are
// several, and the others.
func ownSummaries(all []Comment, plan string) (kept *known, doubles []Comment) {
	for _, c := range all {
		m, text, ok := report.ParseMark(c.Body)
		switch {
		case !ok || !c.Mine || m.Plan != plan || m.Role != report.MarkSummary:
		case kept == nil || c.ID < kept.ID:
			if kept != nil {
				doubles = append(doubles, kept.Comment)
			}
			kept = &known{c, m, text}
		default:
			doubles = append(doubles, c)
		}
	}
	return kept, doubles
}
