package tables

import (
	"fmt"
	"strings"
)

// strict reads CSV as the grammar of RFC 4180 section 2 has it, and nothing else: each
// record ends in CR LF; a field with a quotation mark, a comma or a line end stands
// between quotation marks, which are doubled inside. It is written from the grammar alone.
func strict(text string, comma byte) ([][]string, error) {
	var records [][]string
	var record []string
	for i := 0; i < len(text); {
		field, next, err := strictField(text, i, comma)
		if err != nil {
			return nil, err
		}
		record = append(record, field)
		switch {
		case next < len(text) && text[next] == comma:
			i = next + 1
		case strings.HasPrefix(text[next:], "\r\n"):
			records, record, i = append(records, record), nil, next+2
		default:
			return nil, fmt.Errorf("byte %d: a field ends in %q", next, text[next:min(next+2, len(text))])
		}
	}
	if record != nil {
		return nil, fmt.Errorf("the last record has no line end")
	}
	return records, nil
}

func strictField(text string, i int, comma byte) (field string, next int, err error) {
	if i < len(text) && text[i] == '"' {
		var b strings.Builder
		for i++; i < len(text); i++ {
			if text[i] != '"' {
				b.WriteByte(text[i])
				continue
			}
			if i+1 == len(text) || text[i+1] != '"' {
				return b.String(), i + 1, nil
			}
			b.WriteByte('"')
			i++
		}
		return "", i, fmt.Errorf("a quotation mark is not closed")
	}
	next = i
	for next < len(text) && text[next] != comma && text[next] != '\r' && text[next] != '\n' {
		if text[next] == '"' {
			return "", next, fmt.Errorf("byte %d: a quotation mark stands in a field without them", next)
		}
		next++
	}
	return text[i:next], next, nil
}
