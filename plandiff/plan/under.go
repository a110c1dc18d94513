package plan

import "slices"

// Under gives the plan as it is judged by the rules of a base: with the edition,
// region and license that the base states, with its license and separation rows and the neighbors
// that it lists, and with the radios' limits no wider than the base states them, so that a change cannot make room for itself. Keys
// of the base are followed through ren. What the base does not state stays as it
// is; where nothing differs, p itself is returned.
func (p *Plan) Under(base *Plan, ren Renames) *Plan {
	judged := *p
	changed := keep(&judged.Header.Edition, base.Header.Edition)
	changed = keep(&judged.Header.Region, base.Header.Region) || changed
	changed = keep(&judged.Header.License, base.Header.License) || changed
	changed = keep(&judged.Header.Area, base.Header.Area) || changed
	judged.Radios = Table[*Radio]{}
	stated := make(map[string]*Radio)
	for _, r := range base.Radios.All() {
		stated[ren.Key(KindRadio, r.Key.V)] = r
	}
	for _, r := range p.Radios.All() {
		limited := *r
		if was, ok := stated[r.Key.V]; ok && limited.limit(was) {
			changed = true
		}
		judged.Radios.add(&limited)
	}
	if !sameKeys(&p.LicenseRows, &base.LicenseRows) {
		judged.licenseBase, changed = base, true
	}
	if !sameKeys(&p.SeparationRows, &base.SeparationRows) {
		judged.separationBase, changed = base, true
	}
	if len(base.named()) > 0 && (p.Header.List.Or("") == "" || !sameKeys(&p.Neighbors, &base.Neighbors)) {
		judged.neighborBase, changed = base, true
	}
	if !changed {
		return p
	}
	return &judged
}

// ClubRows gives the license rows that the plan is judged by: those of the base that it
// was put under, or its own.
func (p *Plan) ClubRows() []*LicenseRow {
	if p.licenseBase != nil {
		return p.licenseBase.LicenseRows.All()
	}
	return p.LicenseRows.All()
}

// Separations gives the separation rows that the plan is judged by: those of the base that
// it was put under, or its own.
func (p *Plan) Separations() []*SeparationRow {
	if p.separationBase != nil {
		return p.separationBase.SeparationRows.All()
	}
	return p.SeparationRows.All()
}

func sameKeys[R Record](a, b *Table[R]) bool {
	return slices.EqualFunc(a.Sorted(), b.Sorted(), func(x, y R) bool { return x.Thing().Key == y.Thing().Key })
}

// keep puts the value of the base in, at the place of the one that it replaces,
// and reports whether that makes a difference.
func keep[T comparable](now *Value[T], base Value[T]) bool {
	if !base.IsSet() || now.IsSet() && now.V == base.V {
		return false
	}
	base.At = now.At
	if base.At.IsZero() {
		base.At = Place{File: RootFile, Line: 1, Col: 1}
	}
	*now = base
	return true
}

// limit narrows each limit to that of the same radio before.
func (r *Radio) limit(was *Radio) bool {
	narrowed := false
	for i := range r.Limits {
		now, before := &r.Limits[i], was.Limits[i]
		if !before.IsSet() || now.IsSet() && now.V <= before.V {
			continue
		}
		if now.At.IsZero() {
			now.At = r.Place()
		}
		now.V, now.Text, now.Bad = before.V, before.Text, false
		narrowed = true
	}
	return narrowed
}
