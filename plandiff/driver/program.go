package driver

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// Program gives the command by which git finds this program: its name where the
// PATH leads to it, else where it stands, quoted for the shell that git uses.
func Program() (string, error) {
	here, err := os.Executable()
	if err != nil {
		return "", err
	}
	if onPath, err := exec.LookPath("passband"); err == nil && sameFile(onPath, here) {
		return "passband", nil
	}
	return "'" + strings.ReplaceAll(filepath.ToSlash(here), "'", `'\''`) + "'", nil
}

func sameFile(a, b string) bool {
	x, errX := os.Stat(a)
	y, errY := os.Stat(b)
	return errX == nil && errY == nil && os.SameFile(x, y)
}
