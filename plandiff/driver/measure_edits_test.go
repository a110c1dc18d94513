package driver_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"

	"passband.example/plandiff"
	"passband.example/plandiff/merge"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/rewrite"
)

// An edit is what a person does to a plan. It is made of names alone, so that it can
// be done to the base and, for what must come out, to what the other side made.
type edit struct {
	name    string
	touches []string     // what no edit of the other side may touch
	list    plan.Thing   // the zone whose channels it changes
	renames plan.Renames // the new key that it gives
	do      func(p *plan.Plan, now plan.Renames) (plandiff.Change, bool)
}

// change sets a field of a record to other texts.
func change(t plan.Thing, field string, to func(old []string) []string) func(*plan.Plan, plan.Renames) (plandiff.Change, bool) {
	return func(p *plan.Plan, now plan.Renames) (plandiff.Change, bool) {
		at := plan.Thing{Kind: t.Kind, Key: now.Key(t.Kind, t.Key)}
		r, ok := p.Find(at)
		if !ok {
			return plandiff.Change{}, false
		}
		f := plan.SectionOf(t.Kind).Field(field)
		old := f.Texts(r, nil)
		set := to(slices.Clone(old))
		for i := range set {
			set[i] = now.Translate(f.Ref, set[i])
		}
		e := plandiff.Edit{Field: field, Form: f.Form, Old: old, New: set}
		return plandiff.Change{Op: plandiff.Changed, Thing: at, Was: at, Edits: []plandiff.Edit{e}}, !slices.Equal(old, set)
	}
}

// values gives new values of fields that people edit.
var values = map[plan.Kind]map[string][]string{
	plan.KindRepeater: {"label": {"Hill", "Top", "East"}, "fm.tone.send": {"67.0", "88.5", "156.7"}, "power": {"low", "high"}, "note": {"asked the owner", "off in June"}},
	plan.KindGroup:    {"label": {"Blue", "Red", "Green"}, "id": {"9997001", "9997002", "9997003"}, "note": {"quiet at night", "nets only"}},
	plan.KindChannel:  {"label": {"One", "Two", "Three"}, "power": {"low", "medium", "high"}, "timeout_s": {"60", "120", "180"}},
	plan.KindMessage:  {"text": {"Be right back", "On my way", "All clear"}},
	plan.KindZone:     {"label": {"Around", "Away", "Home"}, "note": {"for beginners", "for trips"}},
	plan.KindRadio:    {"label_length": {"10", "14", "16"}, "note": {"the small one", "the old one"}},
}

// An author makes edits of a plan.
type author struct {
	*rand.Rand
	p *plan.Plan
	n int
}

func (a *author) record(kind plan.Kind) plan.Record {
	all := plan.SectionOf(kind).All(a.p)
	return all[a.IntN(len(all))]
}

func pick[T any](a *author, list []T) T { return list[a.IntN(len(list))] }

// draw gives one of the edits that a volunteer makes in a week.
func (a *author) draw() edit {
	switch a.IntN(10) {
	case 0, 1, 2:
		return a.scalar()
	case 3:
		return a.added()
	case 4:
		return a.renamed()
	case 5:
		return a.removed()
	case 6:
		return a.moved()
	case 7:
		return a.itemGone()
	}
	return a.itemCame()
}

func (a *author) scalar() edit {
	kind := pick(a, []plan.Kind{plan.KindRepeater, plan.KindGroup, plan.KindChannel, plan.KindMessage, plan.KindZone, plan.KindRadio})
	r := a.record(kind)
	var fields []string
	for name := range values[kind] {
		block, _, nested := strings.Cut(name, ".")
		if f := plan.SectionOf(kind).Field(block); !nested || len(f.Items(r)) > 0 {
			fields = append(fields, name)
		}
	}
	slices.Sort(fields)
	field := pick(a, fields)
	to := pick(a, values[kind][field])
	return edit{
		name: fmt.Sprintf("%s %s to %q", r.Thing(), field, to), touches: []string{r.Thing().String(), r.Thing().String() + "." + field},
		do: change(r.Thing(), field, func([]string) []string { return []string{to} }),
	}
}

func (a *author) added() edit {
	a.n++
	kind := pick(a, []plan.Kind{plan.KindGroup, plan.KindChannel, plan.KindMessage})
	t := plan.Thing{Kind: kind, Key: fmt.Sprintf("new-%d-%d", a.IntN(1_000_000), a.n)}
	sets := map[plan.Kind][][2]string{
		plan.KindGroup:   {{"id", fmt.Sprint(9_998_000 + a.IntN(900))}, {"label", "New"}},
		plan.KindChannel: {{"label", "New"}, {"simplex", "146.580"}, {"fm", "yes"}},
		plan.KindMessage: {{"text", "New text"}},
	}[kind]
	return edit{name: "add " + t.String(), touches: []string{t.String()}, do: func(p *plan.Plan, _ plan.Renames) (plandiff.Change, bool) {
		c := plandiff.Change{Op: plandiff.Added, Thing: t}
		for _, set := range sets {
			f := plan.SectionOf(kind).Field(set[0])
			c.Edits = append(c.Edits, plandiff.Edit{Field: set[0], Form: f.Form, New: []string{set[1]}})
		}
		return c, true
	}}
}

func (a *author) renamed() edit {
	r := a.record(pick(a, []plan.Kind{plan.KindRepeater, plan.KindGroup, plan.KindChannel}))
	t := r.Thing()
	to := fmt.Sprintf("%s-%d", t.Key, 2+a.IntN(8))
	return edit{name: "rename " + t.String() + " to " + to, renames: plan.Renames{t: to}, touches: []string{t.String() + " key", t.String() + " gone"}, do: func(p *plan.Plan, _ plan.Renames) (plandiff.Change, bool) {
		_, ok := p.Find(t)
		return plandiff.Change{Op: plandiff.Renamed, Was: t, Thing: plan.Thing{Kind: t.Kind, Key: to}}, ok
	}}
}

func (a *author) removed() edit {
	t := a.record(pick(a, []plan.Kind{plan.KindChannel, plan.KindMessage})).Thing()
	return edit{name: "remove " + t.String(), touches: []string{t.String(), t.String() + " gone"}, do: func(p *plan.Plan, now plan.Renames) (plandiff.Change, bool) {
		at := plan.Thing{Kind: t.Kind, Key: now.Key(t.Kind, t.Key)}
		r, ok := p.Find(at)
		if !ok {
			return plandiff.Change{}, false
		}
		c := plandiff.Change{Op: plandiff.Removed, Thing: at, Was: at}
		s := plan.SectionOf(t.Kind)
		for i := range s.Fields {
			if texts := s.Fields[i].Texts(r, nil); len(texts) > 0 {
				c.Edits = append(c.Edits, plandiff.Edit{Field: s.Fields[i].Name, Form: s.Fields[i].Form, Old: texts})
			}
		}
		return c, true
	}}
}

// list gives a zone and its channels.
func (a *author) list() (plan.Thing, []string) {
	for {
		z := a.record(plan.KindZone)
		if texts := plan.SectionOf(plan.KindZone).Field("channels").Texts(z, nil); len(texts) > 3 {
			return z.Thing(), texts
		}
	}
}

func (a *author) moved() edit {
	t, texts := a.list()
	item, behind := pick(a, texts), pick(a, texts)
	return edit{
		name: fmt.Sprintf("move %s behind %s in %s", item, behind, t), list: t, touches: []string{t.String() + ".channels order", t.String() + " " + item, t.String() + " " + behind},
		do: change(t, "channels", func(old []string) []string {
			i := slices.Index(old, item)
			if i < 0 || item == behind || !slices.Contains(old, behind) {
				return old
			}
			old = slices.Delete(old, i, i+1)
			return slices.Insert(old, slices.Index(old, behind)+1, item)
		}),
	}
}

func (a *author) itemGone() edit {
	t, texts := a.list()
	item := pick(a, texts)
	return edit{
		name: fmt.Sprintf("take %s out of %s", item, t), list: t, touches: []string{t.String() + " " + item},
		do: change(t, "channels", func(old []string) []string {
			return slices.DeleteFunc(old, func(text string) bool { return text == item })
		}),
	}
}

func (a *author) itemCame() edit {
	t, texts := a.list()
	behind, item := pick(a, texts), a.record(plan.KindChannel).Thing().Key
	return edit{
		name: fmt.Sprintf("put %s behind %s in %s", item, behind, t), list: t, touches: []string{t.String() + " " + item, t.String() + " " + behind},
		do: change(t, "channels", func(old []string) []string {
			if slices.Contains(old, item) || !slices.Contains(old, behind) {
				return old
			}
			return slices.Insert(old, slices.Index(old, behind)+1, item)
		}),
	}
}

// does makes edits of a plan and of its text.
func does(files merge.Files, edits []edit) (merge.Files, *plan.Plan, error) {
	now := plan.Renames{}
	p, err := rewrite.Load(files)
	for _, e := range edits {
		if err != nil {
			return nil, nil, err
		}
		c, ok := e.do(p, now)
		if !ok {
			return nil, nil, fmt.Errorf("%s: nothing to do", e.name)
		}
		if c.Op == plandiff.Renamed {
			now[c.Was] = c.Thing.Key
		}
		var texts map[string][]byte
		if texts, err = rewrite.Apply(files, p, []plandiff.Change{c}); err != nil {
			return nil, nil, err
		}
		all := merge.Files{}
		for name, text := range files {
			all[name] = text
		}
		for name, text := range texts {
			all[name] = text
		}
		files = all
		p, err = rewrite.Load(files)
	}
	return files, p, err
}
