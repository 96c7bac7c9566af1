package xlsx

import (
	"fmt"

	"github.com/xuri/excelize/v2"
)

// Rule is a conditional format: cells for which the formula holds are dressed.
type Rule struct {
	Formula string
	Dress   Dress
}

// Dress is what a rule changes of a cell's look.
type Dress struct {
	Bold, Italic bool
	Colour       string // of the letters, "" as they are
	Fill         string // "" as it is
	Format       string // of a number, "" as it is
	LineAbove    bool
}

// Conditional lays conditional formats over an area.
func (b *Book) Conditional(area string, rules ...Rule) {
	options := make([]excelize.ConditionalFormatOptions, len(rules))
	for i, r := range rules {
		id, err := b.file.NewConditionalStyle(r.Dress.style())
		b.fail(err)
		options[i] = excelize.ConditionalFormatOptions{Type: "formula", Criteria: r.Formula, Format: &id}
	}
	b.fail(b.file.SetConditionalFormat(b.sheet, area, options))
}

func (d Dress) style() *excelize.Style {
	s := &excelize.Style{}
	if d.Bold || d.Italic || d.Colour != "" {
		s.Font = &excelize.Font{Bold: d.Bold, Italic: d.Italic, Color: d.Colour}
	}
	if d.Fill != "" {
		s.Fill = solid(d.Fill)
	}
	if d.Format != "" {
		s.CustomNumFmt = &d.Format
	}
	if d.LineAbove {
		s.Border = []excelize.Border{{Type: "top", Color: Ink, Style: 1}}
	}
	return s
}

// Choice lets only these words be typed into an area; of anything else the
// program says the title and the message.
func (b *Book) Choice(area, title, message string, words ...string) {
	v := excelize.NewDataValidation(true)
	v.SetSqref(area)
	b.fail(v.SetDropList(words))
	b.validate(v, title, message)
}

// Listed lets only the words of another table's column be typed into an area.
func (b *Book) Listed(area, title, message string, p Placed, key string) {
	v := excelize.NewDataValidation(true)
	v.SetSqref(area)
	v.SetSqrefDropList(p.Ref(key, key))
	b.validate(v, title, message)
}

// Checked lets only that be typed into an area for which a formula holds.
func (b *Book) Checked(area, formula, title, message string) {
	v := excelize.NewDataValidation(true)
	v.SetSqref(area)
	b.fail(v.SetRange(formula, "", excelize.DataValidationTypeCustom, excelize.DataValidationOperatorBetween))
	b.validate(v, title, message)
}

// validate refuses what is typed against a validation, with a message.
func (b *Book) validate(v *excelize.DataValidation, title, message string) {
	v.SetError(excelize.DataValidationErrorStyleStop, title, message)
	b.fail(b.file.AddDataValidation(b.sheet, v))
}

// Filter lets a reader filter a table that begins at the sheet's first cell, up
// to one of its columns.
func (b *Book) Filter(p Placed, to string) {
	b.fail(b.file.AutoFilter(p.Sheet, fmt.Sprintf("A1:%s%d", ColumnName(p.Columns[to]), p.Last()), nil))
}

// Name gives a table's column a name that formulas of the whole workbook know.
func (b *Book) Name(name string, p Placed, key string) {
	b.fail(b.file.SetDefinedName(&excelize.DefinedName{Name: name, RefersTo: p.Ref(key, key)}))
}
