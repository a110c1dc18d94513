package history

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// Head is what is checked out.
type Head struct {
	Branch   string // short name, such as main; "" when detached
	Detached bool   // a commit is checked out, not a branch: usual in continuous integration
	Unborn   bool   // the branch has no commit yet
}

// Head says what is checked out.
func (r *Repository) Head(ctx context.Context) (Head, error) {
	refs, err := r.references(ctx)
	if err != nil {
		return Head{}, err
	}
	_, born := refs.byName["HEAD"]
	return Head{
		Branch:   strings.TrimPrefix(refs.branch, "refs/heads/"),
		Detached: refs.branch == "",
		Unborn:   !born,
	}, nil
}

// IsRevision says whether Resolve would find a commit. A caller that must tell
// a revision from a path asks this.
func (r *Repository) IsRevision(ctx context.Context, rev string) bool {
	_, err := r.Resolve(ctx, rev)
	return err == nil
}

// Resolve finds the commit that a person means: HEAD, @, HEAD~2, HEAD^2, a
// branch, a tag of either kind, a remote branch such as origin/main, or a hash
// of at least four digits. Where several match, git's order decides (a tag
// before a branch, a name before a short hash; gitrevisions). One rule more
// than git's: a name that only a branch of a single remote has stands for that
// branch, because a checkout in continuous integration has no branch of its own.
//
// What is not one commit (ranges, files, reflog entries) is refused. The error
// is ErrUnknownRevision, ErrUnborn or ErrShallow, or a failure to read.
func (r *Repository) Resolve(ctx context.Context, rev string) (Commit, error) {
	parsed, err := parseRevision(rev)
	if err != nil {
		return Commit{}, err
	}
	c, err := r.named(ctx, parsed.name)
	if err != nil {
		return Commit{}, err
	}
	for _, s := range parsed.steps {
		if c, err = r.step(ctx, c, s, rev); err != nil {
			return Commit{}, err
		}
	}
	return c, nil
}

func (r *Repository) step(ctx context.Context, c Commit, s step, rev string) (Commit, error) {
	parent, times := s.parent, 1
	if parent == 0 {
		parent, times = 1, s.generations
	}
	for range times {
		switch {
		case c.Truncated:
			return Commit{}, fail(ErrShallow, "%q goes back beyond %s, where this shallow clone ends; %s", rev, c.Short(), fetchMore)
		case len(c.Parents) == 0:
			return Commit{}, notRevision(rev, fmt.Sprintf("%s is the first commit, nothing came before it", c.Short()))
		case parent > len(c.Parents):
			return Commit{}, notRevision(rev, fmt.Sprintf("%s has only %d parent(s)", c.Short(), len(c.Parents)))
		}
		var err error
		if c, err = r.commit(ctx, c.Parents[parent-1]); err != nil {
			return Commit{}, err
		}
	}
	return c, nil
}

// named finds the commit that a name or a hash stands for.
func (r *Repository) named(ctx context.Context, name string) (Commit, error) {
	refs, err := r.references(ctx)
	if err != nil {
		return Commit{}, err
	}
	if hash := strings.ToLower(name); isHash(hash) && len(hash) == refs.hashLength() {
		c, err := r.peel(ctx, hash, name)
		if errors.Is(err, ErrMissing) {
			err = r.unknown(refs, name)
		}
		return c, err
	}
	if id := r.reference(refs, name); id != "" {
		return r.peel(ctx, id, name)
	}
	if name == "HEAD" {
		return Commit{}, r.unborn(refs)
	}
	c, ok, err := r.abbreviated(ctx, strings.ToLower(name))
	if ok || err != nil {
		return c, err
	}
	return Commit{}, r.unknown(refs, name)
}

// unborn says why there is no commit at HEAD: there is none yet, or what names it is damaged.
func (r *Repository) unborn(refs references) error {
	if refs.branch == "" {
		return damagedNames("HEAD names neither a branch nor a commit")
	}
	branch := strings.TrimPrefix(refs.branch, "refs/heads/")
	if info, err := os.Stat(filepath.Join(r.at.common, filepath.FromSlash(refs.branch))); err == nil && info.Mode().IsRegular() {
		return damagedNames(fmt.Sprintf("the branch %q names no commit", branch))
	}
	return fail(ErrUnborn, "the branch %q has no commits yet; record the plan first: git add . && git commit", branch)
}

// reference looks a name up in git's order, then among the remotes; "" if it is not there.
func (r *Repository) reference(refs references, name string) string {
	if id := r.pseudo(name); id != "" {
		return id
	}
	for _, form := range []string{"%s", "refs/%s", "refs/tags/%s", "refs/heads/%s", "refs/remotes/%s", "refs/remotes/%s/HEAD"} {
		if id := refs.byName[fmt.Sprintf(form, name)]; id != "" {
			return id
		}
	}
	found := ""
	for full, id := range refs.byName {
		rest, ok := strings.CutPrefix(full, "refs/remotes/")
		if _, branch, _ := strings.Cut(rest, "/"); !ok || branch != name || branch == "HEAD" {
			continue
		}
		if found != "" {
			return "" // two remotes have it, and nobody said which
		}
		found = id
	}
	return found
}

// pseudo reads the names that git keeps beside HEAD while it works.
func (r *Repository) pseudo(name string) string {
	switch name {
	case "ORIG_HEAD", "FETCH_HEAD", "MERGE_HEAD", "CHERRY_PICK_HEAD", "REVERT_HEAD":
		text, err := os.ReadFile(filepath.Join(r.at.gitDir, name))
		if fields := strings.Fields(string(text)); err == nil && len(fields) > 0 && isHash(fields[0]) {
			return fields[0]
		}
	}
	return ""
}

// peel follows tags, also tags of tags, to a commit.
func (r *Repository) peel(ctx context.Context, id, name string) (Commit, error) {
	const deepest = 50
	for range deepest {
		o, err := r.object(ctx, id)
		if err != nil {
			return Commit{}, err
		}
		switch o.kind {
		case commitKind:
			c, err := parseCommit(id, o.data)
			return r.at.cut(c), err
		case tagKind:
			if id, err = parseTag(id, o.data); err != nil {
				return Commit{}, err
			}
		default:
			return Commit{}, notRevision(name, fmt.Sprintf("it stands for a %s, not for a commit", o.kind))
		}
	}
	return Commit{}, notRevision(name, "it is a tag of a tag of a tag, too deep to follow")
}

// abbreviated finds the one commit whose hash begins with prefix.
func (r *Repository) abbreviated(ctx context.Context, prefix string) (Commit, bool, error) {
	const fewest = 4 // git's own limit
	if len(prefix) < fewest || len(prefix) >= 64 || !isHex(prefix) {
		return Commit{}, false, nil
	}
	ids, err := ask(ctx, r, func(s store) ([]string, error) { return s.withPrefix(ctx, prefix) })
	if err != nil {
		return Commit{}, false, err
	}
	var found []Commit
	for _, id := range ids {
		c, err := r.peel(ctx, id, prefix)
		switch {
		case err == nil && !slices.ContainsFunc(found, func(f Commit) bool { return f.Hash == c.Hash }):
			found = append(found, c)
		case err != nil && ctx.Err() != nil:
			return Commit{}, false, err
		}
	}
	switch len(found) {
	case 0:
		return Commit{}, false, nil
	case 1:
		return found[0], true, nil
	}
	return Commit{}, false, notRevision(prefix, fmt.Sprintf("%d commits begin so, %s and %s among them; write more digits",
		len(found), found[0].Hash[:12], found[1].Hash[:12]))
}
