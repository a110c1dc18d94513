package plan_test

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"passband.example/plandiff/plan"
)

// The manual names the columns of the club's own tables in their order, and the limits as
// they are: it is read by people who do not read Go.
func TestManualSaysWhatIsSo(t *testing.T) {
	manual := plan.Manual()
	for file, columns := range map[string]string{plan.LicenseFile: plan.LicenseColumns, plan.SeparationFile: plan.SeparationColumns} {
		_, part, found := strings.Cut(manual, "\n"+file+" beside plan.yaml")
		if !found {
			t.Fatalf("nothing is said of %s", file)
		}
		part, _, _ = strings.Cut(part, "\n# ")
		var named []string
		for _, line := range regexp.MustCompile(`(?m)^\t([a-z_]+)  +\S`).FindAllStringSubmatch(part, -1) {
			named = append(named, line[1])
		}
		if got := strings.Join(named, ","); got != columns {
			t.Errorf("%s: the manual names the columns\n%s\nthey are\n%s", file, got, columns)
		}
		if want := "at most " + strconv.Itoa(plan.MaxLicenseRows) + " rows"; !strings.Contains(part, want) {
			t.Errorf("%s: the manual does not say %q", file, want)
		}
	}
	for _, want := range []string{
		strconv.Itoa(plan.MaxFileSize>>20) + " MB of\nYAML", strconv.Itoa(plan.MaxTableSize>>20) + " MB of CSV", strconv.Itoa(plan.MaxProblems) + " problems",
	} {
		if !strings.Contains(manual, want) {
			t.Errorf("the manual does not say %q", want)
		}
	}
	if name := regexp.MustCompile(`\b(Max[A-Z]\w*|\w+Columns)\b`).FindString(manual); name != "" {
		t.Errorf("the manual says %s, which means nothing to who reads no Go", name)
	}
}
