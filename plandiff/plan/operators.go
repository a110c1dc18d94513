package plan

// operatorColumns is the first line of a table of operators.
const operatorColumns = "id,callsign,name"

// operatorKey tells a row of the table by all that it says, so that the order of
// rows means nothing; Add numbers rows that say the same.
func operatorKey(r Record) string {
	o := r.(*Operator)
	return o.ID.V.String() + "/" + string(o.Callsign.V) + "/" + o.Person.V
}
