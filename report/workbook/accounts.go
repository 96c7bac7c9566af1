package workbook

import (
	"fmt"

	"boxbook/report"
	"boxbook/report/workbook/xlsx"
)

const accountsName = "Accounts"

// accountsSheet is the treasurer's year: the page of the program, with the
// sums of its cells as formulas.
func accountsSheet(c *content) xlsx.Sheet {
	doc := *c.year
	return xlsx.Sheet{
		Name: accountsName, FrozenRows: 1, HeadRows: 1, LastColumn: docColumns(doc),
		Legend: "a balance with + is owed to that person, one with - is owed by them",
		Fill: func(b *xlsx.Book) {
			w := newDocWriter(b, doc, 1)
			w.sums = true
			w.title(doc.Title+", accounts", "Sums in tinted cells follow the cells they add up; a payment or a converted balance does not.")
			w.document(doc)
		},
	}
}

// The signs with which a balance's parts enter the closing one.
var balanceSigns = map[string]string{
	"opening": "+", "paid": "+", "billed": "+", "own costs": "-", "settled": "+", "old debts": "+",
}

// sumFormula is the formula of a cell that adds up others of its table, "" for
// one that does not.
func (w *docWriter) sumFormula(d docTable, i int, cells []report.Cell, foot bool) string {
	if i >= len(cells) {
		return ""
	}
	if number, numeric := cells[i].Number(); !numeric || !number.Known() || d.rows == 0 {
		return ""
	}
	title := d.table.Columns[i].Title
	first, last := d.head+1, d.head+d.rows
	switch {
	case foot && cells[0].String() == "sum":
		return fmt.Sprintf("SUM(%s:%s)", w.b.At(d.at[i], first), w.b.At(d.at[i], last))
	case foot && cells[0].String() == "income less costs":
		return fmt.Sprintf("%s-%s", w.b.At(d.at[1], last+1), w.b.At(d.at[2], last+1))
	case foot:
		return ""
	case title == "sum":
		return fmt.Sprintf("SUM(%s:%s)", w.b.At(d.at[1], w.row), w.b.At(d.at[i]-1, w.row))
	case title == "closing":
		return w.closing(d, i)
	}
	return ""
}

// closing adds up a balance: its columns from the opening one on.
func (w *docWriter) closing(d docTable, i int) string {
	formula := ""
	for part := 1; part < i; part++ {
		sign := balanceSigns[d.table.Columns[part].Title]
		if sign == "" {
			return ""
		}
		formula += sign + w.b.At(d.at[part], w.row)
	}
	if formula != "" && formula[0] == '+' {
		formula = formula[1:]
	}
	return formula
}
