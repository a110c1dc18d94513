package generate

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"maps"
	"slices"
)

// History writes the plan and so many commits in all of its edits, in the form of
// git-fast-import(1), to the branch main. Each commit is an hour younger than
// the one before. Without edits they are the usual ones.
func (c *Club) History(w io.Writer, commits int, edits ...Edit) error {
	if len(edits) == 0 {
		edits = Usual
	}
	out := bufio.NewWriter(w)
	known := make(map[string][]byte)
	subject := "first version"
	for i := range commits {
		if i > 0 {
			subject = edits[c.random.IntN(len(edits))](c)
		}
		who := fmt.Sprintf("Member %d <member-%d@example.org> %d +0100", i%7, i%7, 1_767_225_600+3600*i)
		fmt.Fprintf(out, "commit refs/heads/main\nauthor %s\ncommitter %s\ndata %d\n%s\n", who, who, len(subject), subject)
		files := c.Files()
		for _, name := range slices.Sorted(maps.Keys(files)) {
			if text := files[name]; !bytes.Equal(text, known[name]) {
				fmt.Fprintf(out, "M 100644 inline %s\ndata %d\n%s\n", name, len(text), text)
			}
		}
		known = files
	}
	return out.Flush()
}
