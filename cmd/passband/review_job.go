package main

import (
	"bytes"
	"crypto/rand"
	"fmt"
	"os"

	"passband.example/plandiff/whole"
	"passband.example/review/post"
	"passband.example/review/report"
	"passband.example/review/rules"
)

// tellJob tells the run itself what is found, which needs no right to write: as
// annotations, in the summary of the job, and in the outputs of the step.
func (a *app) tellJob(run *post.Run, p *post.Proposal, json bool) error {
	if run.Annotating {
		to := a.raw.out
		if json {
			to = a.raw.err // the runner reads both
		}
		fmt.Fprint(to, report.Annotations(p.Document))
	}
	if err := add(run.SummaryTo, p.JobSummary()); err != nil {
		return fmt.Errorf("the summary of the job could not be written: %w", err)
	}
	if err := add(run.OutputTo, p.Outputs()); err != nil {
		return fmt.Errorf("the outputs of the step could not be written: %w", err)
	}
	return nil
}

// add appends to a file that the runner named; none has no name.
func add(name, text string) error {
	if name == "" {
		return nil
	}
	f, err := os.OpenFile(name, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	if _, err := f.WriteString(text); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}

// print prints what would be posted. Where workflow commands are heeded, nothing in
// it is taken for one.
func (a *app) print(run *post.Run, p *post.Posting, json bool) error {
	if json {
		return written(report.WriteJSON(a.stdout, p.Form()))
	}
	to, text := a.stdout, p.Form().Text()
	if run.Annotating {
		to, text = a.raw.out, report.Fenced(rand.Text(), text)
	}
	_, err := fmt.Fprint(to, text)
	return written(err)
}

// writeSarif writes what is found to a file, or to standard output for "-".
func (a *app) writeSarif(name string, d *report.Document) error {
	if name == "-" {
		return written(report.Sarif(a.stdout, d, rules.All()))
	}
	var text bytes.Buffer
	if err := report.Sarif(&text, d, rules.All()); err != nil {
		return err
	}
	return whole.File(name, text.Bytes())
}
