package tables

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"passband.example/plandiff"
	"passband.example/plandiff/plan"
)

const casesLayout = `layout: Cases
tables:
  - file: channels.csv
    rows: channels
    columns:
      - {header: Key, value: key}
      - {header: Name, value: label}
      - {header: Mode, value: mode}
      - {header: Out, value: output}
      - {header: In, value: input}
      - {header: Split, value: split}
      - {header: Tone, value: tone.send}
      - {header: CC, value: color_code}
      - {header: Slot, value: slot}
      - {header: ID, value: group.id}
      - {header: Group, value: group.label}
      - {header: Power, value: power}
      - {header: Listens, value: receive_list}
      - {header: Scan, value: scan_list.label}
      - {header: Zones, value: zones, join: "|"}
  - file: zones.csv
    rows: zones
    each: members
    columns:
      - {header: Zone, value: key}
      - {header: Called, value: called}
      - {header: Member, value: members.label}
      - {header: Member key, value: members}
  - file: groups.csv
    rows: groups
    columns:
      - {header: Group key, value: key}
      - {header: Group ID, value: id}
      - {header: Group name, value: label}
`

// TestCases reads tables into the plan of the fuzz targets. want has a line for each
// change, "thing field: new values"; or begins with ! for a problem that must be told.
func TestCases(t *testing.T) {
	for _, c := range []struct{ name, why, csv, want string }{
		{"nothing", "what a row says like the plan does is no change", "Key,Out,Name\nridge/fm,444.3250,Ridge FM", ""},
		{"by air", "an old table has no keys", "Out,In,Tone,Power\n444.325,449.325,103.5,low", "channel ridge-fm path: ridge/fm\nchannel ridge-fm power: low"},
		{"by label", "the channel of that label, and no other, is another frequency now", "Name,Out,In\nCall,146.55,146.55", "channel calling simplex: 146.550"},
		{"repeater moves", "all its rows agree", "Key,Out,In\nridge/fm,444.35,449.35\nridge/1/statewide,444.35,449.35\nridge/2/local,444.35,449.35", "repeater ridge output: 444.350\nrepeater ridge input: 449.350"},
		{"some rows move", "two outputs of one repeater", "Key,Out\nridge/fm,444.35\nridge/1/statewide,444.325", `!row 3, column B (Out): it says "444.325" for the output of the repeater ridge, and row 2 of channels.csv says "444.350"; change all rows that show it, or none`},
		{"power of all", "the repeater says it for all of its channels", "Key,Power\nridge/fm,low\nridge/1/statewide,low\nridge/2/local,low", "repeater ridge power: low"},
		{"power of one", "the others keep what they have", "Key,Power\nridge/fm,\nridge/2/local,high", "channel ridge-2-local path: ridge/2/local\nchannel ridge-2-local power: high"},
		{"label", "a record of its own holds it", "Key,Name\nridge/1/statewide,State net", "channel state-net label: State net\nchannel state-net path: ridge/1/statewide"},
		{"group label", "what several rows say of a group", "Key,ID,Group\nridge/1/statewide,99931,Region", "group statewide label: Region"},
		{"slot", "the group goes to the other slot", "Key,Slot\nridge/2/local,1", "repeater ridge dmr.slot1: statewide local\nrepeater ridge dmr.slot2: "},
		{"group", "another number is another group", "Key,ID\nridge/2/local,7", "group group-7 id: 7\nrepeater ridge dmr.slot2: group-7"},
		{"never sends", "the channel listens only, the repeater stays", "Key,In\nridge/fm,", "channel ridge-fm path: ridge/fm\nchannel ridge-fm transmit: no"},
		{"repeater of rows", "one pair and one color code are one station", "Name,Mode,Out,In,CC,Slot,ID,Group\nMill One,dmr,443.1,448.1,2,1,5,One\nMill Two,dmr,443.1,448.1,2,2,6,Two\nMill State,dmr,443.1,448.1,2,2,99931,State",
			"group one id: 5\ngroup one label: One\ngroup two id: 6\ngroup two label: Two\nrepeater mill label: Mill\nrepeater mill output: 443.100\nrepeater mill input: 448.100\nrepeater mill dmr: yes\nrepeater mill dmr.color_code: 2\nrepeater mill dmr.slot1: one\nrepeater mill dmr.slot2: two statewide"},
		{"two color codes", "another color code is another station", "Name,Mode,Out,In,CC,Slot,ID\nMill State,dmr,443.1,448.1,2,1,99931\nFord State,dmr,443.1,448.1,3,1,99931",
			"repeater ford label: Ford\nrepeater ford output: 443.100\nrepeater ford input: 448.100\nrepeater ford dmr: yes\nrepeater ford dmr.color_code: 3\nrepeater ford dmr.slot1: statewide\nrepeater mill label: Mill\nrepeater mill output: 443.100\nrepeater mill input: 448.100\nrepeater mill dmr: yes\nrepeater mill dmr.color_code: 2\nrepeater mill dmr.slot1: statewide"},
		{"more groups", "rows of the pair and color code that the plan has", "Name,Mode,Out,In,CC,Slot,ID,Group\nRidge Net,dmr,444.325,449.325,4,2,8,Net", "group net id: 8\ngroup net label: Net\nrepeater ridge dmr.slot2: local net"},
		{"FM and DMR", "the same pair and the same first word", "Name,Mode,Out,Split,CC,Slot,ID,Tone\nMill FM,fm,443.1,+5,,,,88.5\nMill State,dmr,443.1,+5,2,1,99931,",
			"repeater mill label: Mill\nrepeater mill output: 443.100\nrepeater mill input: 448.100\nrepeater mill fm: yes\nrepeater mill fm.tone.send: 88.5\nrepeater mill dmr: yes\nrepeater mill dmr.color_code: 2\nrepeater mill dmr.slot1: statewide"},
		{"simplex", "it sends where it hears", "Name,Out,Split\nCall 70,446.0,0", "channel call-70 label: Call 70\nchannel call-70 simplex: 446.000\nchannel call-70 fm: yes"},
		{"listens", "no input, so it never sends", "Name,Out,In\nAir,162.55,", "channel air label: Air\nchannel air receive: 162.550\nchannel air fm: yes"},
		{"zone by label", "members in the order of the rows; a pattern whose channels stay is kept", "Zone,Member\nhome,Call\nhome,Ridge State", "zone home channels: calling ridge/1/*"},
		{"zone grows", "entries stay", "Zone,Member key\nhome,ridge/1/statewide\nhome,ridge/fm\nhome,calling\nhome,ridge/2/local", "zone home channels: ridge/1/* ridge/fm calling ridge/2/local"},
		{"new zone", "its key is made of what it is called", "Called,Member key\nTravel,calling", "zone travel label: Travel\nzone travel channels: calling"},
		{"zones of channels", "a column with a list", "Key,Zones\nridge/2/local,home\ncalling,", "zone home channels: ridge/1/* ridge/fm ridge/2/local"},
		{"groups", "a table of records", "Group key,Group ID,Group name\nlocal,99932,Here\nnew,5,", "group local label: Here\ngroup new id: 5"},
		{"plan has no such", "a new channel needs a frequency", "Name,Power\nNobody,low", "!row 2: the plan has no such channel, and a new one needs what it receives"},
		{"no slot", "a member would be heard nowhere", "Name,Mode,Out,In,ID\nX,dmr,443.1,448.1,5", "!row 2: a DMR channel through a repeater needs its time slot; write 1 or 2"},
		{"mode", "another mode is another channel", "Key,Mode\nridge/fm,dmr", "!row 2, column A (Key): the channel ridge/fm is FM in the plan, and a row cannot make it DMR"},
		{"twice", "two rows about one channel", "Key,Power\nridge/fm,low\nridge/fm,high", "!row 3, column A (Key): row 2 is about the channel ridge/fm too"},
		{"split and input", "they say different things", "Key,Out,In,Split\nridge/fm,444.325,449.325,-5", `!row 2, column D (Split): the split leads to 439.325 MHz, and the input is "449.325"`},
		{"kHz", "never guessed", "Key,Out\nridge/fm,444325", `!row 2, column B (Out): frequency "444325" looks like kHz; write MHz: did you mean 444.325`},
		{"unknown member", "nothing is skipped", "Zone,Member\nhome,Nobody", `!row 2, column B (Member): 0 channels are called "Nobody"`},
		{"ragged", "a cell is missing somewhere", "Key,Power\nridge/fm", "!row 2: this row has 1 cells and the first row 2"},
		{"quote", "the rest cannot be trusted", "Key,Power\nridge/fm,\"low\ncalling,high", "!row 2: from here on this is no table in CSV"},
		{"several at once", "all are told", "Key,CC,Slot\nridge/1/statewide,16,3", "!row 2, column B (CC): color code \"16\" is above 15\n!row 2, column C (Slot): slot \"3\" is not a DMR time slot"},
		{"unknown scan list", "told, not made", "Key,Scan\nridge/fm,Mountains", `!row 2, column B (Scan): there is no scan list "Mountains"`},
		{"scan list", "by what it is called", "Key,Scan\ncalling,hills", "channel calling scan_list: hills"},
		{"simplex becomes a pair", "somebody must decide what goes", "Key,Out,In\ncalling,146.52,146.1", "!row 2, column C (In): the channel calling is simplex in the plan"},
		{"no header", "no column is known", "a,b\n1,2", "!channels.csv: no column has a header that the layout knows"},
	} {
		x, files := smallPlan(t)
		name := "channels.csv"
		if strings.Contains(c.csv, "Member") {
			name = "zones.csv"
		} else if strings.HasPrefix(c.csv, "Group") {
			name = "groups.csv"
		}
		in, err := Read(x, "", mustParse(t, casesLayout), []File{{name, []byte(c.csv)}})
		if err != nil {
			t.Errorf("%s (%s): %v", c.name, c.why, err)
			continue
		}
		if got := outcome(t, x, files, in); !agrees(got, c.want) {
			t.Errorf("%s (%s): it gives\n%s\nwant\n%s", c.name, c.why, strings.Join(got, "\n"), c.want)
		}
	}
}

// outcome tells what an import comes to, problems with a ! before them.
func outcome(t *testing.T, x *plan.Expansion, files map[string][]byte, in *Import) []string {
	var lines []string
	for _, p := range in.Problems {
		lines = append(lines, "!"+p.Error())
	}
	if in.Plan == nil {
		return lines
	}
	_, after, err := Carry(files, x, in)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range plandiff.Compare(x, after).Changes {
		for _, e := range c.Edits {
			lines = append(lines, fmt.Sprintf("%s %s: %s", c.Thing, e.Field, strings.Join(e.New, " ")))
		}
	}
	return lines
}

// agrees compares lines in any order; of a problem its part is enough.
func agrees(got []string, want string) bool {
	wants := slices.DeleteFunc(strings.Split(want, "\n"), func(s string) bool { return s == "" })
	if len(got) != len(wants) {
		return false
	}
	for _, w := range wants {
		part, problem := strings.CutPrefix(w, "!")
		if !slices.ContainsFunc(got, func(g string) bool {
			return g == w || problem && strings.HasPrefix(g, "!") && strings.Contains(g, part)
		}) {
			return false
		}
	}
	return true
}
