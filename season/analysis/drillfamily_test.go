package analysis_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
)

// gradedFlights are contest flights a week apart, the loop with the grade given
// and every other figure a 6.
func gradedFlights(first, programme, sequence string, grades ...string) string {
	day, _ := season.ParseDate(first)
	text := ""
	for i, grade := range grades {
		text += fmt.Sprintf("flight %s ines %s\n  sequence %s\n  panel marek\n", day+season.Date(7*i), programme, sequence) +
			markRows([]string{grade, "6", "6", "6", "6", "6", "6", "6", "6", "6"})
	}
	return text
}

const loopDrill = "drill 2025-06-20 ines 7 \"four loops a leg\"\n"

// lowLoops are the four flights before the drill.
var lowLoops = gradedFlights("2025-05-02", "known", "ten", "3", "3", "3", "3")

// A drill on a family: the family against the rest of the same flight. Computed
// by R exactRankTests and SciPy: 7 7.5 6.5 8 7 against 6 6.5 5.5 6.5 7 5 is 10 of
// 462 splits, .021645.
func TestDrillOnAFamily(t *testing.T) {
	before := gradedFlights("2025-01-03", "known", "ten", "6", "6.5", "5.5", "6.5", "7", "5")
	after := gradedFlights("2025-07-04", "known", "ten", "7", "7.5", "6.5", "8", "7")
	a := drillAnswer(t, drillHead+before+lowLoops+after+loopDrill)
	assert.InDelta(t, 10.0/462, a.P, 1e-12)
	assert.Equal(t, analysis.Worked, a.Word)
	assert.LessOrEqual(t, a.Tests.T, .05)
	assert.True(t, math.IsNaN(a.Tests.Z) && math.IsNaN(a.Tests.Fall) && math.IsNaN(a.Tests.Faults))
	require.True(t, a.HasChange)
	assert.InDelta(t, 10*(7.2-36.5/6), a.Change, 1e-9)
	assert.Less(t, a.Low, a.Change)
	assert.Greater(t, a.High, a.Change)
	assert.InDeltaSlice(t, []float64{0, 5, -5, 5, 10, -10}, a.Before.Values, 1e-9)
	assert.Len(t, a.Left, 4)

	// Practice says nothing of a family against the rest.
	b := drillAnswer(t, drillHead+before+lowLoops+after+gradedFlights("2025-09-05", "practice", "ten", "1", "1", "1")+loopDrill)
	assert.InDelta(t, a.P, b.P, 1e-12)

	for _, test := range []struct {
		before, after []string
		p             float64
		word          analysis.DrillWord
	}{
		{[]string{"6", "6.5", "5"}, []string{"7", "7.5", "8"}, 1.0 / 20, analysis.Worked},
		{[]string{"6", "6.5", "7.5"}, []string{"7", "8", "8.5"}, 2.0 / 20, analysis.DrillOpen},
		{[]string{"6", "6.5"}, []string{"7", "7.5", "8", "8", "8"}, math.NaN(), analysis.DrillTooFew},
		{[]string{"6", "6.5", "5"}, []string{"7", "7.5"}, math.NaN(), analysis.DrillTooFew},
		{[]string{"6", "6", "6"}, []string{"6", "6", "6"}, 1, analysis.DrillOpen},
		{[]string{"7", "7.5", "8"}, []string{"6", "6.5", "5"}, 1, analysis.DrillOpen},
	} {
		a := drillAnswer(t, drillHead+gradedFlights("2025-01-03", "known", "ten", test.before...)+lowLoops+gradedFlights("2025-07-04", "known", "ten", test.after...)+loopDrill)
		assert.Equal(t, test.word, a.Word, "%v %v", test.before, test.after)
		if test.word == analysis.DrillTooFew {
			assert.True(t, math.IsNaN(a.P) && math.IsNaN(a.Tests.T) && !a.HasChange, "no number where nothing can be told")
			continue
		}
		assert.InDelta(t, test.p, a.P, 1e-12, "%v %v", test.before, test.after)
	}
}

// A drill set on the lowest of several families: the lowest rises by chance as
// well, whichever it is, and no rise of the drilled one is more than that.
func TestDrillOnTheLowestFamily(t *testing.T) {
	day, _ := season.ParseDate("2025-01-03")
	flights := func(from int, rows ...string) string {
		text := ""
		for i, row := range rows {
			grades := strings.Fields(row)
			grades = append(grades, "6", "6", "6", "6", "6")
			text += fmt.Sprintf("flight %s ines known\n  sequence ten\n  panel marek\n", day+season.Date(7*(from+i))) + markRows(grades)
		}
		return text
	}
	// Loops, stall turns and spins change places as the lowest. The loops' rise
	// alone is one of few splits as large.
	a := drillAnswer(t, drillHead+flights(0, "4 7 8 6 6", "6 4 8 6 6", "5 8 4 6 6", "5 6 6 6 6", "4 8 6 6 6")+lowLoops+
		flights(30, "7 4 8 6 6", "8 6 3 6 6", "6 3 8 6 6", "7 4 4 6 6", "6 8 4 6 6")+loopDrill)
	assert.LessOrEqual(t, a.P, analysis.DrillFirm)
	assert.Equal(t, analysis.Worked == a.Word, a.Tests.T <= analysis.DrillFirm)
	assert.Greater(t, a.Tests.T, a.P, "the choice made again asks for more")
}

// Sequences differ in how hard a family is: flights before on one and since on
// another are not compared, and of several only those flown on both sides.
func TestDrillOnAFamilyWithinSequences(t *testing.T) {
	another := strings.Replace(drillHead[strings.Index(drillHead, "sequence ten"):strings.Index(drillHead, "sequence turns")], "ten", "other", 1)
	before := gradedFlights("2025-01-03", "known", "ten", "6", "6.5", "5.5", "6.5", "7", "5") + lowLoops
	easier := gradedFlights("2025-07-04", "known", "other", "9", "9.5", "9", "9", "9.5")
	a := drillAnswer(t, drillHead+another+before+easier+loopDrill)
	assert.Equal(t, analysis.DrillTooFew, a.Word)
	assert.Equal(t, 11, a.Apart)
	assert.False(t, a.HasChange)

	b := drillAnswer(t, drillHead+another+before+easier+gradedFlights("2025-09-05", "known", "ten", "7", "7.5", "6.5", "8", "7")+loopDrill)
	assert.InDelta(t, 10.0/462, b.P, 1e-12, "as if the other sequence had not been flown")
	assert.Equal(t, 5, b.Apart)
	assert.Equal(t, analysis.Worked, b.Word)
}
