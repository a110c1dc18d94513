package history

import (
	"fmt"
	"slices"
	"strings"

	"github.com/agnivade/levenshtein"
)

// unknown says what there is instead.
func (r *Repository) unknown(refs references, name string) error {
	text := fmt.Sprintf("there is no branch, tag or commit %q here", name)
	if near := nearest(refs, name); len(near) > 0 {
		text += "; nearest: " + strings.Join(near, ", ")
	}
	if r.Shallow() {
		text += "; this clone is shallow, so what is meant may not have been fetched: " + fetchMore
	}
	return fail(ErrUnknownRevision, "%s", text)
}

// nearest lists up to three names that somebody may have meant.
func nearest(refs references, name string) []string {
	type candidate struct {
		name     string
		distance int
	}
	var list []candidate
	for full := range refs.byName {
		if d := distance(name, shortName(full)); full != "HEAD" && d <= max(2, len(name)/3) {
			list = append(list, candidate{shortName(full), d})
		}
	}
	slices.SortFunc(list, func(a, b candidate) int {
		if a.distance != b.distance {
			return a.distance - b.distance
		}
		return strings.Compare(a.name, b.name)
	})
	var names []string
	for _, c := range list[:min(len(list), 3)] {
		names = append(names, c.name)
	}
	return names
}

// distance compares a name also with what follows the remote, and with the last
// part. A part of a longer name is nearly it.
func distance(name, known string) int {
	const telling = 4 // characters from which a part tells something
	if len(name) >= telling && strings.Contains(known, name) {
		return 1
	}
	d := levenshtein.ComputeDistance(name, known)
	if _, branch, remote := strings.Cut(known, "/"); remote {
		last := known[strings.LastIndexByte(known, '/')+1:]
		d = min(d, levenshtein.ComputeDistance(name, branch), levenshtein.ComputeDistance(name, last))
	}
	return d
}

func shortName(full string) string {
	for _, prefix := range []string{"refs/heads/", "refs/tags/", "refs/remotes/", "refs/"} {
		if short, ok := strings.CutPrefix(full, prefix); ok {
			return short
		}
	}
	return full
}
