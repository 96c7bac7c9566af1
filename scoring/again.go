package scoring

import (
	"math/big"
	"slices"
)

// flownAgain reports whether any figure of the sheet was flown several times.
func (s Sheet) flownAgain() bool {
	return slices.ContainsFunc(s.Lines, func(l Line) bool { return len(l.Again) > 0 })
}

// scoreAgain scores a figure that was flown several times: each row by itself,
// the line as their mean. What the cells count is the mean of each judge's; their
// flags are those of the first row. One undecided row leaves the line undecided.
func scoreAgain(line Line, style Style) LineScore {
	rows := make([]LineScore, 0, 1+len(line.Again))
	for _, marks := range append([][]Mark{line.Marks}, line.Again...) {
		rows = append(rows, scoreLine(Line{Kind: line.Kind, K: line.K, Marks: marks, Decision: line.Decision}, style))
	}
	out := LineScore{Ruling: rows[0].Ruling, Cells: slices.Clone(rows[0].Cells), Rows: rows}
	if i := slices.IndexFunc(rows, func(r LineScore) bool { return r.Ruling == Undecided }); i >= 0 {
		out.Ruling = Undecided
	}
	for j := range out.Cells {
		out.Cells[j].Used = meanOf(rows, func(r LineScore) *big.Rat {
			if j >= len(r.Cells) || out.Ruling == Undecided {
				return nil
			}
			return r.Cells[j].Used
		})
	}
	out.Low = meanOf(rows, func(r LineScore) *big.Rat { return r.Low })
	out.High = meanOf(rows, func(r LineScore) *big.Rat { return r.High })
	if out.Ruling != Undecided {
		out.Mean = meanOf(rows, func(r LineScore) *big.Rat { return r.Mean })
		out.Points = meanOf(rows, func(r LineScore) *big.Rat { return r.Points })
		out.Lost = meanOf(rows, func(r LineScore) *big.Rat { return r.Lost })
	}
	return out
}

// meanOf is the mean of one number of several rows, nil where one of them has
// none.
func meanOf(rows []LineScore, of func(LineScore) *big.Rat) *big.Rat {
	sum := new(big.Rat)
	for _, row := range rows {
		value := of(row)
		if value == nil {
			return nil
		}
		sum.Add(sum, value)
	}
	return sum.Quo(sum, big.NewRat(int64(len(rows)), 1))
}
