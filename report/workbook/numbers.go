package workbook

import (
	"boxbook/report"
	"boxbook/report/workbook/xlsx"
)

// number is an answer's number in a cell, nothing where it is not known.
func number(n report.Number) xlsx.Value { return xlsx.Float(n.Float64()) }

// unlessZero is an answer's number in a cell, nothing where it is 0 or not known.
func unlessZero(n report.Number) xlsx.Value {
	if n.Float64() == 0 {
		return xlsx.Value{}
	}
	return number(n)
}
