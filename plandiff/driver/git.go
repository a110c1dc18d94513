package driver

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"strings"
)

// git runs git in a folder and gives what it prints.
func git(ctx context.Context, dir string, args ...string) (string, error) {
	return gitWith(ctx, dir, "", args...)
}

// gitWith hands git an input.
func gitWith(ctx context.Context, dir, input string, args ...string) (string, error) {
	cmd := exec.CommandContext(ctx, "git", args...)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "LC_ALL=C", "GIT_OPTIONAL_LOCKS=0", "GIT_TERMINAL_PROMPT=0", "GIT_NO_LAZY_FETCH=1")
	cmd.Stdin = strings.NewReader(input)
	var out, failed bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &failed
	err := cmd.Run()
	if errors.Is(err, exec.ErrNotFound) {
		return "", fmt.Errorf("the program git is not found; install it, and try again: %w", err)
	}
	if err != nil && failed.Len() > 0 {
		err = fmt.Errorf("git %s: %s: %w", args[0], strings.TrimSpace(failed.String()), err)
	}
	return strings.TrimRight(out.String(), "\n"), err
}
