package season_test

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/internal/testkit"
)

// What the shipped kinds take where no source has the very number; what has one
// is in testdata/outside.
func TestShippedDeductions(t *testing.T) {
	for _, test := range []struct{ fault, want, source string }{
		{"line-angle", "1/2", "[derived]: seen, hence under 5 degrees"},
		{"line-length", "1", "[memory]: small but visible"},
		{"line-length 1.5:1", "1", "[derived]: more than nothing, less than 2:1"},
		{"line-length 2.5:1", "2", "[derived]: from 2:1 on, not yet 3:1"},
		{"line-length 1:1", "0", "[derived]: lines of one length"},
		{"radius", "1", "[derived, a house choice]"},
		{"radius 3x", "3", "[derived, a house choice]: each change"},
		{"turn-rate", "1", "[derived, a house choice]"},
		{"drift 0.5span", "0", "[derived]: less than the wingspan that is free"},
		{"drift 1.2span", "1/2", "[derived]: half for a rest"},
		{"spin-stop 85deg", "10", "[derived]: 17 steps, and a grade has ten points"},
		{"roll-stop 120deg", "10", "[derived]: beyond 90"},
		{"pull-rate", "0", "[common practice]: a cause, no fault a judge marks"},
		{"timing 1.5pt", "0", "[common practice]"},
		{"line-angle 10deg felt", "0", "[common practice]: anything felt"},
		{"loose-article", "0", "[common practice]: no matter of grades"},
		{"other 1.5pt", "3/2", "as typed"},
		{"other", "none", "nothing typed"},
		{"drift", "none", "nothing typed, and no plain price"},
		{"line-angle 1.5pt", "3/2", "points are always allowed"},
		{"line-angle 5deg 3x", "3", "3x multiplies another amount"},
		{"line-angle 3x 8deg", "9/2", "3x multiplies another amount"},
		{"line-angle 3x", "3/2", "3x multiplies what it costs without one"},
		{"other 12pt", "10", "a grade has no less than 0.0"},
		{"line-angle 0deg", "0", "[derived]"},
	} {
		t.Run(test.fault, func(t *testing.T) {
			assert.Equal(t, test.want, costOf(t, test.fault), test.source)
		})
	}
}

// costOf is what a fault line on the first figure takes from its grade.
func costOf(t *testing.T, fault string) string {
	t.Helper()
	f := testkit.FlightWith(t, "fault 1 "+fault)
	require.Len(t, f.Faults, 1)
	return testkit.ExactText(f.Faults[0].Deduction())
}

// Kinds that a ledger defines.
func TestOwnDeductions(t *testing.T) {
	for _, test := range []struct{ name, kind, amount, want string }{
		{"half of a step, half a point at the least", "unit deg; per 5deg 0.5", "7deg", "1"},
		{"half of a large step", "unit deg; per 5deg 3", "7deg", "9/2"},
		{"a rest is never more than a step", "unit deg; per 5deg 0.2", "7deg", "2/5"},
		{"the larger of per and at", "unit deg; per 5deg 1; at 20deg 8", "20deg", "8"},
		{"per beyond at", "unit deg; per 5deg 1; at 20deg 2", "30deg", "6"},
		{"plain where nothing else prices an amount", "unit deg; plain 2", "45deg", "2"},
		{"plain is never more than the first step", "unit ratio; plain 3; at 2:1 1", "1.2:1", "1"},
		{"nothing before the first step", "unit ratio; at 2:1 1", "1.9:1", "0"},
		{"1:0 is above every ratio", "unit ratio; at 1000000000000:1 5; at 1:0 9", "1:0", "9"},
		{"1:0 counts no steps", "unit ratio; per 2:1 1", "1:0", "10"},
		{"a ratio counts steps", "unit ratio; per 2:1 1", "5:1", "5/2"},
		{"1:0 as a step", "unit ratio; per 1:0 1", "9:1", "1/2"},
		{"counted by steps", "unit count; per 2x 1", "5x", "5/2"},
		{"counted from a number on", "unit count; at 3x 2; at 5x 6", "4x", "2"},
		{"counted, the first ones free", "unit count; free 2x; per 1x 1", "3x", "1"},
		{"counted, once where nothing is typed", "unit count; per 1x 1.5", "", "3/2"},
		{"counted, plain where nothing is typed", "unit count; per 1x 1.5; plain 1", "", "1"},
		{"counted to a zero", "unit count; plain 1; zero 4x", "4x", "10"},
		{"points to a zero", "unit pt; zero 5pt", "5pt", "10"},
		{"points below a zero", "unit pt; zero 5pt", "4.5pt", "9/2"},
		{"free up to the amount itself", "unit span; free 2span; plain 3", "2span", "0"},
		{"no price at all", "unit deg", "10deg", "none"},
		{"a kind that is felt", "unit deg; per 5deg 1; felt", "10deg", "0"},
	} {
		t.Run(test.name, func(t *testing.T) {
			kind := "fault-kind own\n  " + strings.ReplaceAll(test.kind, "; ", "\n  ") + "\n"
			f := testkit.BookOf(t, testkit.FaultBook+kind+testkit.FlightText("2026-04-18 ines known", "fault 1 own "+test.amount)).Flights[0]
			assert.Equal(t, test.want, testkit.ExactText(f.Faults[0].Deduction()))
		})
	}
}

// anyKind draws a fault kind and a way to write amounts of it.
func anyKind(t *rapid.T) (*season.FaultKind, func(tenths int) season.Amount) {
	tenths := func(n int) scoring.Decimal { return scoring.Decimal{Units: int64(n), Places: 1} }
	unit := rapid.SampledFrom([]season.Unit{season.Degrees, season.Ratio, season.Span}).Draw(t, "unit")
	amount := func(n int) season.Amount {
		return season.Amount{Unit: unit, Value: tenths(n), Second: scoring.Decimal{Units: 1}, Times: 1, Text: fmt.Sprint(n)}
	}
	kind := &season.FaultKind{Name: "drawn", Unit: unit}
	some := func(what string) bool { return rapid.Bool().Draw(t, what) }
	points := rapid.IntRange(1, 60)
	if some("per") {
		kind.Per = &season.Step{Amount: amount(rapid.IntRange(1, 60).Draw(t, "step")), Points: tenths(points.Draw(t, "points"))}
	}
	if some("plain") {
		plain := tenths(points.Draw(t, "plain"))
		kind.Plain = &plain
	}
	if some("free") {
		free := amount(rapid.IntRange(0, 60).Draw(t, "free"))
		kind.Free = &free
	}
	if some("zero") {
		zero := amount(rapid.IntRange(1, 200).Draw(t, "zero"))
		kind.Zero = &zero
	}
	for i, from := range rapid.SliceOfNDistinct(rapid.IntRange(1, 150), 0, 3, rapid.ID).Draw(t, "at") {
		kind.At = append(kind.At, season.Step{Amount: amount(from), Points: tenths(points.Draw(t, fmt.Sprint("at", i)))})
	}
	return kind, amount
}

// What is larger never costs less, and nothing costs less than 0 or more than 10.
func TestDeductionGrowsWithTheAmount(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kind, amount := anyKind(t)
		if kind.Per == nil && kind.Plain == nil && len(kind.At) == 0 {
			return
		}
		least := rapid.IntRange(0, 250).Draw(t, "least")
		greatest := rapid.IntRange(least, 250).Draw(t, "greatest")
		small, large := kind.Deduction(amount(least)), kind.Deduction(amount(greatest))
		require.LessOrEqual(t, small.Cmp(large), 0, "%v costs %s, %v costs %s", least, small, greatest, large)
		require.GreaterOrEqual(t, small.Sign(), 0)
		require.LessOrEqual(t, large.Cmp(big.NewRat(10, 1)), 0)
		endless := amount(greatest)
		endless.Second = scoring.Decimal{}
		if kind.Unit == season.Ratio {
			require.LessOrEqual(t, large.Cmp(kind.Deduction(endless)), 0, "1:0 is above every ratio")
		}
		more := amount(greatest)
		more.Times = 3
		require.LessOrEqual(t, large.Cmp(kind.Deduction(more)), 0, "three times is no less than once")
	})
}

// noteText writes a fault as it counts.
func noteText(n season.NotedFault) string {
	seen := "felt"
	if n.Seen {
		seen = "seen"
	}
	return fmt.Sprintf("%d %s %s %s x%d %v", n.Figure, n.Kind.Name, testkit.ExactText(n.Deduction), seen, n.Times, n.Lines)
}

// The same fault noted by two observers counts once, the larger.
func TestNotedByTwo(t *testing.T) {
	for _, test := range []struct {
		name  string
		lines []string
		want  []string
	}{
		{"two observers, the larger", []string{"fault 3 spin-stop 5deg", "fault 3 spin-stop 12deg by marek"}, []string{"3 spin-stop 5/2 seen x1 [1]"}},
		{"three observers", []string{"fault 3 spin-stop 5deg", "fault 3 spin-stop 12deg by marek", "fault 3 spin-stop 8deg by odile"}, []string{"3 spin-stop 5/2 seen x1 [1]"}},
		{"two alike, the first", []string{"fault 3 spin-stop 5deg by odile", "fault 3 spin-stop 5deg by marek"}, []string{"3 spin-stop 1 seen x1 [0]"}},
		{"lines of one observer add up", []string{"fault 1 line-angle 5deg by marek", "fault 1 line-angle 10deg by marek", "fault 1 line-angle 12deg"}, []string{"1 line-angle 3 seen x2 [0 1]"}},
		{"on another element", []string{"fault 1 line-angle 5deg on 5.2.1.1", "fault 1 line-angle 5deg on 9.1.1.1 by marek"}, []string{"1 line-angle 1 seen x1 [0]", "1 line-angle 1 seen x1 [1]"}},
		{"on another figure", []string{"fault 1 line-angle 5deg", "fault 2 line-angle 5deg by marek"}, []string{"1 line-angle 1 seen x1 [0]", "2 line-angle 1 seen x1 [1]"}},
		{"of another kind", []string{"fault 1 line-angle 5deg", "fault 1 heading 5deg by marek"}, []string{"1 line-angle 1 seen x1 [0]", "1 heading 1 seen x1 [1]"}},
		{"felt by one and seen by the other", []string{"fault 2 radius 4x felt", "fault 2 radius seen by marek"}, []string{"2 radius 1 seen x1 [1]"}},
		{"felt and seen by one", []string{"fault 2 radius 4x felt by marek", "fault 2 radius by marek"}, []string{"2 radius 1 seen x1 [1]"}},
		{"felt by two", []string{"fault 2 timing", "fault 2 timing 2x by marek"}, []string{"2 timing 0 felt x2 [1]"}},
		{"typed twice by one", []string{"fault 3 spin-stop 5deg by marek", "fault 3 spin-stop 5.0deg seen by marek"}, []string{"3 spin-stop 1 seen x1 [0]"}},
		{"typed twice by nobody", []string{"fault 2 radius", "fault 2 radius", "fault 2 radius 2x"}, []string{"2 radius 3 seen x3 [0 2]"}},
		{"of one with a remark each", []string{`fault 1 line-angle 5deg "in"`, `fault 1 line-angle 5deg "out"`}, []string{"1 line-angle 2 seen x2 [0 1]"}},
		{"of one at two places in the video", []string{"fault 1 line-angle 5deg seen at 1:12", "fault 1 line-angle 5deg seen at 1:15"}, []string{"1 line-angle 2 seen x2 [0 1]"}},
		{"at one place in the video", []string{"fault 1 line-angle 5deg seen at 1:12", "fault 1 line-angle 5deg seen at 1:12"}, []string{"1 line-angle 1 seen x1 [0]"}},
		{"never more than ten", []string{"fault 2 other 7pt", "fault 2 other 8pt"}, []string{"2 other 10 seen x2 [0 1]"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			var got []string
			for _, n := range testkit.FlightWith(t, test.lines...).Noted() {
				got = append(got, noteText(n))
			}
			assert.Equal(t, test.want, got)
		})
	}
}

// gradeTexts write the expected grades of a flight.
func gradeTexts(f *season.Flight) []string {
	grades := []string{}
	for _, g := range f.ExpectedGrades() {
		text := fmt.Sprintf("%d: %s given %s", g.Figure, testkit.ExactText(g.Expected), testkit.ExactText(g.Given))
		if g.Unpriced {
			text += " at most"
		}
		if g.Zeroed {
			text += " zeroed"
		}
		grades = append(grades, text)
	}
	return grades
}

func TestExpectedGrades(t *testing.T) {
	for _, test := range []struct {
		name  string
		lines []string
		want  []string
	}{
		{"none without a fault", nil, []string{}},
		{"ten less the faults", []string{"fault 3 spin-stop 12deg", "fault 3 heading 3deg"}, []string{"3: 7 given 8"}},
		// [published: baea-major, 0.0].
		{"twelve points of faults are 0.0", []string{"fault 1 line-length 1:0", "fault 1 line-angle 20deg", "fault 1 heading 20deg"}, []string{"1: 0 given 8"}},
		{"two observers count once", []string{"fault 3 spin-stop 5deg", "fault 3 spin-stop 10deg by marek"}, []string{"3: 8 given 8"}},
		{"felt costs nothing", []string{"fault 1 pull-rate felt", "fault 2 radius felt"}, []string{}},
		{"a loose article costs no grade", []string{"fault 1 loose-article"}, []string{}},
		{"nor does the flight as a whole", []string{"fault - heading 10deg"}, []string{}},
		// A point from each of the two figures [published: baea-rules-2, no line].
		{"no line costs the following figure too", []string{"fault 2 no-line", "fault 3 heading 5deg"}, []string{"2: 9 given 8", "3: 8 given 8"}},
		{"nothing follows the last figure", []string{"fault 4 no-line"}, []string{"4: 9 given 8"}},
		{"in order of the figures", []string{"fault 3 radius", "fault 1 radius"}, []string{"1: 9 given 8", "3: 9 given 8"}},
		{"a price that is not known", []string{"fault 1 drift", "fault 1 heading 5deg"}, []string{"1: 9 given 8 at most"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			assert.Equal(t, test.want, gradeTexts(testkit.FlightWith(t, append([]string{`note "as flown"`}, test.lines...)...)))
		})
	}
}

// Given is the panel's mean, and nothing where the panel has none.
func TestGivenGrades(t *testing.T) {
	const lines = "  fault 1 heading 5deg\n  fault 2 no-line\n"
	for _, test := range []struct {
		name, flight string
		want         []string
	}{
		{"a minority's hard zero is filled", "  panel A B C\n  1 7 8 HZ\n  2 6 6 6.5\n  3 8 8 8\n  4 8 8 8\n  positioning 8 8 8\n", []string{"1: 9 given 15/2", "2: 9 given 37/6", "3: 9 given 8"}},
		{"a majority's is a zero", "  panel A B C\n  1 7 HZ HZ\n  2 6 6 6\n  3 8 8 8\n  4 8 8 8\n  positioning 8 8 8\n", []string{"1: 9 given 0 zeroed", "2: 9 given 6", "3: 9 given 8"}},
		{"ruled a zero", "  panel A B\n  1 7 HZ\n  2 6 6\n  3 8 8\n  4 8 8\n  positioning 8 8\n  resolve 1 zero\n", []string{"1: 9 given 0 zeroed", "2: 9 given 6", "3: 9 given 8"}},
		{"given by all, as graded", "  rules as-graded\n  panel A B\n  1 HZ HZ\n  2 6 6\n  3 8 8\n  4 8 8\n  positioning 8 8\n", []string{"1: 9 given 0 zeroed", "2: 9 given 6", "3: 9 given 8"}},
		{"0.0 is a grade", "  panel A B\n  1 0 0\n  2 6 6\n  3 8 8\n  4 8 8\n  positioning 8 8\n", []string{"1: 9 given 0", "2: 9 given 6", "3: 9 given 8"}},
		{"undecided", "  panel A B\n  1 7 HZ\n  2 6 6\n  3 8 8\n  4 8 8\n  positioning 8 8\n", []string{"1: 9 given none", "2: 9 given 6", "3: 9 given 8"}},
		{"no marks", "", []string{"1: 9 given none", "2: 9 given none", "3: 9 given none"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			l := testkit.BookOf(t, testkit.FaultBook+"flight 2026-04-18 ines known\n  sequence four\n"+test.flight+lines)
			assert.Equal(t, test.want, gradeTexts(l.Flights[0]))
		})
	}
	practice := testkit.BookOf(t, testkit.FaultBook+"flight 2026-05-02 ines practice\n  sequence four\n  panel marek\n  2 7.5\n"+lines)
	assert.Equal(t, []string{"1: 9 given none", "2: 9 given 15/2"}, gradeTexts(practice.Flights[0]), "figure 3 was not flown")
	bare := testkit.BookOf(t, testkit.FaultBook+"flight 2026-05-02 ines free\n  category intermediate\n"+lines)
	assert.Equal(t, []string{"1: 9 given none", "2: 9 given none"}, gradeTexts(bare.Flights[0]), "no sequence, no following figure known")
}

// An expected grade is a grade, and another fault never raises one.
func TestExpectedGradesStayGrades(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		lines := rapid.SliceOfN(testkit.FaultLine(), 1, 8).Draw(rt, "faults")
		before := gradesByFigure(testkit.FlightWith(t, lines[1:]...))
		after := gradesByFigure(testkit.FlightWith(t, lines...))
		for figure, grade := range after {
			require.GreaterOrEqual(rt, grade.Sign(), 0)
			require.LessOrEqual(rt, grade.Cmp(big.NewRat(10, 1)), 0)
			if was := before[figure]; was != nil {
				require.LessOrEqual(rt, grade.Cmp(was), 0, "figure %d", figure)
			}
		}
		require.GreaterOrEqual(rt, len(after), len(before))
	})
}

func gradesByFigure(f *season.Flight) map[int]*big.Rat {
	grades := map[int]*big.Rat{}
	for _, g := range f.ExpectedGrades() {
		grades[g.Figure] = g.Expected
	}
	return grades
}
