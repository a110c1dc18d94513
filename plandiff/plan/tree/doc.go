// Package tree reads a text in YAML as a flat tree of nodes, each with its line and
// column, for package plan to walk.
//
// There are two readers, and both give the same tree. The scanner knows the part of
// YAML in which nearly all plans are written, in one pass over the text and with one
// allocation for all nodes:
//
//	mappings and lists in block form, indented by blanks
//	[lists] and {mappings: in flow form}, also over several lines
//	plain values, and values in quotes without \ or a doubled quote, on one line
//	comments, but not between the brackets of a flow form
//
// At the first thing that is anything else it gives up, whether that is YAML or a
// mistake, and the whole text is read by yaml.v3, which alone says what is wrong.
// FuzzParse holds the two against each other: what the scanner reads, yaml.v3 reads
// as the same tree.
//
// The tree knows nothing of plans. It has no values either, only their texts: whether
// 023 is a number is for the one who asks.
package tree
