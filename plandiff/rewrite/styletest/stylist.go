// Package styletest writes plans as different people might: in several files, with
// records between braces or on lines of their own, quotes here and there, comments,
// and line ends of one or two signs.
//
//	files := styletest.Files(t, plantest.Plan(t))
//
// The texts are put together by hand, so that they are not those that the code under
// test would write. The package is for tests alone.
package styletest

import (
	"encoding/json"
	"fmt"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/signal"
	"pgregory.net/rapid"
)

// Files draws files in which p is written in some style. Every comment has a number
// of its own and begins with "# note".
func Files(t *rapid.T, p *plan.Plan) map[string][]byte {
	s := &stylist{t: t}
	return s.files(p)
}

// A stylist writes one plan.
type stylist struct {
	t        *rapid.T
	comments int
}

// A sketch is a key with what stands under it.
type sketch struct {
	key  string
	kids []*sketch
	list []string
	text string
	form byte // 'm', 'l' or 's'
}

// files writes p into up to three files.
func (s *stylist) files(p *plan.Plan) map[string][]byte {
	names := []string{"plan.yaml", "more/a.yaml", "b.yml"}[:rapid.IntRange(1, 3).Draw(s.t, "files")]
	texts := make(map[string][]string, len(names))
	for _, kid := range s.record(plan.SectionOf(plan.KindPlan), &p.Header).kids {
		texts["plan.yaml"] = append(texts["plan.yaml"], s.entry(kid, "", "")...)
	}
	for _, name := range names {
		review := &sketch{key: "review", form: 'm'}
		for _, section := range plan.Sections()[1:] {
			if section.Key == "" {
				continue
			}
			top := s.section(section, p, name, names)
			switch {
			case len(top.kids) == 0:
			case section.Kind == plan.KindSeverity || section.Kind == plan.KindAcceptance:
				review.kids = append(review.kids, top)
			default:
				texts[name] = append(texts[name], s.entry(top, "", "")...)
			}
		}
		if len(review.kids) > 0 {
			texts[name] = append(texts[name], s.entry(review, "", "")...)
		}
	}
	files := make(map[string][]byte)
	for _, name := range names {
		files[name] = s.file(texts[name])
	}
	if p.Operators.Len() > 0 {
		files["operators.csv"] = s.table(p)
	}
	if rows := p.LicenseRows.All(); len(rows) > 0 {
		text := "# what our club adds\n" + plan.LicenseColumns + "\n"
		for _, r := range rows {
			text += r.Row.V + "\n"
		}
		files[plan.LicenseFile] = []byte(text)
	}
	if rows := p.SeparationRows.All(); len(rows) > 0 {
		text := plan.SeparationColumns + "\n# as the council asks\n"
		for _, r := range rows {
			text += r.Row.V + "\n"
		}
		files[plan.SeparationFile] = []byte(text)
	}
	if p.Neighbors.Len() > 0 {
		files[p.Header.List.Or("neighbors.csv")] = s.neighbors(p)
	}
	return files
}

// neighbors writes a neighbor list with its columns in some order.
func (s *stylist) neighbors(p *plan.Plan) []byte {
	columns := rapid.Permutation([]string{"callsign", "label", "output", "input", "tone", "color_code", "grid", "lat", "lon", "height_m", "erp_w", "source", "date"}).Draw(s.t, "columns")
	text := strings.Join(columns, ",") + "\n"
	section := plan.SectionOf(plan.KindNeighbor)
	for _, n := range p.Neighbors.All() {
		for i, column := range columns {
			cell := strings.Join(section.Field(column).Texts(n, nil), "")
			if strings.ContainsAny(cell, "\",") || s.rarely("quotes") && cell != "" {
				cell = `"` + strings.ReplaceAll(cell, `"`, `""`) + `"`
			}
			if text += cell; i < len(columns)-1 {
				text += ","
			}
		}
		text += "\n"
	}
	return []byte(text)
}

// section gives the records of a section that go into a file. Those of one
// section are dealt out to the files by their keys.
func (s *stylist) section(section *plan.Section, p *plan.Plan, name string, names []string) *sketch {
	top := &sketch{key: section.Key, form: 'm'}
	if section.Kind == plan.KindAcceptance {
		top.form = 'i'
	}
	for _, r := range section.All(p) {
		n := 0
		for _, c := range r.Thing().Key {
			n += int(c)
		}
		if names[(n+int(section.Kind))%len(names)] == name {
			top.kids = append(top.kids, s.record(section, r))
		}
	}
	return top
}

func (s *stylist) record(section *plan.Section, r plan.Record) *sketch {
	top := &sketch{key: r.Thing().Key, form: 'm'}
	for i := range section.Fields {
		f := &section.Fields[i]
		texts := f.Texts(r, nil)
		name := f.Name
		if rep, ok := r.(*plan.Repeater); ok && name == "input" && len(texts) > 0 && rep.Output.IsSet() && len(section.Field("split").Texts(r, nil)) == 0 {
			split := signal.Split(rep.TransmitOn() - rep.Output.V).String()
			if _, err := signal.ParseSplit(split); err == nil && s.coin("split") {
				name, texts = "split", []string{split}
			}
		}
		if len(texts) == 0 {
			continue
		}
		if section.Kind == plan.KindMessage || section.Kind == plan.KindShortcut || section.Kind == plan.KindSeverity {
			return &sketch{key: top.key, form: 's', text: texts[0]}
		}
		at := top
		parts := strings.Split(name, ".")
		if parts[len(parts)-1] == "send" && len(section.Field("fm.tone.receive").Texts(r, nil)) == 0 && s.coin("short tone") {
			parts = parts[:len(parts)-1]
		}
		for _, part := range parts[:len(parts)-1] {
			at = at.under(part)
		}
		last := parts[len(parts)-1]
		switch f.Form {
		case plan.Flag:
			at.under(last)
		case plan.Scalar:
			at.kids = append(at.kids, &sketch{key: last, form: 's', text: texts[0]})
		default:
			at.kids = append(at.kids, &sketch{key: last, form: 'l', list: texts})
		}
	}
	if len(top.kids) > 1 && section.Kind != plan.KindPlan {
		top.kids = rapid.Permutation(top.kids).Draw(s.t, "key order")
	}
	return top
}

func (k *sketch) under(key string) *sketch {
	for _, kid := range k.kids {
		if kid.key == key {
			return kid
		}
	}
	kid := &sketch{key: key, form: 'm'}
	k.kids = append(k.kids, kid)
	return kid
}

func (s *stylist) coin(what string) bool { return rapid.Bool().Draw(s.t, what) }

func (s *stylist) rarely(what string) bool { return rapid.IntRange(0, 4).Draw(s.t, what) == 0 }

func (s *stylist) comment() string {
	s.comments++
	return fmt.Sprintf("# note %d. é: {x}, [y]", s.comments)
}

// entry writes a key and what stands under it as lines. dash is what stands before
// the key of an item: "- ".
func (s *stylist) entry(k *sketch, indent, dash string) []string {
	var lines []string
	if s.rarely("blank line") && dash == "" {
		lines = append(lines, "")
	}
	if s.rarely("comment above") && dash == "" {
		lines = append(lines, indent+s.comment())
	}
	trail := ""
	if s.rarely("comment behind") {
		trail = "  " + s.comment()
	}
	head := indent + dash + s.key(k.key) + ":"
	inner := indent + strings.Repeat(" ", len(dash)+2)
	switch {
	case k.form == 's' && strings.Contains(k.text, "\n") && isPlainText(k.text) && s.coin("lines"):
		lines = append(lines, head+" |-"+trail)
		for line := range strings.SplitSeq(k.text, "\n") {
			lines = append(lines, inner+line)
		}
	case k.form == 's':
		lines = append(lines, head+" "+s.text(k.text, false)+trail)
	case len(k.kids)+len(k.list) == 0 || s.coin("between brackets"):
		lines = append(lines, head+" "+s.flow(k, inner)+trail)
	case k.form == 'l':
		lines = append(lines, head+trail)
		if s.coin("hyphens in the key's column") && dash == "" {
			inner = indent
		}
		for _, text := range k.list {
			lines = append(lines, s.item(text, inner)...)
		}
	case k.form == 'i':
		lines = append(lines, head+trail)
		for _, kid := range k.kids {
			lines = append(lines, s.acceptance(kid, inner)...)
		}
	default:
		lines = append(lines, head+trail)
		for _, kid := range k.kids {
			lines = append(lines, s.entry(kid, inner, "")...)
		}
	}
	return lines
}

func isPlainText(text string) bool {
	for line := range strings.SplitSeq(text, "\n") {
		if line == "" || strings.TrimSpace(line) != line {
			return false
		}
	}
	return true
}

func (s *stylist) item(text, indent string) []string {
	var lines []string
	if s.rarely("comment above") {
		lines = append(lines, indent+s.comment())
	}
	line := indent + "- " + s.text(text, false)
	if s.rarely("comment behind") {
		line += " " + s.comment()
	}
	return append(lines, line)
}

func (s *stylist) acceptance(k *sketch, indent string) []string {
	if s.coin("between braces") {
		return []string{indent + "- " + s.flow(k, indent+"  ")}
	}
	var lines []string
	for i, kid := range k.kids {
		if i == 0 {
			lines = append(lines, s.entry(kid, indent, "- ")...)
			continue
		}
		lines = append(lines, s.entry(kid, indent+"  ", "")...)
	}
	return lines
}

// flow writes between brackets what stands under k; now and then on several lines.
func (s *stylist) flow(k *sketch, indent string) string {
	open, end := "{", "}"
	if k.form == 'l' || k.form == 'i' {
		open, end = "[", "]"
	}
	var parts []string
	for _, text := range k.list {
		parts = append(parts, s.text(text, true))
	}
	for _, kid := range k.kids {
		value := ""
		if kid.form == 's' {
			value = s.text(kid.text, true)
		} else {
			value = s.flow(kid, indent+"  ")
		}
		if k.form == 'i' {
			parts = append(parts, value)
			continue
		}
		parts = append(parts, s.key(kid.key)+": "+value)
	}
	if len(parts) == 0 {
		return open + end
	}
	if rapid.IntRange(0, 3).Draw(s.t, "over lines") > 0 {
		return open + strings.Join(parts, rapid.SampledFrom([]string{", ", ",  "}).Draw(s.t, "comma")) + end
	}
	text := open
	for i, part := range parts {
		if s.coin("new line") {
			text += "\n" + indent
		}
		text += part
		if i < len(parts)-1 || s.rarely("last comma") {
			text += ", "
		}
		if s.rarely("comment behind") {
			text += " " + s.comment() + "\n" + indent
		}
	}
	return text + end
}

func (s *stylist) key(key string) string {
	if s.rarely("quoted key") {
		return `"` + key + `"`
	}
	return key
}

// text writes a scalar, plain only where nobody could doubt it.
func (s *stylist) text(text string, flow bool) string {
	plain := text != "" && strings.Trim(text, "abcdefghijklmnopqrstuvwxyz0123456789/") == "" && text != "null"
	switch {
	case plain && !s.rarely("quotes"):
		return text
	case s.coin("single quotes") && !strings.ContainsAny(text, "\n") && strings.Trim(text, " ") == text:
		return "'" + strings.ReplaceAll(text, "'", "''") + "'"
	}
	var b strings.Builder
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(text); err != nil {
		s.t.Fatal(err)
	}
	return strings.TrimSuffix(b.String(), "\n")
}

func (s *stylist) file(lines []string) []byte {
	text := strings.Join(lines, "\n")
	if text != "" {
		text += "\n"
	}
	if s.rarely("heading") {
		text = "# " + s.comment()[2:] + "\n\n" + text
	}
	if s.rarely("trailer") {
		text += "\n" + s.comment() + "\n"
	}
	if s.rarely("no final newline") {
		text = strings.TrimSuffix(text, "\n")
	}
	if s.rarely("line ends of two signs") {
		text = strings.ReplaceAll(text, "\n", "\r\n")
	}
	return []byte(text)
}

func (s *stylist) table(p *plan.Plan) []byte {
	text := "id,callsign,name\n"
	for _, o := range p.Operators.All() {
		name := o.Person.V
		if strings.ContainsAny(name, "\",") || strings.TrimSpace(name) != name || s.rarely("quotes") && name != "" {
			name = `"` + strings.ReplaceAll(name, `"`, `""`) + `"`
		}
		text += fmt.Sprintf("%s,%s,%s\n", o.ID.V, o.Callsign.V, name)
	}
	return []byte(text)
}
