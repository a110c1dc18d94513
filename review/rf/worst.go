package rf

import "slices"

// worst keeps the first few of many things, in the order of compare, and counts the others. It
// holds at most four times what it keeps, however many come.
type worst[T any] struct {
	keep    int
	compare func(a, b T) int
	held    []T
	full    bool // the first keep of held are in order, and what comes after them is not kept
	total   int
}

func (w *worst[T]) add(x T) {
	w.total++
	if w.full && w.compare(x, w.held[w.keep-1]) > 0 {
		return
	}
	w.held = append(w.held, x)
	if len(w.held) >= 4*w.keep+64 {
		w.cut()
	}
}

func (w *worst[T]) cut() {
	slices.SortFunc(w.held, w.compare)
	w.held = w.held[:min(len(w.held), w.keep)]
	w.full = len(w.held) == w.keep && w.keep > 0
}

// done returns what was kept, in order, and how many were not.
func (w *worst[T]) done() (kept []T, heldBack int) {
	w.cut()
	return w.held, w.total - len(w.held)
}
