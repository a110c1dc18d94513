package driver

import (
	"path"
	"slices"
	"strings"

	"passband.example/plandiff/merge"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/rewrite"
	"passband.example/plandiff/rewrite/layout"
)

// Facts gives what a file of a plan says as one fact a line, in an order that does
// not depend on how the file is laid out: sections in the order of the model, records
// in that of their keys, items of lists as they stand, then the comments. A text that
// cannot be read, or is no file of a plan, is given as it is.
func Facts(name string, text []byte) []byte {
	name = path.Base(name)
	if !isPlanFile(name) {
		return text
	}
	files := merge.Files{name: text}
	if name != plan.RootFile {
		files[plan.RootFile] = nil
	}
	p, err := rewrite.Load(files)
	if err != nil || len(p.Problems) > 0 {
		return text
	}
	var b strings.Builder
	for _, s := range plan.Sections() {
		for _, r := range sorted(s, p) {
			facts(&b, s, r)
		}
	}
	for _, comment := range comments(name, text) {
		b.WriteString(comment + "\n")
	}
	return []byte(b.String())
}

func sorted(s *plan.Section, p *plan.Plan) []plan.Record {
	all := slices.Clone(s.All(p))
	slices.SortStableFunc(all, func(a, b plan.Record) int { return strings.Compare(a.Thing().Key, b.Thing().Key) })
	return all
}

// facts writes the lines of a record.
func facts(b *strings.Builder, s *plan.Section, r plan.Record) {
	about := r.Thing().String()
	if file, _ := s.Table(); file != "" {
		about = s.Kind.String() // all that it says is its key
	}
	n := b.Len()
	for i := range s.Fields {
		f := &s.Fields[i]
		for _, text := range f.Texts(r, nil) {
			b.WriteString(about + ": " + f.Name + " " + oneLine(text) + "\n")
		}
	}
	if b.Len() == n && s.Kind != plan.KindPlan {
		b.WriteString(about + "\n")
	}
}

func oneLine(text string) string { return strings.ReplaceAll(text, "\n", " / ") }

// comments gives the comments of a YAML file, in their order.
func comments(name string, text []byte) []string {
	if ext := path.Ext(name); ext != ".yaml" && ext != ".yml" {
		return nil
	}
	d, err := layout.Parse(text)
	if err != nil {
		return []string{"# the comments of this file cannot be shown apart"}
	}
	return d.Comments()
}
