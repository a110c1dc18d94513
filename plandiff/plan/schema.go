package plan

import (
	"path"
	"slices"
	"sync"
)

// A Section describes one kind of record: where it stands in the files, and
// which keys its records have.
type Section struct {
	Kind   Kind
	Key    string // its key in a file: repeaters; "" for the header and for tables in CSV
	Doc    string
	Fields []Field

	value  string // the one field that a record is, where it is no mapping
	listed bool   // a list of records rather than a mapping from keys
	under  string // the section it stands in, if not at the top of a file
	file   string // the name of the table in CSV that holds its records, if one does
	head   string // the first line of that table
	whole  bool   // a row of the table is the one field of a record
	create func() Record
	all    func(p *Plan) []Record
	find   func(p *Plan, key string) (Record, bool)
	add    func(p *Plan, r Record) (Record, bool)
	expect func(p *Plan, n int)  // makes room for n records
	keyOf  func(r Record) string // the key of a record that is not written with one
	makes  []string              // the fields that make that key
}

// Field gives the field with this name, or nil.
func (s *Section) Field(name string) *Field {
	for i := range s.Fields {
		if s.Fields[i].Name == name {
			return &s.Fields[i]
		}
	}
	return nil
}

// Table gives the name of the file that holds the records of the section as the rows of a table in
// CSV, and the first line of that table; empty where they are no rows.
func (s *Section) Table() (file, head string) { return s.file, s.head }

// WholeRows reports whether a row of the table is the one field of a record, in the columns of
// its first line; else each field is a column.
func (s *Section) WholeRows() bool { return s.whole }

// TableOf gives the section whose records stand in a table with this path below the root, or nil.
func TableOf(name string) *Section {
	i := slices.IndexFunc(sections(), func(s *Section) bool { return s.file != "" && s.file == path.Base(name) })
	if i < 0 {
		return nil
	}
	return sections()[i]
}

// All gives the records of the section in p.
func (s *Section) All(p *Plan) []Record { return s.all(p) }

// Find gives the record of p with this key.
func (s *Section) Find(p *Plan, key string) (Record, bool) { return s.find(p, key) }

// Sections gives all sections in the order of their kinds. The caller must not change it.
func Sections() []*Section { return sections() }

// SectionOf gives the section that holds things of this kind, or nil.
func SectionOf(kind Kind) *Section {
	i := slices.IndexFunc(sections(), func(s *Section) bool { return s.Kind == kind })
	if i < 0 {
		return nil
	}
	return sections()[i]
}

// Find gives the record that a thing names.
func (p *Plan) Find(t Thing) (Record, bool) {
	s := SectionOf(t.Kind)
	if s == nil {
		return nil, false
	}
	return s.find(p, t.Key)
}

// sections are made when they are first asked for: the version and the help need none.
var sections = sync.OnceValue(func() []*Section {
	return []*Section{
		headerSection(),
		section(KindRepeater, "repeaters", "stations that hear on an input and repeat on an output", repeaterFields(),
			newRepeater, func(p *Plan) *Table[*Repeater] { return &p.Repeaters }),
		section(KindGroup, "groups", "talkgroups and private contacts", groupFields(),
			func() *Group { return new(Group) }, func(p *Plan) *Table[*Group] { return &p.Groups }),
		section(KindReceiveList, "receive_lists", "groups that a channel also listens for", receiveListFields(),
			func() *ReceiveList { return new(ReceiveList) }, func(p *Plan) *Table[*ReceiveList] { return &p.ReceiveLists }),
		section(KindChannel, "channels", "simplex and receive-only channels, and channels of talk paths that need words of their own", channelFields(),
			newChannelSpec, func(p *Plan) *Table[*ChannelSpec] { return &p.Channels }),
		section(KindZone, "zones", "ordered sets of channels that a person switches between", zoneFields(),
			func() *Zone { return new(Zone) }, func(p *Plan) *Table[*Zone] { return &p.Zones }),
		section(KindScanList, "scan_lists", "channels that a radio sweeps", scanListFields(),
			func() *ScanList { return new(ScanList) }, func(p *Plan) *Table[*ScanList] { return &p.ScanLists }),
		valued("text", section(KindMessage, "messages", "preset texts that a radio can send", messageFields(),
			func() *Message { return new(Message) }, func(p *Plan) *Table[*Message] { return &p.Messages })),
		valued("calls", section(KindShortcut, "shortcuts", "number keys that call a group or an operator", shortcutFields(),
			func() *Shortcut { return new(Shortcut) }, func(p *Plan) *Table[*Shortcut] { return &p.Shortcuts })),
		tabled(OperatorsFile, operatorColumns, keyed(operatorKey, section(KindOperator, "", "people with a callsign and a radio ID, in operators.csv", operatorFields(),
			func() *Operator { return new(Operator) }, func(p *Plan) *Table[*Operator] { return &p.Operators }))),
		section(KindRadio, "radios", "classes of radio that members own", radioFields(),
			func() *Radio { return new(Radio) }, func(p *Plan) *Table[*Radio] { return &p.Radios }),
		within("review", valued("level", section(KindSeverity, "severity", "how bad the findings of a rule are", severityFields(),
			func() *Severity { return new(Severity) }, func(p *Plan) *Table[*Severity] { return &p.Severities }))),
		within("review", listed(acceptanceKey, []string{"rule", "at"}, section(KindAcceptance, "accept", "findings that the club lives with", acceptanceFields(),
			func() *Acceptance { return new(Acceptance) }, func(p *Plan) *Table[*Acceptance] { return &p.Acceptances }))),
		rowed(LicenseFile, LicenseColumns, keyed(func(r Record) string { return r.(*LicenseRow).Row.V }, section(KindLicenseRow, "", "the club's own rows of the license tables, in license.csv", licenseRowFields(),
			func() *LicenseRow { return new(LicenseRow) }, func(p *Plan) *Table[*LicenseRow] { return &p.LicenseRows }))),
		rowed(SeparationFile, SeparationColumns, keyed(func(r Record) string { return r.(*SeparationRow).Row.V }, section(KindSeparationRow, "", "the distances that the club's coordinator asks, in separation.csv", separationRowFields(),
			func() *SeparationRow { return new(SeparationRow) }, func(p *Plan) *Table[*SeparationRow] { return &p.SeparationRows }))),
		neighborSection(),
		section(KindCoordination, "coordination", "what a frequency coordinator remarked about a repeater", coordinationFields(),
			func() *Coordination { return new(Coordination) }, func(p *Plan) *Table[*Coordination] { return &p.Coordinations }),
	}
})

// section makes the description of a kind whose records stand in a table of the plan.
func section[R Record](kind Kind, key, doc string, fields []Field, create func() R, table func(*Plan) *Table[R]) *Section {
	return &Section{
		Kind: kind, Key: key, Doc: doc, Fields: fields,
		create: func() Record { return create() },
		all: func(p *Plan) []Record {
			rows := table(p).All()
			all := make([]Record, len(rows))
			for i, r := range rows {
				all[i] = r
			}
			return all
		},
		find: func(p *Plan, key string) (Record, bool) {
			r, ok := table(p).Find(key)
			if !ok {
				return nil, false // not a typed nil
			}
			return r, true
		},
		add:    func(p *Plan, r Record) (Record, bool) { return table(p).add(r.(R)) },
		expect: func(p *Plan, n int) { table(p).expect(n) },
	}
}

// headerSection describes the keys at the top of plan.yaml as one record.
func headerSection() *Section {
	return &Section{
		Kind: KindPlan, Doc: "what the plan is and which rules apply to it", Fields: headerFields(),
		create: func() Record { return new(Header) },
		all:    func(p *Plan) []Record { return []Record{&p.Header} },
		find:   func(p *Plan, key string) (Record, bool) { return &p.Header, key == "" },
		add:    func(p *Plan, r Record) (Record, bool) { return &p.Header, false },
	}
}

// valued says that a record of the section is one value and no mapping.
func valued(field string, s *Section) *Section { s.value = field; return s }

// within says that the section stands in another and not at the top of a file.
func within(outer string, s *Section) *Section { s.under = outer; return s }

// tabled says that the records of the section are the rows of a table in CSV, each field a column.
func tabled(file, head string, s *Section) *Section { s.file, s.head = file, head; return s }

// rowed says that a record of the section is a row of a table in CSV, as it stands there.
func rowed(file, head string, s *Section) *Section { s.whole = true; return tabled(file, head, s) }

// keyed says that the records of the section get their keys from their fields.
func keyed(keyOf func(Record) string, s *Section) *Section {
	s.keyOf = keyOf
	return s
}

// listed says that the section is a list, whose records get their keys from the fields in makes.
func listed(keyOf func(Record) string, makes []string, s *Section) *Section {
	s.listed, s.makes = true, makes
	return keyed(keyOf, s)
}

// missing names a field that the key of a record needs and that has no value, or "".
func (s *Section) missing(r Record) string {
	for _, name := range s.makes {
		if len(s.Field(name).items(r)) == 0 {
			return name
		}
	}
	return ""
}

func acceptanceKey(r Record) string {
	a := r.(*Acceptance)
	return a.Rule.V + " at " + a.At.V
}
