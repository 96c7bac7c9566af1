package answers

import (
	"math/big"

	"boxbook/report"
	"boxbook/season"
)

// Record is what a record is in JSON: the official total where it was
// typed, else the tool's own; Source says which.
type Record struct {
	Points  report.Number `json:"points,omitzero"`
	Maximum report.Number `json:"maximum,omitzero"`
	Percent report.Number `json:"percent,omitzero"`
	Source  string        `json:"source,omitempty"`
}

// The codes of Record.Source.
const (
	FromOfficial = string(season.Printed)
	FromMarks    = string(season.Computed)
)

func recordOf(r season.Record) Record {
	return Record{
		Points: report.Exact(r.Points), Maximum: report.Exact(r.Maximum),
		Percent: report.Exact(r.Percent), Source: string(r.Source),
	}
}

// listOf gives an empty list instead of null, so that JSON always has a list.
func listOf[T any](items []T) []T {
	if items == nil {
		return []T{}
	}
	return items
}

func whole(n int) *big.Rat { return big.NewRat(int64(n), 1) }

// dayOf is a date as text, "" where there is none.
func dayOf(d season.Date) string {
	if d == 0 {
		return ""
	}
	return d.String()
}
