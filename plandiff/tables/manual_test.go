package tables

import (
	"strings"
	"testing"
)

// TestManualExample uses the layout of the package comment, as it stands there, and wants
// the keys and formats that the comment tells of to be those that there are.
func TestManualExample(t *testing.T) {
	_, text, _ := strings.Cut(Manual(), "\tlayout: Our tables\n")
	text, _, _ = strings.Cut("layout: Our tables\n"+text, "\n\n")
	l := mustParse(t, strings.ReplaceAll(text, "\t", ""))
	x, _ := smallPlan(t)
	out, err := Write(x, "pocket", l)
	if err != nil {
		t.Fatal(err)
	}
	const want = "Name,Receive,Offset,Tone,Power,Version\r\nRidge St,444.32500,+5000,-,-,2\r\nRidge FM,444.32500,+5000,103.5,-,2\r\nCall,146.52000,0,-,-,2\r\n"
	if got := string(out.Files[0].Data); got != want {
		t.Errorf("it gives\n%s\nwant\n%s", got, want)
	}
	for _, word := range append([]string{"semicolon", "tab", "crlf", "lf", "text", "each", "note", "D023N", "023N"}, encodings...) {
		if !strings.Contains(Manual(), word) {
			t.Errorf("the package comment does not tell of %s", word)
		}
	}
}

// TestNeutral wants the layout that comes with passband to tell every channel apart and
// to read nothing as two things.
func TestNeutral(t *testing.T) {
	l, err := Neutral()
	if err != nil {
		t.Fatal(err)
	}
	if len(l.Notices) > 0 {
		t.Error(l.Notices)
	}
	for _, table := range l.Tables {
		if table.File == "channels.csv" && table.find("key") < 0 {
			t.Error("channels have no key")
		}
	}
}
