package season

import (
	"iter"

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
	figures int            // of the sequence; those behind the piece have no marks
}

// RowsOf are rows that may each be otherwise, by figure.
func RowsOf(rows ...Row) Rows { return Rows{each: rows} }

// RowsInOnePiece are the rows of the first figures of a sequence of so many, each
// of so many judges, flown once in their order and without a remark.
func RowsInOnePiece(marks []scoring.Mark, judges, figures int) Rows {
	return Rows{piece: marks, judges: judges, figures: figures}
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
	from := i * r.judges
	if i >= r.figures || from >= len(r.piece) {
		return nil
	}
	return r.piece[from : from+r.judges : from+r.judges]
}

// At is the row of a figure; i is its index.
func (r Rows) At(i int) Row {
	if r.each != nil {
		return r.each[i]
	}
	row := Row{Marks: r.Marks(i)}
	if row.Marks != nil {
		row.Turn = i
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
