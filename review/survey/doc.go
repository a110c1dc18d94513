// Package survey looks at the stations of a plan as their neighbors on the air do: which
// of them stand nearer to each other than a separation table asks, and what the
// transmitters of one hill mix to. It puts a plan into the terms of package rf, once for
// all who speak of it: the rules that warn, and the report page that draws.
//
//	s := survey.Of(p)                       // *plan.Plan; a second or less for 30,000 repeaters
//	for _, c := range s.Conflicts {         // the gravest first
//		c.Ours.Name, c.Other.Name           // ridge, knob
//		c.Ours.Place.At, c.Other.Place.At   // where a map draws the line between them
//		c.Kind, c.Short                     // co-channel, yes
//		c.Text()                            // in a sentence, with both distances and the row that asks
//	}
//	for _, site := range s.Sites {          // two transmitters or more within a mile
//		for _, p := range site.Products {
//			p.Band, p.Frequency             // 2m, where a spectrum strip draws it
//			p.Form.Order(), p.Formula       // 3, 2 x 146.940 - 147.330 = 146.550
//			p.Sources, p.On                 // what mixes, and on whose input it falls
//		}
//	}
//
// # What is compared
//
// The repeaters of the plan with each other and with the neighbor list that the plan
// names, by the separation table of its region with the club's own rows over it.
// Neighbors among themselves are not compared. A repeater whose place is not known is
// not compared; Unplaced says which those are, and Unasked which have a band for which
// the table has no rows.
//
// All of it is an estimate without terrain. It is for asking the frequency coordinator,
// who has the last word, and never a reason to block.
package survey
