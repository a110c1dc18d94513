package post_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"passband.example/review/post"
	"passband.example/review/report"
	"pgregory.net/rapid"
)

const (
	headNow = "1111111111111111111111111111111111111111"
	keyA    = "aaaaaaaaaaaaaaaa"
	keyB    = "bbbbbbbbbbbbbbbb"
	keyC    = "cccccccccccccccc"
)

var here = report.PlanMark("")

// written gives a comment that passband wrote before.
func written(id int64, role report.MarkRole, key, body string, line int32) post.Comment {
	c := post.Comment{ID: id, Mine: true, Thread: fmt.Sprint("t", id), Body: report.Mark{Role: role, Key: key, Plan: here}.Signed(body)}
	if line > 0 {
		c.Spot = post.Spot{Path: "plan.yaml", Line: line}
	}
	return c
}

func draft(key, body string, line int32) post.Draft {
	d := post.Draft{Key: key, Body: body}
	if line > 0 {
		d.Spot = post.Spot{Path: "plan.yaml", Line: line}
	}
	return d
}

// with changes a comment.
func with(c post.Comment, change func(*post.Comment)) post.Comment {
	change(&c)
	return c
}

func answered(c *post.Comment) { c.Answered = true }
func resolved(c *post.Comment) { c.Resolved = true }
func strange(c *post.Comment)  { c.Mine = false }

// told gives what is to be done as words.
func told(w *post.Work) string {
	var out []string
	for _, d := range w.Post {
		out = append(out, fmt.Sprintf("post %.1s at %d", d.Key, d.Spot.Line))
	}
	for _, a := range w.Amend {
		m, _, _ := report.ParseMark(a.Body)
		out = append(out, fmt.Sprintf("amend %d to %s", a.Comment.ID, m.Role))
	}
	for _, c := range w.Resolve {
		out = append(out, fmt.Sprintf("resolve %d", c.ID))
	}
	for _, c := range w.Reopen {
		out = append(out, fmt.Sprintf("reopen %d", c.ID))
	}
	for _, c := range w.Remove {
		out = append(out, fmt.Sprintf("remove %d", c.ID))
	}
	return strings.Join(out, ", ")
}

func TestReconcile(t *testing.T) {
	const finding, gone = report.MarkFinding, report.MarkGone
	for _, c := range []struct {
		name, why string
		standing  []post.Comment
		drafts    []post.Draft
		most      int // 0 for 10
		want      string
	}{
		{"nothing", "nothing is to be done", nil, nil, 0, ""},
		{"the first run", "each finding is told once", nil, []post.Draft{draft(keyA, "a", 3), draft(keyB, "b", 5)}, 0, "post a at 3, post b at 5"},
		{"the second run", "what stands is not posted again", []post.Comment{written(1, finding, keyA, "a", 3)}, []post.Draft{draft(keyA, "a", 3)}, 0, ""},
		{"one more", "only the new one is posted", []post.Comment{written(1, finding, keyA, "a", 3)}, []post.Draft{draft(keyA, "a", 3), draft(keyB, "b", 5)}, 0, "post b at 5"},
		{"other words", "the comment is edited, which tells nobody", []post.Comment{written(1, finding, keyA, "old", 3)}, []post.Draft{draft(keyA, "a", 3)}, 0, "amend 1 to finding"},
		{"the line moved away", "it is told where it is now, once", []post.Comment{written(1, finding, keyA, "a", 0)}, []post.Draft{draft(keyA, "a", 4)}, 0, "post a at 4, remove 1"},
		{"on another line", "the same", []post.Comment{written(1, finding, keyA, "a", 3)}, []post.Draft{draft(keyA, "a", 4)}, 0, "post a at 4, remove 1"},
		{"no line any more", "it stays where it is", []post.Comment{written(1, finding, keyA, "a", 0)}, []post.Draft{draft(keyA, "a", 0)}, 0, ""},
		{"never a line", "it is in the summary", nil, []post.Draft{draft(keyA, "a", 0)}, 0, ""},
		{"gone", "it is marked, and the thread folded away", []post.Comment{written(1, finding, keyA, "a", 3)}, nil, 0, "amend 1 to gone, resolve 1"},
		{"gone before", "it is marked already", []post.Comment{with(written(1, gone, keyA, "a", 3), resolved)}, nil, 0, ""},
		{"gone, and the run broke off", "what is left is done", []post.Comment{written(1, gone, keyA, "a", 3)}, nil, 0, "resolve 1"},
		{"gone where nothing can be resolved", "the words are enough", []post.Comment{with(written(1, gone, keyA, "a", 3), func(c *post.Comment) { c.Thread = "" })}, nil, 0, ""},
		{"back again", "its thread is opened again", []post.Comment{with(written(1, gone, keyA, "a", 3), resolved)}, []post.Draft{draft(keyA, "a", 3)}, 0, "amend 1 to finding, reopen 1"},
		{"back on another line", "it is told there", []post.Comment{with(written(1, gone, keyA, "a", 3), resolved)}, []post.Draft{draft(keyA, "a", 7)}, 0, "post a at 7, remove 1"},
		{"answered and gone", "a person's thread is left alone", []post.Comment{with(written(1, finding, keyA, "a", 3), answered)}, nil, 0, ""},
		{"answered and other words", "the same", []post.Comment{with(written(1, finding, keyA, "old", 3), answered)}, []post.Draft{draft(keyA, "a", 3)}, 0, ""},
		{"answered and moved", "the thread goes on where it is", []post.Comment{with(written(1, finding, keyA, "a", 0), answered)}, []post.Draft{draft(keyA, "a", 4)}, 0, ""},
		{"marked gone, answered, back", "a new thread begins", []post.Comment{with(written(1, gone, keyA, "a", 3), answered)}, []post.Draft{draft(keyA, "a", 3)}, 0, "post a at 3"},
		{"the same later", "and it is the one that counts",
			[]post.Comment{with(written(1, gone, keyA, "a", 3), answered), written(2, finding, keyA, "a", 3)}, []post.Draft{draft(keyA, "a", 3)}, 0, ""},
		{"resolved by a person", "it has been seen", []post.Comment{with(written(1, finding, keyA, "a", 3), resolved)}, []post.Draft{draft(keyA, "a", 3)}, 0, ""},
		{"posted twice by runs at once", "the first stays", []post.Comment{written(2, finding, keyA, "a", 3), written(1, finding, keyA, "a", 3)}, []post.Draft{draft(keyA, "a", 3)}, 0, "remove 2"},
		{"twice, and the second answered", "the answered one stays", []post.Comment{written(1, finding, keyA, "a", 3), with(written(2, finding, keyA, "a", 3), answered)}, []post.Draft{draft(keyA, "a", 3)}, 0, "remove 1"},
		{"a mark of a stranger", "anybody can write a mark", []post.Comment{with(written(1, finding, keyA, "a", 3), strange)}, []post.Draft{draft(keyA, "a", 3)}, 0, "post a at 3"},
		{"another plan of the repository", "its run sees to it", []post.Comment{{ID: 1, Mine: true, Body: report.Mark{Role: finding, Key: keyB, Plan: report.PlanMark("x")}.Signed("b")}}, nil, 0, ""},
		{"our own words without a mark", "not ours to touch", []post.Comment{{ID: 1, Mine: true, Body: "hello"}}, nil, 0, ""},
		{"too many", "the most serious come first, and the rest is in the summary", nil, []post.Draft{draft(keyA, "a", 3), draft(keyB, "b", 4), draft(keyC, "c", 5)}, 2, "post a at 3, post b at 4"},
		{"too many, some stand", "those that stand count", []post.Comment{written(1, finding, keyC, "c", 5)}, []post.Draft{draft(keyA, "a", 3), draft(keyB, "b", 4), draft(keyC, "c", 5)}, 2, "post a at 3"},
		{"fewer allowed than stand", "none is taken away", []post.Comment{written(1, finding, keyA, "a", 3), written(2, finding, keyB, "b", 4)}, []post.Draft{draft(keyA, "a", 3), draft(keyB, "b", 4)}, 1, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			most := c.most
			if most == 0 {
				most = 10
			}
			w := post.Reconcile(c.standing, post.Goal{Plan: here, Head: headNow, Drafts: c.drafts, Most: most})
			if got := told(w); got != c.want {
				t.Errorf("%s: got %q, want %q", c.why, got, c.want)
			}
		})
	}
}

// TestReconcileEnds does what is said to any mess of comments, and wants nothing to
// be left to do, no finding twice in an open place, and no answered thread touched.
func TestReconcileEnds(t *testing.T) {
	keys := []string{keyA, keyB, keyC}
	rapid.Check(t, func(t *rapid.T) {
		var standing []post.Comment
		for i := range rapid.IntRange(0, 8).Draw(t, "standing") {
			role := rapid.SampledFrom([]report.MarkRole{report.MarkFinding, report.MarkGone}).Draw(t, "role")
			c := written(int64(i+1), role, rapid.SampledFrom(keys).Draw(t, "key"), rapid.SampledFrom([]string{"x", "y"}).Draw(t, "body"), rapid.Int32Range(0, 3).Draw(t, "line"))
			c.Answered, c.Resolved, c.Mine = rapid.Bool().Draw(t, "answered"), rapid.Bool().Draw(t, "resolved"), rapid.IntRange(0, 4).Draw(t, "mine") > 0
			standing = append(standing, c)
		}
		goal := post.Goal{Plan: here, Head: headNow, Most: rapid.IntRange(0, 3).Draw(t, "most")}
		for _, key := range keys {
			if rapid.Bool().Draw(t, "wanted") {
				goal.Drafts = append(goal.Drafts, draft(key, rapid.SampledFrom([]string{"x", "y"}).Draw(t, "now"), rapid.Int32Range(0, 3).Draw(t, "at")))
			}
		}
		work := post.Reconcile(standing, goal)
		after := apply(standing, work)
		if again := post.Reconcile(after, goal); !again.Done() {
			t.Fatalf("after %q there is still to do: %q", told(work), told(again))
		}
		for _, c := range standing {
			if c.Mine && !c.Answered {
				continue
			}
			if i := slices.IndexFunc(after, func(a post.Comment) bool { return a.ID == c.ID }); i < 0 || after[i] != c {
				t.Fatalf("%q touches comment %d", told(work), c.ID)
			}
		}
		open := map[string]int{}
		for _, c := range after {
			if m, _, _ := report.ParseMark(c.Body); c.Mine && !c.Answered && m.Role == report.MarkFinding {
				open[m.Key]++
			}
		}
		for key, n := range open {
			if n > 1 || !slices.ContainsFunc(goal.Drafts, func(d post.Draft) bool { return d.Key == key }) {
				t.Fatalf("%s is told %d times after %q", key, n, told(work))
			}
		}
		for _, d := range goal.Drafts {
			if len(work.OnLine) < goal.Most && !d.Spot.IsZero() && !work.OnLine[d.Key] {
				t.Fatalf("%s has room and is not told", d.Key)
			}
		}
	})
}

// apply does a work as a forge would.
func apply(standing []post.Comment, w *post.Work) []post.Comment {
	out := slices.Clone(standing)
	change := func(id int64, f func(*post.Comment)) {
		for i := range out {
			if out[i].ID == id {
				f(&out[i])
			}
		}
	}
	for i, d := range w.Post {
		id := int64(100 + i)
		out = append(out, post.Comment{ID: id, Thread: fmt.Sprint("t", id), Mine: true, Body: d.Body, Spot: d.Spot})
	}
	for _, a := range w.Amend {
		change(a.Comment.ID, func(c *post.Comment) { c.Body = a.Body })
	}
	for _, r := range w.Resolve {
		change(r.ID, func(c *post.Comment) { c.Resolved = true })
	}
	for _, r := range w.Reopen {
		change(r.ID, func(c *post.Comment) { c.Resolved = false })
	}
	return slices.DeleteFunc(out, func(c post.Comment) bool {
		return slices.ContainsFunc(w.Remove, func(r post.Comment) bool { return r.ID == c.ID })
	})
}
