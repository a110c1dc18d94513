package page

import (
	"strconv"
	"strings"

	"passband.example/plandiff/plan"
)

// A radio is how full the memory of a class of radio is.
type radio struct {
	Key, Label string
	Fresh      bool // the class is new
	Uses       []use
	Left       []leftOut
}

// A use is one count against one limit, as a row and as a bar.
type use struct {
	What     string
	Now, Was int
	Compared bool
	Most     int // 0: the class states no limit
	Who      string
	Over     bool
	Percent  string // of the limit
	Bar      bar
}

// Differs tells whether it is more or less than before.
func (u use) Differs() bool { return u.Compared && u.Now != u.Was }

// A bar shows a count against a limit. Its numbers are in units of which the picture has
// barWidth.
type bar struct{ Now, Was, Limit, Width int }

const barWidth = 300

type leftOut struct {
	Why   string
	Count int
}

func (s *sides) radios() (all []radio) {
	for _, now := range s.new.Fits {
		r := radio{Key: now.Radio.Key.V, Label: now.Radio.Called()}
		was := s.wasFit(now)
		r.Fresh = s.compared() && was == nil
		for _, u := range now.Uses {
			one := use{What: strings.ReplaceAll(u.Limit.String(), "_", " "), Now: u.Used, Most: u.Most}
			if was != nil {
				one.Was, one.Compared = was.Uses[u.Limit].Used, true
			}
			if u.Who.Kind != 0 {
				one.Who = u.Who.String()
			}
			if one.Now == 0 && one.Was == 0 && one.Most == 0 {
				continue
			}
			one.fill()
			r.Uses = append(r.Uses, one)
		}
		r.Left = leftOuts(now)
		all = append(all, r)
	}
	return all
}

// fill works out the bar: the limit at five sixths of its width, so that what is over it can
// be seen, and twice that and more at the end.
func (u *use) fill() {
	if u.Most == 0 {
		return
	}
	const limit = barWidth * 5 / 6
	scale := func(n int) int { return min(int(int64(n)*limit/int64(u.Most)), barWidth) }
	u.Bar = bar{Now: scale(u.Now), Was: scale(u.Was), Limit: limit, Width: barWidth}
	u.Over = u.Now > u.Most
	u.Percent = strconv.FormatInt(int64(u.Now)*100/int64(u.Most), 10) + " %"
}

// wasFit gives what the class held before, or nil where it is new.
func (s *sides) wasFit(now *plan.Fit) *plan.Fit {
	if !s.compared() {
		return nil
	}
	for _, was := range s.old.Fits {
		if s.Comparison.Renames.Key(plan.KindRadio, was.Radio.Key.V) == now.Radio.Key.V {
			return was
		}
	}
	return nil
}

// leftOuts counts the channels that the class cannot use, by reason, at most a few of them.
func leftOuts(f *plan.Fit) (all []leftOut) {
	const most = 6
	at := make(map[string]int)
	for _, l := range f.LeftOut {
		i, known := at[l.Why]
		switch {
		case known:
			all[i].Count++
		case len(all) < most:
			at[l.Why] = len(all)
			all = append(all, leftOut{l.Why, 1})
		default:
			at[l.Why] = most - 1
			all[most-1].Why, all[most-1].Count = "other reasons as well", all[most-1].Count+1
		}
	}
	return all
}
