package serve

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"passband.example/plandiff/demo"
	"passband.example/plandiff/history"
)

// TestFetch gets a pull request from a repository that is laid out as a forge does.
func TestFetch(t *testing.T) {
	ctx, dir := context.Background(), t.TempDir()
	club := filepath.Join(dir, "club", "plan.git")
	if err := os.MkdirAll(filepath.Dir(club), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := demo.Write(ctx, club); err != nil {
		t.Fatal(err)
	}
	git := func(args ...string) string {
		out, err := exec.Command("git", append([]string{"-C", club}, args...)...).CombinedOutput()
		if err != nil {
			t.Fatalf("git %q: %v\n%s", args, err, out)
		}
		return strings.TrimSpace(string(out))
	}
	git("update-ref", "refs/pull/7/head", demo.Proposal)
	job := Job{Repository: "club/plan", Number: 7, BaseRef: demo.Main, Base: git("rev-parse", demo.Main), Head: git("rev-parse", demo.Proposal)}
	m := &Mirror{Dir: t.TempDir(), Git: "file://" + dir}
	for range 2 { // the second time there is a clone
		at, err := m.Fetch(ctx, job)
		if err != nil {
			t.Fatal(err)
		}
		repo, err := history.Open(ctx, at)
		if err != nil {
			t.Fatal(err)
		}
		for _, end := range []string{job.Base, job.Head} {
			if _, err := repo.Resolve(ctx, end); err != nil {
				t.Error(err)
			}
		}
		if err := repo.Close(); err != nil {
			t.Error(err)
		}
	}
	for _, bad := range []Job{{Repository: "../x", BaseRef: "main"}, {Repository: "club/..", BaseRef: "main"}, {Repository: "club/plan", BaseRef: "-x"}, {Repository: "-c/x", BaseRef: "main"}} {
		if _, err := m.Fetch(ctx, bad); err == nil || !strings.Contains(err.Error(), "no repository that can be fetched") {
			t.Errorf("%+v: %v", bad, err)
		}
	}
	if _, err := m.Fetch(ctx, Job{Repository: "club/other", BaseRef: "main", Number: 1}); err == nil {
		t.Error("a repository that is not there was fetched")
	}
}
