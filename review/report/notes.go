package report

import (
	"fmt"
	"io"
	"strings"

	"passband.example/plandiff"
	"passband.example/plandiff/history"
	"passband.example/plandiff/notes"
)

// A Release is one end of the notes for members.
type Release struct {
	Name string `json:"name"`
	Date string `json:"date"` // ISO 8601
}

// called names a release for members, who know tags and no other words of git.
func (r Release) called() string {
	if r.Name == "HEAD" {
		return "the newest plan"
	}
	return r.Name
}

// ReleaseNotes reports what members must know between two releases.
func ReleaseNotes(n *notes.Notes, from, to Release) *Page {
	p := new(Page)
	title := Line{}
	if n.Plan != "" {
		title = append(title, strong(n.Plan), text(": "))
	}
	p.heading(1, append(title, text("what is new in %s", to.called()))...)
	p.paragraph(text("The channel plan of %s, compared with %s of %s.", to.Date, from.called(), from.Date))
	if n.Empty() {
		p.paragraph(text("Nothing changed that a member would notice. No radio has to be loaded again."))
		return p
	}
	notesRadios(p, n.Radios)
	notesChanged(p, n.Changed)
	notesChannels(p, "New channels", n.New)
	notesChannels(p, "Channels that are gone", n.Gone)
	notesPairs(p, "New labels", n.Relabelled)
	notesLists(p, "Zones", n.Zones)
	notesLists(p, "Scan lists", n.ScanLists)
	notesPairs(p, "Messages", n.Messages)
	notesKeys(p, n.Keys)
	notesContacts(p, n.Contacts)
	p.paragraph(faint("%s", caution))
	return p
}

// notesRadios says which radios to load again.
func notesRadios(p *Page, radios []notes.Radio) {
	if len(radios) == 0 {
		return
	}
	p.heading(2, text("Load these radios again"))
	var fine []Line
	for _, r := range radios {
		if len(r.Why) == 0 {
			fine = append(fine, Line{strong(r.Label)})
			continue
		}
		p.item(0, strong(r.Label), text(": %s", strings.Join(r.Why, ", ")))
	}
	if len(fine) > 0 {
		p.item(0, append(listed(fine), text(": nothing to do"))...)
	}
}

func notesChanged(p *Page, changed []notes.Change) {
	if len(changed) > 0 {
		p.heading(2, text("Set differently"))
	}
	for _, c := range changed {
		who := labelled(c.Labels)
		if c.Of != "" {
			who = Line{text("all channels of "), strong(c.Of)}
		}
		var parts []Line
		for _, f := range c.Facts {
			parts = append(parts, differs(f))
		}
		p.item(0, append(append(who, text(": ")), listed(parts)...)...)
	}
}

func differs(f notes.Differs) Line {
	switch {
	case f.Name == "also listens for":
		return heard(f)
	case f.Old == "":
		return Line{text("%s ", f.Name), Span{f.New, New}, text(" (none before)")}
	case f.New == "":
		return Line{text("no %s any more (was ", f.Name), Span{f.Old, Old}, text(")")}
	}
	return Line{text("%s ", f.Name), Span{f.New, New}, text(" (was "), Span{f.Old, Old}, text(")")}
}

func heard(f notes.Differs) Line {
	var parts []Line
	if f.New != "" {
		parts = append(parts, Line{text("also listens for "), Span{f.New, New}})
	}
	if f.Old != "" {
		parts = append(parts, Line{text("no longer listens for "), Span{f.Old, Old}})
	}
	return listed(parts)
}

func labelled(labels []string) Line {
	parts := make([]Line, len(labels))
	for i, l := range labels {
		parts[i] = Line{strong(l)}
	}
	return listed(parts)
}

func notesChannels(p *Page, title string, channels []notes.Channel) {
	if len(channels) > 0 {
		p.heading(2, text("%s", title))
	}
	for _, c := range channels {
		var parts []Line
		for _, f := range c.Facts {
			parts = append(parts, Line{text("%s ", f.Name), code(f.Value)})
		}
		if len(c.Zones) > 0 {
			parts = append(parts, Line{text("in %s %s", plural(len(c.Zones), "zone"), strings.Join(c.Zones, ", "))})
		}
		p.item(0, append(Line{strong(c.Label), text(": ")}, listed(parts)...)...)
	}
}

// notesPairs lists texts that are other ones now.
func notesPairs(p *Page, title string, pairs []notes.Pair) {
	if len(pairs) > 0 {
		p.heading(2, text("%s", title))
	}
	for _, pair := range pairs {
		switch {
		case pair.Old == "":
			p.item(0, text("new: "), Span{pair.New, New})
		case pair.New == "":
			p.item(0, text("gone: "), Span{pair.Old, Old})
		default:
			p.item(0, Span{pair.New, New}, text(" (was "), Span{pair.Old, Old}, text(")"))
		}
	}
}

func notesLists(p *Page, title string, lists []notes.List) {
	if len(lists) > 0 {
		p.heading(2, text("%s", title))
	}
	for _, l := range lists {
		line := Line{strong(l.Label)}
		if l.Was != "" {
			line = append(line, text(" (was "), Span{l.Was, Old}, text(")"))
		}
		if parts := listParts(l); len(parts) > 0 {
			line = append(append(line, text(": ")), listed(parts)...)
		}
		p.item(0, line...)
	}
}

func listParts(l notes.List) []Line {
	var parts []Line
	switch l.Op {
	case plandiff.Added:
		parts = append(parts, Line{text("new")})
	case plandiff.Removed:
		return []Line{{text("gone")}}
	}
	if len(l.Came) > 0 {
		parts = append(parts, Line{text("with "), Span{strings.Join(l.Came, ", "), New}})
	}
	if len(l.Went) > 0 {
		parts = append(parts, Line{text("without "), Span{strings.Join(l.Went, ", "), Old}})
	}
	if l.Reordered {
		parts = append(parts, Line{text("in another order")})
	}
	if l.Priority != nil {
		parts = append(parts, differs(notes.Differs{Name: "priority channel", Old: l.Priority.Old, New: l.Priority.New}))
	}
	return parts
}

func notesKeys(p *Page, keys []notes.Key) {
	if len(keys) > 0 {
		p.heading(2, text("Number keys"))
	}
	for _, k := range keys {
		p.item(0, append(Line{strong(k.Digit), text(": ")}, differs(notes.Differs{Name: "calls", Old: k.Old, New: k.New})...)...)
	}
}

func notesContacts(p *Page, c notes.Contacts) {
	var parts []string
	for _, n := range []struct {
		count int
		what  string
	}{{c.New, "new"}, {c.Gone, "gone"}, {c.Changed, "with other details"}} {
		if n.count > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n.count, n.what))
		}
	}
	if len(parts) > 0 {
		p.heading(2, text("Contacts"))
		p.item(0, text("in the list of operators: %s", strings.Join(parts, ", ")))
	}
}

// NotesForm is the JSON form of ReleaseNotes.
type NotesForm struct {
	Passband string  `json:"passband"`
	Version  int     `json:"version"`
	From     Release `json:"from"`
	To       Release `json:"to"`
	*notes.Notes
	Caution string `json:"caution"`
}

// NotesJSON writes ReleaseNotes for programs.
func NotesJSON(w io.Writer, n *notes.Notes, from, to Release) error {
	return WriteJSON(w, NotesForm{Passband: "notes", Version: version, From: from, To: to, Notes: n, Caution: caution})
}

// ReleaseOf names a commit as a release.
func ReleaseOf(name string, c history.Commit) Release {
	if name == c.Hash {
		name = c.Short()
	}
	return Release{Name: name, Date: day(c.When)}
}
