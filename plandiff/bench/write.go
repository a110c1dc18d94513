package main

import (
	"fmt"
	"io"
	"strconv"
	"time"
)

// write writes the results as Markdown.
func write(w io.Writer, machine []string, rounds int, rows []row, noise []noise) error {
	p := &printer{w: w}
	p.line("# Measurements\n")
	p.line("Written by `cd plandiff/bench && go run .`; go doc there says how it is measured. Medians of %d turns.\n", rounds)
	for _, line := range machine {
		p.line("- %s", line)
	}
	p.line("\n## Ratios\n\nLess is better. Time is that of the clock; the last columns are ratios of processor time and of peak memory.\n")
	p.line("| what | ratio | target | met | ours | processor | memory |\n|---|---|---|---|---|---|---|")
	for _, r := range rows {
		p.line("| %s | %s | %s | %s | %s | %s | %s |", r.what, figure(r.ratio), figure(r.target), met(r), took(r), figure(r.cpu), memory(r))
	}
	p.line("\n## Entries for one edit\n\nOn a plan of 1,000 channels: changed lines of git diff and go-cmp, paths of jd and dyff, changes of passband.\n")
	p.line("| edit | a person counts | passband | git diff | jd | dyff | go-cmp |\n|---|---|---|---|---|---|---|")
	for _, n := range noise {
		p.line("| %s | %d | %d | %d | %s | %s | %s |", n.edit, n.person, n.ours, n.git, counted(n.jd), counted(n.dyff), counted(n.goCmp))
	}
	return p.err
}

type printer struct {
	w   io.Writer
	err error
}

func (p *printer) line(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format+"\n", args...)
	}
}

// counted writes how many entries a library has, which compares one document.
func counted(n int) string {
	if n < 0 {
		return "none of several files"
	}
	return strconv.Itoa(n)
}

func figure(f float64) string {
	switch {
	case f == 0:
		return ""
	case f < 1:
		return fmt.Sprintf("%.2f", f)
	case f < 100:
		return fmt.Sprintf("%.1f", f)
	}
	return fmt.Sprintf("%.0f", f)
}

func met(r row) string {
	switch {
	case r.target == 0:
		return ""
	case r.ratio <= r.target:
		return "yes"
	}
	return "no"
}

func took(r row) string {
	if r.ours == 0 {
		return ""
	}
	return r.ours.Round(10 * time.Microsecond).String()
}

func memory(r row) string {
	if r.memory == 0 {
		return ""
	}
	return fmt.Sprintf("%s (%d MiB)", figure(r.memory), r.peak>>20)
}
