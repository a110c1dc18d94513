package rewrite

import "passband.example/plandiff/plan"

// isValue reports whether a record of the section is one value and no mapping.
func isValue(s *plan.Section) bool {
	return s.Kind == plan.KindMessage || s.Kind == plan.KindShortcut || s.Kind == plan.KindSeverity
}

// isListed reports whether the section is a list rather than a mapping from keys.
func isListed(s *plan.Section) bool { return s.Kind == plan.KindAcceptance }

// outerOf gives the key of the section that this one stands in, or "".
func outerOf(s *plan.Section) string {
	if s.Kind == plan.KindSeverity || s.Kind == plan.KindAcceptance {
		return "review"
	}
	return ""
}
