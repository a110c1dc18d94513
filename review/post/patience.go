package post

import (
	"context"
	"errors"
	"time"
)

// Patience is how long to go on with a forge that is busy or fails.
type Patience struct {
	Tries int                                              // of one request
	Total time.Duration                                    // of waiting, all requests together
	Sleep func(ctx context.Context, d time.Duration) error // nil for the clock
}

// DefaultPatience suits a job in continuous integration: GitHub asks for a minute at
// least where it gives no time (docs.github.com, rate limits for the REST API).
func DefaultPatience() *Patience { return &Patience{Tries: 5, Total: 10 * time.Minute} }

// firstWait is how long to wait after a failure that says nothing about it; it
// doubles each time.
const firstWait = 2 * time.Second

// busyWait is the same where the forge is at its limit.
const busyWait = time.Minute

// sleep waits for what a failure asks, or gives the failure back if that is too long.
func (p *Patience) sleep(ctx context.Context, failure error, try int) error {
	d := firstWait << try
	if errors.Is(failure, ErrBusy) {
		d = busyWait << try
	}
	if f := (*Failure)(nil); errors.As(failure, &f) && f.Wait > 0 {
		d = f.Wait
	}
	if d > p.Total {
		return failure
	}
	p.Total -= d
	if p.Sleep != nil {
		return p.Sleep(ctx, d)
	}
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-ctx.Done():
		return ctx.Err()
	case <-t.C:
		return nil
	}
}

// again repeats what may be repeated, until it is done or patience is at its end.
func again[T any](ctx context.Context, p *Patience, do func() (T, error)) (T, error) {
	for try := 0; ; try++ {
		v, err := do()
		if err == nil || !errors.Is(err, ErrBusy) && !errors.Is(err, ErrUnsure) || try+1 >= p.Tries {
			return v, err
		}
		if err := p.sleep(ctx, err, try); err != nil {
			return v, err
		}
	}
}

// repeat is again for what gives nothing.
func repeat(ctx context.Context, p *Patience, do func() error) error {
	_, err := again(ctx, p, func() (struct{}, error) { return struct{}{}, do() })
	return err
}
