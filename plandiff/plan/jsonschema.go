package plan

import (
	"bytes"
	"encoding/json"
	"regexp"
	"strings"
	"unicode"
)

// SchemaDialect is the version of JSON Schema that JSONSchema writes: the newest that the
// language servers for YAML read whole.
const SchemaDialect = "http://json-schema.org/draft-07/schema#"

// SchemaFile is the name under which a plan keeps its schema for editors, and SchemaLine
// the comment at the head of a file by which language servers for YAML find it.
const (
	SchemaFile = ".plan.schema.json"
	SchemaLine = "# yaml-language-server: $schema=" + SchemaFile
)

// JSONSchema gives the form of the YAML files of a plan as a JSON Schema, by which editors
// complete and check while somebody types. It is made from the tables of fields, so that it
// is never behind them, and says less than Load where a schema cannot: of keys that stand
// in two files, of what a number looked like before it was read, of YAML itself.
func JSONSchema() []byte {
	d := definitions{}
	properties := node{}
	review := node{}
	for _, s := range sections() {
		switch {
		case s.Kind == KindPlan:
			for i := range s.Fields {
				properties[s.Fields[i].Name] = d.field(&s.Fields[i])
			}
		case s.Key == "":
		case s.under != "":
			review[s.Key] = d.section(s)
		default:
			properties[s.Key] = d.section(s)
		}
	}
	properties["review"] = object("how the findings of rules are judged", review)
	whole := object("the channel plan of a club", properties)
	whole["$schema"], whole["title"], whole["definitions"] = SchemaDialect, "plan", d
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	_ = e.Encode(whole) // maps, lists and texts can always be written
	return out.Bytes()
}

// A node is an object of a JSON Schema. Its keys are written in alphabetical order.
type node map[string]any

// definitions hold one schema a spelling, by its name.
type definitions node

// object is the schema of a mapping with these keys and no others, or of nothing.
func object(doc string, properties node) node {
	return node{"description": doc, "type": []string{"object", "null"}, "properties": properties, "additionalProperties": false}
}

// section is the schema of what stands under the key of a section.
func (d definitions) section(s *Section) node {
	record := d.block(s.Kind.String(), layouts()[s])
	switch {
	case s.listed:
		record["type"], record["required"] = "object", s.makes
		return node{"description": s.Doc, "type": []string{"array", "null"}, "items": record}
	case s.value != "":
		record = d.field(s.Field(s.value))
	}
	return node{"description": s.Doc, "type": []string{"object", "null"}, "propertyNames": keySchema(s.Kind), "additionalProperties": record}
}

// keySchema is that of the keys of a section.
func keySchema(kind Kind) node {
	switch kind {
	case KindShortcut:
		return node{"pattern": "^[0-9]$"}
	case KindReceiveList:
		return node{"pattern": "^" + keyForm + "$", "not": node{"enum": []string{ListenSlot, ListenRepeater, ListenNone}}}
	}
	return node{"pattern": "^" + keyForm + "$"}
}

// block is the schema of the keys of a record, or of a block in it.
func (d definitions) block(doc string, lay *layout) node {
	properties := node{}
	for _, key := range lay.keys {
		f, inner := lay.of[key].field, lay.of[key].block
		switch {
		case inner == nil:
			properties[key] = d.field(f)
		case inner.of["send"].field != nil: // tone: 103.5 says what is sent
			send, both := inner.of["send"].field, d.block("both tones", inner)
			both["type"] = "object"
			properties[key] = node{"description": send.Doc, "anyOf": []node{d.values(send), both}}
		case f != nil:
			properties[key] = d.block(f.Doc, inner)
		default:
			properties[key] = d.block(key, inner)
		}
	}
	return object(doc, properties)
}

// field is the schema of the value of a field.
func (d definitions) field(f *Field) node {
	value := d.values(f)
	if f.Form == Scalar {
		return node{"description": f.Doc, "allOf": []node{value}}
	}
	return node{"description": f.Doc, "anyOf": []node{value, {"type": "array", "items": value}, {"type": "null"}}}
}

// values refers to the schema of the texts that a field takes.
func (d definitions) values(f *Field) node {
	s, _ := f.Spelling()
	d[s.Name] = s.schema()
	return node{"$ref": "#/definitions/" + s.Name}
}

// schema is that of the texts, with the types as which YAML reads them.
func (s Spelling) schema() node {
	var forms []node
	if len(s.Words) > 0 {
		forms = append(forms, node{"enum": s.Words}, node{"type": "string", "pattern": anyCase(s.Words)})
	}
	if s.Pattern != "" {
		text := node{"type": "string", "pattern": s.Pattern}
		if s.Longest > 0 {
			text["maxLength"] = s.Longest
		}
		forms = append(forms, text)
	}
	if s.Number != nil {
		forms = append(forms, s.Number.schema())
	}
	if s.Truth {
		forms = append(forms, node{"type": "boolean"})
	}
	if len(forms) == 1 {
		return forms[0]
	}
	return node{"anyOf": forms}
}

func (r *Range) schema() node {
	n := node{"type": "number"}
	if r.Whole {
		n["type"] = "integer"
	}
	if r.Low != "" {
		n["minimum"] = r.Low
	}
	if r.High != "" {
		n["maximum"] = r.High
	}
	return n
}

// anyCase gives the pattern of words in letters of any case.
func anyCase(words []string) string {
	var b strings.Builder
	for i, w := range words {
		if i > 0 {
			b.WriteByte('|')
		}
		for _, r := range w {
			if !unicode.IsLetter(r) {
				b.WriteString(regexp.QuoteMeta(string(r)))
				continue
			}
			b.WriteString("[" + string(r))
			for other := unicode.SimpleFold(r); other != r; other = unicode.SimpleFold(other) {
				b.WriteRune(other)
			}
			b.WriteByte(']')
		}
	}
	return "^(?:" + b.String() + ")$"
}
