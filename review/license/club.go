package license

import (
	"errors"
	"fmt"
	"slices"
)

// Club is the jurisdiction of rows that a club adds.
const Club = "club"

// With returns tables with a club's own rows added. A row that says no narrows what the
// law allows; a row that says yes adds what this program's tables lack, and says so
// wherever a verdict rests on it, since its Jurisdiction is Club. It returns what is wrong
// with any of the rows, joined.
func (t *Tables) With(rows ...Row) (*Tables, error) {
	c := *t
	c.widths = nil
	all := slices.Clone(t.rows)
	var problems []error
	for _, row := range rows {
		row.Jurisdiction = Club
		if err := t.Fits(row); err != nil {
			problems = append(problems, fmt.Errorf("%s:%d: %w", row.File, row.Line, err))
		}
		all = append(all, &row)
	}
	if err := errors.Join(problems...); err != nil {
		return nil, err
	}
	c.set(all)
	return &c, nil
}

// Fits returns what is wrong with a club's row for these tables: a place or a class that they
// do not have, or a row that contradicts itself.
func (t *Tables) Fits(row Row) error {
	if problem := t.clubRowAmiss(&row); problem != "" {
		return errors.New(problem)
	}
	return nil
}

func (t *Tables) clubRowAmiss(row *Row) string {
	if problem := row.amiss(); problem != "" {
		return problem
	}
	if row.Place != "" && t.places[row.Place] == nil {
		return fmt.Sprintf("place %.40q is not known; leave it empty for everywhere", row.Place)
	}
	for _, class := range row.Classes {
		if len(t.classes) > 0 && !slices.Contains(t.Classes(), class) {
			return (&UnknownClass{Region: t.Code, Class: string(class), Known: t.Classes()}).Error()
		}
	}
	return ""
}
