package rules

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

//go:embed label_characters.md
var labelCharactersDoc string

// LabelCharacters reports labels and messages with characters that a class of
// radio cannot show.
var LabelCharacters = &review.Rule{
	ID:       "label-characters",
	Severity: review.Warn, // the radio shows something else, or refuses the text
	Edition:  2026,
	Doc:      labelCharactersDoc,
	Run:      labelCharacters,
}

func labelCharacters(p *review.Pass) {
	var texts []part                           // in the order of the plan
	held := make(map[plan.Thing][]*plan.Radio) // that cannot show all of it
	hold := func(r *plan.Radio, parts ...part) {
		for _, t := range parts {
			if !strings.ContainsFunc(t.text, func(c rune) bool { return !r.Characters.V.Holds(c) }) {
				continue
			}
			radios, known := held[t.of]
			if !known {
				texts = append(texts, t)
			}
			if len(radios) == 0 || radios[len(radios)-1] != r {
				held[t.of] = append(radios, r)
			}
		}
	}
	for _, fit := range p.Expansion.Fits {
		if !fit.Radio.Characters.Bad {
			holdTexts(p.Plan, fit, hold)
		}
	}
	for _, t := range texts {
		if f, ok := strangeText(t, held[t.of]); ok {
			p.Report(f)
		}
	}
}

// holdTexts hands each text that a radio holds to hold.
func holdTexts(p *plan.Plan, fit *plan.Fit, hold func(*plan.Radio, ...part)) {
	for _, c := range fit.Channels {
		hold(fit.Radio, partsOf(p, c)...)
	}
	for _, z := range fit.Zones {
		hold(fit.Radio, readable(partOf(z.Zone, z.Zone.Label))...)
	}
	for _, key := range fit.Groups {
		if g, ok := p.Groups.Find(key); ok {
			hold(fit.Radio, readable(partOf(g, g.Label))...)
		}
	}
	for _, s := range fit.ScanLists {
		hold(fit.Radio, readable(partOf(s.List, s.List.Label))...)
	}
	if !sends(fit.Radio, plan.ModeDMR) {
		return
	}
	for _, m := range p.Messages.All() {
		if m.Text.IsSet() {
			hold(fit.Radio, partOf(m, m.Text))
		}
	}
}

// sends reports whether a radio has the mode; one that states none has all.
func sends(r *plan.Radio, mode plan.Mode) bool {
	return len(r.Modes) == 0 || slices.ContainsFunc(r.Modes, func(m plan.Value[plan.Mode]) bool { return m.IsSet() && m.V == mode })
}

// strangeText names the characters of a text that some of the radios cannot show.
func strangeText(t part, radios []*plan.Radio) (review.Finding, bool) {
	var strange, codes []string
	var without []*plan.Radio
	for _, c := range t.text {
		lack := cannotShow(radios, c)
		if len(lack) == 0 {
			continue
		}
		code := fmt.Sprintf("%U", c)
		if slices.Contains(codes, code) {
			continue
		}
		codes = append(codes, code)
		strange = append(strange, fmt.Sprintf("%q (%s)", c, code))
		for _, r := range lack {
			if !slices.Contains(without, r) {
				without = append(without, r)
			}
		}
	}
	if len(strange) == 0 {
		return review.Finding{}, false
	}
	return review.Finding{
		At: t.at, About: []plan.Thing{t.of}, Values: codes,
		What:   fmt.Sprintf("%q, the text of %s, has %s, which %s cannot show", t.text, t.of, several(strange), several(radioNames(without))),
		Why:    "the radio shows another sign in its place, or refuses the text",
		Fix:    plainFix(t.text, without),
		Source: "the characters that the plan states for the radio; ASCII where it states none",
	}, true
}

// cannotShow gives the radios that cannot show a character.
func cannotShow(radios []*plan.Radio, c rune) []*plan.Radio {
	var lack []*plan.Radio
	for _, r := range radios {
		if !r.Characters.V.Holds(c) {
			lack = append(lack, r)
		}
	}
	return lack
}

// plainFix proposes a spelling that all of the radios can show.
func plainFix(text string, radios []*plan.Radio) string {
	what := "it without"
	for _, r := range radios {
		if plain := plainer(text, r.Characters.V); plain != "" && shownByAll(plain, radios) {
			what = fmt.Sprintf("%q", plain)
		}
	}
	return "write " + what + ", or state the characters that the radio shows (characters: in its record)"
}

func shownByAll(text string, radios []*plan.Radio) bool {
	return !strings.ContainsFunc(text, func(c rune) bool { return len(cannotShow(radios, c)) > 0 })
}

func radioNames(radios []*plan.Radio) []string {
	names := make([]string, len(radios))
	for i, r := range radios {
		names[i] = r.Thing().String()
	}
	return names
}
