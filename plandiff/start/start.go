// Package start makes a new plan: a small one that checks clean, whose comments
// teach, for a club to replace line by line with its own facts.
package start

import (
	"context"
	"embed"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"passband.example/plandiff/history"
	"passband.example/plandiff/plan"
	"passband.example/plandiff/whole"
)

//go:embed data
var data embed.FS

// Plan gives the files of a new plan.
func Plan() fs.FS {
	files, err := fs.Sub(data, "data")
	if err != nil {
		panic(err) // the folder is compiled in
	}
	return files
}

// Write makes a new plan in the folder dir, which must be new or empty: its files,
// and a git repository whose branch main has no commit yet. Where dir is in the
// work tree of a repository already, no other is made, and the top of that one is
// returned: a repository within a repository would be versioned by neither.
//
// setUp is called with the folder once it has a repository of its own, before it appears.
//
// The folder appears whole or not at all; on an error, and when ctx ends, nothing
// is left.
func Write(ctx context.Context, dir string, setUp func(dir string) error) (inside string, err error) {
	inside = repositoryAround(ctx, dir)
	err = whole.Folder(dir, func(dir string) error {
		if err := os.Mkdir(dir, 0o755); err != nil {
			return err
		}
		if err := copyFiles(ctx, dir); err != nil || inside != "" {
			return err
		}
		if _, err := history.Create(dir, "main"); err != nil {
			return err
		}
		return setUp(dir)
	})
	return inside, err
}

// repositoryAround gives the top of the work tree that dir will be in, or "".
func repositoryAround(ctx context.Context, dir string) string {
	abs, err := filepath.Abs(dir)
	if err != nil {
		return ""
	}
	repo, err := history.Open(ctx, filepath.Dir(abs))
	if err != nil {
		return ""
	}
	defer repo.Close()
	return repo.Root()
}

// copyFiles writes the files of the plan, and the schema by which editors complete them.
func copyFiles(ctx context.Context, dir string) error {
	if err := os.WriteFile(filepath.Join(dir, plan.SchemaFile), plan.JSONSchema(), 0o644); err != nil {
		return fmt.Errorf("writing %s: %w", plan.SchemaFile, err)
	}
	files := Plan()
	return fs.WalkDir(files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		if err := ctx.Err(); err != nil {
			return err
		}
		text, err := fs.ReadFile(files, name)
		if err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(dir, name), text, 0o644); err != nil {
			return fmt.Errorf("writing %s: %w", name, err)
		}
		return nil
	})
}
