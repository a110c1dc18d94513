package post_test

import (
	"context"
	"io/fs"
	"maps"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"passband.example/plandiff/demo"
	"passband.example/plandiff/history"
	"passband.example/review/post"
	"passband.example/review/rules"
)

// A request is the demo's proposal as a pull request: the repository, what is judged,
// and what the forge shows of it.
type request struct {
	repo     *history.Repository
	proposal *post.Proposal
	posting  *post.Posting
	patches  map[string]string // by git
}

// north is made once: nothing in it changes.
var north = sync.OnceValues(func() (*request, error) {
	dir, err := tempDir()
	if err != nil {
		return nil, err
	}
	if err := demo.Write(context.Background(), dir); err != nil {
		return nil, err
	}
	return open(dir, post.Span{Base: demo.Main, Head: demo.Proposal})
})

func open(dir string, span post.Span) (*request, error) {
	ctx := context.Background()
	repo, err := history.Open(ctx, dir)
	if err != nil {
		return nil, err
	}
	r := &request{repo: repo}
	if r.proposal, err = post.Propose(ctx, repo, "", span, rules.All(), today); err != nil {
		return nil, err
	}
	diff, err := post.ReadDiff(ctx, repo, r.proposal.Parted, r.proposal.Head, "")
	if err != nil {
		return nil, err
	}
	r.posting = r.proposal.Posting(diff, post.DefaultMost)
	r.patches, err = patches(dir, r.proposal.Parted.Hash, r.proposal.Head.Hash)
	return r, err
}

// patches gives the diff of each file as GitHub shows it: from the first hunk on.
func patches(dir, from, to string) (map[string]string, error) {
	cmd := exec.Command("git", "-C", dir, "diff", "--no-ext-diff", "--no-color", "-U3", from, to)
	out, err := cmd.Output()
	if err != nil {
		return nil, err
	}
	files := make(map[string]string)
	for _, file := range strings.Split("\n"+string(out), "\ndiff --git ")[1:] {
		_, name, _ := strings.Cut(strings.SplitN(file, "\n", 2)[0], " b/")
		if i := strings.Index(file, "\n@@ "); i >= 0 {
			files[name] = file[i+1:]
		}
	}
	return files, nil
}

func theNorth(t testing.TB) *request {
	t.Helper()
	r, err := north()
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// onLines counts the findings that have a line.
func (r *request) onLines() int {
	n := 0
	for _, d := range r.posting.Goal.Drafts {
		if !d.Spot.IsZero() {
			n++
		}
	}
	return n
}

func access(url string) post.Access {
	return post.Access{API: url, Token: "right", Repository: "owner/plan", Number: 7}
}

// patience waits for nothing, and counts.
func patience(waited *time.Duration) *post.Patience {
	p := post.DefaultPatience()
	p.Sleep = func(ctx context.Context, d time.Duration) error {
		if waited != nil {
			*waited += d
		}
		return ctx.Err()
	}
	return p
}

func tempDir() (string, error) {
	// The repository is shared by the tests of the package, so it outlives each.
	return filepath.Join(sharedDir, "harrow-valley"), nil
}

// files are those of the head of a request.
type files struct{ *request }

func (f files) Open(name string) (fs.File, error) { return demo.Branch().Open(name) }

func sortedKeys[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
