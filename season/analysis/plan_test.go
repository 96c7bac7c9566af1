package analysis_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit"
)

func planOf(t testing.TB, book string) analysis.Plan {
	t.Helper()
	l := testkit.BookOf(t, book)
	return analysis.PlanOf(l, season.Selection{Pilot: l.PilotNamed("ines")})
}

func requireSoundPlan(t require.TestingT, p analysis.Plan) {
	require.LessOrEqual(t, len(p.Items), 3)
	for i, item := range p.Items {
		for _, v := range []float64{item.Gain, item.Low, item.High, item.Level, item.Best, item.Share, item.LostPerFlight} {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0))
		}
		require.True(t, item.Low >= 0 && item.Low <= item.Gain && item.Gain <= item.High && item.Gain > 0)
		require.True(t, item.Best <= 100 && item.Best >= item.Level)
		require.InDelta(t, item.Share*(item.Best-item.Level), item.Gain, 1e-9)
		if i > 0 {
			require.LessOrEqual(t, item.Gain, p.Items[i-1].Gain)
		}
	}
}

// Never more than three, the greatest gain first, with the K share of the
// sequence flown last.
func TestPlan(t *testing.T) {
	p := planOf(t, forecastHead+flownMonthly(8))
	requireSoundPlan(t, p)
	require.Len(t, p.Items, 3)
	assert.Equal(t, "sportsman", p.Category)
	assert.Equal(t, 8, p.Flights)
	assert.Equal(t, "known-26", p.Next.Handle)
	k := map[string]float64{"1": 16, "2": 4, "5": 17, "7": 10, "9.1": 10, "spins": 5}
	for _, item := range p.Items {
		assert.InDelta(t, k[item.Group]/71, item.Share, 1e-12, item.Group)
	}

	// The level is the family's, drawn towards the others.
	l := testkit.BookOf(t, forecastHead+flownMonthly(8))
	families := analysis.FamiliesOf(l, season.Selection{Pilot: l.PilotNamed("ines")})
	for _, item := range p.Items {
		line := familyLine(t, families, item.Group)
		assert.InDelta(t, line.Shrunken, item.Level, 1e-12)
		assert.Equal(t, line.Figures, item.Figures)
	}
}

// A family that the next sequence lacks has no gain on it; weighted lines are
// in the next sequence's K.
func TestPlanForTheNextSequence(t *testing.T) {
	book := forecastHead + "sequence short\n  category sportsman\n  1 7.4.1.1:10\n  2 5.2.1.1:17\n  positioning K 13\n" + flownMonthly(8) +
		"flight 2026-11-01 ines free\n  sequence short\n  panel marek\n  1 7\n  2 6\n  positioning 8\n"
	p := planOf(t, book)
	requireSoundPlan(t, p)
	assert.Equal(t, "short", p.Next.Handle)
	require.NotEmpty(t, p.Items)
	for _, item := range p.Items {
		assert.InDelta(t, map[string]float64{"7": 10, "5": 17}[item.Group]/40, item.Share, 1e-12, item.Group)
	}
	// Practice is no next sequence, nor is a void flight.
	assert.Equal(t, "known-26", planOf(t, strings.Replace(book, "ines free\n", "ines practice\n", 1)).Next.Handle)
	assert.Equal(t, "known-26", planOf(t, book+"  void \"cloud\"\n").Next.Handle)
}

// Too little flown, or nothing to tell families apart by: no recommendation.
func TestPlanOfTooLittle(t *testing.T) {
	for name, book := range map[string]string{
		"nothing":      forecastHead,
		"two families": "pilot ines\nsequence known-26\n  category sportsman\n  1 7.4.1.1:10\n  2 5.2.1.1:17\n" + gradedFlight("2026-04-18 ines known", "6", "7"),
		"equal grades": forecastHead + gradedFlight("2026-04-18 ines known", "7", "7", "7", "7", "7", "7"),
		"no codes":     forecastHead + "flight 2026-04-18 ines known\n  sequence uncoded\n  panel marek\n" + markRows([]string{"6", "7", "8"}),
		"no marks":     forecastHead + "flight 2026-04-18 ines known\n  sequence known-26\n  official 400\n",
	} {
		p := planOf(t, book)
		assert.Empty(t, p.Items, name)
		requireSoundPlan(t, p)
	}
}

// The fault that costs most in the family, and the latest drill on it or on the
// family, stand beside the gain; those of safety do not.
func TestPlanWithFaultAndDrill(t *testing.T) {
	book := forecastHead + flownMonthly(8) +
		"review 2026-03-28/ines/known by marek\n  fault 1 radius 2x\n  fault 1 pitch 5deg\n  fault 5 spin-stop 10deg on 9.11.1.4\n  fault 2 loose-article\n"
	book = strings.Replace(book, "pilot ines", "coach marek\npilot yuki\npilot ines", 1)
	first := testkit.BookOf(t, forecastHead+flownMonthly(8)).Flights[0].Name
	book = strings.Replace(book, "2026-03-28/ines/known", first, 1)
	item := func(book, group string) analysis.PlanItem {
		p := planOf(t, book)
		for _, item := range p.Items {
			if item.Group == group {
				return item
			}
		}
		require.Fail(t, "no item "+group, "%+v", p.Items)
		return analysis.PlanItem{}
	}
	loop := item(book, "7")
	require.NotNil(t, loop.Recurring)
	assert.Equal(t, "radius", loop.Recurring.Kind.Name, "2 points on K 10, before 1 of pitch")
	assert.Nil(t, loop.Drill)
	stall := item(book, "5")
	assert.Nil(t, stall.Recurring, "a matter of safety is none of practice")

	book += "drill 2026-05-01 ines radius \"one\"\ndrill 2026-06-01 ines 7 \"two\"\ndrill 2026-07-01 yuki 7 \"hers\"\ndrill 2026-12-20 ines 7 \"to come\"\ndrill 2026-08-01 ines pitch \"three\"\n"
	loop = item(book, "7")
	require.NotNil(t, loop.Drill)
	assert.Equal(t, "two", loop.Drill.Text)
}

// Neighbours whose intervals overlap by more than half of the shorter one are
// not told apart; the last of all is apart from nothing.
func TestPlanApart(t *testing.T) {
	p := planOf(t, forecastHead+flownMonthly(8))
	for i := 0; i+1 < len(p.Items); i++ {
		a, b := p.Items[i], p.Items[i+1]
		overlap := min(a.High, b.High) - max(a.Low, b.Low)
		assert.Equal(t, overlap <= min(a.High-a.Low, b.High-b.Low)/2, a.Apart, i)
	}
}

// Whatever was flown, the plan is sound.
func TestPlanProperties(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		book := forecastHead
		marks := rapid.SampledFrom([]string{"0", "5", "6", "6.5", "7", "7.5", "10", "HZ", "AV"})
		for i := range rapid.IntRange(0, 5).Draw(r, "n") {
			book += gradedFlight(season.Date(20480+20*i).String()+" ines known", rapid.SliceOfN(marks, 6, 6).Draw(r, "row")...)
		}
		requireSoundPlan(r, planOf(t, book))
	})
}
