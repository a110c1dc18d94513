package rules_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"strings"
	"testing"

	"passband.example/plandiff/signal"
	"passband.example/review"
)

// ofLaw are the rules that the corpus is about: the law, the band plan, splits and steps.
var ofLaw = []string{
	"band-plan", "band-plan-law", "beside-calling", "calling-frequency", "class-not-entitled", "club-claim", "cut-off-decimals",
	"emission-not-allowed", "license-row-unusable", "near-band-edge", "off-band", "off-band-doubtful", "off-raster", "other-service",
	"place-barred", "place-unknown", "power-over-limit", "power-unclear", "privacy-doubtful", "privacy-on-amateur",
	"repeater-not-allowed", "simplex-on-input", "split-reversed", "split-unusual",
}

// ofAir are those of them that judge whether a signal may be sent at all.
var ofAir = []string{
	"band-plan-law", "class-not-entitled", "emission-not-allowed", "off-band", "off-band-doubtful", "other-service", "place-barred",
	"place-unknown", "repeater-not-allowed",
}

// A fragment is a part of a plan with what must be found in it.
type fragment struct {
	name, region, license, text string
	wants                       []verdict
}

// A verdict is a finding that must be there: its severity, its rule, and a part of what
// it rests on.
type verdict struct{ severity, rule, section string }

// TestLawCorpus judges plan fragments, legal and illegal, whose verdicts were written down from
// the texts of the regulations and band plans before the program was asked. What it finds is
// all of that and nothing else: precision and recall are one.
func TestLawCorpus(t *testing.T) {
	var s score
	cases := readCases(t, "testdata/law/cases.txt")
	for _, f := range cases {
		s.judge(t, f, ofLaw)
	}
	edges := readEdges(t, "testdata/law/edges.csv")
	for _, f := range edges {
		s.judge(t, f, ofAir)
	}
	t.Logf("%d fragments by hand and %d at edges, %d of them illegal or doubtful; %d findings wanted", len(cases), len(edges), s.faulty, s.right+s.missed)
	t.Logf("precision %.3f, recall %.3f", float64(s.right)/float64(s.right+s.surplus), float64(s.right)/float64(s.right+s.missed))
	if s.surplus+s.missed > 0 {
		t.Errorf("%d findings too many and %d missed", s.surplus, s.missed)
	}
	if len(cases) < 120 || len(edges) < 300 {
		t.Errorf("only %d and %d fragments", len(cases), len(edges))
	}
}

type score struct{ right, surplus, missed, faulty int }

func (s *score) judge(t *testing.T, f fragment, ids []string) {
	t.Helper()
	header := fmt.Sprintf("plan: Fragment\nedition: 2026\nregion: %s\nlicense: %s\n", f.region, f.license)
	left := append([]verdict{}, f.wants...)
	if len(left) > 0 {
		s.faulty++
	}
	for _, found := range check(t, only(ids...), load(t, map[string]string{"plan.yaml": header + f.text})) {
		i := match(left, found)
		if i < 0 {
			s.surplus++
			t.Errorf("%s: not wanted: %s %s: %s (%s)", f.name, found.Severity, found.Rule, found.What, found.Source)
			continue
		}
		s.right++
		left = append(left[:i], left[i+1:]...)
	}
	for _, w := range left {
		s.missed++
		t.Errorf("%s: not found: %s %s resting on %q", f.name, w.severity, w.rule, w.section)
	}
}

func match(wants []verdict, f review.Finding) int {
	for i, w := range wants {
		if w.rule == f.Rule && w.severity == f.Severity.String() && strings.Contains(f.Source, w.section) {
			return i
		}
	}
	return -1
}

// readCases reads fragments: "== name", a line with region and license, lines of YAML, and a
// line "severity rule section" for each finding, or "legal".
func readCases(t *testing.T, file string) []fragment {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var all []fragment
	for i, part := range strings.Split(string(data), "\n== ") {
		if i == 0 {
			continue // what the file is for
		}
		lines := strings.Split(strings.TrimSpace(part), "\n")
		f := fragment{name: lines[0]}
		f.region, f.license, _ = strings.Cut(lines[1], " ")
		told := false
		for _, line := range lines[2:] {
			first, rest, _ := strings.Cut(line, " ")
			switch first {
			case "legal":
				told = true
			case "block", "warn", "note":
				told = true
				rule, section, _ := strings.Cut(rest, " ")
				f.wants = append(f.wants, verdict{first, rule, section})
			default:
				f.text += line + "\n"
			}
		}
		if !told || f.text == "" {
			t.Fatalf("%s: the case has no verdict, or no plan", f.name)
		}
		all = append(all, f)
	}
	return all
}

// modes are the emissions of the corpus: how a plan writes them, and half of their width.
var modes = map[string]struct {
	text string
	half signal.Hertz
}{
	"wide": {"fm: {}", 8_000}, "narrow": {"fm: {width: narrow}", 5_500}, "dmr": {"dmr: {color_code: 1, %s}", 3_800},
}

// readEdges makes of each line of edges.csv and each of its emissions two fragments: the closest
// carrier inside, which is legal, and the one a hertz beyond.
func readEdges(t *testing.T, file string) []fragment {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var all []fragment
	for _, row := range rows[1:] {
		edge, err := signal.ParseMegahertz(row[4])
		if err != nil {
			t.Fatal(err)
		}
		for mode := range strings.FieldsSeq(row[5]) {
			inside, out := edge+modes[mode].half, signal.Hertz(-1)
			if row[3] == "high" {
				inside, out = edge-modes[mode].half, 1
			}
			severity, rule, _ := strings.Cut(row[6], " ")
			name := fmt.Sprintf("%s %s %s %s edge %s %s", row[0], row[1], row[2], row[3], row[4], mode)
			all = append(all,
				fragment{name + ", inside", row[0], row[1], onAir(row[2], mode, inside), nil},
				fragment{name + ", 1 Hz beyond", row[0], row[1], onAir(row[2], mode, inside+out), []verdict{{severity, rule, row[7]}}})
		}
	}
	return all
}

// onAir writes a plan that transmits once on a frequency: a simplex channel, or a repeater with
// that output or input whose other frequency is legal in the US for any mode.
func onAir(station, mode string, f signal.Hertz) string {
	const other = "446.5"
	groups := "groups: {a: {id: 99931}}\n"
	switch station {
	case "output":
		return groups + fmt.Sprintf("repeaters: {r: {output: %s, input: %s, %s}}\n", f, other, modeText(mode, "slot1: [a]"))
	case "input":
		return groups + fmt.Sprintf("repeaters: {r: {output: %s, input: %s, %s}}\n", other, f, modeText(mode, "slot1: [a]"))
	}
	return groups + fmt.Sprintf("channels: {c: {simplex: %s, %s}}\n", f, modeText(mode, "group: a"))
}

func modeText(mode, dmr string) string {
	if text := modes[mode].text; strings.Contains(text, "%s") {
		return fmt.Sprintf(text, dmr)
	}
	return modes[mode].text
}
