// Package layout keeps a YAML text as its author laid it out: every byte of it,
// the comments, blank lines and blanks too, hangs on a tree of values that can
// be changed and written back.
//
//	doc, err := layout.Parse(text)
//	entry := doc.Root.Find("zones")
//	entry.Value.Find("valley").Value.Find("label").Value.SetText("Valley")
//	text = doc.Bytes()
//
// # The tree
//
// A Node is a value: a scalar, a mapping, a sequence or an alias. A mapping and a
// sequence hold Entries; an entry has what stands before it (Lead), its key or
// hyphen, what stands between the key and the value (Sep), the value, and what
// follows on the line (Trail). Bytes puts all pieces together again: a tree that
// nobody changed gives the bytes it was parsed from.
//
// # Changing
//
// SetText gives a scalar another text, in the quotes that it has, where they still
// serve. Insert, Remove and Arrange change what a container holds. A comment at
// the end of an entry's line, and those directly above it, go where the entry
// goes; blank lines and other comments stay. The commas of a list between brackets
// follow.
//
// # Records left closed
//
// ParseRecords reads of a large text only where its records begin, and each of them
// when it is asked for: Find opens what it finds, and who walks over Entries calls
// Open on those whose values matter. A closed entry has its key and what stands before
// it; Same, String and Remove do not need more.
//
// # What it does not do
//
// Package tree says what the text means; this package only finds where it stands. A
// text in a form that plans do not need (a key marked with ?, a pair without
// braces inside a list) is refused with an error that names the line. A value with
// an anchor (&) and one that repeats another (*) can be written back, but not
// changed: Locked tells.
package layout
