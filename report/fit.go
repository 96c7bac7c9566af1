package report

import "slices"

// gap is the space between two columns of a table.
const gap = 2

// measured is what the fitting needs to know of a column, in display columns.
type measured struct {
	natural int  // the width of its content and heading
	floor   int  // how far it may be shortened in the ordinary way
	hard    int  // how far it can be shortened at all: numbers stay whole
	drop    int  // see Column.Drop; 0 for a key column
	names   bool // see Column.Names
}

// part is a run of columns that are drawn as one table.
type part struct {
	columns []int // indices, in order
	widths  []int // a width a column
}

// layout is a table fitted into a width.
type layout struct {
	parts   []part
	dropped []int // indices of the columns left out, in order
}

// fit fits a table into width. Flexible columns are shortened first; if that is
// not enough, columns are left out by their rank; if what remains is still too
// wide, it is split into parts, each with the first key columns in front, and with the
// column that names what is beside it.
func fit(columns []measured, key, width int) layout {
	var found layout
	kept := make([]int, len(columns))
	for i := range kept {
		kept[i] = i
	}
	for floors(columns, kept) > width {
		at := nextToDrop(columns, kept)
		if at < 0 {
			break
		}
		found.dropped = append(found.dropped, kept[at])
		kept = slices.Delete(kept, at, at+1)
	}
	slices.Sort(found.dropped)
	for _, indices := range split(columns, kept, key, width) {
		found.parts = append(found.parts, part{indices, shrink(columns, indices, width)})
	}
	return found
}

// nextToDrop returns where in kept the column stands that is to be left out
// next, -1 if none may be.
func nextToDrop(columns []measured, kept []int) int {
	at, rank := -1, 1
	for i, index := range kept {
		if columns[index].drop >= rank {
			at, rank = i, columns[index].drop
		}
	}
	return at
}

// split distributes columns over as many parts as they need. A part holds at
// least one column beside the keys, even if it has to be shortened for it.
func split(columns []measured, kept []int, key, width int) [][]int {
	if len(kept) == 0 {
		return nil
	}
	if floors(columns, kept) <= width {
		return [][]int{kept}
	}
	var keys, others []int
	for _, index := range kept {
		if index < key {
			keys = append(keys, index)
		} else {
			others = append(others, index)
		}
	}
	if len(others) == 0 {
		keys, others = nil, keys
	}
	var parts [][]int
	name := -1 // the column that names what comes next
	for len(others) > 0 {
		front := keys
		if name >= 0 && !columns[others[0]].names && hards(columns, slices.Concat(keys, []int{name, others[0]})) <= width {
			front = slices.Concat(keys, []int{name})
		}
		count := 1
		for count < len(others) && floors(columns, slices.Concat(front, others[:count+1])) <= width {
			count++
		}
		if count > 1 && count < len(others) && columns[others[count-1]].names {
			count-- // it would name nothing here
		}
		for _, index := range others[:count] {
			if columns[index].names {
				name = index
			}
		}
		indices := slices.Concat(front, others[:count])
		if hards(columns, indices) > width {
			indices = others[:count] // not even with the keys cut to the bone
		}
		parts = append(parts, indices)
		others = others[count:]
	}
	return parts
}

// shrink returns the widths at which columns fit into width: their natural
// ones, with the widest shortened first, in the ordinary way if that is enough.
func shrink(columns []measured, indices []int, width int) []int {
	widths := make([]int, len(indices))
	for i, index := range indices {
		widths[i] = columns[index].natural
	}
	excess := sum(columns, indices, func(c measured) int { return c.natural }) - width
	for _, least := range []func(measured) int{
		func(c measured) int { return c.floor },
		func(c measured) int { return c.hard },
	} {
		for excess > 0 {
			at := -1
			for i, index := range indices {
				if widths[i] > least(columns[index]) && (at < 0 || widths[i] > widths[at]) {
					at = i
				}
			}
			if at < 0 {
				break
			}
			widths[at]--
			excess--
		}
	}
	return widths
}

// floors returns the width of a table of these columns, each at its floor.
func floors(columns []measured, indices []int) int {
	return sum(columns, indices, func(c measured) int { return c.floor })
}

// hards is like floors with each column as narrow as it can be made.
func hards(columns []measured, indices []int) int {
	return sum(columns, indices, func(c measured) int { return c.hard })
}

func sum(columns []measured, indices []int, width func(measured) int) int {
	total := gap * (len(indices) - 1)
	for _, index := range indices {
		total += width(columns[index])
	}
	return total
}
