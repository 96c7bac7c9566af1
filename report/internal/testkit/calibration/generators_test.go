package calibration

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"

	"boxbook/season"
)

func randomness(t *testing.T) *rand.Rand { return Cell{Group: "generators", Name: t.Name()}.random(0) }

// Flights scatter by the standard deviation claimed, contests have their share of
// it, and heavy tails and zeros are what they say.
func TestFlightsScatterAsClaimed(t *testing.T) {
	r := randomness(t)
	for _, shape := range []Shape{Normal, Heavy} {
		for _, share := range []float64{0, 0.3, 0.5} {
			var total, between, ahead []float64
			for range 3000 {
				made := Totals{Structure: Structure{Flights: 12, PerContest: 2, ContestShare: share}, Path: Steady, Shape: shape}.Make(r)
				for i := 0; i < 12; i += 2 {
					a, b := made.Percents[i]-made.Level, made.Percents[i+1]-made.Level
					total, between = append(total, a), append(between, a*b)
				}
				ahead = append(ahead, made.Next-made.Level)
			}
			assert.InDelta(t, FlightSD, stat.StdDev(total, nil), 0.12, "%v %v", shape, share)
			assert.InDelta(t, share, stat.Mean(between, nil)/(FlightSD*FlightSD), 0.04)
			assert.InDelta(t, 0, stat.Mean(total, nil), 0.1)
			assert.InDelta(t, FlightSD, stat.StdDev(ahead, nil), 0.3)
			if share == 0 && shape == Heavy {
				assert.Greater(t, stat.ExKurtosis(total, nil), 2.0)
			} else if shape == Normal {
				assert.InDelta(t, 0, stat.ExKurtosis(total, nil), 0.2)
			}
		}
	}
	lost := 0
	for range 10000 {
		if Zeros.draw(r, 0.001) < -4.9 {
			lost++
		}
	}
	assert.InDelta(t, 1000, lost, 100)
}

// Paths begin and end where they say, steps step once, wandering form strays as
// far as it says.
func TestPathsGoWhereTheySay(t *testing.T) {
	r := randomness(t)
	at := []float64{0, 0.25, 0.5, 0.75, 1}
	ends := []float64{0, 10, 20, -10, -20, 10, -10}
	for i, path := range []Path{Steady, Rise10, Rise20, Fall10, Fall20, StepUp, StepDown} {
		end := ends[i]
		levels := path.Make(r, at)
		assert.Zero(t, levels[0], path.Name)
		assert.InDelta(t, end, levels[4], 1e-12, path.Name)
		assert.Equal(t, path.Steady, slices.Max(levels) == slices.Min(levels), path.Name)
		assert.Equal(t, path.Rises, levels[4] > 0, path.Name)
	}
	var walked, first, last, product []float64
	for range 20000 {
		walked = append(walked, Walk.Make(r, at)[4])
		wave := waves(r, at)
		first, last, product = append(first, wave[0]), append(last, wave[4]), append(product, wave[3]*wave[4])
	}
	assert.InDelta(t, walkSD, stat.StdDev(walked, nil), 0.1)
	assert.InDelta(t, wavesSD, stat.StdDev(first, nil), 0.05)
	assert.InDelta(t, wavesSD, stat.StdDev(last, nil), 0.05)
	assert.InDelta(t, wavesKept*wavesSD*wavesSD, stat.Mean(product, nil), 0.2)
}

// A mark is reached by the share of flights that it is made for, and who knows the
// variances holds 80 % with the width that the program's is measured by.
func TestTruthsAreTrue(t *testing.T) {
	r := randomness(t)
	for _, s := range []Structure{{Flights: 6, PerContest: 1}, {Flights: 12, PerContest: 2, ContestShare: 0.5}, {Flights: 20, PerContest: 3, ContestShare: 0.3}} {
		const n = 10000
		half, good, held := 0, 0, 0
		for range n {
			made := Totals{Structure: s, Path: Fall20}.Make(r)
			half, good = half+one(made.Next >= made.Mark(0.5)), good+one(made.Next >= made.Mark(0.9))
			steady := Totals{Structure: s, Path: Steady}.Make(r)
			held += one(math.Abs(steady.Next-bestMean(s, steady)) <= s.KnownWidth()/2)
		}
		assert.InDelta(t, 0.5, float64(half)/n, 0.02)
		assert.InDelta(t, 0.9, float64(good)/n, 0.015)
		assert.InDelta(t, 0.8, float64(held)/n, 0.015, s)
	}
}

// bestMean weighs a record's contests as somebody would who knows the variances.
func bestMean(s Structure, made Record) float64 {
	n := map[int]float64{}
	for _, slot := range made.Slots {
		n[slot.Contest]++
	}
	sum, weights := 0.0, 0.0
	for i, slot := range made.Slots {
		w := 1 / (1 - s.ContestShare + n[slot.Contest]*s.ContestShare)
		sum, weights = sum+w*made.Percents[i], weights+w
	}
	return sum / weights
}

func one(b bool) int {
	if b {
		return 1
	}
	return 0
}

// The same through judges: who knows every variance of the sheets holds 80 % of a
// sequence's percents, new or flown.
func TestKnownRangeOfSheetsHolds(t *testing.T) {
	r := randomness(t)
	for _, programmes := range []Programmes{OneKnown, Mixed, TwoKnowns} {
		for _, flown := range []bool{false, true} {
			s := ordinary(8, 2, 0.5, Steady)
			s.Programmes, s.Families, s.Figures = programmes, 0.4, 0.4
			const n = 600
			held := 0
			for range n {
				sheaf := s.Make(r)
				asked := sheaf.Sequences[0]
				if !flown {
					asked = s.Draw(r, "asked", season.Unknown)
				}
				low, high := sheaf.KnownRange(asked)
				next := percentOf(asked, sheaf.Next(r, asked))
				held += one(low <= next && next <= high)
			}
			assert.InDelta(t, 0.8, float64(held)/n, 0.055, "%s, flown %v", programmes, flown)
		}
	}
}

// Figures, judges and families differ by what is claimed; every family asked for is
// in a sequence; zeros are as often as they should be.
func TestSheetsAreAsClaimed(t *testing.T) {
	r := randomness(t)
	s := ordinary(12, 2, 0.3, Steady)
	s.Shape, s.Judge, s.Figures = Zeros, 1, 0.8
	var judges, families, figures []float64
	zeroed, all := 0, 0
	for range 300 {
		sheaf := s.Make(r)
		require.Len(t, sheaf.Sequences, 1)
		q := sheaf.Sequences[0]
		for _, family := range clubFamilies {
			require.Positive(t, distinct(q, family), family)
			families = append(families, sheaf.Pilot.Family[family])
		}
		for i, f := range q.Figures {
			figures = append(figures, sheaf.Figure(r, q, i)-sheaf.strength(f, sheaf.Pilot.Family))
		}
		for _, flown := range sheaf.Flights {
			for _, marks := range flown.Marks {
				all++
				if marks == nil {
					zeroed++
					continue
				}
				judges = append(judges, float64(marks[0]-marks[1])/2/math.Sqrt2)
			}
		}
	}
	assert.InDelta(t, math.Sqrt(1+halfPoint), stat.StdDev(judges, nil), 0.02)
	assert.InDelta(t, 0.3, stat.StdDev(families, nil), 0.03)
	assert.InDelta(t, 0.8, stat.StdDev(figures, nil), 0.05)
	assert.InDelta(t, zeroOfFigure, float64(zeroed)/float64(all), 0.003)
}

// Which sequences are flown when, and that a flight's own strength is added where
// it should.
func TestProgrammesAndLifts(t *testing.T) {
	r := randomness(t)
	s := ordinary(12, 1, 0, Steady)
	s.Programmes = TwoKnowns
	sheaf := s.Make(r)
	for i, f := range sheaf.Flights {
		require.Equal(t, []string{"known-1", "known-2"}[i/6], f.Sequence.Handle)
	}
	s.Programmes = Mixed
	require.Len(t, s.Make(r).Sequences, 6, "a known, a free, four unknowns")

	s.Programmes = OneKnown
	gained := 0.0
	for range 200 {
		sheaf := s.Fly(r, s.NewPilot(r), nil, func(_ *Sheaf, i int) map[string]float64 {
			return map[string]float64{"spins": float64(i / 6)}
		})
		for i, f := range sheaf.Flights {
			v, ok := AgainstRest(f, "spins")
			require.True(t, ok)
			gained += v * float64(2*(i/6)-1) / 6 / 200
		}
	}
	// A spin is five or seven of thirteen or fifteen K.
	assert.InDelta(t, 0.43, gained, 0.06)
}

// Faults are seen as often as their chances say, only where they can show, and
// drills are set on what they say.
func TestFaultsAndDrillsAreAsClaimed(t *testing.T) {
	r := randomness(t)
	expected, got, could := 0.0, 0.0, 0
	for range 400 {
		s := FaultSeason{Before: 16, After: 12, PerContest: 1, Choice: WorstOfFour, Named: 1, Left: 0.3, Flown: 0.4}
		made := s.Make(r)
		l, drill := made.Ledger, made.Ledger.Drills[0]
		before := l.Flights[:20]
		require.Len(t, l.Flights, 32)
		require.True(t, before[19].Date < drill.Date && drill.Date < l.Flights[20].Date)
		require.Len(t, drill.Prompted, 1)
		require.True(t, shows(drill.Prompted[0], made.Target))
		for i, kind := range faultKinds {
			require.LessOrEqual(t, seenIn(before[16:], kind.name), seenIn(before[16:], made.Target))
			require.InDelta(t, 0.3, made.Chances[i][1]/made.Chances[i][0], 1e-9)
			for j, f := range l.Flights {
				if !f.CouldShow(kindNamed(kind.name)) {
					require.False(t, shows(f, kind.name))
					continue
				}
				could += one(j >= 20 && kind.name == "spin-stop")
				expected += made.Chances[i][one(j >= 20)]
				got += float64(one(shows(f, kind.name)))
			}
		}
	}
	assert.InDelta(t, 1, got/expected, 0.03)
	assert.InDelta(t, 0.4, float64(could)/400/12, 0.03)

	gone := FaultSeason{Before: 16, After: 12, PerContest: 2, Left: 1, Target: "spin-stop", From: 0.6, To: 0.6, Flown: -1}.Make(r)
	require.Positive(t, seenIn(gone.Ledger.Flights[:20], "spin-stop"))
	for _, f := range gone.Ledger.Flights[20:] {
		require.False(t, f.CouldShow(kindNamed("spin-stop")))
	}
	require.Equal(t, gone.Ledger.Flights[0].Contest, gone.Ledger.Flights[1].Contest)
}

// A drill on a family is set on the worst of the latest four, and what it gains is
// gained since.
func TestFamilyDrillsAreAsClaimed(t *testing.T) {
	r := randomness(t)
	gain := 0.0
	for range 150 {
		d := familyDrillOf(14, 8, 2, 0)
		d.Worst, d.Gain = true, 1
		l, target := d.Make(r)
		require.Len(t, l.Flights, 26)
		require.True(t, l.Flights[17].Date < l.Drills[0].Date && l.Drills[0].Date < l.Flights[18].Date)
		before, after := 0.0, 0.0
		for i, f := range l.Flights {
			v, ok := AgainstRest(flownOf(f), target)
			require.True(t, ok)
			switch {
			case i < 14:
				before += v / 14
			case i >= 18:
				after += v / 8
			}
		}
		gain += (after - before) / 150
	}
	assert.Greater(t, gain, 0.4, "a family is about half of its figures' K")
	assert.Less(t, gain, 1.0)
}

// flownOf is a flight as the generator would have it.
func flownOf(f *season.Flight) Flown {
	out := Flown{Sequence: f.Sequence}
	for _, row := range f.Rows.All() {
		var halves []int
		for _, m := range row.Marks {
			halves = append(halves, int(m.Half))
		}
		out.Marks = append(out.Marks, halves)
	}
	return out
}

// Gains are what lies below the others, by the part of the sequence's K.
func TestTrueGains(t *testing.T) {
	q := &season.Sequence{Figures: []season.Figure{figureOf(part{"7.4.1.1", 10}), figureOf(part{"2.2.1.1", 5}), figureOf(part{"1.1.1.1", 2}, part{"9.1.3.4", 3})}}
	p := &Pilot{Family: map[string]float64{"7": -1, "2": -0.5, "1": 0.5, "9.1": 0.5, "spins": -9}}
	gains := trueGains(p, q)
	require.InDelta(t, 0.5*(0.5/3+1), gains["7"], 1e-12)
	require.InDelta(t, 0.25*0.5, gains["2"], 1e-12)
	require.Equal(t, []string{"7", "2"}, byGain(gains))
}
