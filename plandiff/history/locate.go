package history

import (
	"bufio"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// A place is where a repository lies on disk.
type place struct {
	top     string          // folder of the work tree, "" when bare
	prefix  string          // the asked folder below top, with slashes
	gitDir  string          // HEAD and the names of this work tree
	common  string          // objects and shared names; equals gitDir except in a linked work tree
	shallow map[string]bool // commits at which the history of a shallow clone was cut
}

// locate finds the repository that holds dir the way git does: the nearest
// folder upwards that has a .git, or that is itself a bare repository. The
// environment (GIT_DIR and its kin) is not asked: a plan in one folder must
// not be judged by the history of another.
func locate(dir string) (place, error) {
	real, err := realDir(dir)
	if err != nil {
		return place{}, err
	}
	for at := real; ; at = filepath.Dir(at) {
		p, err := placeAt(at)
		if err != nil {
			return place{}, err
		}
		if p.gitDir != "" {
			return p.complete(real)
		}
		if at == filepath.Dir(at) {
			return place{}, noRepository(dir)
		}
	}
}

// realDir is dir as an absolute path without symbolic links, so that the part
// below the top of the repository can be told.
func realDir(dir string) (string, error) {
	abs, err := filepath.Abs(dir)
	if err != nil {
		return "", err
	}
	real, err := filepath.EvalSymlinks(abs)
	if err != nil {
		return "", fmt.Errorf("cannot look for a git repository in %q: %w", dir, err)
	}
	if info, err := os.Stat(real); err != nil || !info.IsDir() {
		return "", fmt.Errorf("cannot look for a git repository in %q: it is not a folder", dir)
	}
	return real, nil
}

// placeAt looks for a repository at exactly this folder. An empty gitDir means none.
func placeAt(folder string) (place, error) {
	dot := filepath.Join(folder, ".git")
	info, err := os.Stat(dot)
	switch {
	case err == nil && info.Mode().IsRegular():
		target, err := readGitFile(dot)
		return place{top: folder, gitDir: target}, err
	case err == nil && info.IsDir() && isGitDir(dot):
		return place{top: folder, gitDir: dot}, nil
	case isGitDir(folder):
		return place{gitDir: folder}, nil
	}
	return place{}, nil
}

// readGitFile follows the one-line file that stands for .git in a linked work
// tree and in a submodule.
func readGitFile(file string) (string, error) {
	text, err := os.ReadFile(file)
	if err != nil {
		return "", err
	}
	target, ok := strings.CutPrefix(strings.TrimSpace(string(text)), "gitdir: ")
	if !ok {
		return "", fmt.Errorf("%s does not say where its repository is; clone the repository again", file)
	}
	if !filepath.IsAbs(target) {
		target = filepath.Join(filepath.Dir(file), target)
	}
	if !isGitDir(target) {
		return "", fmt.Errorf("%s points to %s, where there is no repository; if it was moved, run \"git worktree repair\" in the main clone", file, target)
	}
	return target, nil
}

// isGitDir applies git's own test: a HEAD, and objects and refs (gitrepository-layout).
func isGitDir(dir string) bool {
	if _, err := os.Lstat(filepath.Join(dir, "HEAD")); err != nil {
		return false
	}
	common, err := commonDir(dir)
	return err == nil && isDir(filepath.Join(common, "objects")) && isDir(filepath.Join(common, "refs"))
}

func isDir(name string) bool {
	info, err := os.Stat(name)
	return err == nil && info.IsDir()
}

// commonDir is the folder that a linked work tree shares with the main one.
func commonDir(gitDir string) (string, error) {
	text, err := os.ReadFile(filepath.Join(gitDir, "commondir"))
	if os.IsNotExist(err) {
		return gitDir, nil
	}
	if err != nil {
		return "", err
	}
	dir := strings.TrimSpace(string(text))
	if !filepath.IsAbs(dir) {
		dir = filepath.Join(gitDir, dir)
	}
	return filepath.Clean(dir), nil
}

func (p place) complete(dir string) (place, error) {
	var err error
	if p.common, err = commonDir(p.gitDir); err != nil {
		return place{}, err
	}
	if p.top != "" && dir != p.top {
		below, err := filepath.Rel(p.top, dir)
		if err != nil {
			return place{}, err
		}
		p.prefix = filepath.ToSlash(below)
	}
	p.shallow, err = readShallow(filepath.Join(p.common, "shallow"))
	return p, err
}

// readShallow reads the file in which git keeps the boundary of a shallow
// clone: one commit a line (gitrepository-layout).
func readShallow(file string) (map[string]bool, error) {
	f, err := os.Open(file)
	if os.IsNotExist(err) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	cut := make(map[string]bool)
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		if isHash(lines.Text()) {
			cut[lines.Text()] = true
		}
	}
	return cut, lines.Err()
}

// home is the folder in which git is started.
func (p place) home() string {
	if p.top != "" {
		return p.top
	}
	return p.gitDir
}

// borrows says whether objects are kept in another repository (clone --shared, --reference).
func (p place) borrows() bool {
	text, err := os.ReadFile(filepath.Join(p.common, "objects", "info", "alternates"))
	return err == nil && len(strings.TrimSpace(string(text))) > 0
}

// partial says whether the clone left objects out on purpose (clone --filter):
// git marks the packs that came that way.
func (p place) partial() bool {
	marks, err := fs.Glob(os.DirFS(filepath.Join(p.common, "objects")), "pack/*.promisor")
	return err == nil && len(marks) > 0
}
