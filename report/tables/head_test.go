package tables_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/season"
)

// What was chosen is said once, in one order, for every writer.
func TestHeadSaysWhatWasChosen(t *testing.T) {
	day := func(text string) season.Date { d, _ := season.ParseDate(text); return d }
	s := season.Selection{Pilot: &season.Pilot{Handle: "ines", Name: "Ines Halloran"}}
	words := func(s season.Selection, without ...string) string {
		return tables.Head("1", day("2026-11-25"), "a.boxbook", tables.PeriodChoices(s)).Words(without...)
	}
	require.Equal(t, "Ines Halloran, all seasons", words(s))
	require.Equal(t, "all seasons", words(season.Selection{}))
	s.Season = 2026
	require.Equal(t, "season 2026", words(s, "pilot"))
	s = season.Selection{
		Pilot: s.Pilot, Since: day("2025-01-01"), Until: day("2026-06-30"), Category: "advanced",
		Contest: &season.Contest{Handle: "spring", Name: "Spring"},
	}
	require.Equal(t, "since 2025-01-01, until 2026-06-30, advanced, Spring", words(s, "pilot"))
	raw, err := tables.Head("1.2", day("2026-11-25"), "a&b.boxbook", tables.PeriodChoices(s)).MarshalJSON()
	require.NoError(t, err)
	require.Equal(t, `{"version":"1.2","asof":"2026-11-25","ledger":"a&b.boxbook","selection":`+
		`{"pilot":"ines","since":"2025-01-01","until":"2026-06-30","category":"advanced","contest":"spring"}}`, string(raw))
}

// Drills that are all of one pilot say whose they are, to people alone where no
// pilot was asked for.
func TestDrillChoices(t *testing.T) {
	said := func(s season.Selection, names ...string) string {
		var d answers.Drills
		for _, name := range names {
			d.Drills = append(d.Drills, answers.Drill{Pilot: name, Name: name})
		}
		return tables.Head("1", 0, "a.boxbook", tables.DrillChoices(s, d)).Words()
	}
	require.Equal(t, "all seasons", said(season.Selection{}))
	require.Equal(t, "Ines, all seasons", said(season.Selection{}, "Ines", "Ines"))
	require.Equal(t, "all seasons", said(season.Selection{}, "Ines", "Yuki"))
	require.Equal(t, "Ines, all seasons", said(season.Selection{Pilot: &season.Pilot{Handle: "ines", Name: "Ines"}}, "Ines"))
	raw, err := tables.Head("1", 0, "a.boxbook", tables.DrillChoices(season.Selection{}, answers.Drills{Drills: []answers.Drill{{Name: "Ines"}}})).MarshalJSON()
	require.NoError(t, err)
	require.Contains(t, string(raw), `"selection":{}`)
}
