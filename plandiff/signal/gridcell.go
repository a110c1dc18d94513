package signal

// GridOf returns the locator of the cell that p lies in, with 4, 6, 8 or 10 characters; any
// other number is taken as the next lower of these, or 4. A latitude beyond a pole counts
// as the pole, and a longitude beyond the date line goes on around the earth.
func GridOf(p Position, chars int) Grid {
	chars = min(max(chars, shortestGrid), longestGrid) &^ 1
	const circle, halfCircle = int64(2 * dateLine), int64(2 * pole)
	east := (int64(p.Lon)%circle + int64(dateLine) + circle) % circle
	north := min(int64(min(max(p.Lat, -pole), pole)+pole), halfCircle-1)
	cells := cellCount(chars)
	column, row := east*cells/circle, north*cells/halfCircle
	grid := make([]byte, chars)
	for i := chars - 2; i >= 0; i -= 2 {
		pair := gridPairs[i/2]
		grid[i], grid[i+1] = pair.first+byte(column%pair.base), pair.first+byte(row%pair.base)
		column, row = column/pair.base, row/pair.base
	}
	return Grid(grid)
}

// cellCount returns how many cells lie around the equator, and from pole to pole.
func cellCount(chars int) int64 {
	cells := int64(1)
	for i := range chars / 2 {
		cells *= gridPairs[i].base
	}
	return cells
}

// Bounds returns the cell of a parsed locator: the positions p in it are those with
// southWest <= p < northEast in both coordinates. Cells from the third pair on are no
// whole number of micro-degrees wide, so the bounds are rounded up to the next one,
// which changes nothing about which positions lie inside. The zero value has no
// cell: both bounds are zero.
func (g Grid) Bounds() (southWest, northEast Position) {
	cells, column, row, ok := g.cell()
	if !ok {
		return Position{}, Position{}
	}
	at := func(column, row int64) Position {
		return Position{
			Lat: roundUp(row*int64(2*pole), cells) - pole,
			Lon: roundUp(column*int64(2*dateLine), cells) - dateLine,
		}
	}
	return at(column, row), at(column+1, row+1)
}

// Center returns the middle of the cell to the nearest micro-degree, and half the height
// and width of the cell, rounded up: the true place is no farther off than that. The zero
// value has no cell: all are zero.
func (g Grid) Center() (center Position, halfLat, halfLon MicroDegrees) {
	cells, column, row, ok := g.cell()
	if !ok {
		return Position{}, 0, 0
	}
	const height, width = int64(pole), int64(dateLine) // of half a cell, times cells
	center = Position{
		Lat: roundNearest((2*row+1)*height, cells) - pole,
		Lon: roundNearest((2*column+1)*width, cells) - dateLine,
	}
	return center, roundUp(height, cells), roundUp(width, cells)
}

// cell returns the place of the cell, counted from the south pole and the date line.
func (g Grid) cell() (cells, column, row int64, ok bool) {
	if _, ok := scanGrid(string(g)); !ok {
		return 0, 0, 0, false
	}
	for i := 0; i < len(g); i += 2 {
		base := gridPairs[i/2].base
		east, _ := gridDigit(i, g[i])
		north, _ := gridDigit(i+1, g[i+1])
		column, row = column*base+east, row*base+north
	}
	return cellCount(len(g)), column, row, true
}

func roundUp(n, by int64) MicroDegrees { return MicroDegrees((n + by - 1) / by) }

func roundNearest(n, by int64) MicroDegrees { return MicroDegrees((2*n + by) / (2 * by)) }
