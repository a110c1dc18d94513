package report

import (
	"bytes"
	"encoding/json"
	"io"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

// DiffJSON is the JSON form of Diff, and with the verdict that of Review.
type DiffJSON struct {
	Passband string       `json:"passband"`
	Version  int          `json:"version"`
	Plan     string       `json:"plan"`
	Old      *Origin      `json:"old"`
	New      *Origin      `json:"new"`
	Empty    bool         `json:"empty"`
	Causes   []CauseJSON  `json:"causes"`
	Renames  []RenameJSON `json:"renames"`
	Capped   []plan.Kind  `json:"capped,omitempty"`
	Verdict  *VerdictJSON `json:"verdict,omitempty"`
}

// CauseJSON is a record that was edited.
type CauseJSON struct {
	Thing   plan.Thing   `json:"thing"`
	Weight  plan.Weight  `json:"weight"`
	Changes []ChangeJSON `json:"changes"`
	Reach   ReachJSON    `json:"reach"`
}

// ChangeJSON is one change.
type ChangeJSON struct {
	Op     plandiff.Op `json:"op"`
	Was    string      `json:"was,omitempty"` // the key before, where it differs
	Weight plan.Weight `json:"weight"`
	At     plan.Place  `json:"at"`
	WasAt  *plan.Place `json:"was_at,omitempty"`
	Edits  []EditJSON  `json:"edits"`
	Match  *MatchJSON  `json:"match,omitempty"`
}

// EditJSON is a field with another value.
type EditJSON struct {
	Field string      `json:"field"`
	Old   []string    `json:"old"`
	New   []string    `json:"new"`
	At    *plan.Place `json:"at,omitempty"`
	WasAt *plan.Place `json:"was_at,omitempty"`
	Steps []StepJSON  `json:"steps,omitempty"`
}

// StepJSON is what happened to an item of a list; places in the list count from 1.
type StepJSON struct {
	Op   plandiff.StepOp `json:"op"`
	Item string          `json:"item"`
	From int             `json:"from,omitempty"`
	To   int             `json:"to,omitempty"`
}

// MatchJSON says how a renamed record was recognised.
type MatchJSON struct {
	How   plandiff.How `json:"how"`
	Alike int          `json:"alike_percent"`
}

// ReachJSON is what behaves differently because of a cause.
type ReachJSON struct {
	Channels  []EffectJSON `json:"channels"`
	Zones     []string     `json:"zones"`
	ScanLists []string     `json:"scan_lists"`
	Radios    []string     `json:"radios"`
}

// EffectJSON is what a cause does to a channel.
type EffectJSON struct {
	Op      plandiff.Op  `json:"op"`
	Channel string       `json:"channel"`
	Was     string       `json:"was,omitempty"`
	Aspects []AspectJSON `json:"aspects,omitempty"`
}

// AspectJSON is one respect in which a channel differs.
type AspectJSON struct {
	Name   string      `json:"name"`
	Old    string      `json:"old"`
	New    string      `json:"new"`
	Weight plan.Weight `json:"weight"`
}

// RenameJSON is a key that is another now.
type RenameJSON struct {
	Kind plan.Kind `json:"kind"`
	Old  string    `json:"old"`
	New  string    `json:"new"`
}

// VerdictJSON is what was judged of a change.
type VerdictJSON struct {
	Blocks   bool           `json:"blocks"`
	Skipped  string         `json:"skipped,omitempty"`
	Rules    int            `json:"rules"`
	Edition  int            `json:"edition"`
	Findings []FindingJSON  `json:"findings"`
	Gone     []FindingJSON  `json:"gone"`
	Accepted []AcceptedJSON `json:"accepted"`
	Caution  string         `json:"caution"`
}

// JSON writes a document for programs: a check where nothing was compared, else
// a diff or, with a verdict, a review.
func JSON(w io.Writer, d *Document) error {
	if d.Comparison == nil {
		return WriteJSON(w, d.checkJSON())
	}
	return WriteJSON(w, d.diffJSON())
}

// WriteJSON writes any of the JSON forms, indented, with a line feed at the end. "##[",
// which only a string of it can hold, is written so that no runner takes it for a command.
func WriteJSON(w io.Writer, v any) error {
	var text bytes.Buffer
	enc := json.NewEncoder(&text)
	enc.SetEscapeHTML(true)
	enc.SetIndent("", "  ")
	if err := enc.Encode(v); err != nil {
		return err
	}
	_, err := w.Write(bytes.ReplaceAll(text.Bytes(), []byte("##["), []byte(`#\u0023[`)))
	return err
}

func (d *Document) diffJSON() DiffJSON {
	c := d.Comparison
	out := DiffJSON{
		Passband: "diff", Version: version, Plan: c.New.Plan.Header.Title.Or(""), Old: d.Old, New: d.New,
		Empty: c.Empty(), Causes: []CauseJSON{}, Renames: []RenameJSON{}, Capped: c.Capped,
	}
	for i := range c.Causes {
		out.Causes = append(out.Causes, causeJSON(&c.Causes[i]))
	}
	for _, change := range c.Changes {
		if change.Op == plandiff.Renamed {
			out.Renames = append(out.Renames, RenameJSON{change.Thing.Kind, change.Was.Key, change.Thing.Key})
		}
	}
	if d.Verdict != nil {
		check := d.checkJSON()
		out.Passband = "review"
		out.Verdict = &VerdictJSON{
			Blocks: check.Blocks, Skipped: check.Skipped, Rules: check.Rules, Edition: check.Edition,
			Findings: check.Findings, Gone: findingsJSON(d.Verdict.Gone), Accepted: check.Accepted, Caution: caution,
		}
	}
	return out
}

func causeJSON(c *plandiff.Cause) CauseJSON {
	out := CauseJSON{Thing: c.Thing, Weight: c.Weight, Changes: []ChangeJSON{}, Reach: ReachJSON{
		Channels: []EffectJSON{}, Zones: orEmpty(c.Reach.Zones), ScanLists: orEmpty(c.Reach.ScanLists), Radios: orEmpty(c.Reach.Radios),
	}}
	for i := range c.Changes {
		out.Changes = append(out.Changes, changeJSON(&c.Changes[i]))
	}
	for _, e := range c.Reach.Channels {
		effect := EffectJSON{Op: e.Op, Channel: e.Channel, Was: e.Was}
		for _, a := range e.Aspects {
			effect.Aspects = append(effect.Aspects, AspectJSON(a))
		}
		out.Reach.Channels = append(out.Reach.Channels, effect)
	}
	return out
}

func changeJSON(c *plandiff.Change) ChangeJSON {
	out := ChangeJSON{Op: c.Op, Weight: c.Weight, At: c.At, WasAt: placeJSON(c.WasAt), Edits: []EditJSON{}}
	if c.Was.Key != c.Thing.Key {
		out.Was = c.Was.Key
	}
	if c.Op == plandiff.Renamed {
		out.Match = &MatchJSON{c.Match.How, c.Match.Alike}
	}
	for _, e := range c.Edits {
		edit := EditJSON{Field: e.Field, Old: orEmpty(e.Old), New: orEmpty(e.New), At: placeJSON(e.NewAt), WasAt: placeJSON(e.OldAt)}
		for _, s := range e.Steps {
			edit.Steps = append(edit.Steps, StepJSON{s.Op, s.Text, s.From, s.To})
		}
		out.Edits = append(out.Edits, edit)
	}
	return out
}

// placeJSON leaves out a place that there is not.
func placeJSON(p plan.Place) *plan.Place {
	if p.IsZero() {
		return nil
	}
	return &p
}

func orEmpty(all []string) []string {
	if all == nil {
		return []string{}
	}
	return all
}
