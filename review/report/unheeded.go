package report

import "io"

// Unheeded gives a writer that keeps a runner of continuous integration from reading
// workflow commands out of what is written through it, be it standard output or standard
// error: it reads both. A line that begins with two colons, white space before them or
// not, gets a space between them; so does the older form, "##[" anywhere in a line, before
// its bracket (the two forms as in GitHub's runner, from memory). Nothing else changes.
// Without it a name in a plan could write an annotation, or end a group of the log.
func Unheeded(w io.Writer) io.Writer { return &unheeded{w: w, blank: true} }

type unheeded struct {
	w     io.Writer
	blank bool    // the line at hand has nothing yet but white space, and one colon at most
	last  [2]byte // what was written last
}

func (u *unheeded) Write(p []byte) (int, error) {
	out := make([]byte, 0, len(p)+8)
	for _, c := range p {
		if u.begins(c) {
			out = append(out, ' ')
		}
		out = append(out, c)
		u.pass(c)
	}
	if _, err := u.w.Write(out); err != nil {
		return 0, err
	}
	return len(p), nil
}

// begins reports whether a command would begin with the next byte.
func (u *unheeded) begins(c byte) bool {
	return c == ':' && u.blank && u.last[1] == ':' || c == '[' && u.last == [2]byte{'#', '#'}
}

// pass notes a byte. One that is not ASCII may be of white space, which the runner trims.
func (u *unheeded) pass(c byte) {
	switch {
	case c == '\n' || c == '\r':
		u.blank = true
	case c == ':' && u.last[1] != ':' || c == ' ' || c == '\t' || c == '\v' || c == '\f' || c >= 0x80:
	default:
		u.blank = false
	}
	u.last = [2]byte{u.last[1], c}
}
