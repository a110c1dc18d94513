package merge

import (
	"strings"

	"passband.example/plandiff/plan"
)

const byteOrderMark = "\uFEFF"

// file merges one file; there is false where the merged plan does not have it.
func (w *work) file(x *texter, name string) (text []byte, there bool, err error) {
	base, inBase := w.even[0].files[name]
	ours, inOurs := w.even[1].files[name]
	theirs, inTheirs := w.even[2].files[name]
	sameOT := inOurs == inTheirs && string(ours) == string(theirs)
	sameBT := inBase == inTheirs && string(base) == string(theirs)
	sameBO := inBase == inOurs && string(base) == string(ours)
	switch {
	case sameOT, sameBT:
		return ours, inOurs, nil
	case sameBO:
		return theirs, inTheirs, nil
	case !inTheirs: // what theirs moved elsewhere or removed is taken out later
		return ours, true, nil
	case !inOurs:
		return theirs, true, nil
	case plan.TableOf(name) != nil:
		return w.table(name), true, nil
	}
	merged, err := x.whole([3]string{string(base), string(ours), string(theirs)}, x.starts(name))
	return []byte(merged), true, err
}

// table gives the text into which the rows of the other side are carried later:
// that of the side that laid its rows out in another way.
func (w *work) table(name string) []byte {
	if w.isPlain(w.even[1]) && !w.isPlain(w.even[2]) {
		return w.even[2].files[name]
	}
	return w.even[1].files[name]
}

// whole merges three texts. Line ends, a mark at the beginning and the end of the
// last line are merged for themselves.
func (x *texter) whole(texts [3]string, starts [3][]int32) (string, error) {
	var windows, marked, open [3]bool
	for i, text := range texts {
		text, marked[i] = strings.CutPrefix(text, byteOrderMark)
		windows[i] = strings.Contains(text, "\r\n")
		text = strings.ReplaceAll(text, "\r\n", "\n")
		if open[i] = text != "" && !strings.HasSuffix(text, "\n"); open[i] {
			text += "\n"
		}
		texts[i] = text
	}
	merged, err := x.yaml(texts, starts)
	if err != nil {
		return "", err
	}
	if either(open) {
		merged = strings.TrimSuffix(merged, "\n")
	}
	if either(windows) {
		merged = strings.ReplaceAll(merged, "\n", "\r\n")
	}
	if either(marked) {
		merged = byteOrderMark + merged
	}
	return merged, nil
}

// either merges a yes or no, on which two sides that changed it always agree.
func either(v [3]bool) bool {
	if v[1] == v[0] {
		return v[2]
	}
	return v[1]
}
