package plan_test

import (
	"cmp"
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/rogpeppe/go-internal/txtar"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/plan/plantest"
)

// Each archive in testdata/load is a plan. What is wrong with it stands beside
// the line, as
//
//	label: 5   # want RULE@TOKEN "regexp"
//	label: 5   # want RULE:COLUMN "regexp"
//
// where TOKEN is the text at which the problem must point; it is quoted if it
// has blanks. Files that cannot hold a comment have their problems in a section
//
//	-- want --
//	FILE:LINE:COLUMN RULE "regexp"
//
// (FILE alone for the file as a whole). A problem that is missing fails, and so
// does one too many. An archive begins with the reason why it is there.
func TestLoadCorpus(t *testing.T) {
	names, err := filepath.Glob("testdata/load/*.txtar")
	if err != nil || len(names) == 0 {
		t.Fatalf("no archives: %v", err)
	}
	for _, name := range names {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".txtar"), func(t *testing.T) {
			archive, err := txtar.ParseFile(name)
			if err != nil {
				t.Fatal(err)
			}
			if strings.TrimSpace(string(archive.Comment)) == "" {
				t.Error("the archive does not say why it is there")
			}
			checkArchive(t, archive)
		})
	}
}

func checkArchive(t *testing.T, archive *txtar.Archive) {
	files := make(map[string][]byte)
	var wants []want
	for _, f := range archive.Files {
		if f.Name == "want" {
			wants = append(wants, wantSection(t, string(f.Data))...)
			continue
		}
		files[f.Name] = f.Data
		wants = append(wants, wantsBeside(t, f.Name, string(f.Data))...)
	}
	compareProblems(t, plantest.Load(t, files).Problems, wants)
}

// A want is a problem that must be told.
type want struct {
	rule    string
	at      plan.Place
	message *regexp.Regexp
}

// compareProblems matches problems with what is wanted, one to one.
func compareProblems(t *testing.T, problems []plan.Problem, wants []want) {
	t.Helper()
	for _, p := range problems {
		i := slices.IndexFunc(wants, func(w want) bool {
			return w.rule == p.Rule && w.at == p.At && w.message.MatchString(p.Error())
		})
		if i < 0 {
			t.Errorf("not wanted: %s [%s]", p.Error(), p.Rule)
			continue
		}
		wants = slices.Delete(wants, i, i+1)
		if p.What == "" || p.Fix == "" && !strings.Contains(p.What, "; ") {
			t.Errorf("%s does not say what to do", p.Error())
		}
	}
	for _, w := range wants {
		t.Errorf("missing: %s: %s %q", w.at, w.rule, w.message)
	}
}

var wantComment = regexp.MustCompile(`# want (.*)$`)
var wantMark = regexp.MustCompile(`^([a-z-]+)(?::(\d+)|@("(?:[^"\\]|\\.)*"|\S+)) ("(?:[^"\\]|\\.)*") ?`)
var wantLine = regexp.MustCompile(`^([^:]+)(?::(\d+):(\d+))? ([a-z-]+) (".*")$`)

// wantsBeside reads the comments "# want" of a file.
func wantsBeside(t *testing.T, file, text string) []want {
	var wants []want
	for i, line := range strings.Split(text, "\n") {
		m := wantComment.FindStringSubmatch(line)
		if m == nil {
			continue
		}
		for rest := m[1]; rest != ""; {
			mark := wantMark.FindStringSubmatch(rest)
			if mark == nil {
				t.Fatalf("%s:%d: cannot read %q", file, i+1, rest)
			}
			at := plan.Place{File: file, Line: int32(i + 1), Col: wantColumn(t, line, mark[2], mark[3])}
			wants = append(wants, want{mark[1], at, unquoted(t, mark[4])})
			rest = rest[len(mark[0]):]
		}
	}
	return wants
}

// wantColumn gives the column that a mark names by its number or by a token.
func wantColumn(t *testing.T, line, number, token string) int32 {
	if number != "" {
		n, err := strconv.Atoi(number)
		if err != nil {
			t.Fatal(err)
		}
		return int32(n)
	}
	if strings.HasPrefix(token, `"`) {
		var err error
		if token, err = strconv.Unquote(token); err != nil {
			t.Fatal(err)
		}
	}
	before, _, found := strings.Cut(line[:strings.Index(line, "# want")], token)
	if !found {
		t.Fatalf("there is no %q in %q", token, line)
	}
	return int32(1 + utf8.RuneCountInString(before))
}

func wantSection(t *testing.T, text string) []want {
	var wants []want
	for line := range strings.Lines(text) {
		m := wantLine.FindStringSubmatch(strings.TrimSpace(line))
		if m == nil {
			t.Fatalf("want: cannot read %q", line)
		}
		at := plan.Place{File: m[1]}
		_, err := fmt.Sscan(cmp.Or(m[2], "0")+" "+cmp.Or(m[3], "0"), &at.Line, &at.Col)
		if err != nil {
			t.Fatal(err)
		}
		wants = append(wants, want{m[4], at, unquoted(t, m[5])})
	}
	return wants
}

func unquoted(t *testing.T, quoted string) *regexp.Regexp {
	text, err := strconv.Unquote(quoted)
	if err != nil {
		t.Fatalf("%s: %v", quoted, err)
	}
	return regexp.MustCompile(text)
}
