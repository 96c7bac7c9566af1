package workbook

import (
	"time"

	"boxbook/report/workbook/xlsx"
)

// epoch is 1970-01-01 as a spreadsheet counts days.
const epoch = 25569

// serial is a date as a spreadsheet counts it: days. Dates before March 1900 have
// none that every program agrees on.
func serial(date string) (int, bool) {
	day, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return 0, false
	}
	n := int(day.Unix()/(24*60*60)) + epoch
	return n, n > 60
}

// day is a date as a number where spreadsheets can count it, else as text.
func day(date string) xlsx.Value {
	if n, ok := serial(date); ok {
		return xlsx.Integer(n)
	}
	return xlsx.Text(date)
}

// dayNumber is a date as a chart counts days, also where no cell may hold it.
func dayNumber(date string) float64 {
	n, _ := serial(date)
	return float64(n)
}
