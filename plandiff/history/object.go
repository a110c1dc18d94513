package history

import (
	"bytes"
	"errors"
	"strconv"
	"strings"
	"time"
)

// parseCommit reads a commit object (gitformat: headers, an empty line, the
// message). Headers that are not needed, signatures among them, are skipped.
func parseCommit(id string, data []byte) (Commit, error) {
	c := Commit{Hash: id}
	head, message, _ := bytes.Cut(data, []byte("\n\n"))
	message, _, _ = bytes.Cut(message, []byte{0}) // git shows nothing beyond it either
	encoding := ""
	var author, committer string
	for line := range strings.SplitSeq(string(head), "\n") {
		key, value, _ := strings.Cut(line, " ")
		if strings.Contains(value, "\x00") {
			value = "" // to git, too, such a header says nothing
		}
		switch {
		case key == "tree" && c.tree == "" && isHash(value):
			c.tree = value
		case key == "parent" && isHash(value):
			c.Parents = append(c.Parents, value)
		case key == "author" && author == "":
			author = value
		case key == "committer" && committer == "":
			committer = value
		case key == "encoding":
			encoding = value
		case key == "tree", key == "parent":
			return Commit{}, damaged(id, errors.New("a header of the commit cannot be read"))
		}
	}
	if c.tree == "" {
		return Commit{}, damaged(id, errors.New("the commit has no tree"))
	}
	c.describe(author, committer, encoding, string(message))
	return c, nil
}

// describe fills in what people read, from the raw header values.
func (c *Commit) describe(author, committer, encoding, message string) {
	c.Author, c.AuthorEmail, c.When = parseIdent(author)
	_, _, c.Committed = parseIdent(committer)
	c.Subject, c.Body = splitMessage(toUTF8(message, encoding))
	c.Author, c.AuthorEmail = toUTF8(c.Author, encoding), toUTF8(c.AuthorEmail, encoding)
}

// parseIdent splits "Name <mail> 1735689600 +0100". A part that is not there is empty.
func parseIdent(text string) (name, mail string, when time.Time) {
	before, after, ok := strings.Cut(text, "<")
	if !ok {
		return strings.TrimSpace(text), "", time.Time{}
	}
	mail, _, _ = strings.Cut(after, ">")
	date := text[strings.LastIndexByte(text, '>')+1:]
	return strings.TrimSpace(before), strings.TrimSpace(mail), parseDate(date)
}

// parseDate reads seconds since 1970 and a zone as git writes them. What is not
// a date, or lies beyond the year 9999, is the zero time.
func parseDate(text string) time.Time {
	seconds, zone, _ := strings.Cut(strings.TrimSpace(text), " ")
	unix, err := strconv.ParseInt(seconds, 10, 64)
	const year10000 = 253402300800
	if err != nil || unix < 0 || unix >= year10000 {
		return time.Time{}
	}
	offset := 0
	if hhmm, err := strconv.Atoi(zone); err == nil && hhmm > -2400 && hhmm < 2400 {
		offset = (hhmm/100*60 + hhmm%100) * 60
	}
	return time.Unix(unix, 0).In(time.FixedZone("", offset))
}

// splitMessage cuts a commit message into its first paragraph on one line, and the rest.
func splitMessage(text string) (subject, body string) {
	text = strings.TrimLeft(strings.ReplaceAll(text, "\r\n", "\n"), "\n")
	var first []string
	for text != "" {
		line, rest, _ := strings.Cut(text, "\n")
		text = rest
		if line = strings.TrimSpace(line); line == "" {
			if len(first) == 0 {
				continue
			}
			break
		}
		first = append(first, line)
	}
	return strings.Join(first, " "), strings.TrimSpace(text)
}

// toUTF8 makes text valid UTF-8. Of the encodings that a commit may declare,
// Latin-1 is converted; bytes of any other that are not UTF-8 become U+FFFD.
func toUTF8(text, encoding string) string {
	switch strings.ToLower(encoding) {
	case "iso-8859-1", "iso8859-1", "latin1", "latin-1":
		runes := make([]rune, 0, len(text))
		for _, b := range []byte(text) {
			runes = append(runes, rune(b))
		}
		return string(runes)
	}
	return strings.ToValidUTF8(text, "\uFFFD")
}

// parseTag reads the target of an annotated tag.
func parseTag(id string, data []byte) (target string, err error) {
	line, _, _ := strings.Cut(string(data), "\n")
	target, ok := strings.CutPrefix(line, "object ")
	if !ok || !isHash(target) {
		return "", damaged(id, errors.New("the tag does not say what it names"))
	}
	return target, nil
}
