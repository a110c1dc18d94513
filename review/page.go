package review

import (
	"fmt"
	"strings"
)

// A Page is what explain shows of a rule.
type Page struct {
	ID     string
	Title  string // one sentence
	What   string // what is wrong
	Why    string // why it matters, and why it is that severe
	Fix    string // what to do
	Source string // what it rests on
	Fails  string // an example that has the fault, as the text of a plan file
	Passes string // the same without it
}

// The headings of a page, in their order.
var headings = []string{"What is wrong", "Why it matters", "What to do", "What it rests on", "Fails", "Passes"}

// ParsePage reads a page: a line "# id", a sentence, and a part for each of the
// headings "## What is wrong", "## Why it matters", "## What to do", "## What it
// rests on", "## Fails" and "## Passes", the last two a fenced text each. It
// fails where one is missing or empty. A rule of loading, whose fault is in the
// text itself, has the same page.
func ParsePage(text string) (Page, error) {
	head, rest, _ := strings.Cut(text, "\n## ")
	first, title, _ := strings.Cut(head, "\n")
	id, marked := strings.CutPrefix(first, "# ")
	page := Page{ID: id, Title: strings.Join(strings.Fields(title), " ")}
	if !marked || id == "" || strings.ContainsAny(id, " \t") || page.Title == "" {
		return page, fmt.Errorf("a page begins with a line \"# id\" and a sentence")
	}
	parts := []*string{&page.What, &page.Why, &page.Fix, &page.Source, &page.Fails, &page.Passes}
	for i, heading := range headings {
		body, ok := strings.CutPrefix(rest, heading+"\n")
		if !ok {
			return page, fmt.Errorf("page %s: the heading %q is missing or out of order", page.ID, heading)
		}
		body, rest, _ = strings.Cut(body, "\n## ")
		*parts[i] = strings.TrimSpace(body)
		if *parts[i] == "" {
			return page, fmt.Errorf("page %s: nothing stands under %q", page.ID, heading)
		}
	}
	if rest != "" {
		return page, fmt.Errorf("page %s: there is more than the headings of a page", page.ID)
	}
	for _, example := range []*string{&page.Fails, &page.Passes} {
		fenced, ok := strings.CutPrefix(*example, "```yaml\n")
		fenced, closed := strings.CutSuffix(fenced, "\n```")
		if !ok || !closed || strings.TrimSpace(fenced) == "" {
			return page, fmt.Errorf("page %s: an example is a text between ```yaml and ```", page.ID)
		}
		*example = fenced + "\n"
	}
	return page, nil
}
