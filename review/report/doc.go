// Package report writes what passband has to say: for people as text and as
// Markdown, for programs as JSON.
//
// A report is built once as a Page, a list of blocks, and written by one function
// a form: Text wraps to a width and colors where it may, Markdown escapes for a
// forge. The forms for programs are values of their own, with a version: see
// Document.
//
// Everything that comes from a plan is untrusted: a label may hold terminal
// escapes, Markdown, HTML or a mention of a stranger. Each writer makes every text
// safe for where it goes, at one place.
//
// # The JSON form
//
// Every JSON output is one object with "passband" (the kind of report: check, diff,
// review, radios, show, explain or rules), "version" (1; it grows only when a field
// changes its meaning or goes) and the fields of that kind. Frequencies are strings
// in MHz, as a plan writes them; places are {file, line, column}, counted from 1.
// Output ends with a line feed and is the same bytes for the same input.
package report
