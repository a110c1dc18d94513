package license

import (
	"slices"
	"strings"
)

// Region is a place with one set of tables, as a plan's key region names it.
type Region struct {
	Code      string // US, GB, ITU-R1
	Name      string
	Authority string // empty where there is no national table
	ITU       int    // 1, 2 or 3
	Holds     Holds
	cept      bool
	table     string   // whose tables are used; its own if empty
	plans     []string // the files that apply, the one that counts most first
	splits    []string
	services  []string
}

// Holds says how much of a region's law its table has.
type Holds uint8

const (
	OwnTable  Holds = iota // complete from 28 to 1300 MHz
	PartTable              // the bands that it lacks are filled from the ITU Region
	ITUTable               // nothing but the limits of the ITU Region
)

var holdsNames = names[Holds]{"own", "part", "itu"}

// String returns own, part or itu.
func (h Holds) String() string { return holdsNames.of(h) }

const (
	regionColumns  = "code,name,authority,itu_region,holds,plans,splits,services"
	countryColumns = "code,name,itu_region,cept,table"
	classColumns   = "jurisdiction,class,label,also"
	everywhere     = "any"
)

func readRegions(file string, data []byte) ([]Region, error) {
	return readSheet(file, data, regionColumns, func(c *cells) Region {
		return Region{
			Code: c.need("code"), Name: c.need("name"), Authority: c.text("authority"),
			ITU: c.ituRegion(), Holds: word(c, "holds", holdsNames),
			plans: c.list("plans", " "), splits: c.list("splits", " "), services: c.list("services", " "),
		}
	})
}

func readCountries(file string, data []byte) ([]Region, error) {
	return readSheet(file, data, countryColumns, func(c *cells) Region {
		return Region{
			Code: c.need("code"), Name: c.need("name"), ITU: c.ituRegion(), Holds: ITUTable,
			cept: c.flag("cept"), table: c.text("table"),
		}
	})
}

func (c *cells) ituRegion() int {
	return 1 + int(word(c, "itu_region", names[uint8]{"1", "2", "3"}))
}

// classRow is one license class of a jurisdiction.
type classRow struct {
	jurisdiction string
	class        Class
	label        string
	also         []string
}

func readClasses(file string, data []byte) ([]classRow, error) {
	return readSheet(file, data, classColumns, func(c *cells) classRow {
		return classRow{c.need("jurisdiction"), Class(c.need("class")), c.need("label"), c.list("also", "|")}
	})
}

// normalClass writes a class the way the tables do: Basic with Honours is
// basic-with-honours.
func normalClass(name string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return r == ' ' || r == '_' || r == '-' }), "-")
}

func (c classRow) is(name string) bool {
	return string(c.class) == name || slices.Contains(c.also, name)
}
