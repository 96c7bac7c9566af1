package calibration

import "slices"

// Cells are all cells of the calibration, in the order of its table.
func Cells() []Cell {
	return slices.Concat(
		presentCells(), trendCells(), forecastCells(), familyCells(), familyTrendCells(), drillCells(), familyDrillCells(), planCells(),
	)
}

// Named finds a cell by its ID.
func Named(id string) Cell {
	list := Cells()
	at := slices.IndexFunc(list, func(c Cell) bool { return c.ID() == id })
	if at < 0 {
		panic("no cell " + id)
	}
	return list[at]
}
