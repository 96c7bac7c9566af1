package scoring

import "slices"

// swappedRows finds the neighbouring figures whose rows, swapped on one sheet or
// on all, give the printed total. Sheets of which any one would do are one
// candidate, those apart that go against the judges' typed totals.
func (s *search) swappedRows() []candidate {
	var found []candidate
	for _, i := range neighbours(s.sheet) {
		one := candidate{kind: KindRows, size: sizeOfRows, line: i, second: i + 1}
		against := one
		all := candidate{kind: KindRows, size: sizeOfAllRows, line: i, second: i + 1, all: true}
		for _, swap := range s.swapsOf(i) {
			all.cells = append(all.cells, swap...)
			if s.sheets[swap[0].judge] && s.fitsWith(i, s.swapped(i, swap)...) {
				way := one
				if way.cells = swap; s.contradicts(way) {
					against.cells = append(against.cells, swap...)
				} else {
					one.cells = append(one.cells, swap...)
				}
			}
		}
		for _, c := range []candidate{one, against} {
			if c.cells != nil {
				found = append(found, c)
			}
		}
		if len(all.cells) > 2 && slices.Contains(s.sheets, true) && s.fitsWith(i, s.swapped(i, all.cells)...) {
			found = append(found, all)
		}
	}
	return s.settle(found)
}

// neighbours are the lines of figures that a figure comes after.
func neighbours(sheet Sheet) []int {
	var first []int
	for i := 1; i < len(sheet.Lines); i++ {
		if sheet.Lines[i-1].Kind == Figure && sheet.Lines[i].Kind == Figure {
			first = append(first, i-1)
		}
	}
	return first
}

// swapsOf gives what a swap of two rows moves on each sheet; a sheet with equal
// marks has none.
func (s *search) swapsOf(i int) [][]cellChange {
	var swaps [][]cellChange
	below := s.sheet.Lines[i+1].Marks
	for j, above := range s.sheet.Lines[i].Marks {
		if above != below[j] {
			swaps = append(swaps, []cellChange{
				{line: i, judge: j, was: above, would: below[j]},
				{line: i + 1, judge: j, was: below[j], would: above},
			})
		}
	}
	return swaps
}

// swapped gives two neighbouring lines with some marks moved.
func (s *search) swapped(i int, cells []cellChange) []Line {
	lines := []Line{s.sheet.Lines[i], s.sheet.Lines[i+1]}
	for k := range lines {
		lines[k].Marks = slices.Clone(lines[k].Marks)
	}
	for _, cell := range cells {
		lines[cell.line-i].Marks[cell.judge] = cell.would
	}
	return lines
}
