package demo_test

import (
	"encoding/csv"
	"io/fs"
	"math/big"
	"path"
	"slices"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"
)

// A club is a plan read the short way, by reflection and without the project's own loader,
// so that these tests can't share a fault with it.
type club struct {
	Plan, License, Region string
	Neighbors             string
	Coordination          map[string]remark
	Edition               int
	Repeaters             map[string]repeater
	Groups                map[string]group
	ReceiveLists          map[string]receiveList `yaml:"receive_lists"`
	Channels              map[string]channel
	Zones                 map[string]zone
	ScanLists             map[string]scanList `yaml:"scan_lists"`
	Radios                map[string]radio
	Messages              map[string]string
	Shortcuts             map[int]string
	operators             [][3]string // id, callsign, name
}

type repeater struct {
	Label, Callsign, Note string
	When                  string
	Output, Input, Split  string // MHz, as written
	FM                    *fm
	DMR                   *dmr
	Site                  site
	Timeout               int    `yaml:"timeout_s"`
	ScanList              string `yaml:"scan_list"`
}

type fm struct {
	Tone          yaml.Node
	Width, Access string
}

type dmr struct {
	ColorCode    int `yaml:"color_code"`
	Access       string
	Slot1, Slot2 []string
	ReceiveList  string `yaml:"receive_list"`
	Slot         int    // of a simplex channel
	Group        string // of a simplex channel
}

type site struct {
	Grid, Lat, Lon string
	Height         int `yaml:"height_m"`
	ERP            int `yaml:"erp_w"`
	People         int `yaml:"people_m"`
}

type group struct {
	ID                int
	Label, Call, When string
	Busy              struct{ Calls, Seconds int } `yaml:"busy_hour"`
}

type remark struct{ Repeater, With, By, Date, Text string }

type receiveList struct {
	Label  string
	Groups []string
}

type channel struct {
	Label, Note, When             string
	Simplex, Receive, Path, Power string
	Transmit                      string
	FM                            *fm
	DMR                           *dmr
	Timeout                       int    `yaml:"timeout_s"`
	ScanList                      string `yaml:"scan_list"`
}

type zone struct {
	Label    string
	Channels []string
}

type scanList struct {
	Label, Priority string
	Channels        []string
}

type radio struct {
	Label, Characters string
	Bands, Modes      []string
	LabelLength       int `yaml:"label_length"`
	Zones             []string
	Limits            map[string]int
}

// readClub decodes every file of a plan. A key that is not in the types above fails, and so
// does a key written twice.
func readClub(t *testing.T, plan fs.FS) club {
	t.Helper()
	var c club
	files, err := fs.Glob(plan, "*")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range files {
		f, err := plan.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		switch path.Ext(name) {
		case ".yaml":
			d := yaml.NewDecoder(f)
			d.KnownFields(true)
			if err := d.Decode(&c); err != nil {
				t.Fatalf("%s: %v", name, err)
			}
		case ".csv":
			if name == "neighbors.csv" {
				continue // repeaters of others
			}
			rows, err := csv.NewReader(f).ReadAll()
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			for _, row := range rows[1:] {
				c.operators = append(c.operators, [3]string(row))
			}
		case ".md":
		default:
			t.Fatalf("%s: not a file of a plan", name)
		}
		f.Close()
	}
	return c
}

// hertz reads MHz as written, exactly.
func hertz(t *testing.T, mhz string) int64 {
	t.Helper()
	r, ok := new(big.Rat).SetString(mhz)
	if !ok {
		t.Fatalf("%q is no frequency", mhz)
	}
	r.Mul(r, big.NewRat(1_000_000, 1))
	if !r.IsInt() {
		t.Fatalf("%q MHz is no whole number of hertz", mhz)
	}
	return r.Num().Int64()
}

// pair returns what members hear and what they transmit on, in Hz.
func (r repeater) pair(t *testing.T) (output, input int64) {
	t.Helper()
	output = hertz(t, r.Output)
	if r.Input != "" {
		return output, hertz(t, r.Input)
	}
	return output, output + hertz(t, r.Split)
}

// slots returns the groups of slot 1 and slot 2; none for a repeater without a DMR side.
func (r repeater) slots() [2][]string {
	if r.DMR == nil {
		return [2][]string{}
	}
	return [2][]string{r.DMR.Slot1, r.DMR.Slot2}
}

// labels returns the label of every channel that the plan expands to. The key is that of a
// written channel, or the talk path of a made one.
func (c club) labels() map[string]string {
	all := map[string]string{}
	for key, r := range c.Repeaters {
		if r.FM != nil {
			all[key+"/fm"] = r.Label + " FM"
		}
		for i, groups := range r.slots() {
			for _, g := range groups {
				all[key+"/"+string(rune('1'+i))+"/"+g] = r.Label + " " + c.Groups[g].Label
			}
		}
	}
	for _, ch := range c.Channels {
		delete(all, ch.Path)
	}
	for key, ch := range c.Channels {
		all[key] = ch.Label
	}
	return all
}

// expand returns the channels that a list of entries reaches, each once, and the entries
// that reach nothing.
func (c club) expand(entries []string) (channels, lost []string) {
	for _, entry := range entries {
		var found []string
		if key, ok := strings.CutPrefix(entry, "zone:"); ok {
			found, _ = c.expand(c.Zones[key].Channels)
		} else {
			found = c.match(entry)
		}
		if len(found) == 0 {
			lost = append(lost, entry)
		}
		for _, ch := range found {
			if !slices.Contains(channels, ch) {
				channels = append(channels, ch)
			}
		}
	}
	return channels, lost
}

func (c club) match(entry string) []string {
	var found []string
	for key := range c.labels() {
		talk := key
		if written, ok := c.Channels[key]; ok && written.Path != "" {
			talk = written.Path
		}
		if ok, _ := path.Match(entry, talk); ok || key == entry {
			found = append(found, key)
		}
	}
	slices.Sort(found)
	return found
}
