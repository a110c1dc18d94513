package post_test

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"strings"
	"sync"
	"testing"

	"passband.example/review/post"
	"passband.example/review/post/forgetest"
	"passband.example/review/report"
)

// keyed gives comments on lines by the key in their mark.
func keyed(all []*forgetest.LineComment) map[string][]*forgetest.LineComment {
	out := make(map[string][]*forgetest.LineComment)
	for _, c := range all {
		if m, _, ok := report.ParseMark(c.Body); ok {
			out[m.Key] = append(out[m.Key], c)
		}
	}
	return out
}

// A stage is a forge that is prepared for a run, as the faults need it.
type stage struct {
	forge    func() post.Forge // as a new run finds it
	requests func() int
	writes   func() int
	fault    func(func(int, *http.Request) forgetest.Fault, context.CancelFunc)
	lines    func() []*forgetest.LineComment
	summary  func() []*forgetest.Comment
}

// locked reads and sets all of it under the lock of the forge: a request that was given
// up may still be at work there.
func (s *stage) locked(l sync.Locker) *stage {
	return &stage{
		forge: s.forge, requests: under(l, s.requests), writes: under(l, s.writes), lines: under(l, s.lines), summary: under(l, s.summary),
		fault: func(f func(int, *http.Request) forgetest.Fault, kill context.CancelFunc) {
			l.Lock()
			defer l.Unlock()
			s.fault(f, kill)
		},
	}
}

func under[T any](l sync.Locker, read func() T) func() T {
	return func() T {
		l.Lock()
		defer l.Unlock()
		return read()
	}
}

func (s *stage) post(ctx context.Context, p *post.Posting) (*post.Outcome, error) {
	return post.Post(ctx, s.forge(), p, patience(nil))
}

// portrait is all that stands, without ids: what a reader of the pull request sees.
func (s *stage) portrait() string {
	var b strings.Builder
	byKey := keyed(s.lines())
	for _, key := range sortedKeys(byKey) {
		for _, c := range byKey[key] {
			fmt.Fprintf(&b, "%s:%d %s %t %s\n", c.Path, c.Line, c.Side, c.Resolved, c.Body)
		}
	}
	for _, c := range s.summary() {
		fmt.Fprintf(&b, "summary %s\n", c.Body)
	}
	return b.String()
}

// doubles counts the comments that say again what another one says.
func (s *stage) doubles() int {
	n := max(0, len(s.summary())-1)
	for _, all := range keyed(s.lines()) {
		open := 0
		for _, c := range all {
			if m, _, _ := report.ParseMark(c.Body); m.Role == report.MarkFinding && c.Line > 0 {
				open++
			}
		}
		n += max(0, open-1)
	}
	return n
}

// A tally is what the faults came to.
type tally struct{ runs, doubled, lost int }

func (sum *tally) add(one tally) {
	sum.runs += one.runs
	sum.doubled += one.doubled
	sum.lost += one.lost
}

// tryFaults lets each request of a run fail in each way, runs again as a person would,
// and wants what stands to be what stands without a fault: nothing twice, nothing
// lost, nothing more to do. moving tells whether the run moves comments, so that two
// stand for a moment where the forge shows no outdated ones.
func tryFaults(t *testing.T, name string, prepare func(*testing.T) *stage, posting *post.Posting, moving bool) tally {
	sound := prepare(t)
	before := sound.requests()
	if _, err := sound.post(context.Background(), posting); err != nil {
		t.Fatal(err)
	}
	calls, want := sound.requests()-before, sound.portrait()
	var mu sync.Mutex
	var sum tally
	rows := make([]tally, forgetest.NumberOfFaults)
	t.Run(name, func(t *testing.T) {
		for fault := forgetest.NoFault + 1; fault < forgetest.NumberOfFaults; fault++ {
			t.Run(fault.String(), func(t *testing.T) {
				t.Parallel()
				for call := 1; call <= calls; call++ {
					one := tryFault(t, prepare(t), posting, fault, call, want, moving)
					mu.Lock()
					sum.add(one)
					rows[fault].add(one)
					mu.Unlock()
				}
			})
		}
	})
	for fault, row := range rows[1:] {
		t.Logf("%-12s  %-19s at each of %2d calls: %3d runs, %d duplicates, %d with a finding lost", name, forgetest.Fault(fault+1), calls, row.runs, row.doubled, row.lost)
	}
	t.Logf("%s: %d runs with a fault, %d duplicates, %d with a finding lost", name, sum.runs, sum.doubled, sum.lost)
	return sum
}

// tryFault lets one request of a run fail, and looks at what stands after it, after the
// next run and after the one after that.
func tryFault(t *testing.T, s *stage, posting *post.Posting, fault forgetest.Fault, call int, want string, moving bool) tally {
	t.Helper()
	one := tally{runs: 1}
	begin := s.requests()
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	s.fault(func(n int, _ *http.Request) forgetest.Fault {
		if n-begin == call {
			return fault
		}
		return forgetest.NoFault
	}, stop)
	out, err := s.post(ctx, posting)
	if killed := fault == forgetest.Kill || fault == forgetest.KillDone; killed != errors.Is(err, context.Canceled) {
		t.Errorf("call %d: the run ends with %v", call, err)
	}
	if n := s.doubles(); n > 0 && !moving {
		t.Errorf("call %d: %d comments stand twice after the fault", call, n)
		one.doubled += n
	}
	s.fault(nil, nil)
	if _, err := s.post(context.Background(), posting); err != nil {
		t.Errorf("call %d: %v", call, err)
	}
	if n := s.doubles(); n > 0 {
		t.Errorf("call %d: %d comments stand twice; the run said %+v, %v", call, n, out, err)
		one.doubled += n
	}
	if got := s.portrait(); got != want {
		t.Errorf("call %d: something else stands: %d bytes, want %d", call, len(got), len(want))
		one.lost++
	}
	writes := s.writes()
	if _, err := s.post(context.Background(), posting); err != nil || s.writes() > writes+1 { // the status
		t.Errorf("call %d: the third run writes %d times, %v", call, s.writes()-writes, err)
	}
	return one
}

// nextPosting is the posting of a later commit: the first finding is mended, the second
// is on another line, and one is new.
func nextPosting(r *request) *post.Posting {
	next := *r.posting
	next.Goal.Head = strings.Repeat("2", 40)
	drafts := append([]post.Draft(nil), r.posting.Goal.Drafts[1:]...)
	drafts[0].Spot.Line--
	next.Goal.Drafts = append(drafts, post.Draft{Key: strings.Repeat("e", 16), Spot: r.posting.Goal.Drafts[0].Spot, Body: "new"})
	return &next
}
