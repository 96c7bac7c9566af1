// Package pages turns answers of package season into documents: first the data
// that other programs read as JSON (the names of its fields are a contract),
// then the tables and sentences for people, made from that data alone, so that
// a number is worked out once and is the same everywhere.
package pages

import (
	"fmt"
	"math"
	"math/big"
	"unicode"
	"unicode/utf8"

	"boxbook/report"
	"boxbook/season"
)

// The decimals that people are shown: points and percent have two, grades and
// means of grades two, grades as marked one.
const (
	pointDecimals   = 2
	percentDecimals = 2
	meanDecimals    = 2
)

// num shows a number with the decimals of points.
func num(n report.Number) report.Cell { return report.Num(n, pointDecimals) }

// countCell shows a whole number.
func countCell(n int) report.Cell { return report.Num(report.Int(int64(n)), 0) }

// RecordData is what a record is in JSON: the official total where it was
// typed, else the tool's own; Source says which.
type RecordData struct {
	Points  report.Number `json:"points,omitzero"`
	Maximum report.Number `json:"maximum,omitzero"`
	Percent report.Number `json:"percent,omitzero"`
	Source  string        `json:"source,omitempty"`
}

func recordData(r season.Record) RecordData {
	return RecordData{
		Points: report.Exact(r.Points), Maximum: report.Exact(r.Maximum),
		Percent: report.Exact(r.Percent), Source: string(r.Source),
	}
}

// addNote adds a note without a mark.
func addNote(notes *report.Notes, format string, args ...any) {
	notes.Items = append(notes.Items, report.Note{Text: fmt.Sprintf(format, args...)})
}

// addFact adds a label and its value.
func addFact(facts *report.Facts, label string, value report.Cell) {
	facts.Items = append(facts.Items, report.Fact{Label: label, Value: value})
}

// listOf gives an empty list instead of null, so that JSON always has a list.
func listOf[T any](items []T) []T {
	if items == nil {
		return []T{}
	}
	return items
}

func whole(n int) *big.Rat { return big.NewRat(int64(n), 1) }

// pluralWord is a word for one thing or for many.
func pluralWord(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// Sentence begins words with a capital.
func Sentence(words string) string {
	if words == "" {
		return ""
	}
	first, size := utf8.DecodeRuneInString(words)
	return string(unicode.ToUpper(first)) + words[size:]
}

// rootText is the square root of a variance, with one decimal.
func rootText(n report.Number) string { return report.Float(math.Sqrt(n.Float64())).Text(1) }
