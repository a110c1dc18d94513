package history

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A repository may name programs in its configuration, and hooks and attributes
// beside it. None of them may run, whatever is asked.
func TestRepositoryRunsNothing(t *testing.T) {
	f := newFixture(t).harrow()
	f.git("update-index", "--add", "--cacheinfo", "160000,"+f.git("rev-parse", "v1^{}")+",vendor/maps")
	f.git("commit", "-q", "-m", "A submodule")
	want, wantBelow := f.truth(), f.realRaw("plans/harrow", "main")
	marker := filepath.Join(tempDir(t), "ran")
	script := filepath.Join(f.dir, ".git", "evil.sh")
	writeProgram(t, script, "#!/bin/sh\necho \"$0 $*\" >> "+marker+"\ncat\n")
	config := "\n[alias]\n"
	for _, command := range []string{"log", "cat-file", "for-each-ref", "rev-parse", "symbolic-ref"} {
		config += "\t" + command + " = !" + script + "\n"
	}
	config += "[core]\n\tfsmonitor = " + script + "\n\tpager = " + script + "\n\tsshCommand = " + script + "\n\teditor = " + script +
		"\n\taskPass = " + script + "\n\tgitProxy = " + script + "\n\talternateRefsCommand = " + script + "\n\thooksPath = " + filepath.Join(f.dir, ".git", "evil-hooks") + "\n" +
		"[diff]\n\texternal = " + script + "\n\torderFile = /dev/zero\n\trenames = copies\n\trelative = true\n\tignoreSubmodules = all\n\tnoprefix = true\n" +
		"[diff \"evil\"]\n\tcommand = " + script + "\n\ttextconv = " + script + "\n" +
		"[filter \"evil\"]\n\tsmudge = " + script + "\n\tclean = " + script + "\n\tprocess = " + script + "\n" +
		"[gpg]\n\tprogram = " + script + "\n[gpg \"ssh\"]\n\tprogram = " + script + "\n[credential]\n\thelper = !" + script + "\n" +
		"[pager]\n\tlog = " + script + "\n\tcat-file = " + script + "\n" +
		"[log]\n\tshowSignature = true\n\tshowRoot = false\n\tmailmap = true\n\tdate = relative\n\tdecorate = full\n\tfollow = true\n\tdiffMerges = first-parent\n\tabbrevCommit = true\n" +
		"[color]\n\tui = always\n[format]\n\tpretty = oneline\n[i18n]\n\tlogOutputEncoding = UTF-16\n[notes]\n\tdisplayRef = refs/notes/*\n[trace2]\n\tnormalTarget = 2\n"
	appendFile(t, filepath.Join(f.dir, ".git", "config"), config)
	appendFile(t, filepath.Join(f.dir, ".git", "info", "attributes"), "* diff=evil filter=evil\n")
	for _, hook := range []string{"reference-transaction", "post-checkout", "fsmonitor-watchman", "post-index-change"} {
		for _, dir := range []string{"hooks", "evil-hooks"} {
			writeProgram(t, filepath.Join(f.dir, ".git", dir, hook), "#!/bin/sh\necho hook >> "+marker+"\n")
		}
	}
	for _, backing := range []string{"go-git", "git"} {
		if got := portrait(t, mustOnly(t, f.dir, backing)); got != want {
			t.Errorf("%s: the configuration changed the answer:\n%s", backing, firstDifference(got, want))
		}
		r := mustOnly(t, f.dir, backing)
		if got := told(t, r, Commit{}, mustResolve(t, r, "main"), "plans/harrow"); got != wantBelow {
			t.Errorf("%s: the configuration changed the history of a folder:\n%s", backing, firstDifference(got, wantBelow))
		}
	}
	if ran, err := os.ReadFile(marker); err == nil {
		t.Errorf("the repository ran a program:\n%s", ran)
	}
}

// A signed commit with log.showSignature would start the program that checks signatures.
func TestSignedCommitRunsNothing(t *testing.T) {
	f := newFixture(t)
	marker := filepath.Join(tempDir(t), "ran")
	script := filepath.Join(f.dir, ".git", "evil.sh")
	writeProgram(t, script, "#!/bin/sh\necho ran >> "+marker+"\n")
	f.commit("first", "plan.yaml", "plan: x\n")
	raw := f.git("cat-file", "commit", "HEAD")
	head, message, _ := strings.Cut(raw, "\n\n")
	signed := head + "\ngpgsig -----BEGIN PGP SIGNATURE-----\n \n tree 0000\n parent of nothing\n -----END PGP SIGNATURE-----\n\n" + message + "\n"
	id := f.gitInput(signed, "hash-object", "-t", "commit", "-w", "--stdin")
	f.git("update-ref", "refs/heads/main", id)
	appendFile(t, filepath.Join(f.dir, ".git", "config"), "[log]\n\tshowSignature = true\n[gpg]\n\tprogram = "+script+"\n")
	for _, backing := range []string{"go-git", "git"} {
		r := mustOnly(t, f.dir, backing)
		c := mustResolve(t, r, "main")
		if c.Subject != "first" || len(c.Parents) != 0 || told(t, r, Commit{}, c, "") == "" {
			t.Errorf("%s: the signature was read as something else: %+v", backing, c)
		}
	}
	if _, err := os.Stat(marker); err == nil {
		t.Error("the signature checker of the repository was run")
	}
}

func writeProgram(t *testing.T, path, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o755); err != nil {
		t.Fatal(err)
	}
}

func appendFile(t *testing.T, path, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	old, err := os.ReadFile(path)
	if err != nil && !os.IsNotExist(err) {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, append(old, text...), 0o644); err != nil {
		t.Fatal(err)
	}
}
