package words_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season"
	"boxbook/season/ledger"
)

// sheet is one score sheet in the words of a ledger: rows are "K: marks" by
// figure, then "positioning K: marks" and "harmony K: marks".
type sheet struct {
	rules []string
	rows  []string
	more  []string // further lines of the flight
	// missing names judges whose sheets are not to hand.
	missing string
	// total is the sequence's printed sum of K, "" for none.
	total string
}

// answer reads the sheet as a flight with its printed total, "" for none.
func (s sheet) answer(t *testing.T, official string) answers.Flight {
	t.Helper()
	sequence, flight, judges := "", "", 0
	for i, row := range s.rows {
		head, marks, _ := strings.Cut(row, ": ")
		weighted, k, found := strings.Cut(head, " ")
		if found {
			sequence, flight = sequence+"  "+weighted+" K "+k+"\n", flight+"  "+weighted+" "+marks+"\n"
			continue
		}
		sequence += fmt.Sprintf("  %d K %s\n", i+1, head)
		flight += fmt.Sprintf("  %d %s\n", i+1, marks)
		judges = len(strings.Fields(marks))
	}
	if s.total != "" {
		sequence += "  " + s.total + "\n"
	}
	text := "pilot ines\n  name \"Ines Halloran\"\nrules ours\n  like panel-mean\n" + indented(s.rules) +
		"sequence s\n  category sportsman\n" + sequence +
		"flight 2026-05-01 ines known\n  sequence s\n  rules ours\n  panel " + strings.Join(strings.Split("ABCDEF"[:judges], ""), " ") + s.missing + "\n" +
		flight + indented(s.more)
	if official != "" {
		text += "  official " + official + "\n"
	}
	today, _ := season.ParseDate("2026-12-01")
	result, err := ledger.Load(ledger.Options{
		Files: ledger.Memory{"book.boxbook": text}, Main: "book.boxbook", Builtin: data.Builtin(), AsOf: today,
	})
	require.NoError(t, err)
	require.NoError(t, result.Diagnostics.Err(), text)
	return words.SayFlight(answers.FlightOf(result.Ledger.Flights[0]))
}

func indented(lines []string) string {
	text := ""
	for _, line := range lines {
		text += "  " + line + "\n"
	}
	return text
}
