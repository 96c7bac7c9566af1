package season

import (
	"iter"
	"math/bits"

	"boxbook/scoring"
)

// Row is a row of marks, one per judge of the panel. Turn is its place among the
// rows of its flight, from 0; 0 where the marks were written judge by judge.
type Row struct {
	Marks  []scoring.Mark
	Remark string
	Turn   int
	Again  []Row // of a figure that was flown several times in practice: the further rows
}

// Rows are the rows of marks of a flight, one for each figure of its sequence. A
// row of a figure that was not flown has no marks. Rows are not changed once they
// are made. The zero Rows has none.
//
// Most flights are written as they are flown, each figure once, without a remark:
// their marks stand in one piece, ten bytes a row of five judges, for an archive
// has millions of them.
type Rows struct {
	each    []Row          // nil where the marks stand in one piece
	piece   []scoring.Mark // row by row, in turn
	judges  int            // how many marks a row of the piece has
	figures int            // of the sequence
	flown   uint64         // a bit a figure, the first one's lowest; 0: as many of the first ones as the piece has rows
}

// RowsOf are rows that may each be otherwise, by figure.
func RowsOf(rows ...Row) Rows { return Rows{each: rows} }

// RowsInOnePiece are rows of a sequence of so many figures, each row of so many
// judges, each figure flown once, in their order and without a remark. flown has a
// bit for each figure that has a row, the first one's lowest; 0 says that the first
// ones have.
func RowsInOnePiece(marks []scoring.Mark, judges, figures int, flown uint64) Rows {
	return Rows{piece: marks, judges: judges, figures: figures, flown: flown}
}

// Len is how many figures there are.
func (r Rows) Len() int {
	if r.each != nil {
		return len(r.each)
	}
	return r.figures
}

// Marks are those of a figure's first row; i is the figure's index.
func (r Rows) Marks(i int) []scoring.Mark {
	if r.each != nil {
		return r.each[i].Marks
	}
	row, ok := r.row(i)
	if !ok {
		return nil
	}
	from := row * r.judges
	return r.piece[from : from+r.judges : from+r.judges]
}

// Has reports whether a figure, an index into the sequence, has marks.
func (r Rows) Has(i int) bool {
	if r.each != nil {
		return len(r.each[i].Marks) > 0
	}
	_, ok := r.row(i)
	return ok
}

// Each gives the first row of every figure that has marks, with the figure's index.
func (r Rows) Each(do func(i int, marks []scoring.Mark)) {
	if r.each != nil || r.judges == 0 {
		for i := range r.each {
			if marks := r.each[i].Marks; len(marks) > 0 {
				do(i, marks)
			}
		}
		return
	}
	i, left := 0, r.flown
	for from := 0; from < len(r.piece); from += r.judges {
		if r.flown != 0 {
			i = bits.TrailingZeros64(left)
			left &= left - 1
		}
		do(i, r.piece[from:from+r.judges:from+r.judges])
		i++
	}
}

// Any reports whether any figure has marks.
func (r Rows) Any() bool {
	for i := range r.Len() {
		if r.Has(i) {
			return true
		}
	}
	return false
}

// row is where a figure's row stands in the piece.
func (r Rows) row(i int) (row int, ok bool) {
	if r.flown != 0 {
		return bits.OnesCount64(r.flown & (1<<i - 1)), r.flown>>i&1 == 1
	}
	return i, i < r.figures && i*r.judges < len(r.piece)
}

// At is the row of a figure; i is its index.
func (r Rows) At(i int) Row {
	if r.each != nil {
		return r.each[i]
	}
	row := Row{Marks: r.Marks(i)}
	if row.Marks != nil {
		row.Turn, _ = r.row(i)
	}
	return row
}

// All goes through the rows by figure.
func (r Rows) All() iter.Seq2[int, Row] {
	return func(yield func(int, Row) bool) {
		for i := range r.Len() {
			if !yield(i, r.At(i)) {
				return
			}
		}
	}
}

// again reports the further rows of a figure.
func (r Rows) again(i int) []Row {
	if r.each == nil {
		return nil
	}
	return r.each[i].Again
}
