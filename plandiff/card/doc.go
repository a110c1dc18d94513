// Package card makes what stands on the pocket cards that a club hands to newcomers:
// one card a zone, with the number of each channel on the knob, its label, what it
// hears and sends, what opens it, and when to use it.
//
//	cards, err := card.Of(x, card.Choice{Radio: "pocket"})
//	for _, c := range cards {
//		for _, row := range c.Rows {
//			fmt.Println(row.Number, row.Label, row.Hears(), row.Sends(), row.Opens(), row.When())
//		}
//	}
//
// A card for a class of radio shows labels and numbers as that radio does. What the
// radio cannot use, or has no room for, is named on the card and never left away in
// silence: see Card.LeftOut, Card.Beyond and Row.Beyond. Without a radio a card shows
// the zone as the plan has it.
//
// A card clears nothing. Whoever prints one says with it that the license holder
// answers for every transmission, and whether the plan was judged: package
// review/report does.
package card
