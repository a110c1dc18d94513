package post

import (
	"cmp"
	"path"
	"slices"

	"passband.example/review"
	"passband.example/review/report"
)

// What a forge takes of one comment: 65,536 characters on GitHub (seen as the 422
// "Body is too long"); counted here in bytes, which are never fewer.
const mostSummary = 60_000

// mostJobSummary is what GitHub takes of a step's summary, less some room
// (docs.github.com, workflow commands: 1 MiB).
const mostJobSummary = 1_000_000

// DefaultMost is how many comments stand on lines where nobody says otherwise. GitHub
// has been seen to answer 502 to a review with 32.
const DefaultMost = 20

// Posting gives all that would be said of the proposal, on the lines that the diff
// has, with at most so many comments on lines.
func (p *Proposal) Posting(diff Diff, most int) *Posting {
	doc := p.Document
	keys := report.FindingKeys(doc.Verdict.Findings)
	out := &Posting{
		Goal:   Goal{Plan: report.PlanMark(p.Folder), Head: p.Head.Hash, Most: most},
		Base:   p.Base.Hash,
		Status: Status{Context: p.StatusName(), Blocks: doc.Verdict.Blocks(), Text: doc.Status()},
	}
	for _, i := range worstFirst(doc.Verdict.Findings) {
		if f := doc.Verdict.Findings[i]; f.Standing == review.New {
			out.Goal.Drafts = append(out.Goal.Drafts, p.draft(f, keys[i], diff, len(out.Goal.Drafts) < most))
		}
	}
	out.Summary = func(onLine map[string]bool, standing string) string {
		o := p.overview(keys)
		o.OnLine, o.Earlier, o.Limit, o.Rest = onLine, doc.Verdicts(standing), mostSummary, "the summary of the job"
		return o.Markdown()
	}
	return out
}

// JobSummary gives the text for the summary of a job: all of it, as far as it takes.
func (p *Proposal) JobSummary() string {
	o := p.overview(report.FindingKeys(p.Document.Verdict.Findings))
	o.Limit, o.Rest = mostJobSummary, "\"passband review\" in a clone"
	return o.Markdown()
}

// StatusName is the name of the status beside a commit, which a rule of the forge may
// require. That of a plan in a folder has the folder behind it: passband/plans/east.
const StatusName = "passband"

// StatusName gives the name of the status of this proposal.
func (p *Proposal) StatusName() string { return path.Join(StatusName, p.Folder) }

func (p *Proposal) overview(keys []string) *report.Overview {
	return &report.Overview{Document: p.Document, Keys: keys, Notes: p.Notes, Partial: p.Partial, Files: p.Files}
}

// draft writes the comment for a finding and finds its line. A note stays in the
// summary: it is not worth a thread. mend tells whether the lines that mend it are
// worked out.
func (p *Proposal) draft(f review.Finding, key string, diff Diff, mend bool) Draft {
	d := Draft{Key: key}
	if f.Severity != review.Note {
		d.Spot = diff.Spot(p.Document, f)
	}
	var offer *report.Suggestion
	if mend && !d.Spot.IsZero() {
		if s, at := p.offer(f, diff); s != nil && at.covers(d.Spot) {
			offer, d.Spot = s, at
		}
	}
	if own := (Spot{Path: path.Join(p.Folder, f.At.File), Line: f.At.Line}); !d.Spot.IsZero() && !d.Spot.covers(own) {
		f.Also = append([]review.Related{{At: f.At, Text: "here it is wrong"}}, f.Also...)
	}
	d.Body = report.Comment(p.Document, f, offer)
	return d
}

// worstFirst gives the order from the most serious finding to the least.
func worstFirst(fs []review.Finding) []int {
	order := make([]int, len(fs))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(fs[b].Severity, fs[a].Severity) })
	return order
}
