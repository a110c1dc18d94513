package plantest

import (
	"testing"
	"time"
)

// steepest is how many times as long ten times as much may take. Work that grows with
// the number itself takes 10 to 12 times as long, caches and collector included; with
// its square, 100 times.
const steepest = 30

// Grows holds work to growing with the number of things and no faster. small does it with a
// tenth of size things, large with all. Ten runs of the one are compared with one of the
// other, in turns, so that how busy or fast the machine is makes no difference; the best of a
// few turns counts. why says what could make the work grow.
func Grows(t *testing.T, why string, size int, small, large func()) {
	t.Helper()
	best := 0.0
	for range 4 {
		few := timed(func() {
			for range 10 {
				small()
			}
		})
		many := timed(large)
		if times := 10 * float64(many) / float64(few); best == 0 || times < best {
			best = times
		}
		if best <= steepest {
			break
		}
	}
	t.Logf("%d instead of %d take %.1f times as long", size, size/10, best)
	if best > steepest {
		t.Errorf("(%s) %d instead of %d take %.0f times as long", why, size, size/10, best)
	}
}

func timed(run func()) time.Duration {
	start := time.Now()
	run()
	return time.Since(start)
}
