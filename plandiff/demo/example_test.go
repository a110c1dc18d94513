package demo_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"passband.example/plandiff/demo"
)

func ExampleHistory() {
	for _, c := range demo.History() {
		subject, _, _ := strings.Cut(c.Message, "\n")
		if c.Branch == demo.Proposal {
			subject = "(proposal) " + subject
		}
		fmt.Println(strings.TrimRight(c.When.Format("2006-01-02 ")+subject+"  "+c.Tag, " "))
	}
	// Output:
	// 2025-09-14 First plan: what our radios hold, in one place
	// 2025-10-05 Add the Notch repeater
	// 2025-10-26 Retune Mill to 147.120 with tone 123.0
	// 2025-11-16 Call the barn repeater Orchard
	// 2025-12-07 Put the calling channels first and shorten labels
	// 2026-01-04 Write all repeaters in the same layout
	// 2026-02-01 Add the storm group and put it on six repeaters  2026.1
	// 2026-02-22 Add the nine members who passed in February
	// 2026-03-15 Raise the limits of the pocket radios
	// 2026-03-22 (proposal) Add Heron, Spur, Cairn and Fell
	// 2026-03-24 (proposal) Add a zone for the range, and its three members
	// 2026-03-29 (proposal) Message for the range, and Knob has plus like the others
	// 2026-04-05 Carry the Wednesday net on Depot too
	// 2026-05-03 Quarry: new tone, new antenna, and one new member  2026.2
}

func ExampleWrite() {
	parent, err := os.MkdirTemp("", "example-*")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(parent)
	dir := filepath.Join(parent, "harrow-valley")
	if err := demo.Write(context.Background(), dir); err != nil {
		fmt.Println(err)
		return
	}
	files, err := filepath.Glob(filepath.Join(dir, "*.yaml"))
	fmt.Println(len(files), "files of YAML in a repository", err)
	// Output: 8 files of YAML in a repository <nil>
}
