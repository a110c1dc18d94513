package plandiff

// assign pairs rows with columns so that the sum of costs is least, where a row
// may stay alone at the price limit. It gives for each row its column, or -1.
// Among pairings of equal cost the one that an ordered search meets first is
// taken, so that the same input gives the same pairs.
//
// It is the Hungarian method with potentials (H. W. Kuhn, 'The Hungarian method
// for the assignment problem', Naval Research Logistics Quarterly 2, 1955), in
// O(rows² x columns).
func assign(cost [][]int, limit int) []int {
	rows := len(cost)
	if rows == 0 {
		return nil
	}
	s := newAssignment(cost, limit)
	for row := 1; row <= rows; row++ {
		s.place(row)
	}
	pairs := make([]int, rows)
	for i := range pairs {
		pairs[i] = -1
	}
	for column := 1; column <= s.real; column++ {
		if row := s.rowOf[column]; row > 0 && s.price(row, column) < limit {
			pairs[row-1] = column - 1
		}
	}
	return pairs
}

// assignment is the state of the search. Rows and columns count from 1; the
// columns after the real ones are those of rows that stay alone.
type assignment struct {
	cost          [][]int
	limit         int
	real, columns int
	rowPotential  []int
	colPotential  []int
	rowOf         []int // the row that a column is given to, 0 for none
	before        []int // the column before this one on the path to it
}

func newAssignment(cost [][]int, limit int) *assignment {
	rows, real := len(cost), len(cost[0])
	columns := real + rows
	return &assignment{
		cost: cost, limit: limit, real: real, columns: columns,
		rowPotential: make([]int, rows+1), colPotential: make([]int, columns+1),
		rowOf: make([]int, columns+1), before: make([]int, columns+1),
	}
}

func (s *assignment) price(row, column int) int {
	if column > s.real {
		return s.limit
	}
	return min(s.cost[row-1][column-1], s.limit+1)
}

// place finds the cheapest chain of moves that makes room for row, and makes it.
func (s *assignment) place(row int) {
	const far = int(^uint(0) >> 2)
	s.rowOf[0] = row
	column := 0
	least := make([]int, s.columns+1)
	used := make([]bool, s.columns+1)
	for i := range least {
		least[i] = far
	}
	for s.rowOf[column] != 0 {
		used[column] = true
		column = s.nearest(column, least, used)
	}
	for column != 0 {
		s.rowOf[column] = s.rowOf[s.before[column]]
		column = s.before[column]
	}
}

// nearest gives the column that can be reached at the least price from those
// used, and shifts the potentials so that it costs nothing more.
func (s *assignment) nearest(column int, least []int, used []bool) int {
	row, next := s.rowOf[column], 0
	for j := 1; j <= s.columns; j++ {
		if used[j] {
			continue
		}
		if reduced := s.price(row, j) - s.rowPotential[row] - s.colPotential[j]; reduced < least[j] {
			least[j], s.before[j] = reduced, column
		}
		if next == 0 || least[j] < least[next] {
			next = j
		}
	}
	delta := least[next]
	for j := 0; j <= s.columns; j++ {
		if used[j] {
			s.rowPotential[s.rowOf[j]] += delta
			s.colPotential[j] -= delta
		} else if j > 0 {
			least[j] -= delta
		}
	}
	return next
}
