package demo

import (
	"fmt"

	"github.com/go-git/go-git/v5/plumbing"
)

// The objects of git as text (Pro Git, section "Git Objects"; git-hash-object manual page). The
// object package of go-git could write them, and brings all of OpenPGP.

// appendEntry adds a plain file to a tree.
func appendEntry(tree []byte, name string, blob plumbing.Hash) []byte {
	tree = fmt.Appendf(tree, "100644 %s\x00", name)
	return append(tree, blob[:]...)
}

func commitText(c Commit, tree, parent plumbing.Hash) []byte {
	text := fmt.Appendf(nil, "tree %s\n", tree)
	if !parent.IsZero() {
		text = fmt.Appendf(text, "parent %s\n", parent)
	}
	return fmt.Appendf(text, "author %s\ncommitter %s\n\n%s", signed(c), signed(c), c.Message)
}

func tagText(c Commit, of plumbing.Hash) []byte {
	return fmt.Appendf(nil, "object %s\ntype commit\ntag %s\ntagger %s\n\nHarrow Valley plan %s\n", of, c.Tag, signed(c), c.Tag)
}

// signed says who made a commit, and when.
func signed(c Commit) string {
	return fmt.Sprintf("%s <%s> %d %s", c.Author, c.Email, c.When.Unix(), c.When.Format("-0700"))
}
