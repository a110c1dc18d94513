package report

import (
	"fmt"
	"strings"

	"passband.example/review"
)

// What GitHub shows of annotations, beyond which they are dropped in silence:
// 10 errors and 10 warnings a step, 50 a job (GitHub's description of
// checks/create, and actions/toolkit issue 734).
const mostAnnotations = 10

// Annotations writes findings as workflow commands, by which a run in continuous
// integration shows them beside the lines, without any right to write. Those that
// the forge would drop are counted in the last one.
func Annotations(d *Document) string {
	var b strings.Builder
	for _, kind := range []struct {
		command  string
		severity review.Severity
	}{{"error", review.Block}, {"warning", review.Warn}, {"notice", review.Note}} {
		var fs []review.Finding
		for _, f := range d.Verdict.Findings {
			if f.Severity == kind.severity && f.Standing == review.New {
				fs = append(fs, f)
			}
		}
		for i, f := range fs {
			if i == mostAnnotations-1 && len(fs) > mostAnnotations {
				fmt.Fprintf(&b, "::%s title=passband::%s\n", kind.command, commandText(fmt.Sprintf("%d more findings of this kind are in the summary of the job", len(fs)-i)))
				break
			}
			b.WriteString(d.annotation(kind.command, f))
		}
	}
	return b.String()
}

func (d *Document) annotation(command string, f review.Finding) string {
	at := f.At
	file := d.New.Place(at)
	if at.Line > 0 {
		file = strings.TrimSuffix(file, fmt.Sprintf(":%d:%d", at.Line, at.Col))
	}
	where := ""
	if file != "" {
		where = "file=" + commandProperty(Visible(file)) + ","
		if at.Line > 0 {
			where += fmt.Sprintf("line=%d,col=%d,", at.Line, max(at.Col, 1))
		}
	}
	said := f.What
	if f.Why != "" {
		said += "; " + f.Why
	}
	if f.Fix != "" {
		said += "; " + f.Fix
	}
	return fmt.Sprintf("::%s %stitle=%s::%s\n", command, where, commandProperty("passband "+f.Rule), commandText(Visible(clip(said, longestText))))
}

// commandText escapes the message of a workflow command as the runner reads it
// (@actions/core 3.0.1, lib/command.js).
func commandText(s string) string {
	return strings.NewReplacer("%", "%25", "\r", "%0D", "\n", "%0A").Replace(s)
}

// commandProperty escapes a property of a workflow command, which a colon or a comma
// would end.
func commandProperty(s string) string {
	return strings.NewReplacer("%", "%25", "\r", "%0D", "\n", "%0A", ":", "%3A", ",", "%2C").Replace(s)
}

// Fenced keeps a text from being read for workflow commands: the runner heeds none
// until it sees the token again, which must be one that nobody can guess
// (docs.github.com, workflow commands).
func Fenced(token, text string) string {
	return fmt.Sprintf("::stop-commands::%s\n%s\n::%s::\n", token, strings.TrimRight(text, "\n"), token)
}
