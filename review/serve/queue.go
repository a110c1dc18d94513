package serve

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"time"

	"passband.example/plandiff/whole"
)

// A Job is a change that is to be judged: a pull request, or without a number what a
// merge queue would merge, or what was pushed to a branch.
type Job struct {
	ID         string    `json:"id"` // by the signature of its delivery
	Repository string    `json:"repository"`
	Number     int       `json:"number"` // of the pull request, or 0
	BaseRef    string    `json:"base_ref"`
	Base       string    `json:"base"`
	HeadRef    string    `json:"head_ref"`
	Head       string    `json:"head"`
	Received   time.Time `json:"received"`
	Tries      int       `json:"tries"`      // so far
	After      time.Time `json:"not_before"` // when it may be tried again
}

// Name names what is judged: club/plan#7, or club/plan main. Of those that wait under
// one name only the last is judged.
func (j Job) Name() string {
	if j.Number > 0 {
		return fmt.Sprintf("%s#%d", j.Repository, j.Number)
	}
	return j.Repository + " " + j.HeadRef
}

// The folders of a queue: a job is a file in one of them.
const (
	waiting = "waiting"
	done    = "done"
	failed  = "failed"
)

// What a queue holds at most.
const (
	mostWaiting = 10_000
	mostDone    = 10_000 // deliveries that are remembered
	mostTries   = 5
	longestWait = time.Minute << (2 * (mostTries - 2))
)

// ErrFull says that too many jobs wait.
var ErrFull = errors.New("too many reviews are waiting")

// A Queue holds jobs in the files of a folder, so that they outlive the program. One
// program uses it at a time.
type Queue struct {
	dir string

	mu      sync.Mutex
	jobs    map[string]Job // that wait or are at work
	working map[string]string
	changed chan struct{} // closed when there may be something to do
}

// OpenQueue opens the queue in a folder, and makes it if need be. Jobs that were at work
// when the program ended wait again.
func OpenQueue(dir string) (*Queue, error) {
	q := &Queue{dir: dir, jobs: map[string]Job{}, working: map[string]string{}, changed: make(chan struct{})}
	for _, folder := range []string{waiting, done, failed} {
		if err := os.MkdirAll(filepath.Join(dir, folder), 0o700); err != nil {
			return nil, fmt.Errorf("the queue cannot be kept: %w", err)
		}
	}
	entries, err := os.ReadDir(filepath.Join(dir, waiting))
	if err != nil {
		return nil, fmt.Errorf("the queue cannot be read: %w", err)
	}
	for _, e := range entries {
		id, ok := strings.CutSuffix(e.Name(), ".json")
		if !ok || !validID(id) {
			continue // what a crash left of a file that was not whole
		}
		text, err := os.ReadFile(q.file(waiting, id))
		if err != nil {
			return nil, fmt.Errorf("the queue cannot be read: %w", err)
		}
		var j Job
		if err := json.Unmarshal(text, &j); err != nil || j.ID != id {
			return nil, fmt.Errorf("the queue has a file %s that is no job of it; move it away", q.file(waiting, id))
		}
		q.jobs[id] = j
	}
	return q, q.forget()
}

var idForm = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[0-9a-f]{64}$`) })

func validID(id string) bool { return idForm().MatchString(id) }

func (q *Queue) file(folder, id string) string { return filepath.Join(q.dir, folder, id+".json") }

// Push queues a job, and reports whether it is a new one: not one that waits or is done.
// It is kept when Push returns.
func (q *Queue) Push(j Job) (bool, error) {
	if !validID(j.ID) {
		return false, fmt.Errorf("%q is no signature", j.ID)
	}
	q.mu.Lock()
	defer q.mu.Unlock()
	if _, known := q.jobs[j.ID]; known || q.has(done, j.ID) {
		return false, nil
	}
	if len(q.jobs) >= mostWaiting {
		return false, ErrFull
	}
	for _, other := range q.jobs { // what comes later counts as later, though the clock was set back meanwhile
		if other.Name() == j.Name() && !j.Received.After(other.Received) {
			j.Received = other.Received.Add(1)
		}
	}
	if err := q.keep(j); err != nil {
		return false, err
	}
	_ = os.Remove(q.file(failed, j.ID)) // somebody has it delivered again
	q.wake()
	return true, nil
}

func (q *Queue) has(folder, id string) bool {
	_, err := os.Lstat(q.file(folder, id))
	return err == nil
}

func (q *Queue) keep(j Job) error {
	text, err := json.Marshal(j)
	if err != nil {
		return err
	}
	if err := whole.File(q.file(waiting, j.ID), append(text, '\n')); err != nil {
		return err
	}
	q.jobs[j.ID] = j
	return nil
}

// wake lets those look again who wait for a job.
func (q *Queue) wake() {
	close(q.changed)
	q.changed = make(chan struct{})
}

// Take gives the job to do next: the one that came first, of a change that is not
// at work, and that has no later one. Without one it gives how long to wait at most, and
// a channel that says that something changed.
func (q *Queue) Take(now time.Time) (j Job, ok bool, again time.Duration, changed <-chan struct{}) {
	q.mu.Lock()
	defer q.mu.Unlock()
	again = time.Hour
	for _, j := range q.order() {
		if _, busy := q.working[j.Name()]; busy {
			continue
		}
		if later := q.latest(j.Name()); later != j.ID {
			_ = q.move(j.ID, done) // the later one tells of it
			continue
		}
		if left := j.After.Sub(now); left > 0 && left <= longestWait { // a longer one was set by a clock that ran ahead
			again = min(again, left)
			continue
		}
		q.working[j.Name()] = j.ID
		return j, true, 0, nil
	}
	return Job{}, false, again, q.changed
}

func (q *Queue) order() []Job {
	var all []Job
	for _, j := range q.jobs {
		all = append(all, j)
	}
	slices.SortFunc(all, func(a, b Job) int { return cmp.Or(a.Received.Compare(b.Received), cmp.Compare(a.ID, b.ID)) })
	return all
}

func (q *Queue) latest(name string) (id string) {
	for _, j := range q.order() {
		if j.Name() == name {
			id = j.ID
		}
	}
	return id
}

func (q *Queue) move(id, folder string) error {
	if err := os.Rename(q.file(waiting, id), q.file(folder, id)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	delete(q.jobs, id)
	return nil
}

// Done ends a job that was taken. With an error it is tried again later, longer each
// time; after the last try it has failed.
func (q *Queue) Done(j Job, failure error, now time.Time) (given string, err error) {
	q.mu.Lock()
	defer q.mu.Unlock()
	delete(q.working, j.Name())
	defer q.wake()
	if failure == nil {
		return "done", q.move(j.ID, done)
	}
	if j.Tries++; j.Tries >= mostTries {
		return "failed", q.move(j.ID, failed)
	}
	j.After = now.Add(time.Minute << (2 * (j.Tries - 1))) // 1, 4, 16, 64 minutes
	return "again", q.keep(j)
}

// Release puts a job back that was cut off: it counts as not tried.
func (q *Queue) Release(j Job) {
	q.mu.Lock()
	defer q.mu.Unlock()
	delete(q.working, j.Name())
}

// Counts tells how many jobs wait and how many are at work.
func (q *Queue) Counts() (waits, works int) {
	q.mu.Lock()
	defer q.mu.Unlock()
	return len(q.jobs) - len(q.working), len(q.working)
}

// forget lets go of the oldest deliveries that are done.
func (q *Queue) forget() error {
	entries, err := os.ReadDir(filepath.Join(q.dir, done))
	if err != nil {
		return err
	}
	times := make(map[string]time.Time)
	for _, e := range entries {
		if info, err := e.Info(); err == nil {
			times[e.Name()] = info.ModTime()
		}
	}
	slices.SortFunc(entries, func(a, b fs.DirEntry) int { return times[b.Name()].Compare(times[a.Name()]) })
	for _, old := range entries[min(len(entries), mostDone):] {
		_ = os.Remove(filepath.Join(q.dir, done, old.Name()))
	}
	return nil
}
