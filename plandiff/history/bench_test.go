package history

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
)

// longHistory is 1,000 commits, each changing one line of one of 40 files of a
// plan with 4,000 channels, in one pack.
func longHistory(b *testing.B) *fixture {
	b.Helper()
	f := newFixture(b, "--bare")
	random := rand.New(rand.NewPCG(1, 2))
	plan := make([][]string, 40)
	for i := range plan {
		for j := range 100 {
			plan[i] = append(plan[i], fmt.Sprintf("  c-%d-%d: {label: C %d, simplex: 146.%03d, fm: {}}", i, j, j, random.IntN(1000)))
		}
	}
	var in strings.Builder
	for n := range 1000 {
		i := random.IntN(len(plan))
		plan[i][random.IntN(100)] = fmt.Sprintf("  c-%d-x: {label: X, simplex: 147.%03d, fm: {}}", n, random.IntN(1000))
		fmt.Fprintf(&in, "commit refs/heads/main\ncommitter Sam <sam@example.org> %d +0000\ndata 1\nx\n", 1767225600+60*n)
		for j := range plan {
			if n == 0 || j == i {
				text := "channels:\n" + strings.Join(plan[j], "\n") + "\n"
				fmt.Fprintf(&in, "M 100644 inline plans/zone-%02d.yaml\ndata %d\n%s\n", j, len(text), text)
			}
		}
	}
	f.gitInput(in.String(), "fast-import", "--quiet")
	f.git("repack", "-q", "-a", "-d", "-f")
	return f
}

// BenchmarkWalk names the changed files of each commit.
func BenchmarkWalk(b *testing.B) { benchmarkWalk(b, false) }

// BenchmarkWalkAndRead also reads them, before and after, as a log of changes must.
func BenchmarkWalkAndRead(b *testing.B) { benchmarkWalk(b, true) }

func benchmarkWalk(b *testing.B, read bool) {
	f := longHistory(b)
	for _, backing := range []string{"go-git", "git"} {
		b.Run(backing, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				r := mustOnly(b, f.dir, backing)
				commits := 0
				err := r.Walk(b.Context(), Commit{}, mustResolve(b, r, "main"), "plans", func(_ Commit, changes []BlobChange) error {
					commits++
					if !read {
						return nil
					}
					for _, ch := range changes {
						for _, v := range []Version{ch.Old, ch.New} {
							if !v.Exists() {
								continue
							}
							if _, err := r.Blob(b.Context(), v.Hash); err != nil {
								return err
							}
						}
					}
					return nil
				})
				if err != nil || commits != 1000 {
					b.Fatalf("%d commits, %v", commits, err)
				}
				_ = r.Close()
			}
		})
	}
}

// BenchmarkMergeBase looks for a fork 900 commits back.
func BenchmarkMergeBase(b *testing.B) {
	f := longHistory(b)
	fork := f.git("rev-parse", "main~900")
	branch := f.git("commit-tree", "-p", fork, "-m", "a branch", fork+"^{tree}")
	for _, backing := range []string{"go-git", "git"} {
		b.Run(backing, func(b *testing.B) {
			for b.Loop() {
				r := mustOnly(b, f.dir, backing)
				base, ok, err := r.MergeBase(b.Context(), mustResolve(b, r, "main"), mustResolve(b, r, branch))
				if err != nil || !ok || base.Hash != fork {
					b.Fatalf("%v %v %v", base.Hash, ok, err)
				}
				_ = r.Close()
			}
		})
	}
}

// BenchmarkOpen is what every command pays: find the repository and one commit.
func BenchmarkOpen(b *testing.B) {
	f := newFixture(b)
	f.commit("one", "plan.yaml", "plan: x\n")
	for _, backing := range []string{"go-git", "git"} {
		b.Run(backing, func(b *testing.B) {
			for b.Loop() {
				r := mustOnly(b, f.dir, backing)
				mustResolve(b, r, "HEAD")
				_ = r.Close()
			}
		})
	}
}
