package driver

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path"
	"slices"
	"strconv"
	"strings"

	"passband.example/plandiff/merge"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/whole"
)

// A Call is what git asks of a merge driver. Git runs it at the top of the work tree.
type Call struct {
	Base, Ours, Theirs string // files to read; the result goes into Ours
	Marker             int    // the length of the marks of a conflict
	Path               string // where the file stands in the repository, with / between folders
	Environ            []string
}

// Merge merges one file for git, and writes the result into call.Ours, whole or not
// at all. It reports whether nothing is left to decide. say is told, line by line,
// what a person should know.
func Merge(ctx context.Context, call Call, say func(string)) (clean bool, err error) {
	f, err := open(call)
	if err != nil {
		return false, err
	}
	if !isPlanFile(f.name) {
		return f.lines(ctx, say, "it is no file of a plan")
	}
	r, err := f.plans(ctx, say)
	if unreadable := (*merge.Unreadable)(nil); errors.As(err, &unreadable) {
		return f.lines(ctx, say, unreadable.Error())
	}
	if err != nil {
		return f.lines(ctx, say, err.Error())
	}
	if err := whole.File(call.Ours, r.Files[f.name]); err != nil {
		return false, err
	}
	torn := f.elsewhere || slices.Contains(r.Marked, f.name)
	if torn {
		for _, c := range r.Conflicts {
			say(call.Path + ": " + c.String())
		}
	}
	for _, warning := range r.After {
		say("after this merge: " + warning)
	}
	return !torn, nil
}

// A file is one that git wants to have merged.
type file struct {
	call               Call
	root, name         string // of the plan in the repository, and of the file in the plan
	base, ours, theirs []byte
	elsewhere          bool // the conflict is in files that git does not ask about
}

func open(call Call) (*file, error) {
	f := &file{call: call}
	f.root, f.name = planOf(call.Path)
	var err error
	for _, v := range []struct {
		name string
		text *[]byte
	}{{call.Base, &f.base}, {call.Ours, &f.ours}, {call.Theirs, &f.theirs}} {
		if *v.text, err = os.ReadFile(v.name); err != nil {
			return nil, err
		}
	}
	return f, nil
}

// planOf finds the plan that a file of the repository belongs to: the nearest folder
// that holds a plan.yaml in the work tree, or the top.
func planOf(file string) (root, name string) {
	for dir := path.Dir(file); ; dir = path.Dir(dir) {
		_, err := os.Stat(path.Join(dir, plan.RootFile))
		if err == nil || dir == path.Dir(file) && path.Base(file) == plan.RootFile {
			return dir, strings.TrimPrefix(strings.TrimPrefix(file, dir), "/")
		}
		if dir == "." || dir == "/" {
			return ".", file
		}
	}
}

// isPlanFile reports whether a file in the folder of a plan belongs to it.
func isPlanFile(name string) bool {
	for part := range strings.SplitSeq(name, "/") {
		if strings.HasPrefix(part, ".") {
			return false
		}
	}
	ext := path.Ext(name)
	return ext == ".yaml" || ext == ".yml" || plan.TableOf(name) != nil
}

// plans merges the whole plans where they can be found, else the file alone.
func (f *file) plans(ctx context.Context, say func(string)) (*merge.Result, error) {
	labels := merge.Labels{Marker: f.call.Marker}
	three, found := f.find(ctx)
	if !found {
		r, err := merge.File(f.name, f.base, f.ours, f.theirs, labels)
		if err == nil {
			say(f.call.Path + ": merged without a look at the other files of the plan; run \"passband check\" when the merge is done")
		}
		return r, err
	}
	r, err := merge.Plans(three[0], three[1], three[2], labels)
	if err != nil {
		return nil, err
	}
	now, both := asGit(three, r.Files)
	r.After = nil
	if len(both) == 0 || both[0] != f.name {
		return r, nil // what is about all files is told with the first
	}
	asked := func(name string) bool { return slices.Contains(both, name) }
	switch {
	case len(r.Marked) > 0 && !slices.ContainsFunc(r.Marked, asked):
		f.elsewhere = true // git takes the files that hold the conflict as they are
	case len(r.Marked) == 0:
		if r.After, err = merge.Together(three[1], three[2], now); err != nil {
			r.After = []string{err.Error()} // two files with one key, say
		}
	}
	return r, nil
}

// asGit gives the files that git will have made in the end: those that only one side
// changed it takes as they are. both names those that both changed, sorted.
func asGit(three [3]merge.Files, merged merge.Files) (now merge.Files, both []string) {
	now = make(merge.Files)
	for _, name := range merge.Names(three[0], three[1], three[2], merged) {
		base, ours, theirs := three[0].Version(name), three[1].Version(name), three[2].Version(name)
		from := merged
		switch {
		case ours == theirs, theirs == base:
			from = three[1]
		case ours == base:
			from = three[2]
		default:
			both = append(both, name)
		}
		if text, there := from[name]; there {
			now[name] = text
		}
	}
	return now, both
}

// lines merges as git does without a driver.
func (f *file) lines(ctx context.Context, say func(string), why string) (bool, error) {
	say(f.call.Path + ": merged as lines of text: " + why)
	marker := f.call.Marker
	if marker <= 0 {
		marker = 7
	}
	out, err := exec.CommandContext(ctx, "git", "merge-file", "-p", "--marker-size="+strconv.Itoa(marker),
		"-L", "ours", "-L", "base", "-L", "theirs", f.call.Ours, f.call.Base, f.call.Theirs).Output()
	exit := (*exec.ExitError)(nil)
	conflicts := errors.As(err, &exit) && exit.ExitCode() > 0 && exit.ExitCode() < 128
	if err != nil && !conflicts {
		return false, fmt.Errorf("git merge-file: %w", err)
	}
	return err == nil, whole.File(f.call.Ours, out)
}
