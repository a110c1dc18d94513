package rules

import (
	"passband.example/plandiff/plan"
	"passband.example/review"
)

// fieldsNamed gives the fields of a kind of record by their names.
func fieldsNamed(kind plan.Kind, names ...string) []*plan.Field {
	fields := make([]*plan.Field, 0, len(names))
	for _, name := range names {
		fields = append(fields, plan.SectionOf(kind).Field(name))
	}
	return fields
}

// stated gives those of the fields that the record says, by name and place. One
// that could not be read is not among them.
func stated(r plan.Record, fields []*plan.Field) []plan.Item {
	var said []plan.Item
	for _, f := range fields {
		if items := f.Items(r); len(items) > 0 {
			said = append(said, plan.Item{Text: f.Name, At: items[0].At})
		}
	}
	return said
}

// texts gives the texts of items.
func texts(items []plan.Item) []string {
	all := make([]string, len(items))
	for i, item := range items {
		all[i] = item.Text
	}
	return all
}

// places lists where items stand.
func places(items []plan.Item) []review.Related {
	var also []review.Related
	for _, i := range items {
		also = append(also, review.Related{At: i.At, Text: i.Text + " stands here"})
	}
	return also
}
