package history

import "container/heap"

// A commitQueue gives out the newest commit first, and of equally new ones that
// which came first, as git does.
type commitQueue struct {
	waiting []queued
	count   int
}

type queued struct {
	Commit
	turn int
}

func (q *commitQueue) push(c Commit) {
	q.count++
	heap.Push(q, queued{c, q.count})
}

func (q *commitQueue) pop() Commit { return heap.Pop(q).(queued).Commit }

func (q *commitQueue) Len() int { return len(q.waiting) }
func (q *commitQueue) Less(i, j int) bool {
	a, b := q.waiting[i], q.waiting[j]
	if !a.Committed.Equal(b.Committed) {
		return a.Committed.After(b.Committed)
	}
	return a.turn < b.turn
}
func (q *commitQueue) Swap(i, j int) { q.waiting[i], q.waiting[j] = q.waiting[j], q.waiting[i] }
func (q *commitQueue) Push(x any)    { q.waiting = append(q.waiting, x.(queued)) }
func (q *commitQueue) Pop() any {
	last := q.waiting[len(q.waiting)-1]
	q.waiting = q.waiting[:len(q.waiting)-1]
	return last
}
