package page

import (
	"fmt"

	"passband.example/plandiff/signal"
	"passband.example/review/survey"
)

// A product is a mixture of transmitters of one site, or a harmonic, that falls on an input there.
type product struct {
	Center  signal.Hertz
	Order   int
	Formula string
	On      string
	Off     string // kHz from the middle of the input
	Sources []string
}

// products gives what the survey found at all sites, as far as there is room, and how many
// are left out.
func (s *sides) products() (all []product, more int) {
	for i := range s.survey.Sites {
		site := &s.survey.Sites[i]
		more += site.HeldBack
		for k := range site.Products {
			if len(all) == MostListed {
				more++
				continue
			}
			all = append(all, productOf(&site.Products[k]))
		}
	}
	return all, more
}

func productOf(p *survey.Product) product {
	one := product{Center: p.Frequency, Order: p.Form.Order(), Formula: p.Formula, On: p.On.Name, Off: offset(p.Off)}
	for _, source := range p.Sources {
		one.Sources = append(one.Sources, source.Name)
	}
	return one
}

// offset writes a distance in kHz with its sign.
func offset(f signal.Hertz) string {
	switch {
	case f < 0:
		return "−" + (-f).KHz()
	case f > 0:
		return "+" + f.KHz()
	}
	return "0"
}

// mixing draws the products that fall into the strip as arrows on a lane of their own, and gives
// where the next lane begins.
func (st *strip) mixing(all []product, y int) int {
	drawn := false
	for i := range all {
		p := &all[i]
		if p.Center < st.Low || p.Center >= st.High {
			continue
		}
		x := st.x(p.Center)
		st.Arrows = append(st.Arrows, arrow{
			Path:  fmt.Sprintf("M%s %dL%s %dL%s %dZ", x-60, y, x+60, y, x, y+laneHeight-4),
			Title: fmt.Sprintf("mixing product of order %d on the input of %s: %s MHz", p.Order, p.On, p.Formula),
		})
		drawn = true
	}
	if !drawn {
		return y
	}
	st.Names = append(st.Names, laneName{y + laneHeight - 8, "mixing"})
	return y + laneHeight + laneGap
}

// An arrow points at where a mixing product falls.
type arrow struct{ Path, Title string }
