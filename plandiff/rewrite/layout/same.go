package layout

// Same reports whether two nodes are written in the same bytes. It does not open
// entries that are closed.
func (n *Node) Same(m *Node) bool {
	switch {
	case n == m:
		return true
	case n == nil || m == nil || n.Kind != m.Kind || n.Flow != m.Flow:
		return n.String() == m.String()
	case n.Kind == Scalar || n.Kind == Alias:
		return n.Text == m.Text
	}
	if n.open != m.open || n.close != m.close || len(n.Entries) != len(m.Entries) {
		return false
	}
	for i, e := range n.Entries {
		if !e.Same(m.Entries[i]) {
			return false
		}
	}
	return true
}

// Same reports whether two entries are written in the same bytes, with all that stands
// before and behind them.
func (e *Entry) Same(f *Entry) bool {
	return e.Lead == f.Lead && e.Key.Same(f.Key) && e.SameBehind(f)
}

// SameBehind reports whether all that stands behind the keys of two entries is written
// in the same bytes.
func (e *Entry) SameBehind(f *Entry) bool {
	switch {
	case e.IsClosed() && f.IsClosed():
		return e.behind() == f.behind()
	case e.IsClosed():
		return e.behind() == f.textBehind()
	case f.IsClosed():
		return f.behind() == e.textBehind()
	}
	return e.Sep == f.Sep && e.Comma == f.Comma && e.Trail == f.Trail && e.Value.Same(f.Value)
}

// TakeBehind gives the entry what stands behind the key of another.
func (e *Entry) TakeBehind(f *Entry) {
	e.Sep, e.Value, e.Comma, e.Trail, e.closed = f.Sep, f.Value, f.Comma, f.Trail, f.closed
}
