package pages

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/season/analysis/code"
)

const againFlight = `flight 2026-05-02 ines practice
  sequence known-26
  panel marek
  1 7.5
  1 8.0 "again, slower"
  1 AV
  3 6.0
`

// A figure that was flown several times shows every row with its marks, then their
// mean; in JSON every row stands by itself.
func TestFigureFlownAgain(t *testing.T) {
	f := faultBook(t, kestrelBook+againFlight).Flights[0]
	d := answers.FlightOf(f)
	text := textOf(t, report.Document{Sections: []report.Section{{Blocks: []report.Block{tables.SheetTable(d), tables.SheetNotes(d)}}}})
	assert.Contains(t, text, "  1  half Cuban")
	assert.Regexp(t, `(?m)^  1  half Cuban +14 +7.5 +7.50$\n^     again +8.0 +8.00$\n^     again +AV +open$\n^     mean of 3 +open$`, text)
	assert.Contains(t, text, "- figure 1, row 2: again, slower\n")
	assert.Contains(t, text, "- figure 1, row 3: no judge gave a mark")

	d = answers.FlightOf(faultBook(t, kestrelBook+strings.Replace(againFlight, "  1 AV\n", "  1 HZ\n", 1)).Flights[0])
	text = textOf(t, report.Document{Sections: []report.Section{{Blocks: []report.Block{tables.SheetTable(d)}}}})
	assert.Regexp(t, `(?m)^     mean of 3 +5.17 +72.33 +67.67$`, text, "(7.5 + 8 + 0) / 3")
	require.Len(t, d.Figures, 2)
	assert.Empty(t, d.Figures[1].Rows)
	encoded, err := json.Marshal(map[string]any{"marks": d.Figures[0].Rows[1].Marks, "mean": d.Figures[0].Rows[1].Mean, "remark": d.Figures[0].Rows[1].Remark, "all": len(d.Figures[0].Rows)})
	require.NoError(t, err)
	assert.JSONEq(t, `{"marks": ["8.0"], "mean": 8, "remark": "again, slower", "all": 3}`, string(encoded))

	rows := answers.ExportOf(faultBook(t, kestrelBook+againFlight).Flights, nil)
	var marks []string
	for _, row := range rows {
		marks = append(marks, row.Mark)
	}
	assert.Equal(t, []string{"7.5", "8.0", "AV", "6.0"}, marks, "every mark is exported")
}

// What was flown three times in practice was graded three times.
func TestReadyCountsWhatWasFlownAgain(t *testing.T) {
	_, d := readyPage(t, "coach marek\n"+familyHead+nextSequence+flownRows(sixRows...)+
		"flight 2026-10-03 ines practice\n  sequence next\n  panel marek\n  2 5\n  2 6\n  2 8.5\n"+
		"ladder us\n  category sportsman\n  category advanced new 2-rolling\n", "advanced")
	gate := d.Gates[gateAt(t, d.Gates, "new-families")]
	assert.Equal(t, code.Met, gate.State)
	assert.Contains(t, gate.Evidence, "rolling turns graded 3 times, mean 6.5")
}

// What holds for every line of a sheet on which nothing was marked is said once.
func TestSheetOfDashesHasOneNote(t *testing.T) {
	const dashes = "\nflight 2026-04-18 ines known\n  sequence known-26\n  panel A B\n  1 - -\n  2 - - \"in cloud\"\n  3 - -\n  4 - -\n  5 - -\n  6 - -\n  7 - -\n  positioning - -\n"
	d := answers.FlightOf(faultBook(t, kestrelBook+dashes).Flights[0])
	text := oneLine(textOf(t, report.Document{Sections: []report.Section{{Blocks: []report.Block{tables.SheetNotes(d)}}}}))
	assert.Equal(t, "- figures 1, 2, 3, 4, 5, 6, 7 and positioning: no judge gave a mark: undecided, from 0 to full marks, until `resolve` rules it zero - figure 2: in cloud", text)
}

func TestLinesSaid(t *testing.T) {
	for want, names := range map[string][]string{
		"figure 1":                         {"figure 1"},
		"figures 1 and 2":                  {"figure 1", "figure 2"},
		"figure 1 and positioning":         {"figure 1", "positioning"},
		"positioning and harmony":          {"positioning", "harmony"},
		"figure 1, row 2; figure 1, row 3": {"figure 1, row 2", "figure 1, row 3"},
	} {
		assert.Equal(t, want, words.LinesSaid(names))
	}
}
