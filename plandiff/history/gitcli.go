package history

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strings"
	"time"
)

// A commandStore asks the git command. It reads every kind of repository that
// the installed git knows, and long histories faster than go-git.
//
// A repository's own configuration can name programs for git to run. None of
// what is asked here needs one, and each is switched off besides: see command.
type commandStore struct {
	at       place
	git      string // path of the command
	contents *conversation
	sizes    *conversation
}

// newCommandStore fails if there is no git on the PATH. Nothing is started yet.
func newCommandStore(at place) (*commandStore, error) {
	git, err := exec.LookPath("git")
	if err != nil {
		return nil, err
	}
	s := &commandStore{at: at, git: git}
	s.contents = &conversation{start: func() *exec.Cmd { return s.command("cat-file", "--batch") }}
	s.sizes = &conversation{start: func() *exec.Cmd { return s.command("cat-file", "--batch-check") }}
	return s, nil
}

func (s *commandStore) name() string { return "git" }

// command prepares git so that it only reads, asks nobody, reaches no network
// and runs no program that the repository names (git-config: core.fsmonitor,
// core.hooksPath, core.pager, credential.helper; git(1): the environment).
// Aliases cannot take the place of the built-in commands.
func (s *commandStore) command(args ...string) *exec.Cmd {
	safe := []string{
		"--no-pager", "--no-replace-objects", "--literal-pathspecs",
		"-c", "core.fsmonitor=false",
		"-c", "core.hooksPath=" + os.DevNull,
		"-c", "core.pager=cat",
		"-c", "credential.helper=",
		"-c", "log.follow=false",
		"-c", "advice.graftFileDeprecated=false",
	}
	cmd := exec.Command(s.git, append(safe, args...)...)
	cmd.Dir = s.at.home()
	cmd.Env = safeEnvironment(os.Environ())
	cmd.WaitDelay = time.Second // a child of a killed git must not hold the pipe open
	return cmd
}

// safeEnvironment keeps what git needs from its surroundings and drops every
// variable that would lead it to another repository, another configuration or
// another program; git sets GIT_DIR and others for hooks, and passband may run in one.
func safeEnvironment(environ []string) []string {
	env := slices.DeleteFunc(slices.Clone(environ), func(pair string) bool {
		name, _, _ := strings.Cut(pair, "=")
		return strings.HasPrefix(name, "GIT_") && name != "GIT_EXEC_PATH" ||
			name == "LANGUAGE" || name == "LC_ALL" || name == "PAGER"
	})
	return append(env,
		"LC_ALL=C", // its messages are read, below
		"GIT_TERMINAL_PROMPT=0",
		"GIT_OPTIONAL_LOCKS=0",
		"GIT_NO_LAZY_FETCH=1", // since git 2.44, and in its older security releases
		"GIT_ALLOW_PROTOCOL=none",
		"GIT_GRAFT_FILE="+os.DevNull, // go-git knows no grafts
	)
}

// run starts git, waits for its end and returns what it wrote.
func (s *commandStore) run(ctx context.Context, args ...string) (string, error) {
	cmd := s.command(args...)
	var out bytes.Buffer
	errs := &lastWords{}
	cmd.Stdout, cmd.Stderr = &out, errs
	if err := cmd.Start(); err != nil {
		return "", fmt.Errorf("git cannot be started: %w", err)
	}
	stop := context.AfterFunc(ctx, func() { _ = cmd.Process.Kill() })
	defer stop()
	if err := cmd.Wait(); err != nil {
		if ctx.Err() != nil {
			return "", ctx.Err()
		}
		return "", s.gitError(err, errs.String())
	}
	return out.String(), nil
}

func (s *commandStore) references(ctx context.Context) (references, error) {
	list, err := s.run(ctx, "for-each-ref", "--format=%(objectname) %(refname)")
	if err != nil {
		return references{}, err
	}
	refs, err := parseReferences(list)
	if err != nil {
		return references{}, err
	}
	// Both of these end with status 1 and no message when there is nothing to say.
	branch, err := s.runQuiet(ctx, "symbolic-ref", "--quiet", "HEAD")
	if err != nil {
		return references{}, err
	}
	refs.branch = strings.TrimSuffix(branch, "\n")
	head, err := s.runQuiet(ctx, "rev-parse", "--verify", "--quiet", "HEAD")
	if err != nil {
		return references{}, err
	}
	if head = strings.TrimSuffix(head, "\n"); isHash(head) {
		refs.byName["HEAD"] = head
	}
	return refs, nil
}

// runQuiet is run, where the exit status 1 is an empty answer.
func (s *commandStore) runQuiet(ctx context.Context, args ...string) (string, error) {
	out, err := s.run(ctx, args...)
	var exit *exec.ExitError
	if errors.As(err, &exit) && exit.ExitCode() == 1 {
		return "", nil
	}
	return out, err
}

// parseReferences reads lines of a hash, a space and the full name of a reference.
func parseReferences(list string) (references, error) {
	refs := references{byName: make(map[string]string)}
	for line := range strings.Lines(list) {
		id, name, ok := strings.Cut(strings.TrimSuffix(line, "\n"), " ")
		if !ok || !isHash(id) || name == "" {
			return references{}, fmt.Errorf("git listed a reference in a form that is not understood: %q", line)
		}
		refs.byName[name] = id
	}
	return refs, nil
}

func (s *commandStore) withPrefix(ctx context.Context, prefix string) ([]string, error) {
	out, err := s.run(ctx, "rev-parse", "--disambiguate="+prefix)
	if err != nil {
		return nil, err
	}
	ids := strings.Fields(out)
	slices.Sort(ids)
	return slices.Compact(ids), nil
}

func (s *commandStore) object(ctx context.Context, id string) (object, error) {
	var o object
	err := s.contents.ask(ctx, id, func(kind string, size int64, from *reply) (err error) {
		o.kind = kind
		o.data, err = from.body(size)
		return err
	})
	return o, s.conversationError(id, err)
}

func (s *commandStore) size(ctx context.Context, id string) (int64, error) {
	var n int64
	err := s.sizes.ask(ctx, id, func(_ string, size int64, _ *reply) error {
		n = size
		return nil
	})
	return n, s.conversationError(id, err)
}

func (s *commandStore) close() error {
	s.contents.close()
	s.sizes.close()
	return nil
}
