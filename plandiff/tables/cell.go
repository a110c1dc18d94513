package tables

import (
	"fmt"
	"strings"
)

// write gives the cell of a value; nothing set gives the text for none.
func (c *Column) write(texts []string, comma bool) (string, error) {
	if c.value == nil {
		return c.text, nil
	}
	if len(texts) == 0 {
		return c.none, nil
	}
	if c.blank != "" && len(texts) == 1 && texts[0] == c.blank {
		return "", nil
	}
	parts := make([]string, len(texts))
	for i, text := range texts {
		part, err := c.writeOne(text, comma)
		if err != nil {
			return "", err
		}
		if c.value.many && c.join != "" && len(texts) > 1 && strings.Contains(part, c.join) {
			return "", fmt.Errorf("%q holds %q, which the column has between the items of a list; give the column another join", clip(part), c.join)
		}
		parts[i] = part
	}
	cell := strings.Join(parts, c.join)
	if c.value.kind == words || !isNumber(cell) {
		cell = guarded(cell)
	}
	return cell, nil
}

func (c *Column) writeOne(text string, comma bool) (string, error) {
	if word, ok := c.words[text]; ok {
		return word, nil
	}
	return c.format.write(c.value.kind, text, comma)
}

// read gives what a cell says: the texts of a value, none where nothing is set.
func (c *Column) read(cell string, comma bool) ([]string, error) {
	if c.value.kind != words {
		cell = strings.TrimSpace(cell)
	}
	cell = unguarded(cell)
	switch empty := strings.TrimSpace(cell) == ""; {
	case cell == c.none && c.none != "":
		return nil, nil
	case empty && c.blank != "":
		return []string{c.blank}, nil
	case empty:
		return nil, nil
	}
	parts := []string{cell}
	if c.value.many && c.join != "" {
		parts = strings.Split(cell, c.join)
	}
	texts := make([]string, 0, len(parts))
	for _, part := range parts {
		text, err := c.readOne(part, comma)
		if err != nil {
			return nil, err
		}
		texts = append(texts, text)
	}
	return texts, nil
}

func (c *Column) readOne(cell string, comma bool) (string, error) {
	if text, ok := c.means[cell]; ok {
		return text, nil
	}
	text, err := c.format.read(c.value.kind, cell, comma)
	if err != nil {
		return "", err
	}
	normal, err := c.normal(text)
	if err != nil && len(c.means) > 0 {
		if word, ok := c.means[strings.TrimSpace(cell)]; ok {
			return word, nil
		}
		for word, text := range c.means {
			if strings.EqualFold(word, strings.TrimSpace(cell)) {
				return text, nil
			}
		}
	}
	return normal, err
}

// A reading reads the cells of one column. The same text is read once: a table has few
// color codes and many rows.
type reading struct {
	column *Column
	comma  bool
	known  map[string]said
}

type said struct {
	texts []string
	err   error
}

// read gives what a cell says; the caller must not change it.
func (r *reading) read(cell string) ([]string, error) {
	s, ok := r.known[cell]
	if !ok {
		if r.known == nil {
			r.known = make(map[string]said)
		}
		s.texts, s.err = r.column.read(cell, r.comma)
		r.known[cell] = s
	}
	return s.texts, s.err
}
