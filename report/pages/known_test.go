package pages

import (
	"encoding/json"
	"io/fs"
	"testing"

	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/season"
	"boxbook/season/ledger"
)

// demoOn is the demo's ledger on a day, with a sign-off, a contest of three
// days and a drill more.
func demoOn(t *testing.T, today season.Date) *season.Ledger {
	t.Helper()
	files := ledger.Memory{}
	require.NoError(t, fs.WalkDir(data.Demo(), ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := fs.ReadFile(data.Demo(), name)
		files[name] = string(text)
		return err
	}))
	files["longmere.boxbook"] += `
signoff 2026-04-01 ines intermediate by marek
drill 2026-10-01 ines 5
contest long-cup 2026-08-21..2026-08-23
  result ines 700 of 1000 place 1 of 9
flight 2026-08-21 ines known 7
  contest long-cup
  sequence intermediate-known-26
  official 1500.5
`
	result, err := ledger.Load(ledger.Options{Files: files, Main: "longmere.boxbook", Builtin: data.Builtin(), AsOf: today})
	require.NoError(t, err)
	require.NoError(t, result.Diagnostics.Err())
	return result.Ledger
}

// What is dated after --until is as unknown to a page as what is dated after
// --asof: drills and the flights that they are judged by, sign-offs and what
// they closed, printed results, flights.
func TestUntilKnowsNoMoreThanThatDay(t *testing.T) {
	today, _ := season.ParseDate("2026-11-25")
	whole := demoOn(t, today)
	pages := map[string]func(*season.Ledger, season.Selection) report.Document{
		"season": func(l *season.Ledger, s season.Selection) report.Document {
			return Season(answers.SeasonOf(l, s), true)
		},
		"faults": func(l *season.Ledger, s season.Selection) report.Document {
			return Faults(answers.FaultsOf(l, s), true)
		},
		"drills": func(l *season.Ledger, s season.Selection) report.Document {
			return Drills(answers.DrillsOf(l, s), true)
		},
		"plan": func(l *season.Ledger, s season.Selection) report.Document {
			return Plan(answers.PlanOf(l, s, nil), true)
		},
		"panel": func(l *season.Ledger, s season.Selection) report.Document { return Panel(answers.PanelOf(l, s), true) },
		"families": func(l *season.Ledger, s season.Selection) report.Document {
			return Families(answers.FamiliesOf(l, s), true)
		},
	}
	for _, text := range []string{"2026-03-22", "2026-04-18", "2026-06-28", "2026-07-04", "2026-08-21", "2026-09-12"} {
		day, _ := season.ParseDate(text)
		then := demoOn(t, day)
		for _, handle := range []string{"ines", "yuki"} {
			for name, page := range pages {
				until := page(whole, season.Selection{Pilot: whole.PilotNamed(handle), Season: 2026, Until: day})
				asof := page(then, season.Selection{Pilot: then.PilotNamed(handle), Season: 2026})
				want, err := json.Marshal(asof.Data)
				require.NoError(t, err)
				got, err := json.Marshal(until.Data)
				require.NoError(t, err)
				require.Equal(t, string(want), string(got), "%s of %s, %s", name, handle, text)
				require.Equal(t, textOf(t, asof), textOf(t, until), "%s of %s, %s", name, handle, text)
			}
		}
	}
}
