package merge_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"passband.example/plandiff/generate"
	"passband.example/plandiff/merge"
	"passband.example/plandiff/plan/plantest"
)

// TestGrowth holds a merge to growing with the size of the plan and no faster, whatever
// the two sides did to it.
func TestGrowth(t *testing.T) {
	for _, c := range growing {
		t.Run(c.name, func(t *testing.T) {
			small, large := c.sides(c.size/10), c.sides(c.size)
			plantest.Grows(t, c.why, c.size, func() { merges(t, small) }, func() { merges(t, large) })
		})
	}
}

// A three is a plan and what two people made of it.
type three struct{ base, ours, theirs merge.Files }

func merges(t testing.TB, v three) {
	t.Helper()
	if _, err := merge.Plans(v.base, v.ours, v.theirs, merge.Labels{}); err != nil {
		t.Fatal(err)
	}
}

// made gives the plan of a network after some edits, and without any.
func made(n int, edit func(*generate.Club)) merge.Files {
	c := generate.New(generate.Size{Channels: n}, 1)
	edit(c)
	return c.Files()
}

func untouched(*generate.Club) {}

// often does an edit once in a hundred channels.
func often(n int, edits ...func(*generate.Club) string) func(*generate.Club) {
	return func(c *generate.Club) {
		for i := range n / 100 {
			edits[i%len(edits)](c)
		}
	}
}

var growing = []struct {
	name, why string
	size      int
	sides     func(n int) three
}{
	{"edits", "each side changed one record in a hundred", 20_000, func(n int) three {
		return three{made(n, untouched), made(n, often(n, (*generate.Club).Change)), made(n, often(n, (*generate.Club).Retune))}
	}},
	{"records", "each side added, removed and moved some", 20_000, func(n int) three {
		return three{
			made(n, untouched), made(n, often(n, (*generate.Club).Add, (*generate.Club).MoveMember)),
			made(n, often(n, (*generate.Club).Remove, (*generate.Club).Retune, (*generate.Club).Add)),
		}
	}},
	{"layout", "one side wrote all in another way", 10_000, func(n int) three {
		return three{made(n, untouched), made(n, often(n, (*generate.Club).Change)), made(n, func(c *generate.Club) { c.Style.Block = true })}
	}},
	{"order", "one side turned all around", 10_000, func(n int) three {
		return three{made(n, untouched), made(n, often(n, (*generate.Club).Change)), made(n, func(c *generate.Club) { c.Style.Reversed = true })}
	}},
	{"keys", "one side gave everything another key", 20_000, func(n int) three {
		return three{made(n, untouched), made(n, often(n, (*generate.Club).Change)), made(n, func(c *generate.Club) { c.RenameAll() })}
	}},
	{"conflicts", "both sides gave many channels a power, and not the same", 10_000, func(n int) three {
		base := made(n, untouched)
		power := func(word string) merge.Files {
			lines := strings.SplitAfter(string(base["plan.yaml"]), "\n")
			for i := range lines {
				if i%20 == 0 {
					lines[i] = strings.Replace(lines[i], "power: high", "power: "+word, 1)
				}
			}
			return merge.Files{"plan.yaml": []byte(strings.Join(lines, ""))}
		}
		return three{base, power("low"), power("medium")}
	}},
	{"two clubs", "each side brought channels of its own", 10_000, func(n int) three {
		base := []byte("plan: A\nchannels:\n  first: {simplex: 146.52, fm: {}}\n")
		bring := func(who string) merge.Files {
			text := bytes.NewBuffer(bytes.Clone(base))
			for i := range n {
				fmt.Fprintf(text, "  %s-%d: {label: %s %d, simplex: 146.52, fm: {}}\n", who, i, who, i)
			}
			return merge.Files{"plan.yaml": text.Bytes()}
		}
		return three{merge.Files{"plan.yaml": base}, bring("a"), bring("b")}
	}},
}
