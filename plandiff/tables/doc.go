// Package tables writes the channels of a plan as tables that any program can load, and
// reads such tables back, by a layout that the club writes itself.
//
// A table is a file of comma-separated values. Which tables there are, which columns
// they have and how a value is written stands in a layout, a small YAML file:
//
//	layout: Our tables
//	tables:
//	  - file: channels.csv
//	    rows: channels
//	    columns:
//	      - {header: Name, value: label}
//	      - {header: Receive, value: output, format: MHz 5}
//	      - {header: Offset, value: split, format: kHz, none: "off"}
//	      - {header: Tone, value: tone.send, none: "-"}
//	      - {header: Power, value: power, map: {low: Lo, high: Hi}, none: "-"}
//	      - {header: Version, text: "2"}
//	  - file: zones.csv
//	    rows: zones
//	    each: members.label
//	    columns:
//	      - {header: Zone, value: called}
//	      - {header: Channel, value: members.label}
//
// A layout is a file of its own. In the folder of a plan, where each .yaml is part of
// the plan, give it a name that ends otherwise: our.layout.
//
// # The file
//
// Beside its name and its tables a layout may say how the files are written:
//
//	encoding: utf-8        # or utf-8-bom, utf-16le, utf-16be, latin-1
//	separator: comma       # or semicolon, tab
//	decimal: point         # or comma
//	line_end: crlf         # or lf
//	note: For the people who look after it
//
// # A table
//
// It has the name of its file; what its rows are; and its columns, in their order. each
// names a list, such as the channels of a zone, and then there is a row for each item of
// it, and not one for the whole record.
//
// Rows are channels (what a radio holds: every talk path and every channel), or the
// records of a section of the plan. Values of records are called as in the plan: what
// stands under dmr and color_code is dmr.color_code. Beside those there are values that
// say the same in other words, such as the label of a group instead of its key. The list
// of all of them is at the end of this page.
//
// # A column
//
// header is the text of its first row, and value what it shows. Where a program wants a
// column that the plan knows nothing of, text gives what always stands there.
//
//	format    of a frequency or a split: MHz, kHz or Hz, and the number of decimals:
//	          "MHz 5"; of a tone: D023N or 023N, for how a DCS code is written
//	map       words for values: {yes: "On", no: "Off"}; other values stay as they are
//	none      what is written where nothing is set; an empty cell if it is left out
//	blank     the value that an empty cell means; it is written as an empty cell
//	join      what stands between the items of a list in one cell: "|"
//
// Where two values have one word in map, the word is read as the first of them, and that
// is told each time.
//
// # Writing
//
// Write gives the tables as one class of radio holds them: the channels that fit it, in
// the order of its zones, numbered, with labels cut to its display; or the whole plan.
// A value that a column cannot show exactly, such as a frequency with more decimals or a
// character that the encoding lacks, is an error that names row and column. Nothing is
// rounded. What the plan says and no column shows is told.
//
// # Formulas
//
// A spreadsheet program works out a cell that begins with =, +, -, @, a tab or the end of
// a line. A text from a plan that begins so, also behind blanks, gets an apostrophe
// before it, and so does one that begins with apostrophes and goes on so; reading takes
// one away, and gives every text back as it was. A number is no text: it is made of
// digits, a point and a sign, and the sign of a split or a longitude stays. No text of a
// layout may begin like a formula.
//
// # Reading
//
// Read makes a new plan of a plan and tables. A file is read as the table of its name, or
// as the one whose headers it has; columns may stand in any order. Its encoding, the
// separator and decimal commas are found by looking, and told. UTF-16 is known by its
// mark or its zero bytes; what is not UTF-8 is taken for latin-1.
//
// A row is about the record of its key; without one, about what is the same on the air;
// without that, about what has its label. What it says like the plan does changes
// nothing, however the plan says it: a cut label stays whole, a pattern stays a pattern.
// What a row says otherwise is changed where it stands: the output of a channel with its
// repeater, so that all rows of the repeater must agree; its power with the repeater if
// all of its channels say the same, else with the channel. Rows of one pair of
// frequencies and one color code that the plan does not have become one repeater, with
// their groups on its slots. New records get keys made of their labels.
//
// Nothing is removed but from lists: what the tables do not have stays in the plan, since
// a table may be of one radio or of one page. Take it out of the plan by hand.
//
// A row that cannot be read is told with file, row, column and what to do, all of them
// at once, and then there is no new plan: half a table would be loaded by somebody.
// What is not read for another reason, an unknown column or a color code in an FM row,
// is told with its count. Each cell that was to change something is looked up in the
// new plan, and is told where it would not read the same.
//
// Carry puts the new plan into the files of the old one, with comments, order and
// everything untouched kept.
//
// # Limits
//
// A layout has at most 1 MB, MaxTables tables and MaxColumns columns; a table at most 64
// MB and MaxRows rows. The header, the policy and the license rows of a plan are in no
// table: what is judged is for people to decide, not for a spreadsheet.
package tables
