package workbook

import (
	"boxbook/report/workbook/xlsx"
	"boxbook/season"
)

// day is a date as a number where spreadsheets can count it, else as text.
func day(d season.Date) xlsx.Value {
	if n, ok := serial(d); ok {
		return xlsx.Integer(n)
	}
	return xlsx.Text(d.String())
}

// epoch is 1970-01-01 as a spreadsheet counts days.
const epoch = 25569

// serial is a date as a spreadsheet counts it: days.
// Dates before March 1900 have none that every program agrees on.
func serial(d season.Date) (int, bool) {
	n := int(d) + epoch
	return n, n > 60
}
