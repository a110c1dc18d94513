package page

import (
	"strings"

	"passband.example/review/report"
)

// data is the channel table for the script: one column after the other, so that a value that
// many channels share stands there once.
type data struct {
	Names   []string `json:"names"`
	Columns []column `json:"columns"` // label, hears, sends, mode, access, change
	Zones   holding  `json:"zones"`
	Radios  holding  `json:"radios"`
}

// A column holds its different values, and for each channel which of them it has.
type column struct {
	Values []string `json:"values"`
	Of     []int    `json:"of"`
}

// A holding holds names, the different sets of them that occur, and for each channel which set.
type holding struct {
	Names []string `json:"names"`
	Sets  [][]int  `json:"sets"`
	Of    []int    `json:"of"`
}

func columns(rows []row, compared bool) data {
	d := data{Names: make([]string, len(rows))}
	for i := range rows {
		d.Names[i] = report.Visible(rows[i].Name)
	}
	for _, of := range []func(*row) string{
		func(r *row) string { return r.Label },
		func(r *row) string { return r.Hears },
		func(r *row) string { return r.Sends },
		func(r *row) string { return r.Mode },
		func(r *row) string { return r.Access },
		func(r *row) string { return r.Change },
	} {
		d.Columns = append(d.Columns, columnOf(rows, of))
	}
	if !compared {
		d.Columns = d.Columns[:len(d.Columns)-1]
	}
	d.Zones = holdingOf(rows, func(r *row) []string { return r.Zones })
	d.Radios = holdingOf(rows, func(r *row) []string { return r.Radios })
	return d
}

func columnOf(rows []row, of func(*row) string) column {
	c := column{Values: []string{}, Of: make([]int, len(rows))}
	at := make(map[string]int)
	for i := range rows {
		text := of(&rows[i])
		n, known := at[text]
		if !known {
			n = len(c.Values)
			at[text] = n
			c.Values = append(c.Values, report.Visible(text))
		}
		c.Of[i] = n
	}
	return c
}

func holdingOf(rows []row, of func(*row) []string) holding {
	h := holding{Names: []string{}, Sets: [][]int{}, Of: make([]int, len(rows))}
	names, sets := make(map[string]int), make(map[string]int)
	for i := range rows {
		list := of(&rows[i])
		key := strings.Join(list, "\x00")
		n, known := sets[key]
		if !known {
			set := make([]int, len(list))
			for k, name := range list {
				at, known := names[name]
				if !known {
					at = len(h.Names)
					names[name] = at
					h.Names = append(h.Names, report.Visible(name))
				}
				set[k] = at
			}
			n = len(h.Sets)
			sets[key] = n
			h.Sets = append(h.Sets, set)
		}
		h.Of[i] = n
	}
	return h
}
