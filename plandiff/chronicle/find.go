package chronicle

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
)

// ErrNoThing says that a plan has nothing by the name that was asked for.
var ErrNoThing = errors.New("the plan has nothing by that name")

// Find gives the things of a plan that a person means by a name: a key, a talk
// path such as ridge/1/statewide, a callsign or radio ID of an operator, or a kind
// and a key ("group local") where several things have that key. A channel that
// stands in the section channels is found by its key as a record.
func Find(x *plan.Expansion, name string) []plan.Thing { return things(x.Plan, name) }

// things is Find in a plan that is not worked out.
func things(p *plan.Plan, name string) []plan.Thing {
	kind, key := askedKind(name)
	var found []plan.Thing
	for _, s := range plan.Sections() {
		if kind != 0 && kind != s.Kind {
			continue
		}
		if s.HasOwnKeys() && s.Kind != plan.KindSeverity {
			if r, ok := s.Find(p, key); ok {
				found = append(found, r.Thing())
			}
		}
	}
	if kind == 0 || kind == plan.KindOperator {
		for _, o := range p.Operators.All() {
			if strings.EqualFold(string(o.Callsign.V), key) || o.ID.V.String() == key {
				found = append(found, o.Thing())
			}
		}
	}
	return found
}

// channelsNamed gives the channels with this name or on this talk path.
func channelsNamed(x *plan.Expansion, name string) []string {
	_, key := askedKind(name)
	var names []string
	for _, c := range x.OnPath(key) {
		names = append(names, c.Name)
	}
	if _, ok := x.Find(key); ok && len(names) == 0 {
		names = append(names, key)
	}
	return names
}

// askedKind splits "group local" into its kind and key.
func askedKind(name string) (plan.Kind, string) {
	for _, s := range plan.Sections() {
		if key, ok := strings.CutPrefix(name, s.Kind.String()+" "); ok {
			return s.Kind, key
		}
	}
	return 0, name
}

// start gives the trails of a thing, as the newest plan calls it.
func (r *Reader) start(ctx context.Context, at history.Commit, name string) ([]trail, error) {
	p, err := r.recordsAt(ctx, at)
	if err != nil && !isVerdict(err) {
		return nil, err
	}
	kind, key := askedKind(name)
	if err != nil {
		return []trail{{thing: plan.Thing{Kind: kind, Key: key}, waiting: true}}, nil
	}
	var trails []trail
	for _, thing := range things(p, name) {
		trails = append(trails, trail{thing: thing, asked: len(trails)})
	}
	if strings.Contains(key, "/") && len(trails) == 0 {
		x, err := r.At(ctx, at)
		if err != nil {
			return nil, err
		}
		for _, channel := range channelsNamed(x, name) {
			trails = append(trails, trail{thing: plan.Thing{Kind: plan.KindChannel, Key: channel}, channel: true, asked: len(trails)})
		}
	}
	if len(trails) == 0 {
		trails = []trail{{thing: plan.Thing{Kind: kind, Key: key}, waiting: true}}
	}
	return trails, nil
}

// noThing says that there is no such thing, and what may have been meant.
func (r *Reader) noThing(ctx context.Context, at history.Commit, name string) error {
	x, err := r.At(ctx, at)
	if err != nil {
		return fmt.Errorf("%w: %q", ErrNoThing, name)
	}
	return notThere(x, name)
}

func notThere(x *plan.Expansion, name string) error {
	_, key := askedKind(name)
	if near := plan.Nearest(key, names(x)); near != "" {
		return fmt.Errorf("%w: %q; did you mean %s?", ErrNoThing, name, near)
	}
	return fmt.Errorf("%w: %q; write the key of a repeater, group, channel or zone, a talk path such as ridge/1/statewide, or a callsign", ErrNoThing, name)
}

// names gives what things of a plan are called.
func names(x *plan.Expansion) []string {
	var all []string
	for _, c := range x.Channels {
		all = append(all, c.Name)
	}
	for _, s := range plan.Sections() {
		if s.HasOwnKeys() {
			for _, r := range s.All(x.Plan) {
				all = append(all, r.Thing().Key)
			}
		}
	}
	return all
}

// Title gives the name of the plan at a commit, or "" where there is none that
// can be read.
func (r *Reader) Title(ctx context.Context, at history.Commit) (string, error) {
	p, err := r.recordsAt(ctx, at)
	switch {
	case err == nil:
		return p.Header.Title.Or(""), nil
	case isVerdict(err):
		return "", nil
	}
	return "", err
}

// Knows reports whether the plan at a commit has a thing by this name.
func (r *Reader) Knows(ctx context.Context, at history.Commit, name string) (bool, error) {
	trails, err := r.start(ctx, at, name)
	return err == nil && !trails[0].waiting, err
}
