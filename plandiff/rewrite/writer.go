package rewrite

import (
	"slices"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/rewrite/layout"
	"passband.example/plandiff/signal"
)

// A writer makes the text of a record, or of a part of one.
type writer struct {
	s     *plan.Section
	r     plan.Record
	style style
}

// value makes the value of the record for a place in the container in.
func (w writer) value(in *layout.Node) *layout.Node {
	if isValue(w.s) {
		return layout.NewScalar(w.s.Fields[0].Texts(w.r, nil)[0], in.Flow)
	}
	return w.block(in, "")
}

// block makes the mapping at a path of the record.
func (w writer) block(in *layout.Node, path string) *layout.Node {
	n := layout.NewFlow(layout.Mapping, in.LineEnd())
	if w.style.block[path] && !in.Flow {
		n = layout.NewBlock(layout.Mapping, w.indent(in), in.LineEnd())
	}
	var entries []*layout.Entry
	for _, key := range keysOf(w.s, path) {
		if e := w.entry(n, strings.TrimPrefix(path+"."+key, "."), key); e != nil {
			entries = append(entries, e)
		}
	}
	if len(entries) == 0 {
		return layout.NewFlow(layout.Mapping, in.LineEnd())
	}
	n.Arrange(entries)
	return n
}

func (w writer) indent(in *layout.Node) string {
	if in.Kind == layout.Sequence {
		return in.Indent() + "  " // behind a hyphen and a blank
	}
	return in.Indent() + w.style.step
}

// entry makes the entry at a path, or nil where the record has nothing there.
func (w writer) entry(in *layout.Node, path, key string) *layout.Entry {
	if path == "fm.tone" {
		return w.tone(in)
	}
	f := w.s.Field(path)
	switch {
	case f == nil:
		if !w.any(path) {
			return nil
		}
		return in.NewEntry(key, w.block(in, path))
	case f.Form == plan.Flag:
		if len(f.Items(w.r)) == 0 {
			return nil
		}
		return in.NewEntry(key, w.block(in, path))
	}
	texts := w.texts(f)
	switch {
	case len(texts) == 0:
		return nil
	case f.Form == plan.Scalar:
		return w.scalar(in, key, texts[0])
	}
	return in.NewEntry(key, w.list(in, path, texts))
}

// any reports whether the record has a value under a path.
func (w writer) any(path string) bool {
	return slices.ContainsFunc(w.s.Fields, func(f plan.Field) bool {
		return strings.HasPrefix(f.Name, path+".") && len(f.Items(w.r)) > 0
	})
}

func (w writer) scalar(in *layout.Node, key, text string) *layout.Entry {
	e := in.NewEntry(key, layout.NewScalar(text, in.Flow))
	if !in.Flow {
		e.OnLines(text, in.Indent()+w.style.step)
	}
	return e
}

func (w writer) list(in *layout.Node, path string, texts []string) *layout.Node {
	n := layout.NewFlow(layout.Sequence, in.LineEnd())
	if w.style.block[path] && !in.Flow {
		n = layout.NewBlock(layout.Sequence, w.indent(in), in.LineEnd())
	}
	var entries []*layout.Entry
	for _, text := range texts {
		entries = append(entries, n.NewEntry("", layout.NewScalar(text, n.Flow)))
	}
	n.Arrange(entries)
	return n
}

// tone writes what a member sends alone as one value.
func (w writer) tone(in *layout.Node) *layout.Entry {
	send, receive := w.s.Field("fm.tone.send").Texts(w.r, nil), w.s.Field("fm.tone.receive").Texts(w.r, nil)
	if len(receive) == 0 && len(send) == 1 {
		return in.NewEntry("tone", layout.NewScalar(send[0], in.Flow))
	}
	if len(receive) == 0 {
		return nil
	}
	return in.NewEntry("tone", w.block(in, "fm.tone"))
}

// texts gives what to write for a field: for a repeater the split in place of the
// input, where that is how its neighbors say it.
func (w writer) texts(f *plan.Field) []string {
	texts := f.Texts(w.r, nil)
	r, ok := w.r.(*plan.Repeater)
	if !ok || f.Name != "input" && f.Name != "split" || !w.style.split || len(w.s.Field("split").Items(r)) > 0 {
		return texts
	}
	split, ok := splitOf(r)
	switch {
	case !ok:
		return texts
	case f.Name == "input":
		return nil
	}
	return []string{split}
}

// splitOf gives the split that leads from the output to the input of a repeater.
func splitOf(r *plan.Repeater) (string, bool) {
	if !r.Output.IsSet() || r.TransmitOn() == 0 {
		return "", false
	}
	text := signal.Split(r.TransmitOn() - r.Output.V).String()
	s, err := signal.ParseSplit(text)
	return text, err == nil && r.Output.V+signal.Hertz(s) == r.TransmitOn()
}
