package chronicle

import (
	"context"

	"passband.example/plandiff"
	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
)

// KeyAttribute is the attribute of a record that is its key, or of a channel its name.
const KeyAttribute = "key"

// A Trace tells of one thing where each of its attributes comes from.
type Trace struct {
	Thing      plan.Thing // of a channel, its kind and name, which may be a talk path
	Channel    bool       // it is a channel worked out, whose attributes are those of plandiff.Facts
	At         plan.Place
	Label      string
	Attributes []Attribute
}

// An Attribute is one thing about a record or a channel: the key, a field by its
// name in a file, an item of a list, or a fact.
type Attribute struct {
	Name   string
	Item   bool // Value is one item of the list Name, which may have come later than the list
	Value  []string
	Weight plan.Weight
	From   []plandiff.Written // where it stands; several for what comes from several records

	Origin Origin
}

// An Origin is the commit that last changed an attribute.
type Origin struct {
	Commit *history.Commit // nil where the change is not recorded yet, or Hidden
	Hidden bool            // it is older than what a shallow clone has
	Op     plandiff.Op     // Added: the thing has been so from its first day
	Was    []string        // the value before, of an item its place; none where it was not set
	Step   plandiff.StepOp // of an item: whether it came or moved
	As     string          // the key or name after that commit
}

// Trace tells for every attribute of a thing which commit last changed it, on
// the air or in name. x is the plan that the reader sees: that of the commit at, or
// one being edited on top of it. Names are those of Find; channels and talk paths
// are traced as a radio has them, through the records that they are made of. The
// error is ErrNoThing where x has nothing by the name.
func (r *Reader) Trace(ctx context.Context, at history.Commit, x *plan.Expansion, name string) ([]*Trace, error) {
	t, err := newTracer(x, name)
	if err != nil {
		return nil, err
	}
	return t.traces, t.trace(ctx, r, at, x, t)
}

// newTracer begins the traces of whatever a plan has by a name.
func newTracer(x *plan.Expansion, name string) (*tracer, error) {
	t := &tracer{}
	for _, thing := range Find(x, name) {
		if thing.Kind != plan.KindChannel {
			t.record(x, thing)
		}
	}
	if kind, _ := askedKind(name); kind == 0 || kind == plan.KindChannel {
		for _, channel := range channelsNamed(x, name) {
			t.channel(x, channel)
		}
	}
	if len(t.traces) == 0 {
		return nil, notThere(x, name)
	}
	return t, nil
}

// trace settles what can be settled. told is t, as the walk is to see it.
func (t *tracer) trace(ctx context.Context, r *Reader, at history.Commit, x *plan.Expansion, told teller) error {
	trails, err := t.edited(ctx, r, at, x)
	if err != nil || len(trails) == 0 {
		return err
	}
	_, err = r.walk(ctx, Span{To: at}, trails, told)
	t.hide(trails)
	return err
}

// A tracer settles attributes while a walk goes back.
type tracer struct {
	traces []*Trace
	open   []trail
	done   []map[string]bool // by trace: what is settled

	made map[plan.Thing]bool // what the traced channels are made of, or were
}

// begin adds a trace, with all of its attributes open.
func (t *tracer) begin(tr *Trace) {
	open := make(map[string]string)
	for _, a := range tr.Attributes {
		open[a.lookedFor()] = a.lookedFor()
	}
	t.open = append(t.open, trail{thing: tr.Thing, channel: tr.Channel, asked: len(t.traces), fields: open})
	t.traces = append(t.traces, tr)
	t.done = append(t.done, make(map[string]bool))
}

func (t *tracer) record(x *plan.Expansion, thing plan.Thing) {
	r, _ := x.Plan.Find(thing)
	s := plan.SectionOf(thing.Kind)
	tr := &Trace{Thing: thing, At: r.Place()}
	if s.HasOwnKeys() {
		tr.Attributes = append(tr.Attributes, Attribute{Name: KeyAttribute, Value: []string{thing.Key}, Weight: plan.Label,
			From: []plandiff.Written{{Thing: thing, Field: KeyAttribute, At: r.Place()}}})
	}
	for i := range s.Fields {
		f := &s.Fields[i]
		items := f.Items(r)
		if len(items) == 0 {
			continue
		}
		a := Attribute{Name: f.Name, Weight: f.Weight, From: []plandiff.Written{{Thing: thing, Field: f.Name, At: items[0].At}}}
		for _, item := range items {
			a.Value = append(a.Value, item.Text)
		}
		if f.Name == "label" {
			tr.Label = items[0].Text
		}
		tr.Attributes = append(tr.Attributes, a)
		if len(items) > 1 {
			tr.Attributes = append(tr.Attributes, itemsOf(a, items)...)
		}
	}
	t.begin(tr)
}

// itemsOf gives each item of a list as an attribute of its own.
func itemsOf(list Attribute, items []plan.Item) []Attribute {
	var all []Attribute
	for _, item := range items {
		a := list
		a.Item, a.Value = true, []string{item.Text}
		a.From = []plandiff.Written{{Thing: list.From[0].Thing, Field: list.Name, At: item.At}}
		all = append(all, a)
	}
	return all
}

// lookedFor names the attribute among all of its thing.
func (a *Attribute) lookedFor() string {
	if a.Item {
		return itemField(a.Name, a.Value[0])
	}
	return a.Name
}

func (t *tracer) channel(x *plan.Expansion, name string) {
	c, _ := x.Find(name)
	tr := &Trace{Thing: c.Thing(), Channel: true, At: c.At, Label: c.Label}
	tr.Attributes = append(tr.Attributes, Attribute{Name: KeyAttribute, Value: []string{name}, Weight: plan.Label,
		From: []plandiff.Written{{Thing: c.Thing(), Field: KeyAttribute, At: c.At}}})
	for _, f := range plandiff.Facts(x, c) {
		tr.Attributes = append(tr.Attributes, Attribute{Name: f.Name, Value: []string{f.Value}, Weight: f.Weight, From: f.From})
	}
	t.makes(x, name)
	t.begin(tr)
}

// edited settles what is being edited and not recorded yet, and gives the trails
// as the newest commit calls them.
func (t *tracer) edited(ctx context.Context, r *Reader, at history.Commit, x *plan.Expansion) ([]trail, error) {
	recorded, err := r.recordsAt(ctx, at)
	for isVerdict(err) && len(at.Parents) > 0 && !at.Truncated { // back to a plan that can be read
		if at, err = r.repo.Commit(ctx, at.Parents[0]); err != nil {
			return nil, err
		}
		recorded, err = r.recordsAt(ctx, at)
	}
	switch {
	case err == nil && (recorded == x.Plan || plandiff.CompareRecords(recorded, x.Plan).Empty()):
		return t.open, nil
	case err == nil:
		worked, err := r.At(ctx, at)
		if err != nil {
			return nil, err
		}
		return t.settleAll(nil, plandiff.Compare(worked, x), t.open), nil
	case isVerdict(err):
		return t.open, nil // there is none
	}
	return nil, err
}

// settleAll settles what a comparison changed, and gives the rest as the plan
// before calls it.
func (t *tracer) settleAll(commit *history.Commit, c *plandiff.Comparison, trails []trail) []trail {
	var left []trail
	for len(trails) > 0 {
		same, differs := split(c, trails)
		left = joined(left, same)
		trails = t.settle(commit, c, differs)
	}
	return left
}

// hide marks what no commit that could be seen has changed.
func (t *tracer) hide(trails []trail) {
	for _, tr := range trails {
		for _, attribute := range tr.fields {
			t.set(tr, attribute, Origin{Hidden: true})
		}
	}
}

func (t *tracer) attribute(asked int, name string) *Attribute {
	attributes := t.traces[asked].Attributes
	for i := range attributes {
		if attributes[i].lookedFor() == name {
			return &attributes[i]
		}
	}
	return new(Attribute)
}

// set settles an attribute, once: a line that comes later is an older one.
func (t *tracer) set(tr trail, field string, o Origin) {
	if !t.done[tr.asked][field] {
		t.done[tr.asked][field] = true
		t.attribute(tr.asked, field).Origin = o
	}
}
