// Package report writes what passband has to say: for people as text and as
// Markdown, for programs as JSON.
//
// A report is built once as a Page, a list of blocks, and written by one function
// a form: Text wraps to a width and colors where it may, Markdown escapes for a
// forge. The forms for programs are values of their own, with a version.
//
//	d := &report.Document{New: origin, Expansion: x, Verdict: v}
//	err := report.Text(os.Stdout, report.Check(d), report.Terminal{Width: 80})
//	err = report.JSON(os.Stdout, d)
//
// Everything that comes from a plan is untrusted: a label may hold terminal
// escapes, Markdown, HTML or a mention of a stranger. Each writer makes every text
// safe for where it goes, at one place: see Visible, and the functions of Markdown. In
// continuous integration what is printed goes through Unheeded as well, since a runner
// reads commands out of it.
//
// # The JSON form
//
// Every JSON output is one object with "passband" (the kind of report: check, mend, diff,
// review, posting, radios, policy, card, map, show, log, trace, notes, explain, rules, law,
// law-tables, pairs, export or import), "version" (1; it grows only when a field changes its
// meaning or goes) and the fields of that kind.
// New fields may come at any time. What is not known or not there is left out where the list says "?".
// Frequencies are strings in MHz, as a plan writes them. Output ends with a line
// feed and is the same bytes for the same input.
//
//	check     passband version plan at blocks skipped? rules edition findings accepted caution
//	mend      passband version plan at blocks skipped? rules edition findings accepted caution files mended left
//	diff      passband version plan old new empty causes renames capped? verdict?
//	radios    passband version plan at radios
//	policy    passband version plan? at rules header severities accepted tables caution
//	card      passband version plan at blocks cards caution
//	map       passband version plan at places nowhere
//	show      passband version plan at channels records
//	log       passband version plan of since? thing? by? at_least? entries reformatted lighter shallow
//	trace     passband version plan at things
//	pairs     passband version band mode where region offered pairs left_out cautions caution
//	pair      output input split margin? reasons
//	law       passband version frequency region class? fallback? may rows segments splits services caution
//	law-tables passband version tables caution
//	explain   passband version id severity edition title what why fix source fails passes
//	rules     passband version rules
//	manual    passband version text
//	export    passband version plan at radio? tables left_out missing notices
//	import    passband version tables notices problems written change?
//
// A review is a diff with a verdict; the fields of notes are told in package
// notes. A posting is what "passband review --json" would post: its fields are those of
// Form in package post. What these hold:
//
//	origin    name hash? subject? note? folder?
//	place     file line? column?
//	thing     kind key
//	finding   id rule severity at about values? what why? fix? source? also? mend? standing eased?
//	related   at text
//	accepted  finding until reason
//	mended    finding brought
//	left      finding obstacle
//	verdict   blocks skipped? rules edition findings gone accepted caution
//	cause     thing weight changes reach
//	change    op was? weight at was_at? edits match?
//	edit      field old new at? was_at? steps?
//	step      op item from? to?
//	match     how alike_percent
//	reach     channels zones scan_lists radios
//	effect    op channel was? aspects?
//	aspect    name old new weight
//	rename    kind old new
//	radio     key label uses left_out
//	use       limit used most most_in?
//	left-out  channel why
//	header-key name value at?
//	severity  rule usual in_force because at?
//	lived-with rule of until reason covers expired at
//	own-rows  file rows
//	zone-card zone label radio? beyond? stops? rows left_out
//	place-of  repeater label lat lon locator? uncertainty_m?
//	card-row  number channel label hears sends split? opens? when? kind blocks? beyond? listens_because? at?
//	channel   name path label mode receive? transmit? wide? tone_sent? tone_received? color_code? slot? group? listens_for? scan_list? power? timeout_s? access? when? privacy? zones because
//	because   thing at
//	record    thing at fields
//	entry     commit standing folder? moved_from? compared_with? causes problem?
//	commit    hash author email when subject parents
//	edited    thing weight changes reach?
//	problem   at what why? fix? count
//	traced    thing worked_out attributes
//	attribute name item? value weight from commit hidden? op was as?
//	from      thing field item? at
//	may       signal designator width_hz by outcome reasons from_memory closest_low? closest_high?
//	row       classes service station? place? low high right emissions max_width_hz? max_power? condition? rests_on
//	segment   plan low high use force superseded? steps_hz rests_on
//	split     split input rests_on
//	service   service name receive transmit? who rests_on
//	rests     source edition confidence note? file line club?
//	table     region name authority? holds classes rows segments splits services
//	count     read part memory
//	tabled    file rows
//	missing   kind field count
//	refused   file row? column? header? what fix?
//
// A place counts lines and columns from 1, columns in characters; its file is
// below the root of the plan, to which the folder of its origin leads: from where
// passband ran, or in a commit from the top of the repository. A place whose
// file is empty is none. An accepted finding has the fields of a finding too. A severity is block, warn or note; a standing
// new, still there or gone; a weight air, layout, label or policy; what happened
// (op) added, removed, renamed or changed, in a list added, removed or moved. A
// "most" of null means that the radio states no limit, a transmit that is left out
// that the channel never transmits. The id of a finding stays the same while the
// rule, the records and the values that make it wrong do. A mend is what would mend
// it, where a machine can tell: a list of edits, each with its thing, field, old and
// new, the values in the text of a plan.
package report
