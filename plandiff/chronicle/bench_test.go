package chronicle_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"passband.example/plandiff/chronicle"
	"passband.example/plandiff/history"
)

// longHistory is the history of performance.md, section 5: a plan of 10,000 channels
// in 40 files, and 5,000 commits that each change one field of one record.
func longHistory(b *testing.B, commits, channels int) (dir string) {
	const files = 40
	random := rand.New(rand.NewPCG(3, 5))
	plan := make([][]string, files)
	text := func(i int) string { return "channels:\n" + strings.Join(plan[i], "") }
	all := map[string]string{"plan.yaml": "plan: Long Valley\nedition: 2026\nregion: US\nlicense: technician\n"}
	line := func(i, j int) string {
		return fmt.Sprintf("  c-%d-%d: {label: C %d.%d, simplex: 146.%03d, fm: {}, note: row %d}\n", i, j, i, j, random.IntN(1000), j)
	}
	name := func(i int) string { return fmt.Sprintf("part-%02d.yaml", i) }
	for i := range plan {
		for j := range channels / files {
			plan[i] = append(plan[i], line(i, j))
		}
		all[name(i)] = text(i)
	}
	s := newStory()
	last := s.commit("begin", all)
	for range commits - 1 {
		i, j := random.IntN(files), random.IntN(channels/files)
		plan[i][j] = line(i, j)
		delete(s.files, last-1)
		last = s.commit("change a channel", map[string]string{name(i): text(i)}, last)
	}
	dir = filepath.Join(b.TempDir(), "long.git")
	s.write(b, dir)
	git(b, "", "-C", dir, "repack", "-q", "-a", "-d")
	return dir
}

// BenchmarkLog compares the semantic log of a long history with what git log -p
// takes on the same repository in the same run, one after the other. The targets are
// 0.9 where git is at hand, and 1.6 by go-git alone (performance.md, section 8).
func BenchmarkLog(b *testing.B) {
	for _, backing := range []string{"git", "go-git"} {
		b.Run(backing, func(b *testing.B) { benchmarkLog(b, backing) })
	}
}

func benchmarkLog(b *testing.B, backing string) {
	versusGit(b, backing, func(r *chronicle.Reader, at chronicle.Span) (int, error) {
		entries := 0
		_, err := r.Log(context.Background(), at, chronicle.Query{}, func(*chronicle.Entry) error {
			entries++
			return nil
		})
		return entries, err
	}, "log", "-p", "main")
}

// BenchmarkTrace compares the trace of one channel with git blame of its file. The
// target is 1.5.
func BenchmarkTrace(b *testing.B) {
	versusGit(b, "git", func(r *chronicle.Reader, at chronicle.Span) (int, error) {
		x, err := r.At(context.Background(), at.To)
		if err != nil {
			return 0, err
		}
		traces, err := r.Trace(context.Background(), at.To, x, "c-7-7")
		return len(traces), err
	}, "blame", "main", "--", "part-07.yaml")
}

// versusGit measures read, by way of a backing, and a git command in turns, and
// reports the ratio.
func versusGit(b *testing.B, backing string, read func(*chronicle.Reader, chronicle.Span) (int, error), args ...string) {
	commits := 5000
	if testing.Short() {
		commits = 200
	}
	dir := longHistory(b, commits, 10_000)
	path, err := exec.LookPath("git")
	if err != nil {
		b.Fatal(err)
	}
	if backing == "go-git" {
		b.Setenv("PATH", "") // git is not found
	}
	var ours, theirs time.Duration
	for b.Loop() {
		begun := time.Now()
		cmd := exec.Command(path, append([]string{"--no-pager", "-C", dir}, args...)...)
		cmd.Env = []string{"HOME=" + os.DevNull, "GIT_CONFIG_NOSYSTEM=1"}
		if err := cmd.Run(); err != nil {
			b.Fatal(err)
		}
		theirs += time.Since(begun)

		begun = time.Now()
		repo, err := history.Open(b.Context(), dir)
		if err != nil {
			b.Fatal(err)
		}
		if n, err := read(chronicle.New(repo, ""), span(b, repo, "main")); err != nil || n == 0 {
			b.Fatal(n, err)
		}
		_ = repo.Close()
		ours += time.Since(begun)
	}
	b.ReportMetric(ours.Seconds()/theirs.Seconds(), "x-git")
	b.ReportMetric(theirs.Seconds()/float64(b.N), "git-s/op")
}
