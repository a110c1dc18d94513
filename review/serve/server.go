package serve

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"sync/atomic"
	"time"
)

// A Server takes deliveries and has them judged.
type Server struct {
	Secret       []byte   // by which the forge signs; never empty
	Repositories []string // owner/name of those that are served
	Queue        *Queue
	Workers      int // reviews at once
	Review       func(ctx context.Context, j Job) error
	Log          func(format string, args ...any)

	// Grace is how long a review that is under way may go on when the server is to end.
	Grace time.Duration

	counts  counts
	stopped atomic.Bool
}

// limit is how long one review may take.
const limit = 15 * time.Minute

// Handler answers the requests that the package comment lists.
func (s *Server) Handler() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("POST /hook", s.hook)
	mux.HandleFunc("GET /healthz", s.health)
	mux.HandleFunc("GET /metrics", s.metrics)
	return mux
}

// hook takes a delivery.
func (s *Server) hook(w http.ResponseWriter, r *http.Request) {
	status, said := s.take(w, r)
	if status >= 400 {
		s.counts.add("deliveries", "refused")
	}
	http.Error(w, said, status)
}

func (s *Server) take(w http.ResponseWriter, r *http.Request) (status int, said string) {
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, mostDelivery))
	if tooLarge := (*http.MaxBytesError)(nil); errors.As(err, &tooLarge) {
		return http.StatusRequestEntityTooLarge, "the delivery is larger than forges send"
	} else if err != nil {
		return http.StatusBadRequest, "the delivery broke off"
	}
	id, ok := signed(r.Header, body, s.Secret)
	switch {
	case !ok:
		return http.StatusUnauthorized, "the delivery is not signed by the secret of this server"
	case s.stopped.Load():
		return http.StatusServiceUnavailable, "the server is ending; deliver it again"
	case eventOf(r.Header) == "ping":
		return http.StatusOK, "this server is ready"
	}
	jobs, why := read(eventOf(r.Header), id, body, time.Now())
	if why == "" && !slices.Contains(s.Repositories, jobs[0].Repository) {
		why = "the repository is not served here"
	}
	if why != "" {
		s.counts.add("deliveries", "ignored")
		return http.StatusAccepted, why
	}
	return s.queue(jobs)
}

// queue keeps the jobs of a delivery. If it does not get to the end the forge is told to
// send it again, and those that are kept are known then.
func (s *Server) queue(jobs []Job) (status int, said string) {
	any := false
	for _, j := range jobs {
		fresh, err := s.Queue.Push(j)
		if err != nil {
			s.say("a delivery could not be queued: %v", err)
			return http.StatusServiceUnavailable, "it could not be queued; deliver it again later"
		}
		any = any || fresh
	}
	if !any {
		s.counts.add("deliveries", "replayed")
		return http.StatusOK, "it was delivered before"
	}
	s.counts.add("deliveries", "queued")
	return http.StatusAccepted, "it is queued"
}

func (s *Server) say(format string, args ...any) {
	if s.Log != nil {
		s.Log(format, args...)
	}
}

// Work does the jobs of the queue until ctx ends, then waits for those under way, as
// long as Grace; what is cut off then is done again by the next Work.
func (s *Server) Work(ctx context.Context) {
	work, stop := context.WithCancel(context.WithoutCancel(ctx))
	defer stop()
	context.AfterFunc(ctx, func() {
		s.stopped.Store(true)
		time.AfterFunc(s.Grace, stop)
	})
	var all sync.WaitGroup
	for range max(1, s.Workers) {
		all.Go(func() {
			for ctx.Err() == nil {
				s.step(ctx, work)
			}
		})
	}
	all.Wait()
}

// step does one job, or waits for one.
func (s *Server) step(ctx, work context.Context) {
	j, ok, again, changed := s.Queue.Take(time.Now())
	if !ok {
		select {
		case <-ctx.Done():
		case <-changed:
		case <-time.After(again):
		}
		return
	}
	one, end := context.WithTimeout(work, limit)
	err := s.review(one, j)
	end()
	if work.Err() != nil && err != nil {
		s.Queue.Release(j)
		return
	}
	given, lost := s.Queue.Done(j, err, time.Now())
	s.counts.add("reviews", given)
	if err != nil {
		s.say("the review of %s failed, try %d: %v", j.Name(), j.Tries+1, err)
	}
	if lost != nil {
		s.say("the end of the review of %s could not be kept: %v", j.Name(), lost)
	}
}

// review does a job; one that panics has failed, and the others go on.
func (s *Server) review(ctx context.Context, j Job) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("the review broke: %v", r)
		}
	}()
	return s.Review(ctx, j)
}

// health says whether deliveries can be taken and kept.
func (s *Server) health(w http.ResponseWriter, _ *http.Request) {
	probe := filepath.Join(s.Queue.dir, "probe")
	err := os.WriteFile(probe, nil, 0o600)
	_ = os.Remove(probe)
	switch {
	case s.stopped.Load():
		http.Error(w, "ending", http.StatusServiceUnavailable)
	case err != nil:
		http.Error(w, "the queue cannot be written", http.StatusServiceUnavailable)
	default:
		fmt.Fprintln(w, "ready")
	}
}
