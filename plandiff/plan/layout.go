package plan

import (
	"slices"
	"strings"
	"sync"
)

// A layout is the fields of a section, or of a block of keys in it, by their keys.
type layout struct {
	fields map[string]*Field
	blocks map[string]*layout
	keys   []string // all of them, in their order
}

var layouts = sync.OnceValue(func() map[*Section]*layout {
	all := make(map[*Section]*layout)
	for _, s := range sections() {
		all[s] = newLayout(s.Fields)
	}
	return all
})

func newLayout(fields []Field) *layout {
	whole := emptyLayout()
	for i := range fields {
		at := whole
		parts := strings.Split(fields[i].Name, ".")
		for _, part := range parts[:len(parts)-1] {
			at.know(part)
			if at.blocks[part] == nil {
				at.blocks[part] = emptyLayout()
			}
			at = at.blocks[part]
		}
		last := parts[len(parts)-1]
		at.know(last)
		at.fields[last] = &fields[i]
		if fields[i].Form == Flag && at.blocks[last] == nil {
			at.blocks[last] = emptyLayout()
		}
	}
	return whole
}

func emptyLayout() *layout {
	return &layout{fields: make(map[string]*Field), blocks: make(map[string]*layout)}
}

func (lay *layout) know(key string) {
	if !slices.Contains(lay.keys, key) {
		lay.keys = append(lay.keys, key)
	}
}
