package workbook

import (
	"fmt"

	"github.com/xuri/excelize/v2"
)

// rule is a conditional format: cells for which the formula holds are dressed.
// A rule without a formula shades numbers from a low grade to a high one.
type rule struct {
	formula string
	dress   dress
	// low and high are the numbers at which the shades end.
	low, high string
}

// dress is what a rule changes of a cell's look.
type dress struct {
	bold, italic bool
	colour       string // of the letters, "" as they are
	fill         string // "" as it is
	format       string // of a number, "" as it is
	lineAbove    bool
}

// conditional lays conditional formats over an area.
func (b *book) conditional(area string, rules ...rule) {
	options := make([]excelize.ConditionalFormatOptions, len(rules))
	for i, r := range rules {
		if r.formula == "" {
			options[i] = excelize.ConditionalFormatOptions{
				Type: "2_color_scale", Criteria: "=", MinType: "num", MaxType: "num",
				MinValue: r.low, MaxValue: r.high, MinColor: "#" + lowGrade, MaxColor: "#" + highGrade,
			}
			continue
		}
		id, err := b.file.NewConditionalStyle(r.dress.style())
		b.fail(err)
		options[i] = excelize.ConditionalFormatOptions{Type: "formula", Criteria: r.formula, Format: &id}
	}
	b.fail(b.file.SetConditionalFormat(b.sheet, area, options))
}

func (d dress) style() *excelize.Style {
	s := &excelize.Style{}
	if d.bold || d.italic || d.colour != "" {
		s.Font = &excelize.Font{Bold: d.bold, Italic: d.italic, Color: d.colour}
	}
	if d.fill != "" {
		s.Fill = solid(d.fill)
	}
	if d.format != "" {
		s.CustomNumFmt = &d.format
	}
	if d.lineAbove {
		s.Border = []excelize.Border{{Type: "top", Color: ink, Style: 1}}
	}
	return s
}

// choice lets only these words be typed into an area.
func (b *book) choice(area, message string, words ...string) {
	v := excelize.NewDataValidation(true)
	v.SetSqref(area)
	b.fail(v.SetDropList(words))
	b.validate(v, "not known", message)
}

// listed lets only the words of another table's column be typed into an area.
func (b *book) listed(area, message string, p placed, key string) {
	v := excelize.NewDataValidation(true)
	v.SetSqref(area)
	v.SetSqrefDropList(p.sheet + "!" + p.span(key, key))
	b.validate(v, "not known", message)
}

// checked lets only that be typed into an area for which a formula holds.
func (b *book) checked(area, formula, title, message string) {
	v := excelize.NewDataValidation(true)
	v.SetSqref(area)
	b.fail(v.SetRange(formula, "", excelize.DataValidationTypeCustom, excelize.DataValidationOperatorBetween))
	b.validate(v, title, message)
}

// validate refuses what is typed against a validation, with a message.
func (b *book) validate(v *excelize.DataValidation, title, message string) {
	v.SetError(excelize.DataValidationErrorStyleStop, title, message)
	b.fail(b.file.AddDataValidation(b.sheet, v))
}

// filter lets a reader filter a table that begins at the sheet's first cell, up
// to one of its columns.
func (b *book) filter(p placed, to string) {
	b.fail(b.file.AutoFilter(p.sheet, fmt.Sprintf("A1:%s%d", columnName(p.columns[to]), p.last()), nil))
}

// name gives a table's column a name that formulas of the whole workbook know.
func (b *book) name(name string, p placed, key string) {
	b.fail(b.file.SetDefinedName(&excelize.DefinedName{Name: name, RefersTo: p.sheet + "!" + p.span(key, key)}))
}
