package survey

import (
	"slices"

	"passband.example/plandiff/signal"
	"passband.example/review/rf"
)

// A Site is a place that two transmitters or more share, of which one at least is the plan's.
type Site struct {
	Members  []Party   // within a mile of each other, the plan's own first
	Products []Product // that one of the plan's causes or suffers; the strongest kinds first
	HeldBack int       // how many more there are than are listed
	Refused  error     // why they were not looked for, where they were not
}

// A Product is a mixture of transmitters of a site, or a harmonic of one, that falls on the
// input of a repeater there.
type Product struct {
	rf.Product
	Band    string  // in which it falls: 2m, 70cm; empty where in none
	Formula string  // 2 x 146.940 - 147.330 = 146.550, in MHz
	Sources []Party // what mixes
	On      Party   // on whose input it falls
}

// gather finds the sites and their products. An entry of the neighbor list that is one of the
// plan's own repeaters is not there twice.
func (s *Survey) gather(same [][2]int) {
	places := make([]*rf.Place, len(s.Stations))
	for i := range s.Stations {
		if st := &s.Stations[i]; st.Output != 0 {
			places[i] = st.Place
		}
	}
	for _, pair := range same {
		places[pair[1]] = nil
	}
	sites, unsure := rf.Sites(places, rf.OneSiteM)
	for _, members := range sites {
		if len(members) > 1 && s.Stations[members[0]].Ours {
			s.Sites = append(s.Sites, s.siteOf(members))
		}
	}
	for _, pair := range unsure {
		if a, b := pair[0], pair[1]; s.Stations[a].Ours {
			s.MaybeSites = append(s.MaybeSites, [2]Party{s.parties[a], s.parties[b]})
		}
	}
}

// siteOf looks for the products of one site.
func (s *Survey) siteOf(members []int) Site {
	site := Site{Members: s.named(members)}
	transmit := make([]signal.Hertz, len(members))
	var receive []rf.Receiver
	var hearers []int // whose receivers those are
	for i, at := range members {
		transmit[i] = s.Stations[at].Output
		if input := s.Stations[at].Input; input != 0 {
			receive, hearers = append(receive, rf.Receiver{Frequency: input}), append(hearers, at)
		}
	}
	mix, err := rf.Mixing(transmit, receive)
	site.Refused, site.HeldBack = err, mix.HeldBack
	for _, p := range mix.Products {
		product := Product{Product: p, Band: rf.Band(p.Frequency), Formula: p.Formula(transmit), On: s.parties[hearers[p.Receiver]]}
		ours := s.Stations[hearers[p.Receiver]].Ours
		for _, of := range p.Of {
			if of >= 0 {
				product.Sources = append(product.Sources, site.Members[of])
				ours = ours || s.Stations[members[of]].Ours
			}
		}
		if ours {
			site.Products = append(site.Products, product)
		}
	}
	return site
}

// Involves tells whether a station is a source of the product or suffers from it.
func (p *Product) Involves(name string) bool {
	return p.On.Name == name || slices.ContainsFunc(p.Sources, func(q Party) bool { return q.Name == name })
}
