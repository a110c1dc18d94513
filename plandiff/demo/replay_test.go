package demo

import (
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"
)

func TestTheEmbeddedHistoryReplays(t *testing.T) {
	if _, err := replayed(); err != nil {
		t.Fatal(err)
	}
	commits := History()
	byName, perBranch, tags := map[string]Commit{}, map[string]int{}, []string{}
	for i, c := range commits {
		byName[c.Name] = c
		perBranch[c.Branch]++
		if c.Tag != "" {
			tags = append(tags, c.Branch+" "+c.Tag)
		}
		if i > 0 && !c.When.After(commits[i-1].When) {
			t.Errorf("%s is not later than the one before it", c.Name)
		}
		if year := c.When.Year(); year < 2025 || year > 2026 {
			t.Errorf("%s was made in %d", c.Name, year)
		}
		if !strings.HasSuffix(c.Email, "@example.org") || !strings.Contains(c.Author, " ") {
			t.Errorf("%s is by %s <%s>, want a full name at example.org (RFC 2606)", c.Name, c.Author, c.Email)
		}
		if subject, body, _ := strings.Cut(c.Message, "\n"); len(subject) > 60 || !strings.HasPrefix(body, "\n") || !strings.HasSuffix(body, "\n") {
			t.Errorf("%s: subject %q and body %q are not in git's usual form", c.Name, subject, body)
		}
	}
	if perBranch[Main] < 8 || perBranch[Proposal] < 1 || len(perBranch) != 2 {
		t.Errorf("commits on each branch: %v", perBranch)
	}
	if got, want := strings.Join(tags, ", "), Main+" "+FirstRelease+", "+Main+" "+SecondRelease; got != want {
		t.Errorf("tags %s, want %s", got, want)
	}
	if commits[0].Parent != "" || commits[len(commits)-1].Branch != Main {
		t.Error("the history must begin with a root and end on main")
	}
}

// Where the proposal leaves main decides what it is blamed for, so main must have gone on.
func TestTheProposalLeavesMainBeforeItsEnd(t *testing.T) {
	var before, first Commit
	after := 0
	for _, c := range History() {
		switch {
		case c.Branch == Proposal && first.Name == "":
			first = c
		case c.Branch == Main && first.Name == "":
			before = c
		case c.Branch == Main:
			after++
		}
	}
	if first.Parent != before.Name {
		t.Errorf("the proposal grew from %q, want %q", first.Parent, before.Name)
	}
	if after == 0 {
		t.Error("main stood still after the proposal left it")
	}
}

func TestEveryCommitChangesWhatItCarries(t *testing.T) {
	plans := map[string]fs.FS{"": fstest.MapFS{}}
	for _, c := range History() {
		plans[c.Name] = c.Plan
		entries, err := fs.ReadDir(data, "data/"+c.Name)
		if err != nil {
			t.Fatal(err)
		}
		if len(entries) < 2 {
			t.Errorf("%s changes nothing", c.Name)
		}
		for _, e := range entries {
			if e.Name() == letter {
				continue
			}
			now, err := fs.ReadFile(c.Plan, e.Name())
			if err != nil {
				t.Fatal(err)
			}
			if was, err := fs.ReadFile(plans[c.Parent], e.Name()); err == nil && string(was) == string(now) {
				t.Errorf("%s carries %s, which is as it was", c.Name, e.Name())
			}
			if text := string(now); strings.Contains(text, "\r") || !strings.HasSuffix(text, "\n") || strings.Contains(text, " \n") {
				t.Errorf("%s: %s has a carriage return, a space at the end of a line or no last newline", c.Name, e.Name())
			}
		}
	}
}

func TestPlanAndBranchAreTips(t *testing.T) {
	commits := History()
	if err := fstest.TestFS(Plan(), "plan.yaml", "README.md", "operators.csv"); err != nil {
		t.Error(err)
	}
	for _, want := range []struct {
		name string
		tip  fs.FS
		plan fs.FS
	}{
		{Main, Plan(), commits[len(commits)-1].Plan},
		{Proposal, Branch(), lastOf(commits, Proposal).Plan},
	} {
		a, err := fs.ReadFile(want.tip, "repeaters.yaml")
		if err != nil {
			t.Fatal(err)
		}
		b, err := fs.ReadFile(want.plan, "repeaters.yaml")
		if err != nil {
			t.Fatal(err)
		}
		if string(a) != string(b) {
			t.Errorf("the tip of %s is another plan than its last commit", want.name)
		}
	}
}

func lastOf(commits []Commit, branch string) (last Commit) {
	for _, c := range commits {
		if c.Branch == branch {
			last = c
		}
	}
	return last
}

func TestReplayRefusesABrokenLetter(t *testing.T) {
	const good = "From: A Member <a@example.org>\nDate: Sun, 14 Sep 2025 19:40:00 -0600\nBranch: main\n\nSubject\n"
	for _, c := range []struct{ name, text, want, why string }{
		{"good", good, "", "the others differ from this one in one thing"},
		{"no letter", "", "commit.txt", "a folder without one has no author"},
		{"no author", strings.Replace(good, "From:", "Frim:", 1), "From", "git needs a name"},
		{"no name", strings.Replace(good, "A Member ", "", 1), "name of its author", "git takes no commit without one"},
		{"no date", strings.Replace(good, "14 Sep", "14 Sec", 1), "Date", "today's date would change the hash"},
		{"no branch", strings.Replace(good, "Branch:", "Brunch:", 1), "branch", "it would belong nowhere"},
		{"no message", strings.Replace(good, "Subject\n", "", 1), "message", "nobody would know why"},
		{"no head", "just text\n", "commit.txt", "a message alone is not enough"},
	} {
		t.Run(c.name, func(t *testing.T) {
			folder := fstest.MapFS{"01-first/plan.yaml": {Data: []byte("plan: x\n")}}
			if c.text != "" {
				folder["01-first/commit.txt"] = &fstest.MapFile{Data: []byte(c.text)}
			}
			commits, err := replay(folder)
			switch {
			case c.want == "" && (err != nil || len(commits) != 1):
				t.Errorf("%d commits, error %v (%s)", len(commits), err, c.why)
			case c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)):
				t.Errorf("error %v, want one about %s (%s)", err, c.want, c.why)
			}
		})
	}
}

func FuzzReplay(f *testing.F) {
	f.Add("From: A Member <a@example.org>\nDate: Sun, 14 Sep 2025 19:40:00 -0600\nBranch: main\nTag: 1\n\nSubject\n")
	f.Add("From: \"\" <a@example.org>\nDate: 1 Jan 2026 00:00 -0000\nBranch: x\n\n\n")
	f.Add("")
	f.Fuzz(func(t *testing.T, text string) {
		commits, err := replay(fstest.MapFS{"01/commit.txt": {Data: []byte(text)}})
		if err != nil {
			return
		}
		c := commits[0]
		if c.Author == "" || c.Email == "" || c.Branch == "" || c.Message == "" || c.When.IsZero() || c.Plan == nil {
			t.Errorf("taken, and incomplete: %+v", c)
		}
	})
}
