package rf

import (
	"cmp"
	"slices"
)

// OneSiteM is how near transmitters stand to count as one site: 1 mile (47 CFR 22.657(c), which
// uses it against mixing products).
const OneSiteM = mileM

// Sites gathers places into sites: two places at most withinM apart, in meters, are of one site, and
// so is what is near to either of them. It returns the indexes of each site, single places
// too; a nil place is of none.
//
// Unsure are the pairs for which a locator leaves open whether they share a site. They are not
// joined by that: two locators of one square may be two hills.
func Sites(places []*Place, withinM float64) (sites, unsure [][]int) {
	g := newGathering(places)
	g.near(withinM, func(i, j int) {
		switch d := Distance(*places[i], *places[j]); {
		case d.Most <= withinM:
			g.join(i, j)
		case d.Least <= withinM && len(unsure) < mostUnsure:
			unsure = append(unsure, []int{i, j})
		}
	})
	sites = g.sites()
	unsure = slices.DeleteFunc(unsure, func(pair []int) bool { return g.root(pair[0]) == g.root(pair[1]) })
	slices.SortFunc(unsure, slices.Compare[[]int])
	return sites, unsure
}

const mostUnsure = 1_000 // pairs; a list of bare squares would give one for every two stations

// A gathering joins places step by step (union-find).
type gathering struct {
	spots  []spot
	parent []int
	order  []int // those with a place, from south to north
}

func newGathering(places []*Place) *gathering {
	g := &gathering{spots: make([]spot, len(places)), parent: make([]int, len(places))}
	for i, p := range places {
		g.parent[i] = i
		if p != nil {
			g.spots[i] = spotOf(p)
			g.order = append(g.order, i)
		}
	}
	slices.SortFunc(g.order, func(i, j int) int {
		return cmp.Or(cmp.Compare(g.spots[i].at[2], g.spots[j].at[2]), cmp.Compare(i, j))
	})
	return g
}

// near calls visit with every pair that may be within so many meters and is not joined yet.
func (g *gathering) near(meters float64, visit func(i, j int)) {
	slack := 0.0
	for _, i := range g.order {
		slack = max(slack, g.spots[i].slack)
	}
	for k, i := range g.order {
		a := &g.spots[i]
		for _, j := range g.order[k+1:] {
			b := &g.spots[j]
			if b.at[2]-a.at[2] > meters+a.slack+slack {
				break
			}
			if distance3(a.at, b.at) <= meters+a.slack+b.slack && g.root(i) != g.root(j) {
				visit(min(i, j), max(i, j))
			}
		}
	}
}

func (g *gathering) root(i int) int {
	for g.parent[i] != i {
		g.parent[i] = g.parent[g.parent[i]]
		i = g.parent[i]
	}
	return i
}

// join makes two sites one, under the lower index.
func (g *gathering) join(i, j int) {
	i, j = g.root(i), g.root(j)
	g.parent[max(i, j)] = min(i, j)
}

// sites returns the members of each site, each in order, the sites by their first member.
func (g *gathering) sites() [][]int {
	members := map[int][]int{}
	slices.Sort(g.order)
	var all [][]int
	for _, i := range g.order {
		root := g.root(i)
		members[root] = append(members[root], i)
	}
	for _, i := range g.order {
		if g.root(i) == i {
			all = append(all, members[i])
		}
	}
	return all
}
