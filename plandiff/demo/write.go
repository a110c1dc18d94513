package demo

import (
	"context"

	"passband.example/plandiff/whole"
)

// Write makes a git repository of the demo in the folder dir, with its work tree on
// [Main]. The hashes of its commits and tags are the same on every machine, whatever
// its settings, and no git command is needed.
//
// The folder must be new or empty, and the folder it stands in must exist. It
// appears whole or not at all: on an error, and when ctx ends, nothing is left.
func Write(ctx context.Context, dir string) error {
	return whole.Folder(dir, func(dir string) error { return build(ctx, dir) })
}
