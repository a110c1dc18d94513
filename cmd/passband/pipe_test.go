package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/rogpeppe/go-internal/txtar"
	"passband.example/plandiff"
	"passband.example/plandiff/demo"
	"passband.example/plandiff/merge"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
	"passband.example/plandiff/rewrite"
	"passband.example/review"
	"passband.example/review/mend"
	"passband.example/review/page"
	"passband.example/review/report"
	"passband.example/review/rules"
)

// FuzzPipe carries three plans through all that the program does with plans: reading, working
// out, comparing, applying and undoing, judging, merging, rewriting, mending, and each form of
// report. A plan is a txtar archive of its files, so that names are hostile too. Fuzz targets of
// the rooms hold each stage to more; this one holds what a stage makes of the one before it.
func FuzzPipe(f *testing.F) {
	seedPipe(f)
	f.Fuzz(func(t *testing.T, base, ours, theirs string) {
		carry(t, archived(base), archived(ours), archived(theirs))
	})
}

// TestPipeOfTheDemo carries the demo's proposal through the same. Of so large a plan the fuzzer
// would try few variants.
func TestPipeOfTheDemo(t *testing.T) {
	before := make(map[string]fs.FS)
	for _, c := range demo.History() {
		before[c.Name] = c.Plan
		if c.Branch == demo.Proposal {
			carry(t, filesOf(t, before[c.Parent]), filesOf(t, c.Plan), filesOf(t, demo.Plan()))
		}
	}
}

// carry runs three plans through the program twice: it says the same.
func carry(t *testing.T, base, ours, theirs map[string][]byte) {
	t.Helper()
	run := func() map[string]string {
		p := &pipe{T: t, base: base, ours: ours, theirs: theirs, said: make(map[string]string)}
		p.run()
		return p.said
	}
	once, twice := run(), run()
	for name, text := range once {
		if twice[name] != text {
			t.Errorf("%s is other bytes the second time:\n%s\nand\n%s", name, text, twice[name])
		}
	}
}

// seedPipe gives the plans of the loader's and the rules' tests.
func seedPipe(f *testing.F) {
	clean := archive(f, "../../testdata/faults/clean.txtar")
	f.Add(clean, archive(f, "../../testdata/faults/faulty.txtar"), clean)
	names, err := filepath.Glob("../../plandiff/plan/testdata/load/*.txtar")
	if err != nil {
		f.Fatal(err)
	}
	last := pipePlan
	for _, name := range names {
		now := archive(f, name)
		f.Add(last, now, last)
		last = now
	}
	for _, edit := range [][2]string{
		{"output: 444.325", "output: 444.350"}, {"ridge", "summit"}, {"zones:", "zones: &z"},
		{"label: Call", `label: "=cmd|<b>\e[31m` + "\u202e]]>|`x`\""},
	} {
		f.Add(pipePlan, strings.ReplaceAll(pipePlan, edit[0], edit[1]), strings.Replace(pipePlan, "id: 99932", "id: 99933", 1))
	}
}

const pipePlan = `-- plan.yaml --
plan: Small
edition: 2026
region: US
license: technician
neighbors: neighbors.csv
repeaters:
  ridge: {label: Ridge, output: 444.325, split: +5, fm: {tone: 103.5}, dmr: {color_code: 4, slot1: [statewide], slot2: [local]}, site: {lat: 40.1, lon: -104.2, erp_w: 50}}
  knob: {output: 449.325, split: -5, fm: {tone: 88.5}, site: {grid: DN70}} # the other way round
channels:
  calling: {label: Call, simplex: 146.52, fm: {}}
zones:
  home: {label: Home, channels: [ridge/1/*, ridge/fm, calling]}
scan_lists:
  hills: {channels: [ridge/fm, calling], priority: calling}
review:
  severity: {label-too-long: block}
  accept: [{rule: co-channel, at: ridge, until: 2027-06-01, reason: a letter}]
-- more/groups.yaml --
groups:
  statewide: {id: 99931, label: State}
  local: {id: 99932}
radios:
  pocket: {bands: [144-148, 420-450], modes: [fm, dmr], label_length: 8, limits: {channels: 3}}
-- operators.csv --
id,callsign,name
9990001,N0QRX,Pat
-- neighbors.csv --
callsign,label,output,split,lat,lon
N0QRY,Far,444.325,+5,40.2,-104.3
`

// archived gives the files of a plan that is an archive; one without a name is plan.yaml.
func archived(text string) map[string][]byte {
	files := make(map[string][]byte)
	a := txtar.Parse([]byte(text))
	if len(a.Files) == 0 {
		files[plan.RootFile] = a.Comment
	}
	for _, file := range a.Files {
		if fs.ValidPath(file.Name) {
			files[file.Name] = file.Data
		}
	}
	return files
}

func archive(f *testing.F, name string) string {
	text, err := os.ReadFile(name)
	if err != nil {
		f.Fatal(err)
	}
	return string(text)
}

func filesOf(t *testing.T, files fs.FS) map[string][]byte {
	all := make(map[string][]byte)
	err := fs.WalkDir(files, ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			all[name], err = fs.ReadFile(files, name)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// A pipe is one run of three plans through the program.
type pipe struct {
	*testing.T
	base, ours, theirs map[string][]byte
	said               map[string]string // all that came out, by what it is
}

var pipeDay = plan.Date{Year: 2026, Month: 11, Day: 25}

func (p *pipe) run() {
	loaded := plan.LoadEach(context.Background(), plantest.FS(p.base), plantest.FS(p.ours))
	if loaded[0].Err != nil || loaded[1].Err != nil {
		return // no plan there
	}
	base, ours := loaded[0].Plan, loaded[1].Plan
	p.judge(base, ours)
	p.merge()
	p.mend()
	if len(base.Problems) > 0 || len(ours.Problems) > 0 {
		return
	}
	p.apply(base, ours)
	p.tidy(ours)
}

// judge says what changed and what is wrong, in every form.
func (p *pipe) judge(base, ours *plan.Plan) {
	p.Helper()
	c := plandiff.Compare(plan.Expand(base), plan.Expand(ours))
	v, err := review.Judge(context.Background(), rules.All(), c, nil, pipeDay)
	if err != nil {
		p.Fatal(err)
	}
	d := &report.Document{Old: &report.Origin{Name: "main"}, New: &report.Origin{Name: "north", Folder: "a <b>"}, Comparison: c, Verdict: v, Expansion: c.New, Unfold: true}
	for name, shown := range map[string]*report.Page{"review": report.Review(d), "check": report.Check(d), "diff": report.Diff(d), "radios": report.Radios(d)} {
		p.say(name+" in Markdown", func(w io.Writer) error { return report.Markdown(w, shown) })
		text := p.say(name, func(w io.Writer) error { return report.Text(w, shown, report.Terminal{Width: 60}) })
		if i := strings.IndexFunc(text, func(r rune) bool { return r != '\n' && !unicode.IsPrint(r) }); i >= 0 || !utf8.ValidString(text) {
			p.Errorf("%s: byte %d would not be shown:\n%q", name, i, text)
		}
	}
	for name, write := range map[string]func(io.Writer) error{
		"the JSON":      func(w io.Writer) error { return report.JSON(w, d) },
		"the radios":    func(w io.Writer) error { return report.RadiosJSON(w, d) },
		"the map":       func(w io.Writer) error { return report.MapJSON(w, d) },
		"code scanning": func(w io.Writer) error { return report.Sarif(w, d, rules.All()) },
	} {
		if text := p.say(name, write); !json.Valid([]byte(text)) {
			p.Errorf("%s is no JSON:\n%s", name, text)
		}
	}
	p.say("the page", func(w io.Writer) error { return page.Write(w, d) })
	p.said["annotations"] = report.Annotations(d)
}

func (p *pipe) say(name string, write func(io.Writer) error) string {
	p.Helper()
	var b bytes.Buffer
	if err := write(&b); err != nil {
		p.Errorf("%s: %v", name, err)
	}
	p.said[name] = b.String()
	return b.String()
}

// merge puts the three together: what comes out without a conflict is a plan, and a side that
// changed nothing changes nothing.
func (p *pipe) merge() {
	p.Helper()
	r, err := merge.Plans(p.base, p.ours, p.theirs, merge.Labels{})
	if err == nil {
		for name, text := range r.Files {
			p.said["merged "+name] = string(text)
		}
		if merged := plantest.Load(p, r.Files); len(r.Conflicts) == 0 && len(merged.Problems) > 0 {
			p.Errorf("merged, it cannot be read: %v", merged.Problems[0])
		}
	} else if unreadable := (*merge.Unreadable)(nil); !errors.As(err, &unreadable) {
		p.said["not merged"] = err.Error()
	}
	r, err = merge.Plans(p.base, p.ours, p.base, merge.Labels{})
	if err == nil {
		if len(r.Conflicts) > 0 {
			p.Errorf("one side changed nothing, and yet: %v", r.Conflicts[0])
		} else if diff := plantest.Equal(plantest.Load(p, p.ours), plantest.Load(p, r.Files)); diff != "" {
			p.Errorf("one side changed nothing, and yet: %s", diff)
		}
	}
}

// mend mends what a machine can: the plan can still be read.
func (p *pipe) mend() {
	p.Helper()
	r, err := mend.Plan(context.Background(), rules.All(), p.ours, pipeDay)
	if err != nil {
		p.said["not mended"] = err.Error()
		return
	}
	now := maps.Clone(p.ours)
	maps.Copy(now, r.Files)
	for name, text := range r.Files {
		p.said["mended "+name] = string(text)
	}
	if was, is := plantest.Load(p, p.ours), plantest.Load(p, now); len(was.Problems) == 0 && len(is.Problems) > 0 {
		p.Errorf("mended, it cannot be read: %v", is.Problems[0])
	}
}

// apply is promise 2 of the design: the changes are the whole account, both as a plan and as text.
func (p *pipe) apply(base, ours *plan.Plan) {
	p.Helper()
	changes := plandiff.Compare(plan.Expand(base), plan.Expand(ours)).Changes
	p.leads(base, changes, ours)
	p.leads(ours, plandiff.Invert(changes), base)
	texts, err := rewrite.Apply(p.base, base, changes)
	if unsafe := (*rewrite.Unsafe)(nil); errors.As(err, &unsafe) {
		return // by hand
	}
	if err != nil {
		p.said["not written"] = err.Error()
		return
	}
	now := maps.Clone(p.base)
	maps.Copy(now, texts)
	if diff := plantest.Equal(ours, plantest.Load(p, now)); diff != "" {
		p.Errorf("written into the text: %s", diff)
	}
}

func (p *pipe) leads(from *plan.Plan, changes []plandiff.Change, to *plan.Plan) {
	p.Helper()
	got, err := plandiff.Apply(from, changes)
	if err != nil {
		p.Errorf("applying %+v: %v", changes, err)
	} else if diff := plantest.Equal(got, to); diff != "" {
		p.Errorf("applying %+v: %s", changes, diff)
	}
}

// tidy lays the text out anew; the plan stays.
func (p *pipe) tidy(ours *plan.Plan) {
	p.Helper()
	texts, err := rewrite.Tidy(p.ours, ours)
	if err != nil {
		p.said["not tidied"] = err.Error()
		return
	}
	now := maps.Clone(p.ours)
	maps.Copy(now, texts)
	if diff := plantest.Equal(ours, plantest.Load(p, now)); diff != "" {
		p.Errorf("laid out anew: %s", diff)
	}
}
