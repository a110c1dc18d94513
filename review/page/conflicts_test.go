package page_test

import (
	"strings"
	"testing"
)

// crowded is a plan with two repeaters on one channel, and a hill whose transmitters mix.
const crowded = `plan: Crowded
edition: 2026
region: US
license: technician
repeaters:
  ridge: {label: Ridge, output: 146.940, split: -0.6, fm: {tone: 100.0}, site: {lat: 40.1, lon: -104.2}}
  far:   {label: Far, output: 146.940, split: -0.6, fm: {tone: 103.5}, site: {lat: 40.4, lon: -104.2}}
  hill:  {label: Hill, output: 147.330, split: +0.6, fm: {tone: 100.0}, site: {lat: 40.1, lon: -104.2}}
  side:  {label: Side, output: 147.150, split: -0.6, fm: {tone: 100.0}, site: {lat: 40.1, lon: -104.2}}
`

// TestConflicts draws what package survey finds. 2 x 146.940 - 147.330 = 146.550 is the textbook
// form of a third-order product; the distance of 0.3 degrees of latitude there is 33.3 km (WGS 84).
func TestConflicts(t *testing.T) {
	root := parse(t, render(t, standing(t, expand(t, of(crowded)))))
	chart, strips := byID(root, "map"), byID(root, "spectrum")
	lines := 0
	for _, p := range elements(chart, "path") {
		if class, _ := attribute(p, "class"); class == "link co" && strings.Contains(textOf(p), "146.940") {
			lines++
		}
	}
	if lines != 1 {
		t.Errorf("%d lines lead from one repeater to the other on its channel", lines)
	}
	if got := textOf(chart); !strings.Contains(got, "co-channel") || !strings.Contains(got, "33 km") {
		t.Errorf("the table beside the map does not tell of it: %s", got)
	}
	arrows := 0
	for _, p := range elements(strips, "path") {
		if class, _ := attribute(p, "class"); class == "mixing" {
			if strings.Contains(textOf(p), "order 3 on the input of side: 2 x 146.940 - 147.330 = 146.550 MHz") {
				arrows++
			}
		}
	}
	if arrows != 1 {
		t.Errorf("%d arrows point at the mixing product", arrows)
	}
	if got := textOf(strips); !strings.Contains(got, "Mixing products") || strings.Count(got, "2 x 146.940 - 147.330 = 146.550") < 2 {
		t.Error("the table does not list it")
	}
}

// TestAccepted draws a pair that a coordinator remarked on otherwise than one that nobody looked
// at, and writes no text of the map where a line can cross it.
func TestAccepted(t *testing.T) {
	const remark = "coordination:\n  letter: {repeater: ridge, with: far, by: Frequency coordinator, date: 2026-02-01, text: Coordinated as it is.}\n"
	classes := func(text string) (co, accepted, keys int) {
		chart := byID(parse(t, render(t, standing(t, expand(t, of(text))))), "map")
		for _, p := range elements(chart, "path") {
			switch class, _ := attribute(p, "class"); {
			case class == "link accepted":
				keys++
			case textOf(p) == "" || !strings.Contains(textOf(p), "same output, 146.940"):
			case class == "link co":
				co++
			case class == "link co accepted":
				accepted++
			}
		}
		for _, text := range elements(chart, "text") {
			if strings.Contains(textOf(text), "azimuthal") {
				t.Error("the caption stands in the picture")
			}
		}
		if got := textOf(elements(chart, "figcaption")[0]); !strings.Contains(got, "azimuthal equidistant") {
			t.Errorf("the caption is %q", got)
		}
		return co, accepted, keys
	}
	if co, accepted, keys := classes(crowded); co != 1 || accepted != 0 || keys != 0 {
		t.Errorf("nobody remarked: %d lines, %d as accepted, %d in the legend", co, accepted, keys)
	}
	if co, accepted, keys := classes(crowded + remark); co != 0 || accepted != 1 || keys != 1 {
		t.Errorf("the coordinator remarked: %d lines, %d as accepted, %d in the legend", co, accepted, keys)
	}
}
