package main

import (
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"strings"
)

// describe says what machine this is, and how busy.
func describe() []string {
	git, _ := exec.Command("git", "version").Output()
	lines := []string{
		fmt.Sprintf("%s/%s, %d processors, %s", runtime.GOOS, runtime.GOARCH, runtime.NumCPU(), runtime.Version()),
		strings.TrimSpace(string(git)),
	}
	if info, err := os.ReadFile("/proc/cpuinfo"); err == nil {
		if _, model, ok := strings.Cut(string(info), "model name"); ok {
			model, _, _ = strings.Cut(model, "\n")
			lines = append(lines, strings.TrimLeft(model, " \t:"))
		}
	}
	if load, err := os.ReadFile("/proc/loadavg"); err == nil {
		lines = append(lines, "load average at the start (1, 5, 15 minutes): "+strings.Join(strings.Fields(string(load))[:3], " "))
	}
	return lines
}
