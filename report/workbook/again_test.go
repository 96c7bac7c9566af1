package workbook

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
)

const againLedger = `
pilot ines
coach marek
sequence known-26
  category intermediate
  1 8.5.2.1:10 9.1.4.2:4 "half Cuban"
  2 5.2.1.1:17           "stall turn"
  3 K 9
flight 2026-05-02 ines practice
  sequence known-26
  panel marek
  1 7.5
  1 8.0
  3 6
  1 8.5
flight 2026-05-03 ines practice
  sequence known-26
  panel marek
  1 7.5
  1 AV
  3 6
flight 2026-05-04 ines known
  sequence known-26
  panel A B
  1 7 7.5
  2 HZ 7
  3 6 6.5
`

// A figure flown several times in practice has a row of marks each time on Grades;
// its mean, and so the flight's percent, follow them all.
func TestFigureFlownAgain(t *testing.T) {
	l := parse(t, againLedger)
	book := workbookOf(t, l, "ines")
	c := newCalculator(t, book)
	for sheet, cells := range c.order {
		for _, cell := range cells {
			if c.can(sheet, cell) {
				c.requireValue(sheet, cell, book.stored(sheet, cell))
			}
		}
	}
	var rows [][]string
	for row := 2; row <= 8; row++ {
		var cells []string
		for _, title := range []string{"label", "K", "Judge 1", "mean", "points", "lost"} {
			cells = append(cells, book.under("Grades", title, row))
		}
		rows = append(rows, cells)
	}
	require.Equal(t, [][]string{
		{"half Cuban", "14", "7.5", "8", "112", "28"}, // (7.5 + 8 + 8.5) / 3
		{"again", "", "8", "8", "0", "0"},
		{"again", "", "8.5", "8.5", "0", "0"},
		{"", "9", "6", "6", "54", "36"},
		{"half Cuban", "14", "7.5", "", "", ""},
		{"again", "", "AV", "", "", ""},
		{"", "9", "6", "6", "54", "36"},
	}, rows)
	require.Equal(t, "230", book.under("Flights", "maximum", book.rowOf("Flights", "flight", "2026-05-02/ines/practice")), "its K counts once")

	at := book.rowOf("Grades", "flight", "2026-05-02/ines/practice")
	c.set("Grades", book.cell("Grades", "Judge 1", at+2), "HZ")
	c.settle("Grades", at+2)
	c.settle("Grades", at)
	requireNumber(t, big.NewRat(31, 6), book.under("Grades", "mean", at), "a changed mark is followed")
}
