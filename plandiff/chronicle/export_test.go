package chronicle

// Parsed counts the files that a reader parsed.
func (r *Reader) Parsed() int { return r.parsed }
