package driver_test

import (
	"bytes"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"passband.example/plandiff/driver"
	"passband.example/plandiff/merge"
)

// A program that is killed at any moment leaves the old text or the new one. The test
// binary is the program, see TestMain; it is killed outright, so that nothing of it
// can clean up.
func TestKilledAtAnyMoment(t *testing.T) {
	text := []byte("zones: {}\nplan:   A\n" + strings.Repeat("# a comment\n", 2000))
	for _, test := range []struct {
		name string
		args func(dir string) []string
	}{
		{"tidy", func(dir string) []string { return []string{"tidy", dir} }},
		{"merge-driver", func(dir string) []string {
			return []string{"merge-driver", filepath.Join(dir, "base"), filepath.Join(dir, "plan.yaml"), filepath.Join(dir, "theirs"), "7", "plan.yaml"}
		}},
	} {
		dir := t.TempDir()
		put := func(name string, text []byte) {
			if err := os.WriteFile(filepath.Join(dir, name), text, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		put("base", text)
		put("theirs", bytes.Replace(text, []byte("A"), []byte("B"), 1))
		put("plan.yaml", text)
		begin := time.Now()
		if err := program(dir, test.args(dir)).Run(); err != nil {
			t.Fatal(err)
		}
		took := time.Since(begin)
		finished, err := os.ReadFile(filepath.Join(dir, "plan.yaml"))
		if err != nil || bytes.Equal(finished, text) {
			t.Fatalf("%s did nothing: %v", test.name, err)
		}
		seen := map[bool]int{}
		for range 40 {
			put("plan.yaml", text)
			cmd := program(dir, test.args(dir))
			if err := cmd.Start(); err != nil {
				t.Fatal(err)
			}
			time.Sleep(time.Duration(rand.Int64N(int64(took) + int64(took)/2)))
			_ = cmd.Process.Kill() // it may have ended
			_ = cmd.Wait()
			now, err := os.ReadFile(filepath.Join(dir, "plan.yaml"))
			if err != nil {
				t.Fatal(err)
			}
			if old := bytes.Equal(now, text); !old && !bytes.Equal(now, finished) {
				t.Fatalf("%s left %d bytes of neither the old text nor the new", test.name, len(now))
			} else {
				seen[old]++
			}
		}
		t.Logf("%s: killed in %s or after; %d times the old text, %d times the new", test.name, took, seen[true], seen[false])
	}
}

func program(dir string, args []string) *exec.Cmd {
	self, err := os.Executable()
	if err != nil {
		panic(err)
	}
	cmd := exec.Command(self, args...)
	cmd.Dir = dir
	return cmd
}

func TestFacts(t *testing.T) {
	for _, test := range []struct{ name, why, file, text, want string }{
		{"a plan", "one fact a line, comments at the end", "plan.yaml",
			"# top\nzones: {b: {channels: [y, x]}, a: {}} # end\nplan: A\nrepeaters: {r: {split: +5, output: 444.3250}}\n",
			"plan: plan A\nrepeater r: output 444.325\nrepeater r: input 449.325\nzone a\nzone b: channels y\nzone b: channels x\n# top\n# end\n"},
		{"a table", "a row is what it says", "operators.csv", "id,callsign,name\n9990002,N0QRB,Tobin\n9990001, N0QRA ,\n",
			"operator: id 9990001\noperator: callsign N0QRA\noperator: id 9990002\noperator: callsign N0QRB\noperator: name Tobin\n"},
		{"no plan", "what cannot be read is shown as it is", "plan.yaml", "zonen: {}\n", "zonen: {}\n"},
		{"another file", "it is no file of a plan", "notes.txt", "x: y\n", "x: y\n"},
	} {
		if got := string(driver.Facts(test.file, []byte(test.text))); got != test.want {
			t.Errorf("%s (%s): got\n%s\nwant\n%s", test.name, test.why, got, test.want)
		}
	}
}

func FuzzFacts(f *testing.F) {
	f.Add("zones: {a: {}} # c\n")
	f.Add("groups:\n  a: &x {id: 1}\n  b: *x\n")
	f.Fuzz(func(t *testing.T, text string) {
		facts := driver.Facts("plan.yaml", []byte(text))
		if again := driver.Facts("plan.yaml", []byte(text)); string(facts) != string(again) {
			t.Errorf("%q has two texts", text)
		}
		r, err := merge.File("plan.yaml", []byte(text), []byte(text), []byte("plan: other\n"), merge.Labels{})
		if err == nil && string(r.Files["plan.yaml"]) != "plan: other\n" {
			t.Errorf("%q: %q", text, r.Files["plan.yaml"])
		}
	})
}
