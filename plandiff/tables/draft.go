package tables

import (
	"fmt"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
	"passband.example/plandiff/plan"
)

// A draft is a plan in the making: another one, with records changed and added. What
// the tables do not name stays.
type draft struct {
	base    *plan.Plan
	changed map[plan.Thing]plan.Record
	added   []plan.Record
	next    map[string]int // where to look for a free number behind a key
}

func newDraft(base *plan.Plan) *draft {
	return &draft{base: base, changed: map[plan.Thing]plan.Record{}, next: map[string]int{}}
}

func (d *draft) find(t plan.Thing) (plan.Record, bool) {
	if r, ok := d.changed[t]; ok {
		return r, true
	}
	return d.base.Find(t)
}

// edit gives a record to change, a copy where it is one of the base.
func (d *draft) edit(t plan.Thing) (plan.Record, bool) {
	r, ok := d.changed[t]
	if ok {
		return r, true
	}
	if r, ok = d.base.Find(t); ok {
		d.changed[t] = plan.Clone(r)
	}
	return d.changed[t], ok
}

// add puts in an empty record; its key must be free.
func (d *draft) add(kind plan.Kind, key string) plan.Thing {
	t := plan.Thing{Kind: kind, Key: key}
	r, err := plan.NewRecord(t)
	if err != nil {
		return t // every kind of a source is one
	}
	d.changed[t] = r
	d.added = append(d.added, r)
	return t
}

// plan gives the plan as the draft has it.
func (d *draft) plan() (*plan.Plan, error) {
	p := &plan.Plan{Files: d.base.Files}
	for _, s := range plan.Sections() {
		for _, r := range s.All(d.base) {
			if now, ok := d.changed[r.Thing()]; ok {
				r = now
			}
			if s.Kind == plan.KindOperator {
				r = plan.Clone(r) // Add numbers the rows that say the same
			}
			if err := p.Add(r); err != nil {
				return nil, err
			}
		}
	}
	for _, r := range d.added {
		if r.Thing().Kind == plan.KindOperator {
			r = plan.Clone(r)
		}
		if err := p.Add(r); err != nil {
			return nil, err
		}
	}
	return p, nil
}

// newKey makes a key of a text that no record of the kind has: of its letters and
// digits, and a number behind it where others have the same. Keys that are words of the
// plan's own are avoided.
func (d *draft) newKey(kind plan.Kind, text string) string {
	key := slug(text)
	if key == "" {
		key = slug(kind.String())
	}
	taken := func(key string) bool {
		_, ok := d.find(plan.Thing{Kind: kind, Key: key})
		return ok || kind == plan.KindReceiveList && (key == plan.ListenSlot || key == plan.ListenRepeater || key == plan.ListenNone)
	}
	if !taken(key) {
		return key
	}
	base := strings.TrimRight(key[:min(len(key), 56)], "-")
	where := kind.String() + " " + base
	for n := max(2, d.next[where]); ; n++ {
		if key := fmt.Sprintf("%s-%d", base, n); !taken(key) {
			d.next[where] = n + 1
			return key
		}
	}
}

// slug makes what could be a key of a text: lower case, letters without their accents,
// and a hyphen for the rest.
func slug(text string) string {
	var b strings.Builder
	for _, r := range norm.NFD.String(strings.ToLower(text)) {
		switch {
		case 'a' <= r && r <= 'z' || '0' <= r && r <= '9':
			b.WriteRune(r)
		case unicode.Is(unicode.Mn, r):
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() == 64 {
			break
		}
	}
	return strings.Trim(b.String(), "-")
}
