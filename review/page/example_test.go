package page_test

import (
	"bytes"
	"context"
	"fmt"
	"strings"

	"passband.example/plandiff/demo"
	"passband.example/plandiff/plan"
	"passband.example/review"
	"passband.example/review/page"
	"passband.example/review/report"
	"passband.example/review/rules"
)

func ExampleWrite() {
	ctx := context.Background()
	p, err := plan.Load(ctx, demo.Plan())
	if err != nil {
		fmt.Println(err)
		return
	}
	x := plan.Expand(p)
	v, err := review.Check(ctx, rules.All(), x, plan.Date{Year: 2026, Month: 11, Day: 25})
	if err != nil {
		fmt.Println(err)
		return
	}
	var file bytes.Buffer
	if err := page.Write(&file, &report.Document{New: &report.Origin{Name: "main"}, Expansion: x, Verdict: v}); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(strings.Count(file.String(), "<svg class=\"strip\""), "strips of spectrum, and", strings.Count(file.String(), "<svg class=\"chart\""), "map")
	// Output: 9 strips of spectrum, and 1 map
}
