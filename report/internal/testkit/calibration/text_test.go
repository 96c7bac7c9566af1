package calibration

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"boxbook/report/answers"
	"boxbook/report/internal/testkit"
	"boxbook/season"
)

// textSeasons is how many simulated ledgers of each kind are read back as text.
const textSeasons = 10

// A ledger made in memory and the same one written and read again give the same
// answers, to the last digit.
func TestSimulatedLedgersAsText(t *testing.T) {
	sheets := func(p Programmes, shape Shape) Sheets {
		s := ordinary(9, 2, 0.3, Rise10)
		s.Programmes, s.Shape = p, shape
		return s
	}
	kinds := map[string]func(i int) *season.Ledger{
		"totals": func(i int) *season.Ledger {
			return Totals{Structure: Structure{Flights: 11, PerContest: 1 + i%3, ContestShare: 0.3}, Path: Waves, Shape: Shape(i % 3)}.Make(Cell{Name: "totals"}.random(i)).Book()
		},
		"sheets": func(i int) *season.Ledger {
			r := Cell{Name: "sheets"}.random(i)
			s := sheets(Programmes(i%3), Shape(i%2)*Zeros)
			asked := s.Draw(r, "asked", season.Unknown)
			if i%5 == 4 {
				forgetCodes(asked)
			}
			return s.Make(r).Book(asked)
		},
		"faults": func(i int) *season.Ledger {
			return FaultSeason{Before: 10, After: 8, PerContest: 1 + i%2, Choice: Choice(i % 3), Named: i % 5, Left: 0.5, Flown: 0.6}.Make(Cell{Name: "faults"}.random(i)).Ledger
		},
		"family drills": func(i int) *season.Ledger {
			d := familyDrillOf(8, 6, 1+i%2, 0.3)
			d.Programmes = Programmes(i % 2)
			l, _ := d.Make(Cell{Name: "family drills"}.random(i))
			return l
		},
	}
	for name, made := range kinds {
		for i := range textSeasons {
			l := made(i)
			again := testkit.BookAsOf(t, Text(l), l.AsOf.String())
			require.Len(t, again.Flights, len(l.Flights), name)
			require.JSONEq(t, everyAnswer(t, l), everyAnswer(t, again), "%s %d", name, i)
		}
	}
}

// everyAnswer is all that the calibration asks of a ledger, as JSON.
func everyAnswer(t *testing.T, l *season.Ledger) string {
	all := season.Selection{Pilot: l.Pilots[0]}
	list := []any{
		answers.SeasonOf(l, all), answers.FamiliesOf(l, all), answers.DrillsOf(l, all), answers.PlanOf(l, all, nil),
		answers.ReadyOf(l, l.Pilots[0], withThreshold(l, 61.234), nil, ""),
	}
	for _, s := range l.Sequences[max(0, len(l.Sequences)-1):] {
		list = append(list, answers.ForecastOf(l, l.Pilots[0], s, nil))
	}
	text, err := json.Marshal(list)
	require.NoError(t, err)
	require.Greater(t, len(text), 1000)
	return string(text)
}
