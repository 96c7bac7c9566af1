package analysis_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit"
)

const followedBook = familyHead + `coach marek
`

// Followed over the same flights, a family lies against the rest as the page of
// all families has it; practice is shown and enters neither that nor the best.
func TestFamilyOverIsTheFamilysPage(t *testing.T) {
	l := testkit.BookOf(t, followedBook+gradedFlight("2026-04-18 ines known", "6", "7", "8", "5", "6.5", "9")+
		gradedFlight("2026-05-18 ines known", "7.5", "7", "6", "5", "HZ", "8")+
		gradedFlight("2026-06-18 ines practice", "9", "9", "9", "9", "9", "9"))
	s := season.Selection{Pilot: l.PilotNamed("ines")}
	compared := 0
	for _, line := range analysis.FamiliesOf(l, s).Groups {
		over := analysis.FamilyOver(l, s, analysis.FamilyKey{Group: line.Group})
		require.Len(t, over.Flights, 3, line.Group)
		require.Equal(t, line.HasRest, over.Compared > 0)
		if line.HasRest {
			assert.InDelta(t, line.VersusRest, over.VersusRest, 1e-9, line.Group)
			compared++
		}
		best := over.All[over.Best]
		assert.True(t, best.Flight.Contested())
		assert.InDelta(t, max(over.Flights[0].Percent, over.Flights[1].Percent), best.Percent, 1e-9)
	}
	assert.Positive(t, compared)
}

// A zero of the family, or of the rest, moves the comparison by many points and says
// nothing of skill: the mean without those flights stands beside the mean of all.
// Figures of the rest that are too few or practice enter neither.
func TestFamilyOverWithoutZeros(t *testing.T) {
	clean := gradedFlight("2026-04-18 ines known", "6", "7", "8", "5", "6.5", "9")
	own := gradedFlight("2026-05-18 ines known", "6", "7", "8", "5", "HZ", "9")
	rest := gradedFlight("2026-06-18 ines known", "6", "7", "HZ", "5", "6.5", "9")
	practice := gradedFlight("2026-07-18 ines practice", "6", "7", "8", "5", "HZ", "9")
	over := func(book string) analysis.FamilyOverTime {
		l := testkit.BookOf(t, followedBook+book)
		return analysis.FamilyOver(l, season.Selection{Pilot: l.PilotNamed("ines")}, analysis.FamilyKey{Sequence: l.SequenceNamed("known-26"), Figure: 5})
	}
	alone := over(clean)
	assert.Zero(t, alone.Zeros)
	assert.InDelta(t, alone.VersusRest, alone.WithoutZeros, 1e-9)
	all := over(clean + own + rest + practice)
	assert.Equal(t, []int{3, 2}, []int{all.Compared, all.Zeros})
	assert.InDelta(t, alone.VersusRest, all.WithoutZeros, 1e-9)
	assert.NotEqual(t, all.VersusRest, all.WithoutZeros)
	zeroed := [][]int{}
	for _, row := range all.Flights {
		zeroed = append(zeroed, row.Zeroed)
	}
	assert.Equal(t, [][]int{nil, {5}, {3}, {5}}, zeroed)
	assert.True(t, math.IsNaN(over(own).WithoutZeros))
}

// A category asked for holds for the best flight too: another one's is no answer.
func TestBestIsOfTheCategoryAskedFor(t *testing.T) {
	l := testkit.BookOf(t, followedBook+gradedFlight("2026-04-18 ines known", "6", "7", "8", "5", "6.5", "9")+
		gradedFlight("2026-05-18 ines known", "9", "9", "9", "9", "9", "9")+"  category advanced\n")
	s := season.Selection{Pilot: l.PilotNamed("ines"), Category: "sportsman"}
	over := analysis.FamilyOver(l, s, analysis.FamilyKey{Group: "7"})
	require.GreaterOrEqual(t, over.Best, 0)
	assert.Equal(t, "2026-04-18/ines/known", over.All[over.Best].Flight.Name)
	s.Category = "unlimited"
	assert.Equal(t, -1, analysis.FamilyOver(l, s, analysis.FamilyKey{Group: "7"}).Best)
}

// [derived], by hand: figure 5 (K 13) alone is 65 %, the others are (6 x 10 + 7 x 17 +
// 8 x 18 + 5 x 4 + 9 x 9) / 58 = 424 / 58 grades. A fault on an element of another
// family is not noted on spins, and is noted on the figure.
func TestFigureOverTime(t *testing.T) {
	l := testkit.BookOf(t, followedBook+gradedFlight("2026-04-18 ines known", "6", "7", "8", "5", "6.5", "9")+`  fault 5 line-angle 10deg on 1.2.6.3 by marek
  fault 5 spin-stop 10deg on 9.11.1.4 by marek
`)
	s := season.Selection{Pilot: l.PilotNamed("ines")}
	figure := analysis.FamilyOver(l, s, analysis.FamilyKey{Sequence: l.SequenceNamed("known-26"), Figure: 5}).Flights[0]
	assert.InDelta(t, 65, figure.Percent, 1e-9)
	assert.InDelta(t, 65-4240.0/58, figure.VersusRest, 1e-9)
	assert.Len(t, figure.Faults, 2)
	spins := analysis.FamilyOver(l, s, analysis.FamilyKey{Group: "spins"})
	require.Len(t, spins.Flights[0].Faults, 1)
	assert.Equal(t, "spin-stop", spins.Flights[0].Faults[0].Kind.Name)
	none := analysis.FamilyOver(l, s, analysis.FamilyKey{Group: "6"})
	assert.Empty(t, none.Flights)
	assert.Equal(t, -1, none.Best)
	assert.True(t, math.IsNaN(none.VersusRest))
}

// Where nothing says on which element a fault was, it is one of the families in
// which its kind can show: a spin's stop is no fault of the line before it. A kind
// that names no family may be of either.
func TestFamilyHasTheFaultsThatCanShowInIt(t *testing.T) {
	l := testkit.BookOf(t, followedBook+gradedFlight("2026-04-18 ines known", "6", "7", "8", "5", "6.5", "9")+`  fault 5 spin-stop 10deg by marek
  fault 5 line-length 1pt by marek
  fault 5 pitch 5deg by marek
`)
	s := season.Selection{Pilot: l.PilotNamed("ines")}
	kinds := func(group string) (named []string) {
		for _, n := range analysis.FamilyOver(l, s, analysis.FamilyKey{Group: group}).Flights[0].Faults {
			named = append(named, n.Kind.Name)
		}
		return named
	}
	assert.Equal(t, []string{"spin-stop", "pitch"}, kinds("spins"))
	assert.NotContains(t, kinds("1"), "spin-stop")
	assert.Contains(t, kinds("1"), "line-length")
}
