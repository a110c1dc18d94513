package generate

import (
	"fmt"
	"math/rand/v2"
)

// Size says how much a plan has of what. The rest follows from the channels.
type Size struct {
	Channels  int // written ones and those that follow from repeaters
	Operators int // rows of operators.csv
	Files     int // with records; 1 or less puts all into plan.yaml
}

// A Club is a plan that can be edited and written.
type Club struct {
	// Style is how the text is laid out.
	Style Style

	written   Style // of the text that the sheets hold
	random    *rand.Rand
	groups    []*group
	repeaters []*repeater
	channels  []*channel
	zones     []*zone
	operators []*operator
	sheets    []*sheet
	made      int // channels ever made, from which the next gets its key
	hired     int // operators ever made
}

// New makes a plan of a size. A seed changes the values and no count.
func New(size Size, seed uint64) *Club {
	c := &Club{random: rand.New(rand.NewPCG(seed, 0)), sheets: make([]*sheet, max(1, size.Files))}
	for i := range c.sheets {
		c.sheets[i] = &sheet{name: sheetName(i, len(c.sheets))}
	}
	for i := range min(4_000, max(20, size.Channels/10)) {
		g := &group{key: fmt.Sprintf("g%04d", i), id: 9_990_000 + i, label: fmt.Sprintf("G%d", i)}
		c.groups = append(c.groups, g)
		c.sheet(i).groups = append(c.sheet(i).groups, g)
	}
	for i := range size.Channels / 40 {
		r := c.newRepeater(i)
		c.repeaters = append(c.repeaters, r)
		r.sheet.repeaters = append(r.sheet.repeaters, r)
	}
	for i, n := range c.random.Perm(size.Channels / 2) {
		c.put(c.newChannel(n), c.sheet(i))
	}
	c.makeZones()
	for range size.Operators {
		c.hire(size.Operators)
	}
	return c
}

// sheet deals the records out to the files in turn.
func (c *Club) sheet(i int) *sheet { return c.sheets[i%len(c.sheets)] }

func (c *Club) put(ch *channel, s *sheet) {
	c.channels = append(c.channels, ch)
	s.channels = append(s.channels, ch)
	ch.sheet, s.text = s, nil
}

func (c *Club) newRepeater(i int) *repeater {
	first := c.random.IntN(len(c.groups))
	r := &repeater{
		key: fmt.Sprintf("r%05d", i), label: fmt.Sprintf("R%d", i),
		callsign: callsign(i), color: c.random.IntN(15), comment: i%40 == 0, sheet: c.sheet(i),
		lat: fmt.Sprintf("%d.%d", 34+c.random.IntN(7), c.random.IntN(10)),
		lon: fmt.Sprintf("-%d.%02d", 85+c.random.IntN(30), c.random.IntN(100)),
	}
	r.retune(c.random)
	for j := range 19 {
		slot := &r.slots[j/10]
		*slot = append(*slot, c.groups[(first+j)%len(c.groups)])
	}
	return r
}

// newChannel makes the nth channel that there may be. Each differs from all others by more
// than its key.
func (c *Club) newChannel(n int) *channel {
	c.made++
	ch := &channel{key: fmt.Sprintf("ch-%05d", n), label: fmt.Sprintf("Ch %d", n), number: n, step: n % steps, power: "high"}
	ch.comment = n%40 == 0
	return ch
}

func (c *Club) makeZones() {
	count := len(c.channels) / 14
	for i := range count {
		z := &zone{key: fmt.Sprintf("zone-%04d", i), label: fmt.Sprintf("Zone %d", i), comment: i%40 == 0, sheet: c.sheet(i)}
		end := (i + 1) * 14
		if i == count-1 {
			end = len(c.channels)
		}
		for _, ch := range c.channels[i*14 : end] {
			z.members = append(z.members, member{channel: ch})
		}
		if n := len(c.repeaters); n > 0 {
			z.members = append(z.members, paths(c.repeaters[i%n], c.repeaters[(2*i+1)%n], i < n)...)
		}
		c.zones = append(c.zones, z)
		z.sheet.zones = append(z.sheet.zones, z)
	}
}

// paths gives what a zone has of repeaters: both slots of its own, or, where all of
// those are in a zone, the FM sides of two.
func paths(own, other *repeater, both bool) []member {
	if both {
		return []member{{repeater: own, path: "1/*"}, {repeater: own, path: "2/*"}}
	}
	return []member{{repeater: own, path: "fm"}, {repeater: other, path: "fm"}}
}

// hire adds an operator. IDs begin with 999 as long as the numbers last.
func (c *Club) hire(of int) {
	first := 9_994_001
	if of > 5_000 {
		first = 9_000_001
	}
	c.operators = append(c.operators, &operator{id: first + c.hired, callsign: callsign(c.hired), name: fmt.Sprintf("Person %d", c.hired)})
	c.hired++
}

// callsign gives a callsign of a form that is never assigned.
func callsign(i int) string {
	return fmt.Sprintf("%c%dQ%c%c", "NWK"[i/1040%3], i/104%10, 'R'+i/26%4, 'A'+i%26)
}
