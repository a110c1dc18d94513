package page

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
)

// A user is who is on a signal: a repeater, or a channel from radio to radio. Two repeaters on
// one channel are two users of one signal, and both have to be seen.
type user struct {
	Name     string
	was, now int // channels
}

// A userKey finds a user again, whatever it was called before.
type userKey struct {
	on   *tuned
	what plan.Thing
}

// keyNow names the repeater of a channel, or the channel where it has none, by its key of now.
func (s *sides) keyNow(x *plan.Expansion, c *plan.Channel) plan.Thing {
	thing := c.Thing()
	if c.Repeater != nil {
		thing = c.Repeater.Thing()
	}
	if x != s.old {
		return thing
	}
	if now, ok := s.nowName[c.Name]; ok && c.Repeater == nil {
		thing.Key = now
		return thing
	}
	thing.Key = s.Comparison.Renames.Key(thing.Kind, thing.Key)
	return thing
}

func (u *user) state() string {
	switch {
	case u.was == 0:
		return "came"
	case u.now == 0:
		return "went"
	}
	return ""
}

// sign gives the name with what became of it.
func (u *user) sign(name string) string {
	switch u.state() {
	case "came":
		return "+ " + name
	case "went":
		return "− " + name
	}
	return name
}

// order puts who came first and who went next, so that no picture leaves them out.
func (t *tuned) order() {
	rank := map[string]int{"came": 0, "went": 1, "": 2}
	slices.SortStableFunc(t.users, func(a, b *user) int { return cmp.Compare(rank[a.state()], rank[b.state()]) })
}

// How many users are named, and how much of a name is shown, in a picture.
const (
	mostTagged = 3
	mostTag    = 18 // characters
)

// Names names the users, each once, with what became of it where the signal itself stayed.
func (t *tuned) Names() string { return t.named(MostListed, 0) }

// named names so many users; a name longer than most characters is cut, unless most is 0.
func (t *tuned) named(users, most int) string {
	var names []string
	seen, mixed := make(map[string]bool), t.State() == "changed"
	for _, u := range t.users {
		name := u.Name
		if r := []rune(name); most > 0 && len(r) > most {
			name = string(r[:most-1]) + "…"
		}
		if mixed {
			name = u.sign(name)
		}
		if !seen[name] {
			seen[name] = true
			names = append(names, name)
		}
	}
	if more := len(names) - users; more > 0 {
		return strings.Join(names[:users], ", ") + fmt.Sprintf(" and %d more", more)
	}
	return strings.Join(names, ", ")
}
