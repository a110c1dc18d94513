package chronicle

import (
	"context"

	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
)

// Parsed counts the files that a reader parsed.
func (r *Reader) Parsed() int { return r.parsed }

// TraceUnwatched is Trace that looks at every commit.
func (r *Reader) TraceUnwatched(ctx context.Context, at history.Commit, x *plan.Expansion, name string) ([]*Trace, error) {
	t, err := newTracer(x, name)
	if err != nil {
		return nil, err
	}
	return t.traces, t.trace(ctx, r, at, x, unwatched{t})
}

type unwatched struct{ *tracer }

func (unwatched) watch(*plan.Assembly, []trail) *watch { return nil }
