package report

import (
	"cmp"
	"fmt"
	"io"
	"net/url"
	"path"
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/review"
)

// SarifLog is a file in the Static Analysis Results Interchange Format
// (OASIS SARIF 2.1.0), as far as passband writes it and code scanning reads it.
type SarifLog struct {
	Schema  string     `json:"$schema"`
	Version string     `json:"version"`
	Runs    []SarifRun `json:"runs"`
}

// SarifRun is one run of the rules over one plan.
type SarifRun struct {
	Tool              SarifTool     `json:"tool"`
	AutomationDetails SarifID       `json:"automationDetails"`
	ColumnKind        string        `json:"columnKind"`
	Results           []SarifResult `json:"results"`
}

// SarifID names a run among others of its kind: the part before the last slash is
// its category.
type SarifID struct {
	ID string `json:"id"`
}

// SarifTool is the program, with its rules.
type SarifTool struct {
	Driver SarifDriver `json:"driver"`
}

// SarifDriver is the program itself.
type SarifDriver struct {
	Name  string      `json:"name"`
	Rules []SarifRule `json:"rules"`
}

// SarifRule is a rule with its page.
type SarifRule struct {
	ID               string      `json:"id"`
	ShortDescription SarifText   `json:"shortDescription"`
	FullDescription  SarifText   `json:"fullDescription"`
	Help             SarifText   `json:"help"`
	Default          SarifConfig `json:"defaultConfiguration"`
}

// SarifConfig says how bad a rule is by default.
type SarifConfig struct {
	Level string `json:"level"`
}

// SarifText is a text for people.
type SarifText struct {
	Text string `json:"text"`
}

// SarifResult is a finding.
type SarifResult struct {
	RuleID              string             `json:"ruleId"`
	RuleIndex           int                `json:"ruleIndex"`
	Level               string             `json:"level"`
	Message             SarifText          `json:"message"`
	Locations           []SarifLocation    `json:"locations"`
	RelatedLocations    []SarifLocation    `json:"relatedLocations,omitempty"`
	PartialFingerprints map[string]string  `json:"partialFingerprints"`
	BaselineState       string             `json:"baselineState,omitempty"`
	Suppressions        []SarifSuppression `json:"suppressions,omitempty"`
}

// SarifSuppression is the club's word that it lives with a finding.
type SarifSuppression struct {
	Kind          string `json:"kind"`
	Justification string `json:"justification"`
}

// SarifLocation is a place, and what stands there.
type SarifLocation struct {
	Physical SarifPhysical `json:"physicalLocation"`
	Message  *SarifText    `json:"message,omitempty"`
}

// SarifPhysical is a region of a file.
type SarifPhysical struct {
	Artifact struct {
		URI string `json:"uri"`
	} `json:"artifactLocation"`
	Region SarifRegion `json:"region"`
}

// SarifRegion is where in the file; all of it counts from 1.
type SarifRegion struct {
	StartLine   int32 `json:"startLine"`
	StartColumn int32 `json:"startColumn"`
	EndLine     int32 `json:"endLine"`
	EndColumn   int32 `json:"endColumn"`
}

// Sarif writes the findings of a verdict for code scanning. The fingerprint of a
// result is the finding's identity, so that a line that moved makes no new alert.
func Sarif(w io.Writer, d *Document, rules []*review.Rule) error {
	run := SarifRun{
		AutomationDetails: SarifID{path.Join("passband", d.folder()) + "/"},
		ColumnKind:        "unicodeCodePoints",
		Results:           []SarifResult{},
	}
	run.Tool.Driver.Name = "passband"
	index := make(map[string]int)
	for i, r := range rules {
		described, err := sarifRule(r)
		if err != nil {
			return err
		}
		index[r.ID] = i
		run.Tool.Driver.Rules = append(run.Tool.Driver.Rules, described)
	}
	keys := FindingKeys(d.Verdict.Findings)
	for i, f := range d.Verdict.Findings {
		run.Results = append(run.Results, d.sarifResult(f, keys[i], index))
	}
	for _, a := range d.Verdict.Accepted {
		result := d.sarifResult(a.Finding, a.Finding.ID(), index)
		result.Suppressions = []SarifSuppression{{"external", fmt.Sprintf("until %s: %s", a.By.Until.V, Visible(a.By.Reason.V))}}
		run.Results = append(run.Results, result)
	}
	return WriteJSON(w, SarifLog{
		Schema:  "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",
		Version: "2.1.0", Runs: []SarifRun{run},
	})
}

func (d *Document) folder() string {
	if d.New == nil {
		return ""
	}
	return d.New.Folder
}

// longestDescription is what code scanning takes of a description.
const longestDescription = 1000

func sarifRule(r *review.Rule) (SarifRule, error) {
	page, err := review.ParsePage(r.Doc)
	if err != nil {
		return SarifRule{}, err
	}
	return SarifRule{
		ID: r.ID, ShortDescription: SarifText{clip(page.Title, longestDescription)}, FullDescription: SarifText{clip(page.What, longestDescription)},
		Help:    SarifText{strings.Join([]string{page.Why, page.Fix, page.Source}, "\n\n")},
		Default: SarifConfig{sarifLevel(r.Severity)},
	}, nil
}

func sarifLevel(s review.Severity) string {
	switch s {
	case review.Block:
		return "error"
	case review.Warn:
		return "warning"
	case review.Note:
		return "note"
	}
	return "none"
}

func (d *Document) sarifResult(f review.Finding, key string, index map[string]int) SarifResult {
	said := f.What
	for _, more := range []string{f.Why, f.Fix} {
		if more != "" {
			said += "; " + more
		}
	}
	i, known := index[f.Rule]
	if !known {
		i = -1
	}
	out := SarifResult{
		RuleID: f.Rule, RuleIndex: i, Level: sarifLevel(f.Severity), Message: SarifText{sarifMessage(clip(said, longestText))},
		Locations:           []SarifLocation{d.sarifLocation(f.At, "")},
		PartialFingerprints: map[string]string{"primaryLocationLineHash": key},
	}
	if d.Verdict.Change {
		out.BaselineState = map[review.Standing]string{review.New: "new", review.Still: "unchanged", review.Gone: "absent"}[f.Standing]
	}
	for _, also := range f.Also {
		if !also.At.IsZero() && len(out.RelatedLocations) < mostRelated {
			out.RelatedLocations = append(out.RelatedLocations, d.sarifLocation(also.At, also.Text))
		}
	}
	return out
}

// sarifMessage escapes what a plain text message reads as a placeholder or a link
// (SARIF 2.1.0, 3.11.5 and 3.11.6).
func sarifMessage(s string) string {
	return strings.NewReplacer("{", "{{", "}", "}}", `\`, `\\`, "[", `\[`, "]", `\]`).Replace(Visible(s))
}

func (d *Document) sarifLocation(at plan.Place, said string) SarifLocation {
	var out SarifLocation
	file := cmp.Or(path.Join(d.folder(), at.File), plan.RootFile)
	out.Physical.Artifact.URI = (&url.URL{Path: file}).String()
	line, column := max(at.Line, 1), max(at.Col, 1)
	out.Physical.Region = SarifRegion{line, column, line, column + 1}
	if said != "" {
		out.Message = &SarifText{sarifMessage(clip(said, longestText))}
	}
	return out
}
