package tables_test

import (
	"fmt"

	"passband.example/plandiff/plan"
	"passband.example/plandiff/rewrite"
	"passband.example/plandiff/tables"
)

// A table of a layout of the club's own is written, changed and read back: what changed
// stands in the plan, and nothing else does.
func Example() {
	files := map[string][]byte{"plan.yaml": []byte(`plan: Small
channels:
  calling: {label: Call 2m, simplex: 146.52, fm: {}}   # monitored at noon
`)}
	p, err := rewrite.Load(files)
	if err != nil {
		fmt.Println(err)
		return
	}
	x := plan.Expand(p)
	layout, err := tables.ParseLayout("our.layout", []byte(`layout: Ours
line_end: lf
tables:
  - file: channels.csv
    rows: channels
    columns:
      - {header: Name, value: label}
      - {header: Receive, value: output, format: MHz 4}
      - {header: Offset, value: split, none: "off"}
`))
	if err != nil {
		fmt.Println(err)
		return
	}
	out, err := tables.Write(x, "", layout)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(string(out.Files[0].Data))

	edited := []tables.File{{Name: "channels.csv", Data: []byte("Name,Receive,Offset\nCalling,146.5200,0\n")}}
	in, err := tables.Read(x, "", layout, edited)
	if err != nil {
		fmt.Println(err)
		return
	}
	texts, _, err := tables.Carry(files, x, in)
	fmt.Print(string(texts["plan.yaml"]), err)
	// Output:
	// Name,Receive,Offset
	// Call 2m,146.5200,0
	// plan: Small
	// channels:
	//   calling: {label: Calling, simplex: 146.52, fm: {}}   # monitored at noon
	// <nil>
}
