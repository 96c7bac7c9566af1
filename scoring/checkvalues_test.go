package scoring_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/scoring"
)

// Values that stand outside this package, each with where it comes from.
// What is derived is plain arithmetic from a stated rule; the majority principle for
// hard zeros, where a value rests on it: [memory].

// Grade x K, 8 x 10 = 80 and 7 x 13 = 91, and the K of a figure is that of its
// elements, 2 + 8 = 10 and 2 + 11 = 13 [published: adastral, grade x K; adastral,
// K of a figure].
func TestGradeTimesK(t *testing.T) {
	score := sheetWith(panelMean, figure(2+8, "8.0"), figure(2+11, "7.0")).Score()
	equalRat(t, whole(80), score.Lines[0].Points, "8 x K 10")
	equalRat(t, whole(91), score.Lines[1].Points, "7 x K 13")
	equalRat(t, whole(80+91), score.Raw, "the sum")
	assert.Equal(t, 230, score.Maximum)
}

// The K of the figures are 165 in all, of the two weighted lines 10 each, and the
// printed total is 185 [published: daec-silver, figures]. The maximum of 1850:
// [derived].
func TestGliderSilverBadge(t *testing.T) {
	ks := []int{7, 10, 11, 3 + 12, 5, 2 + 6, 17, 19 + 6 + 6, 19, 16, 2 + 17, 7}
	var lines []scoring.Line
	for _, k := range ks {
		lines = append(lines, figure(k, "10.0"))
	}
	assert.Equal(t, 10*165, sheetWith(panelMean, lines...).Maximum(), "figures alone")
	harmony := scoring.Line{Kind: scoring.Harmony, K: 10, Marks: marksOf([]string{"10.0"})}
	sheet := sheetWith(panelMean, append(lines, positioning(10, "10.0"), harmony)...)
	assert.Equal(t, 10*185, sheet.Maximum())
	score := sheet.Score()
	assert.Equal(t, 1850, score.Maximum)
	equalRat(t, whole(1850), score.Points, "ten for everything")
	equalRat(t, whole(100), score.Percent, "ten for everything")
}

// panelOfThree is a sheet of three judges with a hard zero and an AV; maximum
// 1000. [derived]
func panelOfThree(style scoring.Style) scoring.Sheet {
	return sheetWith(style,
		figure(10, "8.0 7.5 8.5"),
		figure(17, "7.5 HZ 7.0"),
		figure(13, "7.0 6.5 7.5"),
		figure(31, "6.5 6.0 7.0"),
		figure(19, "8.0 AV 7.5"),
		positioning(10, "8.0 7.5 8.0"),
	)
}

// [derived]: the hard zero and the AV are filled with 7.25 and 7.75.
func TestPanelOfThree(t *testing.T) {
	score := panelOfThree(panelMean).Score()
	assert.Equal(t, "15/2 29/4 7", exactly(usedMarks(score.Lines[1])...))
	assert.Equal(t, "8 31/4 15/2", exactly(usedMarks(score.Lines[4])...))
	assert.Equal(t, scoring.Filled, score.Lines[1].Ruling)
	assert.Equal(t, scoring.Filled, score.Lines[4].Ruling)
	assert.Equal(t, "732 691 741", exactly(score.JudgeTotals...))
	assert.Equal(t, "2164/3", exactly(score.Raw))
	assert.Equal(t, "721.3333", printed(score.Raw, 4))
	assert.Equal(t, 1000, score.Maximum)
	assert.Equal(t, "72.13", printed(score.Percent, 2))
}

// [derived]: the same with a penalty of 30 points.
func TestPanelOfThreeWithPenalty(t *testing.T) {
	sheet := panelOfThree(panelMean)
	sheet.Penalties = []scoring.Decimal{{Units: 30}}
	score := sheet.Score()
	assert.Equal(t, "2164/3 30 2074/3", exactly(score.Raw, score.Penalty, score.Points))
	assert.Equal(t, "691.33", printed(score.Points, 2))
	assert.Equal(t, "69.13", printed(score.Percent, 2))
}

// [derived], on the majority principle [memory]: the first judge has a hard zero
// on figure 2 too, two of three, so the figure is 0 from all.
func TestPanelOfThreeMajority(t *testing.T) {
	sheet := panelOfThree(panelMean)
	sheet.Lines[1].Marks[0] = scoring.Mark{Kind: scoring.HardZero}
	score := sheet.Score()
	assert.Equal(t, scoring.Zeroed, score.Lines[1].Ruling)
	assert.Equal(t, "1209/2 2271/4 622", exactly(score.JudgeTotals...), "604.5, 567.75 and 622.0")
	assert.Equal(t, "7177/12", exactly(score.Raw))
	assert.Equal(t, "598.0833", printed(score.Raw, 4))
	assert.Equal(t, "59.81", printed(score.Percent, 2))
}

// [derived]; whether and how a filled mark is rounded is not verified, hence a
// setting.
func TestPanelOfThreeFillRounding(t *testing.T) {
	for rounding, want := range map[scoring.FillRounding]string{
		scoring.Unrounded: "721.33",
		scoring.ToTenth:   "721.93",
		scoring.ToHalf:    "724.33",
	} {
		score := panelOfThree(scoring.Style{FillRounding: rounding}).Score()
		assert.Equal(t, want, printed(score.Raw, 2))
	}
}

// [derived]: two of four hard zeros leave a figure undecided, neither a silent
// zero nor a silent mean.
func TestHalfOfThePanel(t *testing.T) {
	sheet := sheetWith(panelMean, figure(10, "HZ HZ 7.0 8.0"))
	score := sheet.Score()
	line := score.Lines[0]
	assert.False(t, score.Decided())
	assert.Equal(t, scoring.Undecided, line.Ruling)
	assert.Equal(t, "0 75", exactly(line.Low, line.High))
	assert.Equal(t, "0 75", exactly(score.Low, score.High))
	assert.Equal(t, "absent absent absent", exactly(line.Mean, line.Points, line.Lost))
	assert.Equal(t, "absent absent absent", exactly(score.Raw, score.Points, score.Percent))
	assert.Nil(t, score.JudgeTotals)

	for decision, want := range map[scoring.Decision]string{scoring.RuledZero: "0", scoring.RuledFill: "75"} {
		sheet.Lines[0].Decision = decision
		ruled := sheet.Score()
		require.True(t, ruled.Decided())
		assert.Equal(t, scoring.Resolved, ruled.Lines[0].Ruling)
		assert.Equal(t, want, exactly(ruled.Points))
	}
}

// [derived] from 0.0 being an ordinary grade and HZ a matter of fact [published:
// baea-major, 0.0; iac-2018, 7.3.1].
func TestZeroGradeIsNoHardZero(t *testing.T) {
	score := sheetWith(panelMean, figure(10, "7.0 0.0 7.0")).Score()
	assert.Equal(t, "70 0 70", exactly(score.JudgeTotals...))
	assert.Equal(t, "140/3", exactly(score.Raw))
	assert.Equal(t, "46.67", printed(score.Raw, 2))

	perception := sheetWith(panelMean, figure(10, "7.0 PZ 7.0")).Score()
	assert.Equal(t, "46.67", printed(perception.Raw, 2), "a perception zero counts alike")
	hard := sheetWith(panelMean, figure(10, "7.0 HZ 7.0")).Score()
	assert.Equal(t, "70", exactly(hard.Raw), "one hard zero of three is filled")
}

// knownFlight is a flight before five judges with a hard zero, an AV, a mark
// that is missing, positioning and two penalties; maximum 800. [derived]
func knownFlight(style scoring.Style) scoring.Sheet {
	sheet := sheetWith(style,
		figure(10+4, "8.0 7.5 8.0 8.5 7.5"),
		figure(17+6, "7.0 HZ 6.5 7.0 AV"),
		figure(14, "6.5 6.0 7.0 6.5 6.0"),
		figure(9, "8.0 8.0 8.5 8.0 -"),
		positioning(20, "8.0 7.5 8.0 8.0 8.5"),
	)
	sheet.Penalties = []scoring.Decimal{{Units: 20}, {Units: 30}}
	return sheet
}

// [derived]
func TestKnownFlight(t *testing.T) {
	score := knownFlight(panelMean).Score()
	assert.Equal(t, "70859/120", exactly(score.Raw))
	assert.Equal(t, "590.4917", printed(score.Raw, 4))
	assert.Equal(t, "540.4917", printed(score.Points, 4))
	assert.Equal(t, 800, score.Maximum)
	assert.Equal(t, "67.56", printed(score.Percent, 2))
	for j, want := range []string{"596.00", "568.17", "596.00", "603.00", "589.29"} {
		assert.Equal(t, want, printed(score.JudgeTotals[j], 2), "judge %d", j+1)
	}
}

// [derived]; that a judge's own total still counts the dropped marks: [common
// practice].
func TestKnownFlightDropExtremes(t *testing.T) {
	score := knownFlight(dropExtremes).Score()
	assert.Equal(t, "42419/72 38819/72", exactly(score.Raw, score.Points))
	assert.Equal(t, "589.15", printed(score.Raw, 2))
	assert.Equal(t, "539.15", printed(score.Points, 2))
	assert.Equal(t, exactly(knownFlight(panelMean).Score().JudgeTotals...), exactly(score.JudgeTotals...))
}

// [derived]: the printed official total against the exact one.
func TestKnownFlightAgreesWithPrinted(t *testing.T) {
	points := knownFlight(panelMean).Score().Points
	for text, want := range map[string]bool{"540.5": true, "540.4": false} {
		official, ok := scoring.ParseDecimal(text)
		require.True(t, ok)
		assert.Equal(t, want, scoring.Agrees(points, official), text)
	}
}
