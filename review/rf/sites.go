package rf

import (
	"cmp"
	"math"
	"slices"
)

// OneSiteM is how near transmitters stand to count as one site: 1 mile (47 CFR 22.657(c), which
// uses it against mixing products).
const OneSiteM = mileM

// Sites gathers places into sites: two places at most withinM apart, in meters, are of one site, and
// so is what is near to either of them. It returns the indexes of each site, single places
// too; a nil place is of none.
//
// Unsure are pairs for which a locator leaves open whether they share a site, at most 1,000 of
// them, each point by its first place. They are not joined by that: two locators of one square
// may be two hills.
func Sites(places []*Place, withinM float64) (sites, unsure [][]int) {
	g := newGathering(places)
	distance := func(i, j int) Interval {
		return around(Geodesic(places[i].At, places[j].At).Meters, g.spots[i].slack+g.spots[j].slack)
	}
	within := math.Nextafter(withinM, math.Inf(1)) // at most, not less than
	g.near(withinM, withinM, func(i, j int) bool {
		if distance(i, j).NearerThan(within) == Yes {
			g.join(i, j)
		}
		return true
	})
	g.near(withinM, math.Inf(1), func(i, j int) bool {
		if distance(i, j).NearerThan(within) == CannotTell {
			unsure = append(unsure, []int{i, j})
		}
		return len(unsure) < mostUnsure
	})
	slices.SortFunc(unsure, slices.Compare[[]int])
	return g.sites(), unsure
}

const mostUnsure = 1_000 // pairs; a list of bare squares would give one for every two stations

// A gathering joins places step by step (union-find).
type gathering struct {
	spots  []spot
	parent []int
	order  []int // those with a place, from south to north; of equal coordinates only the first
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
		a, b := g.spots[i].at, g.spots[j].at
		return cmp.Or(cmp.Compare(a[2], b[2]), cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1]), cmp.Compare(i, j))
	})
	g.order = slices.CompactFunc(g.order, func(i, j int) bool {
		same := g.spots[i] == g.spots[j] && g.spots[i].slack == 0
		if same {
			g.join(i, j)
		}
		return same
	})
	return g
}

// near calls visit with every pair that may be within so many meters and is not joined yet, of
// places with at most the given slack, until visit returns false.
func (g *gathering) near(meters, mostSlack float64, visit func(i, j int) bool) {
	var list []int
	slack := 0.0
	for _, i := range g.order {
		if own := g.spots[i].slack; own <= mostSlack {
			list, slack = append(list, i), max(slack, own)
		}
	}
	for k, i := range list {
		a := &g.spots[i]
		for _, j := range list[k+1:] {
			b := &g.spots[j]
			if b.at[2]-a.at[2] > meters+a.slack+slack {
				break
			}
			if distance3(a.at, b.at) <= meters+a.slack+b.slack && g.root(i) != g.root(j) && !visit(min(i, j), max(i, j)) {
				return
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
func (g *gathering) sites() (all [][]int) {
	place := map[int]int{} // of a root, in all
	for i := range g.spots {
		if !g.spots[i].known {
			continue
		}
		root := g.root(i)
		at, seen := place[root]
		if !seen {
			at = len(all)
			place[root], all = at, append(all, nil)
		}
		all[at] = append(all[at], i)
	}
	return all
}
