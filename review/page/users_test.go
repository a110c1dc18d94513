package page_test

import (
	"strings"
	"testing"
)

// TestUsers shows who else is on a signal. Two repeaters on one channel are two stations on one
// frequency (from memory), and a picture that names one of them hides the other.
func TestUsers(t *testing.T) {
	const before = `plan: Shared
edition: 2026
region: US
license: technician
repeaters:
  mesa: {label: Mesa, output: 146.940, split: -0.6, fm: {tone: 100.0}}
`
	far := "  far: {label: Far Hill, output: 146.940, split: -0.6, fm: {tone: 103.5}}\n"
	taker := "  far: {label: Far Hill, callsign: N0QRV, output: 146.940, input: 146.340, fm: {tone: 103.5}, note: another owner, site: {lat: 40.1, lon: -104.2}}\n"
	third := "  low: {label: Low, output: 146.940, split: -0.6, fm: {tone: 107.2}}\n  dell: {label: Dell, output: 146.940, split: -0.6, fm: {tone: 88.5}}\n"
	for _, c := range []struct{ name, old, new, tag, row, why string }{
		{"a newcomer", before, before + far, "+ Far Hill, Mesa", "+ Far Hill, Mesa 1 → 2 others on it", "both share the box, and one came"},
		{"one left", before + far, before, "− Far Hill, Mesa", "− Far Hill, Mesa 2 → 1 others on it", "the same the other way"},
		{"another took over", before, strings.Replace(before, "  mesa: {label: Mesa, output: 146.940, split: -0.6, fm: {tone: 100.0}}\n", "", 1) + taker, "+ Far Hill, − Mesa", "+ Far Hill, − Mesa 1 others on it", "the number stays, the station does not"},
		{"four", before + far, before + far + third, "+ Dell, + Low, Far Hill and 1 more", "+ Dell, + Low, Far Hill, Mesa 2 → 4", "the picture counts the rest, the table names all"},
		{"another name", before, strings.Replace(before, "label: Mesa", "label: Mesa North", 1), "Mesa North", "Mesa North 1", "the same repeater: nobody came or went"},
	} {
		t.Run(c.name, func(t *testing.T) {
			root := byID(parse(t, render(t, changing(t, expand(t, of(c.old)), expand(t, of(c.new))))), "spectrum")
			var tags []string
			for _, text := range elements(root, "text") {
				if class, _ := attribute(text, "class"); class == "tag" {
					tags = append(tags, textOf(text))
				}
			}
			if len(tags) != 2 || tags[0] != c.tag || tags[1] != c.tag {
				t.Errorf("the boxes name %q, want twice %q: %s", tags, c.tag, c.why)
			}
			rows := 0
			for _, tr := range elements(root, "tr") {
				var cells []string
				for _, td := range elements(tr, "td") {
					cells = append(cells, textOf(td))
				}
				if strings.Contains(strings.Join(cells, " "), c.row) {
					rows++
				}
			}
			if rows != 2 {
				t.Errorf("%d rows of the table say %q, want 2: %s", rows, c.row, c.why)
			}
		})
	}
}
