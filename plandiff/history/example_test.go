package history_test

import (
	"context"
	"fmt"
	"io/fs"
	"log"
	"os"
	"os/exec"
	"path/filepath"

	"passband.example/plandiff/history"
)

// What a plan said before the last change, and who changed it.
func Example() {
	dir := exampleRepository()
	defer os.RemoveAll(dir)
	ctx := context.Background()

	repository, err := history.Open(ctx, dir)
	if err != nil {
		log.Fatal(err)
	}
	defer repository.Close()

	before, err := repository.Resolve(ctx, "HEAD~1")
	if err != nil {
		log.Fatal(err)
	}
	files, err := repository.Tree(ctx, before, repository.Prefix())
	if err != nil {
		log.Fatal(err)
	}
	text, err := fs.ReadFile(files, "plan.yaml")
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("before: %s", text)

	now, err := repository.Resolve(ctx, "HEAD")
	if err != nil {
		log.Fatal(err)
	}
	err = repository.Walk(ctx, history.Commit{}, now, "", func(c history.Commit, changes []history.BlobChange) error {
		fmt.Printf("%s %s: %s (%d file)\n", c.When.Format("2006-01-02"), c.Author, c.Subject, len(changes))
		return nil
	})
	if err != nil {
		log.Fatal(err)
	}

	// Output:
	// before: plan: Harrow Valley
	// 2026-02-01 Sam Example: Say which group (1 file)
	// 2026-01-01 Sam Example: Start the plan (1 file)
}

func exampleRepository() string {
	dir, err := os.MkdirTemp("", "history")
	if err != nil {
		log.Fatal(err)
	}
	git := func(date string, args ...string) {
		cmd := exec.Command("git", args...)
		cmd.Dir = dir
		cmd.Env = append(os.Environ(), "GIT_CONFIG_GLOBAL="+os.DevNull, "GIT_AUTHOR_NAME=Sam Example", "GIT_AUTHOR_EMAIL=sam@example.org",
			"GIT_COMMITTER_NAME=Sam Example", "GIT_COMMITTER_EMAIL=sam@example.org", "GIT_AUTHOR_DATE="+date, "GIT_COMMITTER_DATE="+date)
		if out, err := cmd.CombinedOutput(); err != nil {
			log.Fatalf("git %v: %v\n%s", args, err, out)
		}
	}
	write := func(text string) {
		if err := os.WriteFile(filepath.Join(dir, "plan.yaml"), []byte(text), 0o644); err != nil {
			log.Fatal(err)
		}
	}
	git("", "init", "-q")
	write("plan: Harrow Valley\n")
	git("2026-01-01T12:00:00Z", "add", "plan.yaml")
	git("2026-01-01T12:00:00Z", "commit", "-q", "-m", "Start the plan")
	write("plan: Harrow Valley Repeater Group\n")
	git("2026-02-01T12:00:00Z", "commit", "-q", "-a", "-m", "Say which group")
	return dir
}
