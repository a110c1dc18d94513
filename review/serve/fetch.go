package serve

import (
	"context"
	"encoding/base64"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
)

// A Mirror keeps bare clones of the repositories that are served, as far as reviews need
// them. Nothing in them is ever checked out.
type Mirror struct {
	Dir   string // where they stand
	Git   string // the root of the forge for git: https://forge.example
	Token string // to read with; "" where anybody may read

	mu    sync.Mutex
	locks map[string]*sync.Mutex // a repository is fetched into by one at a time
}

// Fetch gets the two ends of a change with their history, and gives the folder of the
// clone.
func (m *Mirror) Fetch(ctx context.Context, j Job) (dir string, err error) {
	owner, name, ok := strings.Cut(j.Repository, "/")
	if !ok || !plain(owner) || !plain(name) || !isRef(j.BaseRef) || j.Number <= 0 && !isRef(j.HeadRef) {
		return "", fmt.Errorf("%q is no repository that can be fetched", j.Repository)
	}
	dir = filepath.Join(m.Dir, owner, name+".git")
	lock := m.lock(dir)
	lock.Lock()
	defer lock.Unlock()
	if _, err := os.Stat(filepath.Join(dir, "HEAD")); err != nil {
		if err := m.git(ctx, "init", "--quiet", "--bare", dir); err != nil {
			return "", err
		}
	}
	args := []string{"-C", dir, "fetch", "--quiet", "--no-tags", "--no-recurse-submodules", "--no-write-fetch-head", strings.TrimSuffix(m.Git, "/") + "/" + j.Repository + ".git"}
	return dir, m.git(ctx, append(args, j.refs()...)...)
}

// refs gives what to fetch: the base, and the head where it is another.
func (j Job) refs() []string {
	refs := []string{"+refs/heads/" + j.BaseRef + ":refs/heads/" + j.BaseRef}
	switch {
	case j.Number > 0:
		refs = append(refs, fmt.Sprintf("+refs/pull/%d/head:refs/pull/%d", j.Number, j.Number))
	case j.HeadRef != j.BaseRef:
		refs = append(refs, "+refs/heads/"+j.HeadRef+":refs/heads/"+j.HeadRef)
	}
	return refs
}

// plain reports whether a name of a repository is a folder's name as well.
func plain(s string) bool {
	return s != "" && s[0] != '.' && s[0] != '-' && !strings.ContainsFunc(s, func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || strings.ContainsRune("._-", r))
	})
}

func (m *Mirror) lock(dir string) *sync.Mutex {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.locks == nil {
		m.locks = make(map[string]*sync.Mutex)
	}
	if m.locks[dir] == nil {
		m.locks[dir] = new(sync.Mutex)
	}
	return m.locks[dir]
}

// git runs the git command: no settings of the machine, no questions, nothing but https,
// http and files. The token goes by the environment, where no list of processes shows it.
func (m *Mirror) git(ctx context.Context, args ...string) error {
	cmd := exec.CommandContext(ctx, "git", args...)
	cmd.Env = []string{
		"PATH=" + os.Getenv("PATH"), "HOME=" + m.Dir, "LC_ALL=C", "GIT_TERMINAL_PROMPT=0", "GIT_CONFIG_GLOBAL=/dev/null", "GIT_CONFIG_NOSYSTEM=1",
		"GIT_ALLOW_PROTOCOL=https:http:file",
	}
	if m.Token != "" {
		basic := base64.StdEncoding.EncodeToString([]byte("x-access-token:" + m.Token))
		cmd.Env = append(cmd.Env, "GIT_CONFIG_COUNT=1", "GIT_CONFIG_KEY_0=http.extraHeader", "GIT_CONFIG_VALUE_0=Authorization: Basic "+basic)
	}
	out, err := cmd.CombinedOutput()
	if err != nil && ctx.Err() != nil {
		return ctx.Err()
	}
	if err != nil {
		return fmt.Errorf("git %s: %w: %.500s", args[min(len(args)-1, 2)], err, strings.TrimSpace(string(out)))
	}
	return nil
}
