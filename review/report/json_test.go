package report

import (
	"os"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/tables"
	"passband.example/review"
)

// documented are the JSON forms, but for the notes of package notes, under the names that the package comment uses.
var documented = map[string]any{
	"check": CheckJSON{}, "diff": DiffJSON{}, "radios": RadiosForm{}, "show": ShowForm{}, "explain": RuleForm{}, "rules": RulesForm{}, "manual": ManualForm{},
	"origin": Origin{}, "place": plan.Place{}, "thing": plan.Thing{}, "finding": FindingJSON{}, "related": review.Related{},
	"accepted": AcceptedJSON{}, "verdict": VerdictJSON{}, "cause": CauseJSON{}, "change": ChangeJSON{}, "edit": EditJSON{},
	"step": StepJSON{}, "match": MatchJSON{}, "reach": ReachJSON{}, "effect": EffectJSON{}, "aspect": AspectJSON{},
	"rename": RenameJSON{}, "radio": RadioForm{}, "use": UseForm{}, "left-out": LeftOutForm{}, "channel": ChannelForm{},
	"because": CauseAt{}, "record": RecordForm{}, "log": LogForm{}, "trace": TraceForm{}, "entry": EntryForm{},
	"commit": CommitForm{}, "edited": LogCauseForm{}, "problem": ProblemForm{}, "traced": ThingForm{}, "attribute": AttributeForm{},
	"export": ExportForm{}, "import": ImportForm{}, "tabled": TableForm{}, "refused": tables.Problem{}, "missing": tables.Missing{},
	"policy": PolicyForm{}, "header-key": HeaderForm{}, "severity": SeverityForm{}, "lived-with": AcceptForm{}, "own-rows": RowsForm{},
	"from": FromForm{}, "mend": MendForm{}, "mended": MendedForm{}, "left": LeftForm{},
	"law": LawForm{}, "law-tables": LawTablesForm{}, "may": MayForm{}, "rests": RestsForm{}, "row": LawRowForm{}, "segment": SegmentForm{},
	"split": SplitForm{}, "service": ServiceForm{}, "table": LawTableForm{}, "count": CountForm{},
	"pairs": PairsForm{}, "pair": PairForm{},
	"map": MapForm{}, "place-of": PlaceForm{}, "card": CardsForm{}, "zone-card": CardForm{}, "card-row": CardRowForm{},
}

// TestFieldsAreDocumented wants the list in the package comment to be that of the
// structs, field by field and in order, and every struct below them in it.
func TestFieldsAreDocumented(t *testing.T) {
	comment, err := os.ReadFile("doc.go")
	if err != nil {
		t.Fatal(err)
	}
	lines := regexp.MustCompile(`(?m)^//\t([a-z-]+) +([a-z_? ]+)$`).FindAllStringSubmatch(string(comment), -1)
	said := make(map[string]string)
	for _, line := range lines {
		said[line[1]] = line[2]
	}
	known := make(map[reflect.Type]bool)
	for name, form := range documented {
		typ := reflect.TypeOf(form)
		known[typ] = true
		if got := strings.Join(fields(typ), " "); said[name] != got {
			t.Errorf("the package comment says of %s: %s\nthe struct has: %s", name, said[name], got)
		}
		delete(said, name)
	}
	for name := range said {
		t.Errorf("the package comment tells of %s, which is no form", name)
	}
	for _, form := range documented {
		for inner := range structsIn(reflect.TypeOf(form)) {
			if !known[inner] {
				t.Errorf("%s is part of a form and is not documented", inner)
			}
		}
	}
}

// fields gives the names of a struct in JSON; what may be left out ends in "?".
// The finding within an accepted one is told as one word.
func fields(typ reflect.Type) []string {
	var names []string
	for i := range typ.NumField() {
		f := typ.Field(i)
		name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		switch {
		case f.Anonymous && f.Type == reflect.TypeFor[FindingJSON]():
			names = append(names, "finding")
		case f.Anonymous:
			names = append(names, fields(f.Type)...)
		case options == "omitempty" || options == "omitzero":
			names = append(names, name+"?")
		default:
			names = append(names, name)
		}
	}
	return names
}

// structsIn gives the structs that a form holds directly and writes by its fields.
func structsIn(typ reflect.Type) map[reflect.Type]bool {
	found := make(map[reflect.Type]bool)
	marshals := reflect.TypeFor[interface{ MarshalText() ([]byte, error) }]()
	for i := range typ.NumField() {
		f := typ.Field(i).Type
		for f.Kind() == reflect.Pointer || f.Kind() == reflect.Slice {
			f = f.Elem()
		}
		if f.Kind() == reflect.Struct && !f.Implements(marshals) && f != reflect.TypeFor[review.Finding]() {
			found[f] = true
		}
	}
	return found
}
