package main

import (
	"context"
	"fmt"
	"os"

	"github.com/gonvenience/ytbx"
	"github.com/google/go-cmp/cmp"
	"github.com/homeport/dyff/pkg/dyff"
	jd "github.com/josephburnett/jd/v2"
	"gopkg.in/yaml.v3"
	"passband.example/plandiff/plan"
)

// peer is this program as one of the libraries, which compares two files and prints what it found, or
// as what loads a plan or times a program.
func peer(args []string) error {
	if args[0] == "load" && len(args) == 2 {
		_, err := plan.Load(context.Background(), os.DirFS(args[1]))
		return err
	}
	if args[0] == "time" && len(args) > 1 {
		return timed(args[1], args[2:])
	}
	if len(args) != 3 {
		return fmt.Errorf("%q is nothing to run", args)
	}
	text, _, err := compare(args[0], args[1], args[2])
	if err != nil {
		return err
	}
	_, err = fmt.Println(text)
	return err
}

// compare has a library compare two files. It gives what it prints and how many
// entries that has, as the library counts: paths, and for go-cmp lines that are marked.
func compare(library, old, new string) (text string, entries int, err error) {
	switch library {
	case "jd":
		return byJD(old, new)
	case "dyff":
		return byDyff(old, new)
	case "go-cmp":
		return byCmp(old, new)
	}
	return "", 0, fmt.Errorf("there is no library %q here", library)
}

func byJD(old, new string) (string, int, error) {
	a, err := jd.ReadYamlFile(old)
	if err != nil {
		return "", 0, err
	}
	b, err := jd.ReadYamlFile(new)
	if err != nil {
		return "", 0, err
	}
	d := a.Diff(b)
	return d.Render(), len(d), nil
}

func byDyff(old, new string) (string, int, error) {
	a, b, err := ytbx.LoadFiles(old, new)
	if err != nil {
		return "", 0, err
	}
	report, err := dyff.CompareInputFiles(a, b)
	if err != nil {
		return "", 0, err
	}
	n := 0
	for _, d := range report.Diffs {
		n += len(d.Details)
	}
	return fmt.Sprint(report.Diffs), n, nil
}

func byCmp(old, new string) (string, int, error) {
	var a, b any
	for file, into := range map[string]*any{old: &a, new: &b} {
		text, err := os.ReadFile(file)
		if err != nil {
			return "", 0, err
		}
		if err := yaml.Unmarshal(text, into); err != nil {
			return "", 0, err
		}
	}
	text := cmp.Diff(a, b)
	return text, marked(text), nil
}
