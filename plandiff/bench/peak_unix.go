//go:build unix

package main

import (
	"os"
	"runtime"
	"syscall"
)

// peakOf gives the peak of memory of a process that ended, in bytes.
func peakOf(s *os.ProcessState) int64 {
	usage, ok := s.SysUsage().(*syscall.Rusage)
	if !ok {
		return 0
	}
	if runtime.GOOS == "darwin" { // getrusage(2) counts bytes there and kilobytes elsewhere
		return usage.Maxrss
	}
	return usage.Maxrss * 1024
}
