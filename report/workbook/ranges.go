package workbook

import (
	"strings"

	"boxbook/report"

	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// ranged shows a column's numbers, the middles or ends of ranges, with the
// decimals that each row's range is written with everywhere; a signed column
// stays one. The cells keep the whole number.
func ranged[R any](c xlsx.Column[R], of func(R) words.Range) xlsx.Column[R] {
	signed := strings.HasPrefix(c.Look.Format, "+")
	c.LookOf = func(r R) xlsx.Look {
		look := c.Look
		look.Format = "0"
		if decimals := of(r).Decimals(); decimals > 0 {
			look.Format += "." + strings.Repeat("0", decimals)
		}
		if signed {
			look.Format = "+" + look.Format + ";-" + look.Format + ";" + look.Format
		}
		return look
	}
	return zeroBare(c)
}

// The ranges of the rows of a sheet.
func familyLevel(r familyRow) words.Range  { return words.FamilyRange(r.Group, report.Number{}) }
func familyChange(r familyRow) words.Range { return words.TrendRange(r.Trend) }
func seasonChange(r trendRow) words.Range  { return words.TrendRange(r.Trend) }
