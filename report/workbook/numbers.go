package workbook

import (
	"boxbook/report"
	"boxbook/report/workbook/xlsx"
)

// number is an answer's number in a cell, nothing where it is not known.
func number(n report.Number) xlsx.Value { return xlsx.Float(n.Float64()) }
