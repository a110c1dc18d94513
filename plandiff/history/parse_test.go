package history

import (
	"bufio"
	"encoding/hex"
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

const (
	hashA = "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"
	hashB = "bbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbb"
	zeros = "0000000000000000000000000000000000000000"
)

// Odd commits, made by "git hash-object" so that the real git accepts their
// form; what git prints of them is what the package must say, by both ways of
// reading (git-commit, "Commit information"; git-log, placeholders).
func TestOddCommitsReadLikeGit(t *testing.T) {
	f := newFixture(t)
	f.commit("base", "plan.yaml", "plan: x\n")
	tree := f.git("rev-parse", "HEAD^{tree}")
	sam := "Sam <sam@example.org> 1767225600 +0000\n"
	for name, raw := range map[string]string{
		"no message":             "author " + sam + "committer " + sam + "\n",
		"nothing after header":   "author " + sam + "committer " + sam,
		"blank lines first":      "author " + sam + "committer " + sam + "\n\n\n  A subject  \nin two lines\n\n\nBody\n  indented\n\n",
		"no line end":            "author " + sam + "committer " + sam + "\nSubject",
		"empty name":             "author  <nobody@example.org> 1767225600 +0000\ncommitter " + sam + "\nx\n",
		"odd zone":               "author A <a@example.org> 1767225600 -1130\ncommitter B <b@example.org> 1767225600 +0545\n\nx\n",
		"zone without hours":     "author A <a@example.org> 1767225600 -0030\ncommitter " + sam + "\nx\n",
		"year 1970":              "author A <a@example.org> 0 +0000\ncommitter " + sam + "\nx\n",
		"latin-1":                "author Ren\xe9 <r@example.org> 1767225600 +0000\ncommitter " + sam + "encoding ISO-8859-1\n\nCaf\xe9 repeater\n",
		"zero byte in message":   "author " + sam + "committer " + sam + "\nSubject\x00 hidden\n\nmore\n",
		"zero byte in header":    "author Sam\x00Hidden <x@example.org> 1 +0000\ncommitter " + sam + "\nSubject\n",
		"koi8-r":                 "author A <r@example.org> 1767225600 +0000\ncommitter " + sam + "encoding KOI8-R\n\n\xf7\xf7\n",
		"not UTF-8":              "author Ren\xe9 <r@example.org> 1767225600 +0000\ncommitter " + sam + "\nCaf\xe9\n",
		"signature and tag":      "author " + sam + "committer " + sam + "mergetag object " + hashA + "\n type commit\n tag v1\n \n words\ngpgsig -----BEGIN\n \n parent " + hashB + "\n -----END\n\nSigned\n",
		"name with angle":        "author A > B <a@example.org> 1767225600 +0000\ncommitter " + sam + "\nx\n",
		"carriage returns":       "author " + sam + "committer " + sam + "\nSubject\r\n\r\nBody\r\nmore\r\n",
		"form feed and tab":      "author " + sam + "committer " + sam + "\n\tSubject\n\n\tBody\n",
		"colon at line start":    "author " + sam + "committer " + sam + "\n:100644 100644 " + hashA + "\n",
		"subject is like a hash": "author " + sam + "committer " + sam + "\n" + hashA + "\n\n" + hashB + "\n",
	} {
		id := f.gitInput("tree "+tree+"\n"+raw, "hash-object", "-t", "commit", "-w", "--stdin", "--literally")
		var seen []Commit
		for _, backing := range []string{"go-git", "git"} {
			r := mustOnly(t, f.dir, backing)
			c := mustResolve(t, r, id)
			seen = append(seen, c)
			err := r.Walk(t.Context(), Commit{}, c, "", func(c Commit, _ []BlobChange) error { seen = append(seen, c); return nil })
			if err != nil {
				t.Errorf("%s: %s: %v", name, backing, err)
			}
		}
		if len(seen) != 4 {
			t.Errorf("%s: seen %d times", name, len(seen))
			continue
		}
		for _, c := range seen[1:] {
			if diff := cmp.Diff(seen[0], c, cmp.AllowUnexported(Commit{})); diff != "" {
				t.Errorf("%s: the ways of reading differ:\n%s", name, diff)
			}
		}
		c := seen[0]
		got := []string{c.AuthorEmail, c.When.Format(time.RFC3339)}
		want := strings.Split(f.git("show", "-s", "--format=%ae%n%aI", id), "\n")
		if want[1] == "%aI" {
			want[1] = "0001-01-01T00:00:00Z" // git's way to say that there is no date
		}
		if want[1] = strings.Replace(want[1], "+00:00", "Z", 1); !slices.Equal(got, want) {
			t.Errorf("%s: got %q, git says %q", name, got, want)
		}
		if name == "carriage returns" || name == "not UTF-8" || name == "koi8-r" || name == "form feed and tab" || name == "blank lines first" {
			continue // git passes these on; here they are made clean
		}
		if said := f.git("show", "-s", "--format=%an%n%s", id); said != c.Author+"\n"+c.Subject {
			t.Errorf("%s: got %q %q, git says %q", name, c.Author, c.Subject, said)
		}
	}
}

func TestParseCommitRefuses(t *testing.T) {
	for _, text := range []string{"", "tree", "tree x\n", "parent " + hashA + "\n", "tree " + hashA + "\ntree " + hashB + "\n", "tree " + hashA + "\nparent 12\n", "\n\ntree " + hashA} {
		if c, err := parseCommit(hashA, []byte(text)); !errors.Is(err, ErrDamaged) {
			t.Errorf("parseCommit(%q) = %+v, %v, want ErrDamaged", text, c, err)
		}
	}
}

func TestParseDate(t *testing.T) {
	cases := []struct{ text, want string }{
		{"1767225600 +0100", "2026-01-01T01:00:00+01:00"},
		{"1767225600 -0330", "2025-12-31T20:30:00-03:30"},
		{"1767225600", "2026-01-01T00:00:00Z"},
		{"253402300799 +0000", "9999-12-31T23:59:59Z"},
		{"253402300800 +0000", "0001-01-01T00:00:00Z"},
		{"-1 +0000", "0001-01-01T00:00:00Z"},
		{"99999999999999999999 +0000", "0001-01-01T00:00:00Z"},
		{"", "0001-01-01T00:00:00Z"},
		{"1767225600 +99999999", "2026-01-01T00:00:00Z"},
	}
	for _, c := range cases {
		if got := parseDate(c.text).Format(time.RFC3339); got != c.want {
			t.Errorf("parseDate(%q) = %s, want %s", c.text, got, c.want)
		}
	}
}

// Tree objects that git would never write could lead a reader astray.
func TestParseTree(t *testing.T) {
	bin, err := hex.DecodeString(hashA)
	if err != nil {
		t.Fatal(err)
	}
	line := func(mode, name string) string { return mode + " " + name + "\x00" + string(bin) }
	good := line("40000", "a") + line("100644", "a.b") + line("100664", "old") + line("120000", "z") + line("160000", "zz")
	entries, err := parseTree(hashA, []byte(good))
	if err != nil {
		t.Fatal(err)
	}
	want := []entry{{"a", modeDir, hashA}, {"a.b", modeFile, hashA}, {"old", modeFile, hashA}, {"z", modeLink, hashA}, {"zz", modeGitlink, hashA}}
	if !slices.Equal(entries, want) {
		t.Errorf("got %v, want %v", entries, want)
	}
	for why, text := range map[string]string{
		"no name": line("100644", ""), "itself": line("40000", "."), "its parent": line("40000", ".."), "a path": line("100644", "a/b"),
		"twice": line("100644", "a") + line("100755", "a"), "file and folder": line("100644", "a") + line("40000", "a"),
		"no mode": line("", "a"), "not octal": line("888", "a"), "cut in the hash": good[:len(good)-1], "cut in the name": "100644 abc", "text": "hello",
	} {
		if entries, err := parseTree(hashA, []byte(text)); !errors.Is(err, ErrDamaged) {
			t.Errorf("%s: got %v, %v, want ErrDamaged", why, entries, err)
		}
	}
}

func TestParseHeader(t *testing.T) {
	if kind, size, err := parseHeader(hashA+" blob 12\n", hashA); kind != "blob" || size != 12 || err != nil {
		t.Errorf("got %q, %d, %v", kind, size, err)
	}
	if _, _, err := parseHeader(hashA+" missing\n", hashA); !errors.Is(err, errNoSuchObject) {
		t.Errorf("missing: %v", err)
	}
	for _, line := range []string{"", "\n", hashB + " blob 1\n", hashA + " blob -1\n", hashA + " blob x\n", hashA + " blob\n", hashA + " ambiguous\n", hashA + " weird 3\n", hashA + " blob 99999999999999999999\n"} {
		if kind, size, err := parseHeader(line, hashA); err == nil || errors.Is(err, errNoSuchObject) {
			t.Errorf("parseHeader(%q) = %q, %d, %v, want an error", line, kind, size, err)
		}
	}
}

func TestParseReferences(t *testing.T) {
	refs, err := parseReferences(hashA + " refs/heads/main\n" + hashB + " refs/tags/a b\n")
	if err != nil || refs.byName["refs/heads/main"] != hashA || refs.byName["refs/tags/a b"] != hashB || len(refs.byName) != 2 {
		t.Errorf("got %v, %v", refs, err)
	}
	for _, list := range []string{"x\n", hashA + "\n", hashA + " \n", "123 refs/heads/main\n", "\n"} {
		if refs, err := parseReferences(list); err == nil {
			t.Errorf("parseReferences(%q) = %v, want an error", list, refs)
		}
	}
}

const header = hashA + "\x00" + hashB + "\x00\x00Sam\x00s@example.org\x001767225600 +0000\x001767225600 +0000\x00\x00Subject\n\x00"

func parseLogText(text, dir string) (list []logged, err error) {
	err = parseLog(bufio.NewReader(strings.NewReader(text)), dir, func(c logCommit, changes []BlobChange) error {
		list = append(list, logged{c.Commit, changes})
		return nil
	})
	return list, err
}

func TestParseLogRefuses(t *testing.T) {
	good := header + "\x00\n:100644 000000 " + hashA + " " + zeros + " D\x00plan.yaml\x00"
	if list, err := parseLogText(good+"\x00"+header, ""); err != nil || len(list) != 2 || list[0].changes[0].Path != "plan.yaml" || list[0].changes[0].New.Exists() {
		t.Fatalf("got %+v, %v", list, err)
	}
	if list, err := parseLogText("", ""); err != nil || list != nil {
		t.Errorf("nothing: got %+v, %v", list, err)
	}
	for why, text := range map[string]string{
		"a change first": ":100644 000000 " + hashA + " " + zeros + " D\x00plan.yaml\x00", "no hash": "x" + header[1:],
		"cut in a commit": header[:len(header)-3], "cut in a path": good[:len(good)-3], "cut before a path": good[:len(good)-10],
		"too few fields": header + ":100644 000000 " + hashA + " D\x00plan.yaml\x00", "colons do not match": header + "::100644 000000 " + hashA + " " + zeros + " D\x00plan.yaml\x00",
		"mode": header + ":10x644 000000 " + hashA + " " + zeros + " D\x00plan.yaml\x00", "short hash": header + ":100644 000000 aaaa " + zeros + " D\x00plan.yaml\x00",
		"empty path": header + ":100644 000000 " + hashA + " " + zeros + " D\x00\x00",
	} {
		if list, err := parseLogText(text, ""); err == nil {
			t.Errorf("%s: got %+v, want an error", why, list)
		}
	}
}

func TestReadShallow(t *testing.T) {
	f := &fixture{t: t, dir: tempDir(t)}
	f.write("shallow", hashA+"\nnonsense\n\n"+hashB+"\n")
	cut, err := readShallow(f.dir + "/shallow")
	if err != nil || len(cut) != 2 || !cut[hashA] || !cut[hashB] {
		t.Errorf("got %v, %v", cut, err)
	}
	if cut, err := readShallow(f.dir + "/none"); cut != nil || err != nil {
		t.Errorf("no file: got %v, %v", cut, err)
	}
}
