package rules

import (
	"strings"

	"passband.example/plandiff/plan"
	"passband.example/review/license"
)

// withClub lays the club's own rows over the tables of its region. A row that can't be
// used is left out: see license-row-unusable.
func withClub(tables *license.Tables, rows []*plan.LicenseRow) *license.Tables {
	var usable []license.Row
	for _, r := range rows {
		if row, problem := clubRow(tables, r); problem == "" {
			usable = append(usable, row)
		}
	}
	if len(usable) == 0 {
		return tables
	}
	club, err := tables.With(usable...)
	if err != nil {
		return tables // not after each row fits
	}
	return club
}

// clubRow reads one of the club's own rows, or says what is wrong with it.
func clubRow(tables *license.Tables, r *plan.LicenseRow) (row license.Row, problem string) {
	rows, err := license.ReadRows(plan.LicenseFile, license.Club, []byte(plan.LicenseColumns+"\n"+r.Row.V+"\n"))
	if err == nil && len(rows) == 1 {
		row = rows[0]
		row.Line = int(r.Place().Line)
		err = tables.Fits(row)
	}
	if err != nil {
		lines := strings.Split(err.Error(), "\n")
		for i, line := range lines {
			lines[i] = strings.TrimPrefix(line, plan.LicenseFile+":2: ")
		}
		return row, strings.Join(lines, "; ")
	}
	return row, ""
}

// claims gives the rows of a verdict that are the club's own.
func claims(v license.Verdict) []*license.Row {
	var own []*license.Row
	for _, r := range v.Rows {
		if r.Jurisdiction == license.Club {
			own = append(own, r)
		}
	}
	return own
}

// Tables gives the license tables that a plan is judged by, with the club's own rows, and the
// class of license that it must be legal for; empty where it names none that is known. The
// error is that of license.For.
func Tables(p *plan.Plan) (*license.Tables, license.Class, error) {
	tables, err := license.For(p.Header.Region.Or(""))
	if err != nil {
		return nil, "", err
	}
	class, err := tables.Class(p.Header.License.Or(""))
	if err != nil {
		class = "" // see license-unknown
	}
	return withClub(tables, p.ClubRows()), class, nil
}
