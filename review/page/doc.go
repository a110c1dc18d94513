// Package page writes a report that people look at: one HTML file with the change, the
// findings and the pictures of a plan.
//
//	err := page.Write(w, d) // d as the text of check and review is made from
//
// Without a comparison it shows a plan as it stands; with one, the change.
//
// # What is on it
//
// What changed, causes first and what they reach folded; the findings with their sources
// and places; each zone before and after; the memory of each class of radio against its
// limits; each band as strips of spectrum, with what the license and the band plan say of
// it above what the channels occupy; a map of the repeaters; and all channels in one table
// that can be searched. Every picture has a title, a description and a table that says the
// same. What package review/survey finds is drawn too: stations nearer than is asked as lines on
// the map, mixing products as arrows in the strips.
//
// # One file that fetches nothing
//
// Style and script stand in the file, and its content security policy allows these two by
// their hashes and nothing else: no image, no font, no request, no form. It opens from a
// disk, and without a script everything can be read; the search is hidden then.
//
// A plan is untrusted. Every text passes [report.Visible], so that what cannot be seen is
// shown as its code point, and package review/markup, which escapes it and has no other place for
// it. Nothing from a plan becomes a class, an ID, an address or a name of an attribute.
//
// # Large plans
//
// What a page cannot show without becoming slow it counts, and says which command prints
// it. The channel table holds every channel once, as compact JSON in columns whose repeated
// values stand there once, and the script puts a window of rows into the page; the first
// [MostRows] rows stand in the file as a table for readers without a script. Zones that did
// not change are folded, and from [MostMembers] channels on left to the filter of that
// table. A strip with many signals shows bars of how many there are; a map with many
// repeaters does so in cells.
//
// # Pictures
//
// No float touches a frequency: strips are worked out in whole hertz. The map is an
// azimuthal equidistant projection about the middle of what it shows, on WGS 84, by the
// geodesics of package review/rf, so that directions and distances from its middle are
// true. Both tell things apart by form and place, not by color alone.
package page
