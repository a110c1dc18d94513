package tree

// dash reports whether an item of a list in block form begins here.
func (s *scanner) dash() bool {
	return s.peek(0) == '-' && (s.peek(1) == ' ' || s.peek(1) == '\n')
}

// block reads the node that begins here, first on its line or behind a hyphen, and
// goes down to the line behind it. Whether that is indented as it must be is for
// the caller to see, who knows in what the node stands.
func (s *scanner) block() bool {
	switch s.peek(0) {
	case '{', '[':
		return s.flow() && s.down()
	}
	if s.dash() {
		return s.sequence()
	}
	column := s.pos - s.start
	at, ok := s.enter(Mapping)
	if !ok || !s.scalar(false) {
		return false
	}
	if s.peek(0) == ':' {
		return s.mapping(column) && s.leave(at)
	}
	s.depth-- // it was a scalar alone
	nodes := s.tree.nodes
	nodes[at] = nodes[at+1]
	nodes[at].end = at + 1
	s.tree.nodes = nodes[:at+1]
	return s.down()
}

// mapping reads a mapping whose keys begin at a column, behind its first key.
func (s *scanner) mapping(column int) bool {
	for {
		if !s.colon() || !s.value(column) || s.indent > column {
			return false
		}
		if s.indent < column {
			return true
		}
		if s.dash() || !s.scalar(false) {
			return false
		}
	}
}

// longestKey is how long a key may be: yaml.v3 refuses those above 1024 characters.
const longestKey = 1000

// colon steps over the colon behind the key that was read last.
func (s *scanner) colon() bool {
	key := s.tree.nodes[len(s.tree.nodes)-1].value
	if s.peek(0) != ':' || s.peek(1) != ' ' && s.peek(1) != '\n' || len(key) > longestKey {
		return false
	}
	s.pos++
	return true
}

// value reads what stands behind the colon of a key at a column.
func (s *scanner) value(column int) bool {
	at := s.mark()
	from := s.pos
	s.blanks()
	switch c := s.peek(0); {
	case c == '\n' || c == '#':
		s.pos = from
		return s.below(column, at, true)
	case c == '{' || c == '[':
		return s.flow() && s.down()
	case s.dash():
		return false
	}
	return s.scalar(false) && s.down()
}

// below reads the node on the lines below a key or a hyphen at a column, or notes
// that there is none. The list of a key may begin in the key's own column.
func (s *scanner) below(column int, at Mark, key bool) bool {
	switch {
	case !s.down():
		return false
	case s.indent > column:
		return s.block()
	case key && s.indent == column && s.dash():
		return s.sequence()
	}
	s.null(at)
	return true
}

// sequence reads a list whose hyphens begin here.
func (s *scanner) sequence() bool {
	column := s.pos - s.start
	at, ok := s.enter(Sequence)
	for ok {
		s.pos++
		ok = s.item(column) && s.indent <= column
		if s.indent < column || !s.dash() {
			break
		}
	}
	return ok && s.leave(at)
}

// item reads what stands behind the hyphen of a list at a column.
func (s *scanner) item(column int) bool {
	at := s.mark()
	from := s.pos
	s.blanks()
	if c := s.peek(0); c == '\n' || c == '#' {
		s.pos = from
		return s.below(column, at, false)
	}
	return !s.dash() && s.block()
}
