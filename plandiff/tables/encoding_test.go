package tables

import (
	"bytes"
	"strings"
	"testing"

	"golang.org/x/text/encoding/charmap"
)

// TestEncodings writes a table in each encoding and separator, and reads it by a layout
// that says nothing of them.
func TestEncodings(t *testing.T) {
	const columns = "tables: [{file: a.csv, rows: groups, columns: [{header: Key, value: key}, {header: Größe, value: label}, {header: Number, value: id}]}]"
	x, _ := smallPlan(t)
	plain := mustParse(t, "layout: x\n"+columns)
	for _, e := range encodings {
		for _, separator := range []string{"comma", "semicolon", "tab"} {
			l := mustParse(t, "layout: x\nencoding: "+e+"\nseparator: "+separator+"\n"+columns)
			out, err := Write(x, "", l)
			if err != nil {
				t.Fatal(err)
			}
			data := bytes.Replace(out.Files[0].Data, mustEncode(t, e, "State"), mustEncode(t, e, "Zoë"), 1)
			in, err := Read(x, "", plain, []File{{"a.csv", data}})
			if err != nil || len(in.Problems) > 0 {
				t.Errorf("%s, %s: %v %v", e, separator, err, in.Problems)
				continue
			}
			if g, _ := in.Plan.Groups.Find("statewide"); g.Label.V != "Zoë" {
				t.Errorf("%s, %s: the label is %q", e, separator, g.Label.V)
			}
			if said := in.Notices[len(in.Notices)-1]; !strings.Contains(said, "in "+e+" with "+separator) {
				t.Errorf("%s, %s: it says %s", e, separator, said)
			}
		}
	}
}

// mustEncode gives the bytes of a text without a mark.
func mustEncode(t *testing.T, e, text string) []byte {
	t.Helper()
	data, err := Encoding(e).encode([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	for _, mark := range []string{mark8, mark16LE, mark16BE} {
		data = bytes.TrimPrefix(data, []byte(mark))
	}
	return data
}

// TestDetect tells encodings by their bytes. The marks are those of The Unicode Standard,
// section 23.8; that C3 28 and a lone E9 are no UTF-8 follows from its table 3-7.
func TestDetect(t *testing.T) {
	for _, c := range []struct {
		name, why, data string
		stated          Encoding
		want            Encoding
	}{
		{"ASCII", "it is UTF-8 too", "a,b\n", "", UTF8},
		{"UTF-8", "valid with letters beyond ASCII", "Zo\xc3\xab\n", "", UTF8},
		{"UTF-8 with a mark", "EF BB BF", mark8 + "a\n", "", UTF8BOM},
		{"UTF-16 LE with a mark", "FF FE", mark16LE + "a\x00\n\x00", "", UTF16LE},
		{"UTF-16 BE with a mark", "FE FF", mark16BE + "\x00a\x00\n", "", UTF16BE},
		{"UTF-16 LE without", "every second byte of ASCII is zero", "a\x00,\x00b\x00\n\x00", "", UTF16LE},
		{"UTF-16 BE without", "every first byte of ASCII is zero", "\x00a\x00,\x00b\x00\n", "", UTF16BE},
		{"Latin-1", "a lone E9 is no UTF-8", "Caf\xe9\n", "", Latin1},
		{"stated", "both would be possible, and the layout knows", "Zo\xc3\xab\n", Latin1, Latin1},
		{"mark beats what is stated", "a mark is sure", mark8 + "a\n", Latin1, UTF8BOM},
		{"empty", "nothing to tell by", "", "", UTF8},
	} {
		if got := detect([]byte(c.data), c.stated); got != c.want {
			t.Errorf("%s (%s): %s, want %s", c.name, c.why, got, c.want)
		}
	}
}

// TestLatin1Holds compares what an encoding is said to hold with what can be encoded.
func TestLatin1Holds(t *testing.T) {
	for r := rune(1); r < 0x3000; r++ {
		_, err := charmap.Windows1252.NewEncoder().String(string(r))
		if got := Latin1.holds(r); got != (err == nil) {
			t.Fatalf("%U: %v, and encoding it gives %v", r, got, err)
		}
	}
	x, _ := smallPlan(t)
	l := mustParse(t, "layout: x\nencoding: latin-1\ntables: [{file: a.csv, rows: groups, columns: [{header: 日本, value: label}]}]")
	if _, err := Write(x, "", l); err == nil || !strings.Contains(err.Error(), `a.csv row 1, column A (日本): "日本" holds '日', which latin-1 does not have`) {
		t.Errorf("a character that latin-1 does not have: %v", err)
	}
}
