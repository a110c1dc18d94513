package demo

import (
	"fmt"
	"io"
	"io/fs"
	"maps"
	"net/mail"
	"path"
	"testing/fstest" // for its file system in memory; it pulls in no testing flags
	"time"
)

// letter is the file in a commit's folder that says who, when and why.
const letter = "commit.txt"

// replay reads a folder of commits, oldest first, and adds up what the plan was after each.
func replay(folder fs.FS) ([]Commit, error) {
	entries, err := fs.ReadDir(folder, ".")
	if err != nil {
		return nil, err
	}
	var commits []Commit
	last := map[string]Commit{} // by branch
	for _, entry := range entries {
		c, err := readLetter(folder, entry.Name())
		if err != nil {
			return nil, err
		}
		parent, ok := last[c.Branch]
		if !ok {
			parent = last[Main]
		}
		c.Parent = parent.Name
		if c.Plan, err = grow(parent.Plan, folder, c.Name); err != nil {
			return nil, err
		}
		last[c.Branch] = c
		commits = append(commits, c)
	}
	return commits, nil
}

// readLetter reads the head of a commit. The form is that of RFC 5322, as in a patch sent by mail.
func readLetter(folder fs.FS, name string) (Commit, error) {
	file := path.Join(name, letter)
	f, err := folder.Open(file)
	if err != nil {
		return Commit{}, err
	}
	defer f.Close()
	m, err := mail.ReadMessage(f)
	if err != nil {
		return Commit{}, fmt.Errorf("%s: %w", file, err)
	}
	from, err := mail.ParseAddress(m.Header.Get("From"))
	if err != nil {
		return Commit{}, fmt.Errorf("%s: From: %w", file, err)
	}
	when, err := m.Header.Date()
	if err != nil {
		return Commit{}, fmt.Errorf("%s: Date: %w", file, err)
	}
	message, err := io.ReadAll(m.Body)
	if err != nil {
		return Commit{}, fmt.Errorf("%s: %w", file, err)
	}
	if len(message) == 0 || m.Header.Get("Branch") == "" || from.Name == "" {
		return Commit{}, fmt.Errorf("%s: a commit needs the name of its author, a branch and a message", file)
	}
	return Commit{
		Name:    name,
		Branch:  m.Header.Get("Branch"),
		Tag:     m.Header.Get("Tag"),
		Author:  from.Name,
		Email:   from.Address,
		When:    fixed(when),
		Message: string(message),
	}, nil
}

// fixed takes the name of the zone away from a time, which the parser borrows from the
// machine where the offset happens to agree.
func fixed(t time.Time) time.Time {
	_, offset := t.Zone()
	return t.In(time.FixedZone("", offset))
}

// grow returns the plan before with the files of a commit laid over it.
func grow(before fs.FS, folder fs.FS, commit string) (fs.FS, error) {
	files, _ := before.(fstest.MapFS) // none before the first commit
	after := fstest.MapFS{}
	maps.Copy(after, files)
	changed, err := fs.ReadDir(folder, commit)
	if err != nil {
		return nil, err
	}
	for _, entry := range changed {
		if entry.Name() == letter {
			continue
		}
		text, err := fs.ReadFile(folder, path.Join(commit, entry.Name()))
		if err != nil {
			return nil, err
		}
		after[entry.Name()] = &fstest.MapFile{Data: text, Mode: 0o444}
	}
	return after, nil
}
