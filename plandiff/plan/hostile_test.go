package plan_test

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
	"testing/fstest"
	"time"
)

// Texts that are made to hang or exhaust a reader. Each must be refused, or read,
// in little time and memory; the bounds are ten times and more what was measured
// on the machine of November 2026 (2 cores), so that they hold on a busy one.
func TestHostileTexts(t *testing.T) {
	const size = 10 << 20
	fill := func(s string) string { return strings.Repeat(s, size/len(s)) }
	for _, test := range []struct {
		name, why string
		text      func() string
		want      string
	}{
		{"open brackets", "each opens a level", func() string { return fill("[") }, `^plan.yaml:1:101: values stand inside one another too deep`},
		{"open braces", "each opens a level", func() string { return fill("{") }, `^plan.yaml:1:101: values stand`},
		{"brackets and braces", "each opens a level", func() string { return fill("[{") }, `^plan.yaml:1:101: values stand`},
		{"hyphens", "each opens a level", func() string { return fill("- ") }, `^plan.yaml:1:\d+: values stand inside one another too deep`},
		{"question marks", "each opens a level", func() string { return fill("? ") }, `^plan.yaml:1:\d+: values stand inside one another too deep`},
		{"100,000 deep, closed", "well formed, and of no use", func() string { return "plan: " + strings.Repeat("[", 100_000) + strings.Repeat("]", 100_000) }, `^plan.yaml:1:\d+: values stand inside one another too deep`},
		{"9,000 deep, closed", "below what yaml.v3 refuses", func() string { return "plan: " + strings.Repeat("[", 9_000) + strings.Repeat("]", 9_000) }, `^plan.yaml:1:7: plan is a list`},
		{"block of 4,000 levels", "each line one deeper", deepBlock, `^plan.yaml:2:2: "a" is not a section|"a" is not a section`},
		{"comments", "a parser may keep them", func() string { return fill("# x\n") }, `^plan.yaml: the plan has more than|^$`},
		{"comments at records", "each belongs to one", func() string { return "zones:\n" + commented(200_000) }, `^$`},
		{"huge scalar", "one value of 10 MB", func() string { return "plan: " + fill("x") }, `^plan.yaml:1:7: plan: it is 10485760 characters long; the most that passband takes here is 200$`},
		{"huge number", "a million digits", func() string { return "edition: " + fill("1") }, `^plan.yaml:1:10: edition: "1{60}…" is not an edition`},
		{"huge frequency", "a million digits", func() string { return "channels: {a: {simplex: " + fill("1") + "}}" }, `^plan.yaml:1:25: simplex: frequency "1{40}"\.\.\.`},
		{"huge key", "a key has 64 letters", func() string { return "zones:\n  ? " + fill("a") + "\n  : {}" }, `^plan.yaml:2:5: "a{60}…" cannot be a key`},
		{"list of aliases", "a list of ten names lists of ten", func() string { return bomb("[", "]", "[x,x,x,x,x,x,x,x,x,x]") }, `aliases \(\*\) repeat more|needs`},
		{"lists of one list", "each item repeats 10,000 values", listBomb, `^plan.yaml:\d+:\d+: .*aliases \(\*\) repeat more values than passband follows; a few lines could otherwise stand for millions; write the values out$`},
		{"records of one record", "each repeats 1,000 entries", recordBomb, `^plan.yaml:\d+:\d+: aliases \(\*\) repeat more values`},
		{"self-referring", "an anchor inside itself", func() string {
			return "zones: &z {a: *z, b: {channels: &c [*c, *c]}}\nrepeaters: {a: &a {fm: *a, dmr: {slot1: *a}}}"
		}, `^plan.yaml:1:12: "a" is not a key of zone a that is known`},
		{"unclosed quote", "it runs to the end", func() string { return "plan: \"" + fill("x\n") }, `^plan.yaml(:1:7: the quote " that opens here is not closed|: the plan has more than)`},
		{"one long line of flow", "a million pairs", func() string { return "zones: {" + strings.Repeat("a: {}, ", 400_000) + "}" }, `there are more than 1000 problems`},
		{"empty documents", "a parser may start anew for each", func() string { return fill("---\n") }, `^plan.yaml(:2:1: a second document|: the plan has more)`},
		{"colons", "each could be a key", func() string { return fill(":") }, `^plan.yaml: the plan has more than`},
		{"tags", "each is kept", func() string { return strings.Repeat("!!str ", 1_000_000) }, `^plan.yaml:1:1: |the text is not`},
	} {
		t.Run(test.name, func(t *testing.T) {
			fsys := fstest.MapFS{"plan.yaml": {Data: []byte(test.text())}}
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			start := time.Now()
			p := loadFS(t, fsys)
			spent := time.Since(start)
			runtime.ReadMemStats(&after)
			allocated := (after.TotalAlloc - before.TotalAlloc) >> 20
			t.Logf("%v, %d MB allocated", spent.Round(time.Millisecond), allocated)
			wantTold(t, p, test.want)
			if spent > 60*time.Second || allocated > 2_000 {
				t.Errorf("%s: took %v and %d MB", test.why, spent, allocated)
			}
		})
	}
}

func deepBlock() string {
	var text strings.Builder
	for i := range 4_000 {
		text.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return text.String()
}

func commented(n int) string {
	var text strings.Builder
	for i := range n {
		fmt.Fprintf(&text, "  # zone\n  z%d: {} # here\n", i)
	}
	return text.String()
}

// bomb makes nine lists of ten of the one before.
func bomb(open, end, first string) string {
	text := "zones:\n  a0: {channels: &a0 " + first + "}\n"
	for i := 1; i < 10; i++ {
		text += fmt.Sprintf("  a%d: {channels: &a%d %s%s%s}\n", i, i, open, strings.Repeat(fmt.Sprintf("*a%d,", i-1), 10), end)
	}
	return text
}

func listBomb() string {
	text := "zones:\n  a: {channels: &a [" + strings.Repeat("x,", 10_000) + "]}\n"
	for i := range 10_000 {
		text += fmt.Sprintf("  b%d: {channels: *a}\n", i)
	}
	return text
}

func recordBomb() string {
	text := "zones:\n  a: &a {channels: &c [" + strings.Repeat("x,", 1_000) + "]}\n"
	for i := range 10_000 {
		text += fmt.Sprintf("  b%d: *a\n", i)
	}
	return text
}
