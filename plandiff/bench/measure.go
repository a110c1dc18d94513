package main

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"slices"
	"time"
)

// A cost is what one turn took.
type cost struct {
	Clock, Processor time.Duration
	Peak             int64 // bytes of memory; 0 where it was not a process
}

// A row is a line of the results: one thing against another.
type row struct {
	what   string
	target float64 // the ratio that is aimed at; 0 for none
	ratio  float64
	cpu    float64 // the ratio of processor time; 0 where it was not told apart
	memory float64 // the ratio of peak memory; 0 where it was not measured
	ours   time.Duration
	peak   int64
}

// A side is one of the two things that a row compares.
type side func() (cost, error)

// versus measures two sides in turns.
func (b *bench) versus(what string, target float64, ours, theirs side) (row, error) {
	fmt.Fprintln(os.Stderr, what)
	var clock, cpu, took []float64
	r := row{what: what, target: target}
	var peak int64
	for i := range b.rounds + 1 {
		x, err := ours()
		if err != nil {
			return r, fmt.Errorf("%s: %w", what, err)
		}
		y, err := theirs()
		if err != nil {
			return r, fmt.Errorf("%s: the other side: %w", what, err)
		}
		if i == 0 {
			continue // the files are in memory from now on
		}
		clock = append(clock, x.Clock.Seconds()/y.Clock.Seconds())
		took = append(took, x.Clock.Seconds())
		if y.Processor > 0 {
			cpu = append(cpu, x.Processor.Seconds()/y.Processor.Seconds())
		}
		r.peak, peak = max(r.peak, x.Peak), max(peak, y.Peak)
	}
	r.ratio, r.ours = median(clock), time.Duration(median(took)*float64(time.Second))
	r.cpu = median(cpu)
	if peak > 0 {
		r.memory = float64(r.peak) / float64(peak)
	}
	return r, nil
}

func median(of []float64) float64 {
	if len(of) == 0 {
		return 0
	}
	slices.Sort(of)
	return of[len(of)/2]
}

// process gives a side that runs a program from start to end.
func (b *bench) process(env []string, dir, name string, args ...string) side {
	return func() (cost, error) { return b.run(env, dir, name, args...) }
}

// run has a small process of this program run a program: the kernel counts the memory of whoever starts
// a process to its peak, and this one here holds plans.
func (b *bench) run(env []string, dir, name string, args ...string) (cost, error) {
	cmd := exec.CommandContext(b.ctx, b.self, append([]string{"time", name}, args...)...)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "GIT_CONFIG_NOSYSTEM=1", "GIT_CONFIG_GLOBAL="+os.DevNull, "GIT_PAGER=")
	cmd.Env = append(cmd.Env, env...)
	out, err := cmd.Output()
	if err != nil {
		return cost{}, fmt.Errorf("%s %v: %w", name, args, err)
	}
	var c cost
	return c, json.Unmarshal(out, &c)
}

// timed runs a program, throws away what it prints, and prints what it took. A program that ends
// with 1 has found something, as those that compare do.
func timed(name string, args []string) error {
	cmd := exec.Command(name, args...)
	begin := time.Now()
	err := cmd.Run()
	took := time.Since(begin)
	if s := cmd.ProcessState; s == nil || s.ExitCode() > 1 || s.ExitCode() < 0 {
		return err
	}
	s := cmd.ProcessState
	return json.NewEncoder(os.Stdout).Encode(cost{took, s.UserTime() + s.SystemTime(), peakOf(s)})
}

// inProcess gives a side that runs here, on a collected heap.
func inProcess(run func() error) side {
	return func() (cost, error) {
		runtime.GC()
		begin := time.Now()
		err := run()
		return cost{Clock: time.Since(begin)}, err
	}
}
