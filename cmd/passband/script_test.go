package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rivo/uniseg"
	"github.com/rogpeppe/go-internal/testscript"
	"passband.example/review/rules"
)

var update = flag.Bool("update", false, "rewrite the golden outputs in the scripts")

func TestMain(m *testing.M) { testscript.Main(m, map[string]func(){"passband": main}) }

// TestScripts runs the real program: see testdata/script, and the commands below
// for what testscript does not bring along.
func TestScripts(t *testing.T) {
	club, err := filepath.Abs(filepath.Join("testdata", "club"))
	if err != nil {
		t.Fatal(err)
	}
	action, err := filepath.Abs(actionFolder)
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                filepath.Join("testdata", "script"),
		UpdateScripts:      *update,
		RequireUniqueNames: true,
		Condition: func(name string) (bool, error) {
			switch name {
			case "root":
				return os.Geteuid() == 0, nil
			case "exists-full":
				_, err := os.Stat("/dev/full")
				return err == nil, nil
			}
			return false, fmt.Errorf("unknown condition %s", name)
		},
		Setup: func(env *testscript.Env) error {
			env.Vars = append(env.Vars, "CLUB="+club, "ACTION="+action, "ESC=\x1b[31m", "RULES="+strconv.Itoa(rulesThatRun()), "GIT_CONFIG_GLOBAL=/dev/null", "GIT_CONFIG_NOSYSTEM=1", "TZ=UTC",
				"GIT_AUTHOR_NAME=Pat Example", "GIT_AUTHOR_EMAIL=pat@example.org", "GIT_AUTHOR_DATE=2026-01-01T12:00:00Z",
				"GIT_COMMITTER_NAME=Pat Example", "GIT_COMMITTER_EMAIL=pat@example.org", "GIT_COMMITTER_DATE=2026-01-01T12:00:00Z")
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"status": scriptStatus, "club": scriptClub, "commit": scriptCommit, "edit": scriptEdit, "columns": scriptColumns,
			"json": scriptJSON, "bigfile": scriptBigFile, "binary": scriptBinary, "repeat": scriptRepeat, "nogit": scriptNoGit, "same": scriptSame,
		},
	})
}

// rulesThatRun counts what the last line of a check says.
func rulesThatRun() int {
	n := 0
	for _, r := range rules.All() {
		if r.Run != nil {
			n++
		}
	}
	return n
}

// status N PROGRAM ARG... wants exactly this exit status.
func scriptStatus(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status N program arg...")
	}
	err := ts.Exec(args[1], args[2:]...)
	got := 0
	if exit := (*exec.ExitError)(nil); errors.As(err, &exit) {
		got = exit.ExitCode()
	} else if err != nil {
		ts.Fatalf("%v", err)
	}
	if strconv.Itoa(got) != args[0] {
		ts.Fatalf("exit status %d, want %s", got, args[0])
	}
	for _, stream := range []string{"stdout", "stderr"} {
		if strings.Contains(ts.ReadFile(stream), "goroutine ") {
			ts.Fatalf("it panicked")
		}
	}
}

// club DIR makes a folder with the small plan of testdata/club.
func scriptClub(ts *testscript.TestScript, _ bool, args []string) {
	ts.Check(os.CopyFS(ts.MkAbs(args[0]), os.DirFS(ts.Getenv("CLUB"))))
}

// commit DIR MESSAGE records all that is in the repository DIR, and makes one if needed.
func scriptCommit(ts *testscript.TestScript, _ bool, args []string) {
	dir := args[0]
	if _, err := os.Stat(filepath.Join(ts.MkAbs(dir), ".git")); err != nil {
		ts.Check(ts.Exec("git", "init", "-q", "-b", "main", dir))
	}
	ts.Check(ts.Exec("git", "-C", dir, "add", "-A"))
	ts.Check(ts.Exec("git", "-C", dir, "commit", "-q", "-m", args[1]))
}

// edit FILE OLD NEW replaces a text that must stand there once.
func scriptEdit(ts *testscript.TestScript, _ bool, args []string) {
	file := ts.MkAbs(args[0])
	data, err := os.ReadFile(file)
	ts.Check(err)
	if n := strings.Count(string(data), args[1]); n != 1 {
		ts.Fatalf("%q stands %d times in %s", args[1], n, args[0])
	}
	ts.Check(os.WriteFile(file, []byte(strings.Replace(string(data), args[1], args[2], 1)), 0o644))
}

// columns N FILE wants no line wider than N columns, unless it is one word that cannot be broken.
func scriptColumns(ts *testscript.TestScript, _ bool, args []string) {
	most, err := strconv.Atoi(args[0])
	ts.Check(err)
	for line := range strings.Lines(ts.ReadFile(args[1])) {
		line = strings.TrimSuffix(line, "\n")
		if w := uniseg.StringWidth(line); w > most && strings.Contains(strings.TrimSpace(line), " ") {
			ts.Fatalf("%d columns, want at most %d: %s", w, most, line)
		}
	}
}

// json FILE KEY.KEY.INDEX WANT wants a value in a JSON text.
func scriptJSON(ts *testscript.TestScript, _ bool, args []string) {
	text := ts.ReadFile(args[0])
	if !strings.HasSuffix(text, "}\n") {
		ts.Fatalf("it does not end with a line feed")
	}
	var at any
	ts.Check(json.Unmarshal([]byte(text), &at))
	for key := range strings.SplitSeq(args[1], ".") {
		switch v := at.(type) {
		case map[string]any:
			at = v[key]
		case []any:
			if i, err := strconv.Atoi(key); err == nil && i < len(v) {
				at = v[i]
			} else if key == "length" {
				at = len(v)
			} else {
				at = nil
			}
		default:
			at = nil
		}
	}
	if got := fmt.Sprint(at); got != args[2] {
		ts.Fatalf("%s is %s, want %s", args[1], got, args[2])
	}
}

// bigfile NAME BYTES makes a file with a hole in it.
func scriptBigFile(ts *testscript.TestScript, _ bool, args []string) {
	f, err := os.Create(ts.MkAbs(args[0]))
	ts.Check(err)
	size, err := strconv.ParseInt(args[1], 10, 64)
	ts.Check(err)
	ts.Check(f.Truncate(size))
	ts.Check(f.Close())
}

// binary NAME makes a file that is no text.
func scriptBinary(ts *testscript.TestScript, _ bool, args []string) {
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte("\x7fELF\x02\x01\x01\x00\xff\xfe\x00\x00plan: x\n"), 0o644))
}

// repeat NAME N TEXT... writes each text N times, one after the other.
func scriptRepeat(ts *testscript.TestScript, _ bool, args []string) {
	n, err := strconv.Atoi(args[1])
	ts.Check(err)
	var b strings.Builder
	for _, text := range args[2:] {
		b.WriteString(strings.Repeat(text, n))
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(b.String()), 0o644))
}

// nogit leaves nothing on the PATH but passband.
func scriptNoGit(ts *testscript.TestScript, _ bool, _ []string) {
	first, _, _ := strings.Cut(ts.Getenv("PATH"), string(os.PathListSeparator))
	ts.Setenv("PATH", first)
}

// same DIR DIR wants two folders with the same contents.
func scriptSame(ts *testscript.TestScript, _ bool, args []string) {
	a, err := filesIn(ts.MkAbs(args[0]))
	ts.Check(err)
	b, err := filesIn(ts.MkAbs(args[1]))
	ts.Check(err)
	if diff := cmp.Diff(a, b); diff != "" || len(a) == 0 {
		ts.Fatalf("%d files; what differs: %s", len(a), diff)
	}
}

// filesIn gives the contents of all files below a folder, apart from the index of
// git, which holds times.
func filesIn(dir string) (map[string]string, error) {
	files := make(map[string]string)
	err := filepath.WalkDir(dir, func(name string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() || d.Name() == "index" {
			return err
		}
		text, err := os.ReadFile(name)
		files[strings.TrimPrefix(name, dir)] = string(text)
		return err
	})
	return files, err
}
