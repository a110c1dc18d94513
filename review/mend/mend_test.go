package mend_test

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"passband.example/plandiff/rewrite"
	"passband.example/review"
	"passband.example/review/mend"
	"passband.example/review/rules"
	"pgregory.net/rapid"
)

var today = plan.Date{Year: 2026, Month: 11, Day: 25}

const header = "plan: Example\nedition: 2026\nregion: US\nlicense: technician\n"

// TestPlan mends plans, and wants the text that a careful person would have written.
func TestPlan(t *testing.T) {
	for _, c := range []struct {
		name, why string
		old, new  string
		done      int
		left      string // why the first that is left is, or ""
	}{
		{"nothing", "a plan in order stays as it is", "channels:\n  call: {simplex: 146.520, fm: {}}\n", "channels:\n  call: {simplex: 146.520, fm: {}}\n", 0, ""},
		{"a tone", "comments, quotes and the spelling of other numbers stay",
			"channels:   # ours\n  call: {simplex: 146.5200, fm: {tone: '177.8'}}  # by letter\n",
			"channels:   # ours\n  call: {simplex: 146.5200, fm: {tone: '177.3'}}  # by letter\n", 1, ""},
		{"two of one record", "they touch different fields",
			"channels:\n  call: {simplex: 146.52, fm: {tone: {send: 67.1, receive: 67.1}}}\n",
			"channels:\n  call: {simplex: 146.52, fm: {tone: {send: 67.0, receive: 67.0}}}\n", 2, ""},
		{"two of one field", "one after the other",
			"channels:\n  call: {simplex: 146.52, fm: {}}\n  chat: {simplex: 146.55, fm: {}}\nzones:\n  z:\n    channels:\n      - call\n      - chat\n      - call # again\n      - call\n",
			"channels:\n  call: {simplex: 146.52, fm: {}}\n  chat: {simplex: 146.55, fm: {}}\nzones:\n  z:\n    channels:\n      - call\n      - chat\n", 2, ""},
		{"an entry", "the comment on its line is about it still",
			"channels:\n  call: {simplex: 146.52, fm: {}}\n  chat: {simplex: 146.55, fm: {}}\nzones:\n  z:\n    channels:\n      - chat\n      - calk # first\n",
			"channels:\n  call: {simplex: 146.52, fm: {}}\n  chat: {simplex: 146.55, fm: {}}\nzones:\n  z:\n    channels:\n      - chat\n      - call # first\n", 1, ""},
		{"a sign", "the split is written otherwise, as the plan writes it",
			"repeaters:\n  r: {output: 146.940, split: +0.6, fm: {}} # coordinated\n",
			"repeaters:\n  r: {output: 146.940, split: -0.6, fm: {}} # coordinated\n", 1, ""},
		{"a sign that the law bars", "with the other sign the split is usual, and the tone is another matter",
			"repeaters:\n  r: {output: 442.150, split: -5, fm: {tone: 177.8}} # coordinated\n",
			"repeaters:\n  r: {output: 442.150, split: +5, fm: {tone: 177.3}} # coordinated\n", 2, ""},
		{"an input that the law bars", "it is written as an input, as the plan writes it",
			"repeaters:\n  r:\n    output: 442.150\n    input: 437.150  # by letter\n    fm: {}\n    dmr: {color_code: 1}\n",
			"repeaters:\n  r:\n    output: 442.150\n    input: 447.150  # by letter\n    fm: {}\n    dmr: {color_code: 1}\n", 1, ""},
		{"decimals", "the split stays, and the input goes along",
			"repeaters:\n  r: {output: 443.012, split: +5, fm: {width: narrow}}\n",
			"repeaters:\n  r: {output: 443.0125, split: +5, fm: {width: narrow}}\n", 1, ""},
		{"the same signal", "on the air nothing changes, and the spelling does",
			"repeaters:\n  r: {output: 444.325, split: +5, fm: {tone: D340I}}\n",
			"repeaters:\n  r: {output: 444.325, split: +5, fm: {tone: D047N}}\n", 1, ""},
		{"brings another", "the mended channel would do the same as the other",
			"channels:\n  call: {label: Call, simplex: 146.52, fm: {tone: 177.8}}\n  chat: {label: Chat, simplex: 146.52, fm: {tone: 177.3}}\n",
			"channels:\n  call: {label: Call, simplex: 146.52, fm: {tone: 177.8}}\n  chat: {label: Chat, simplex: 146.52, fm: {tone: 177.3}}\n", 0, "another fault"},
		{"brings a milder one", "a channel that members may not use is worse than two that meet",
			"repeaters:\n  r: {output: 442.150, split: -5, fm: {}}\nchannels:\n  chat: {simplex: 447.150, fm: {}}\n",
			"repeaters:\n  r: {output: 442.150, split: +5, fm: {}}\nchannels:\n  chat: {simplex: 447.150, fm: {}}\n", 1, ""},
		{"an anchor", "what else it would change is for a person to decide",
			"channels:\n  call: {simplex: 146.52, fm: &fm {tone: 177.8}}\n  chat: {simplex: 146.55, fm: *fm}\n",
			"channels:\n  call: {simplex: 146.52, fm: &fm {tone: 177.8}}\n  chat: {simplex: 146.55, fm: *fm}\n", 0, "by hand"},
		{"one of several does not go", "the others do",
			"channels:\n  a: {simplex: 146.43, fm: {tone: 199.3}}\n  call: {simplex: 146.52, fm: &fm {tone: 177.8}}\n  chat: {simplex: 146.55, fm: *fm}\n  d: {simplex: 146.58, fm: {tone: 69.4}}\n",
			"channels:\n  a: {simplex: 146.43, fm: {tone: 199.5}}\n  call: {simplex: 146.52, fm: &fm {tone: 177.8}}\n  chat: {simplex: 146.55, fm: *fm}\n  d: {simplex: 146.58, fm: {tone: 69.3}}\n", 2, "by hand"},
		{"accepted", "the club lives with it",
			"channels:\n  call: {simplex: 146.52, fm: {tone: 177.8}}\nreview:\n  accept:\n    - {rule: tone-not-standard, at: call, until: 2027-01-01, reason: old equipment}\n",
			"channels:\n  call: {simplex: 146.52, fm: {tone: 177.8}}\nreview:\n  accept:\n    - {rule: tone-not-standard, at: call, until: 2027-01-01, reason: old equipment}\n", 0, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := mend.Plan(context.Background(), rules.All(), map[string][]byte{"plan.yaml": []byte(header + c.old)}, today)
			if err != nil {
				t.Fatal(err)
			}
			got := header + c.old
			if text, ok := r.Files["plan.yaml"]; ok {
				got = string(text)
			}
			if diff := cmp.Diff(header+c.new, got); diff != "" {
				t.Errorf("%s:\n%s", c.why, diff)
			}
			if len(r.Done) != c.done {
				t.Errorf("%d are mended, want %d", len(r.Done), c.done)
			}
			if c.left == "" && len(r.Left) > 0 || c.left != "" && (len(r.Left) == 0 || !strings.Contains(r.Left[0].Why, c.left)) {
				t.Errorf("left is %+v, want %q", r.Left, c.left)
			}
		})
	}
}

// TestOperators mends a callsign in the table, whose rows have no keys of their own.
func TestOperators(t *testing.T) {
	r, err := mend.Plan(context.Background(), rules.All(), map[string][]byte{
		"plan.yaml": []byte(header), "operators.csv": []byte("id,callsign,name\n9990001,N0QR0,\"Ann, of the hill\"\n9990002,N0QRV,Ben\n"),
	}, today)
	if err != nil {
		t.Fatal(err)
	}
	if got := string(r.Files["operators.csv"]); got != "id,callsign,name\n9990001,N0QRO,\"Ann, of the hill\"\n9990002,N0QRV,Ben\n" || len(r.Files) != 1 {
		t.Errorf("the files are %q", r.Files)
	}
}

// TestRefused wants nothing mended that cannot be read, and nothing half.
func TestRefused(t *testing.T) {
	text := header + "channels:\n  call: {simplex: 146.52, fm: {tone: 177.8}}\n"
	cancelled, cancel := context.WithCancel(context.Background())
	cancel()
	for _, c := range []struct {
		name, why string
		ctx       context.Context
		text      string
		want      string
	}{
		{"syntax", "nothing is known of the rest", context.Background(), text + "zones: [\n", "before the whole plan can be read"},
		{"a value", "it would be lost with the record", context.Background(), text + "  chat: {simplex: high, fm: {}}\n", "before the whole plan can be read"},
		{"stopped", "half of it is nothing", cancelled, text, context.Canceled.Error()},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := mend.Plan(c.ctx, rules.All(), map[string][]byte{"plan.yaml": []byte(c.text)}, today)
			if r != nil || err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%s: got %v and %v", c.why, r, err)
			}
		})
	}
}

// TestMisleading gives rules whose mends do not mend, and wants none of them carried
// out, however many there are, and all others.
func TestMisleading(t *testing.T) {
	relabel := func(id, from, to string) *review.Rule {
		return &review.Rule{ID: id, Severity: review.Warn, Edition: 2026, Run: func(p *review.Pass) {
			for _, c := range p.Plan.Channels.All() {
				if strings.HasPrefix(c.Label.V, from) {
					p.Report(review.Finding{At: c.Label.At, About: []plan.Thing{c.Thing()}, Values: []string{c.Label.V}, What: id,
						Mend: review.Mend{review.Setting(c, "label", to+strings.TrimPrefix(c.Label.V, from))}})
				}
			}
		}}
	}
	still := relabel("still", "a", "a")
	bringing := relabel("bringing", "b", "c")
	from := relabel("from-c", "c", "b") // as severe, and would lead back
	good := relabel("good", "x", "y")
	var text strings.Builder
	text.WriteString(header + "channels:\n")
	for i := range 40 {
		fmt.Fprintf(&text, "  n%02d: {label: %s%d, simplex: 146.52, fm: {}}\n", i, []string{"a", "b", "x"}[i%3], i)
	}
	r, err := mend.Plan(context.Background(), []*review.Rule{still, bringing, from, good}, map[string][]byte{"plan.yaml": []byte(text.String())}, today)
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Done) != 13 || len(r.Left) != 27 || slices.ContainsFunc(r.Done, func(d mend.Done) bool { return d.Finding.Rule != "good" || len(d.Brought) > 0 }) {
		t.Errorf("%d are mended and %d left", len(r.Done), len(r.Left))
	}
	if want := strings.ReplaceAll(text.String(), "label: x", "label: y"); string(r.Files["plan.yaml"]) != want {
		t.Error(cmp.Diff(want, string(r.Files["plan.yaml"])))
	}
}

// TestBrings gives rules whose mends bring milder findings, in a row, and wants each carried
// out, told with what it brought and is still there, and nothing beyond.
func TestBrings(t *testing.T) {
	chain := func(severity review.Severity, id, from, to string) *review.Rule {
		return &review.Rule{ID: id, Severity: severity, Edition: 2026, Run: func(p *review.Pass) {
			for _, c := range p.Plan.Channels.All() {
				if c.Label.V == from {
					f := review.Finding{At: c.Label.At, About: []plan.Thing{c.Thing()}, What: id}
					if to != "" {
						f.Mend = review.Mend{review.Setting(c, "label", to)}
					}
					p.Report(f)
				}
			}
		}}
	}
	all := []*review.Rule{
		chain(review.Block, "blocks", "a", "b"), chain(review.Warn, "warns", "b", "c"), chain(review.Note, "notes", "c", ""),
		chain(review.Note, "climbs", "x", "b"), chain(review.Warn, "turns", "y", "z"), chain(review.Warn, "returns", "z", "y"),
	}
	text := header + "channels:\n  one: {label: a, simplex: 146.52, fm: {}}\n  two: {label: a, simplex: 146.55, fm: {}}\n  low: {label: x, simplex: 146.58, fm: {}}\n  odd: {label: y, simplex: 146.43, fm: {}}\n"
	r, err := mend.Plan(context.Background(), all, map[string][]byte{"plan.yaml": []byte(text)}, today)
	if err != nil {
		t.Fatal(err)
	}
	var done, left []string
	for _, d := range r.Done {
		line := d.Finding.What + " " + d.Finding.About[0].Key
		for _, f := range d.Brought {
			line += ", brought " + f.What + " " + f.About[0].Key
		}
		done = append(done, line)
	}
	for _, l := range r.Left {
		left = append(left, l.Finding.What+" "+l.Finding.About[0].Key)
	}
	slices.Sort(done)
	if diff := cmp.Diff([]string{"blocks one", "blocks two", "warns one, brought notes one", "warns two, brought notes two"}, done); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff([]string{"climbs low", "turns odd"}, left); diff != "" {
		t.Error(diff)
	}
	if want := strings.ReplaceAll(text, "label: a", "label: c"); string(r.Files["plan.yaml"]) != want {
		t.Error(cmp.Diff(want, string(r.Files["plan.yaml"])))
	}
}

// TestAnyPlan mends random plans: each mend takes its finding away and brings none that is as
// severe, and mending again does nothing.
func TestAnyPlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		files, err := plan.Files(plantest.Plan(t))
		if err != nil {
			t.Fatal(err)
		}
		r, err := mend.Plan(context.Background(), rules.All(), files, today)
		if err != nil {
			t.Fatal(err)
		}
		before, err := review.Check(context.Background(), rules.All(), r.Before, today)
		if err != nil {
			t.Fatal(err)
		}
		was := make(map[string]int)
		for _, f := range before.Findings {
			was[f.ID()]++
		}
		brought, mended := 0, 0
		for _, d := range r.Done {
			if was[d.Finding.ID()] > 0 { // and not one that a mend before it brought
				was[d.Finding.ID()]--
				mended++
			}
			brought += len(d.Brought)
			for _, f := range d.Brought {
				if f.Severity >= d.Finding.Severity {
					t.Errorf("mending %s brought %s: %s", d.Finding.What, f.Rule, f.What)
				}
			}
		}
		if len(r.Verdict.Findings) > len(before.Findings)-mended+brought {
			t.Errorf("%d findings were there, %d of them are mended, %d came, and there are %d", len(before.Findings), mended, brought, len(r.Verdict.Findings))
		}
		for name, text := range r.Files {
			files[name] = text
		}
		p, err := rewrite.Load(files)
		if err != nil || len(p.Problems) > 0 {
			t.Fatal(errors.Join(err, fmt.Errorf("%v", p.Problems)))
		}
		if diff := plantest.Equal(p, r.After.Plan); diff != "" {
			t.Errorf("the files are not the plan: %s", diff)
		}
		again, err := mend.Plan(context.Background(), rules.All(), files, today)
		if err != nil {
			t.Fatal(err)
		}
		if len(again.Done) > 0 || len(again.Files) > 0 {
			t.Errorf("mended again: %+v", again.Done)
		}
	})
}
