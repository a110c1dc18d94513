package history

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// logFields is what git log writes of each commit, each field ended by a zero byte; see readLogCommit.
const logFields = "%H%x00%T%x00%P%x00%an%x00%ae%x00%ad%x00%cd%x00%e%x00%B%x00"

// logArguments ask for every commit that changed something below a folder, with
// git's own simplification of history, and for merges the files that differ from
// all parents. The options undo what a user's or a repository's configuration
// could change (git-log; git-config log.*, diff.*).
func logArguments(to, dir string) []string {
	if dir == "" {
		dir = "."
	}
	return []string{"log", "--format=" + logFields, "--date=raw", "--encoding=UTF-8",
		"-z", "--raw", "-c", "--root", "--no-abbrev", "--no-renames", "--ignore-submodules=none",
		"--no-ext-diff", "--no-textconv", "--no-show-signature", "-O/dev/null",
		"--end-of-options", to, "--", dir}
}

// log is Walk over the whole history that ends in the commit to.
func (s *commandStore) log(ctx context.Context, to, dir string, visit visitor) error {
	cmd := s.command(logArguments(to, dir)...)
	errs := &lastWords{}
	cmd.Stderr = errs
	out, err := cmd.StdoutPipe()
	if err != nil {
		return err
	}
	if err := cmd.Start(); err != nil {
		return fmt.Errorf("git cannot be started: %w", err)
	}
	stop := context.AfterFunc(ctx, func() { _ = cmd.Process.Kill() })
	defer stop()

	err = parseLog(bufio.NewReaderSize(out, 64<<10), dir, func(c logCommit, changes []BlobChange) error {
		if err := ctx.Err(); err != nil || len(changes) == 0 {
			return err
		}
		if c.encoded {
			o, err := s.object(ctx, c.Hash)
			if err != nil {
				return err
			}
			if c.Commit, err = parseCommit(c.Hash, o.data); err != nil {
				return err
			}
		}
		return visit(s.at.cut(c.Commit), changes)
	})
	cutOff := errors.Is(err, errCutOff) // git ended in the middle, and its reason says more
	if err != nil && !cutOff {
		_ = cmd.Process.Kill() // nobody reads on, so git must not write on
	}
	exit := cmd.Wait()
	switch {
	case ctx.Err() != nil:
		return ctx.Err()
	case exit != nil && (err == nil || cutOff):
		return s.gitError(exit, errs.String())
	}
	return err
}

// A logCommit is a commit as git log tells it. One that declares an encoding
// was converted by git, with whatever its machine can convert; to say the same
// everywhere, it is read again from its object.
type logCommit struct {
	Commit
	encoded bool
}

// parseLog reads the output of git log for logArguments. Everything in it ends
// with a zero byte: the fields of a commit, then for each changed file a line
// that begins with a colon and the path.
func parseLog(r *bufio.Reader, dir string, each func(logCommit, []BlobChange) error) error {
	var c logCommit
	var changes []BlobChange
	for first := true; ; first = false {
		token, err := nextLogToken(r)
		if errors.Is(err, io.EOF) && token == "" {
			if first {
				return nil
			}
			return each(c, changes)
		}
		if err != nil {
			return logError(err)
		}
		if strings.HasPrefix(token, ":") {
			if first {
				return logError(errors.New("it begins with a change"))
			}
			change, err := readLogChange(token, r, dir)
			if err != nil {
				return err
			}
			if changes = append(changes, change); len(changes) > mostChanges {
				return tooManyChanges()
			}
			continue
		}
		if !first {
			if err := each(c, changes); err != nil {
				return err
			}
		}
		if c, err = readLogCommit(token, r); err != nil {
			return err
		}
		changes = nil
	}
}

var errCutOff = errors.New("it ends too early")

func logError(why error) error {
	return fmt.Errorf("the output of git log is not understood: %w", why)
}

// nextLogToken skips the empty tokens and line ends with which git sets its
// records apart.
func nextLogToken(r *bufio.Reader) (string, error) {
	for {
		token, err := readToken(r)
		if token = strings.TrimLeft(token, "\n"); token != "" || err != nil {
			return token, err
		}
	}
}

func readToken(r *bufio.Reader) (string, error) {
	token, err := r.ReadString(0)
	if errors.Is(err, io.EOF) && token != "" {
		return token, errCutOff
	}
	return strings.TrimSuffix(token, "\x00"), err
}

// within is err for a place where the output must go on.
func within(err error) error {
	if errors.Is(err, io.EOF) {
		return errCutOff
	}
	return err
}

// readLogCommit reads the fields of logFields, of which the hash is already there.
func readLogCommit(hash string, r *bufio.Reader) (logCommit, error) {
	const rest = 8
	var field [rest]string
	for i := range field {
		var err error
		if field[i], err = readToken(r); err != nil {
			return logCommit{}, logError(within(err))
		}
	}
	c := Commit{Hash: hash, tree: field[0], Parents: strings.Fields(field[1])}
	for _, id := range append([]string{c.Hash, c.tree}, c.Parents...) {
		if !isHash(id) {
			return logCommit{}, logError(fmt.Errorf("%q stands where a hash should", id))
		}
	}
	if len(c.Parents) == 0 {
		c.Parents = nil
	}
	author := fmt.Sprintf("%s <%s> %s", field[2], field[3], field[4])
	c.describe(author, "<> "+field[5], "", field[7])
	return logCommit{c, field[6] != ""}, nil
}

// readLogChange reads ":OLDMODE NEWMODE OLD NEW STATUS" and the path after it.
// A merge has as many colons, old modes and old hashes as it has parents.
func readLogChange(line string, r *bufio.Reader, dir string) (BlobChange, error) {
	path, err := readToken(r)
	if err != nil {
		return BlobChange{}, logError(within(err))
	}
	fields := strings.Fields(strings.TrimLeft(line, ":"))
	parents := len(line) - len(strings.TrimLeft(line, ":"))
	if len(fields) != 2*parents+3 || path == "" {
		return BlobChange{}, logError(fmt.Errorf("a change reads %q", line))
	}
	sides := make([]Version, parents+1)
	for i := range sides {
		if sides[i], err = readLogSide(fields[i], fields[parents+1+i]); err != nil {
			return BlobChange{}, err
		}
	}
	change := BlobChange{Path: below(dir, path), Old: sides[0], New: sides[parents]}
	if parents > 1 {
		change.Others = sides[1:parents]
	}
	return change, nil
}

func readLogSide(octal, id string) (Version, error) {
	mode, err := strconv.ParseUint(octal, 8, 32)
	if err != nil || !isHash(id) {
		return Version{}, logError(fmt.Errorf("a change holds mode %q and hash %q", octal, id))
	}
	if mode == 0 {
		return Version{}, nil
	}
	return entry{mode: canonical(mode), id: id}.version(), nil
}

// below is a path seen from dir, which holds it; "." for dir itself.
func below(dir, path string) string {
	switch {
	case dir == "":
		return path
	case path == dir:
		return "."
	}
	return strings.TrimPrefix(path, dir+"/")
}
