package history

import (
	"encoding/hex"
	"io/fs"
	"path"
	"strings"
	"testing"
	"unicode/utf8"
)

func FuzzParseRevision(f *testing.F) {
	for _, seed := range []string{"HEAD", "@~3", "main^2~1", "v1^{}", "v1^{commit}^", "a..b", "HEAD:x", "main@{1}", "~", "^^^", "x~99999999", "\x00", "refs/heads/a.lock"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		rev, err := parseRevision(text)
		if err != nil {
			return
		}
		if strings.ContainsAny(rev.name, " :~^\n\x00\\") || strings.HasPrefix(rev.name, "-") || strings.Contains(rev.name, "..") {
			t.Errorf("%q: the name %q could mean something else to git", text, rev.name)
		}
		for _, s := range rev.steps {
			if s.generations < 0 || s.parent < 0 || s.generations > 0 && s.parent > 0 {
				t.Errorf("%q: step %+v", text, s)
			}
		}
	})
}

func FuzzParseCommit(f *testing.F) {
	f.Add([]byte("tree " + hashA + "\nparent " + hashB + "\nauthor A <a@example.org> 1 +0100\ncommitter B <b@example.org> 2 -0200\nencoding latin1\n\nSubject\n\nBody\n"))
	f.Add([]byte("tree " + hashA + "\nauthor >< x\n\n\r\n\x00"))
	f.Fuzz(func(t *testing.T, data []byte) {
		c, err := parseCommit(hashA, data)
		if err != nil {
			return
		}
		if !isHash(c.tree) {
			t.Errorf("tree %q", c.tree)
		}
		for _, text := range []string{c.Author, c.AuthorEmail, c.Subject, c.Body} {
			if !utf8.ValidString(text) || strings.Contains(text, "\x00") {
				t.Errorf("%q is not text", text)
			}
		}
		if strings.Contains(c.Subject, "\n") {
			t.Errorf("subject %q has two lines", c.Subject)
		}
	})
}

func FuzzParseTree(f *testing.F) {
	hash, _ := hex.DecodeString(hashA)
	f.Add([]byte("100644 plan.yaml\x00" + string(hash) + "40000 plans\x00" + string(hash)))
	f.Add([]byte("120000 ..\x00" + string(hash)))
	f.Fuzz(func(t *testing.T, data []byte) {
		entries, err := parseTree(hashA, data)
		if err != nil {
			return
		}
		for i, e := range entries {
			if path.Base(e.name) != e.name || e.name == ".." || e.name == "." {
				t.Errorf("the name %q leads elsewhere", e.name)
			}
			if i > 0 && entries[i-1].name >= e.name {
				t.Errorf("%q and %q are out of order", entries[i-1].name, e.name)
			}
			if !isHash(e.id) || find(entries, e.name) != e {
				t.Errorf("%+v is not found again", e)
			}
		}
	})
}

func FuzzParseLog(f *testing.F) {
	f.Add(header+"\x00\n:100644 000000 "+hashA+" "+zeros+" D\x00plan.yaml\x00", "")
	f.Add(header+"\x00::100644 100644 100644 "+hashA+" "+hashB+" "+hashA+" MM\x00plans/plan.yaml\x00\x00"+header, "plans")
	f.Fuzz(func(t *testing.T, text, dir string) {
		list, err := parseLogText(text, dir)
		if err != nil {
			return
		}
		for _, e := range list {
			if !isHash(e.commit.Hash) || !isHash(e.commit.tree) {
				t.Errorf("commit %+v", e.commit)
			}
			for _, ch := range e.changes {
				for _, v := range append([]Version{ch.Old, ch.New}, ch.Others...) {
					if v.Exists() != (v.Mode != 0) || v.Exists() && !isHash(v.Hash) || v.Mode.Type()&^(fs.ModeSymlink|fs.ModeIrregular|fs.ModeDir) != 0 {
						t.Errorf("version %+v", v)
					}
				}
			}
		}
	})
}

func FuzzParseHeader(f *testing.F) {
	f.Add(hashA + " blob 12\n")
	f.Add(hashA + " missing\n")
	f.Fuzz(func(t *testing.T, line string) {
		kind, size, err := parseHeader(line, hashA)
		if err == nil && (size < 0 || kind == "" || !strings.HasPrefix(line, hashA+" "+kind+" ")) {
			t.Errorf("parseHeader(%q) = %q, %d", line, kind, size)
		}
	})
}

func FuzzParseReferences(f *testing.F) {
	f.Add(hashA + " refs/heads/main\n" + hashB + " refs/tags/v1\n")
	f.Fuzz(func(t *testing.T, list string) {
		refs, err := parseReferences(list)
		if err != nil {
			return
		}
		for name, id := range refs.byName {
			if !strings.Contains(list, id+" "+name) {
				t.Errorf("%q was read from %q", name, list)
			}
		}
	})
}

func FuzzParseTag(f *testing.F) {
	f.Add([]byte("object " + hashA + "\ntype commit\ntag v1\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if target, err := parseTag(hashA, data); err == nil && !isHash(target) {
			t.Errorf("target %q", target)
		}
	})
}
