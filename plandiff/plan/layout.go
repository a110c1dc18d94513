package plan

import (
	"strings"
	"sync"
)

// A layout is the fields of a section, or of a block of keys in it, by their keys.
type layout struct {
	of   map[string]member
	keys []string // all of them, in their order
}

// A member is what a key stands for: a field, a block of keys, or a flag, which is both.
type member struct {
	field *Field
	block *layout
}

var layouts = sync.OnceValue(func() map[*Section]*layout {
	all := make(map[*Section]*layout)
	for _, s := range sections() {
		all[s] = newLayout(s.Fields)
	}
	return all
})

func newLayout(fields []Field) *layout {
	whole := &layout{of: make(map[string]member)}
	for i := range fields {
		at := whole
		parts := strings.Split(fields[i].Name, ".")
		for _, part := range parts[:len(parts)-1] {
			at = at.block(part)
		}
		last := parts[len(parts)-1]
		if fields[i].Form == Flag {
			at.block(last)
		}
		at.know(last, member{&fields[i], at.of[last].block})
	}
	return whole
}

// block gives the block of keys behind a key, a new one where there is none.
func (lay *layout) block(key string) *layout {
	in := lay.of[key]
	if in.block == nil {
		in.block = &layout{of: make(map[string]member)}
		lay.know(key, in)
	}
	return in.block
}

func (lay *layout) know(key string, in member) {
	if _, known := lay.of[key]; !known {
		lay.keys = append(lay.keys, key)
	}
	lay.of[key] = in
}
