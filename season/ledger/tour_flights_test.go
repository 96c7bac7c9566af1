package ledger

import (
	"testing"

	"boxbook/scoring"
	"boxbook/season"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTourContests(t *testing.T) {
	l := tour(t)
	assert.Equal(t, []string{"tarn-open", "lakes-finals", "glider-day"}, named(l.Contests, func(c *season.Contest) string { return c.Handle }))
	tarn := l.ContestNamed("tarn-open")
	assert.Equal(t, "Tarn Valley Open", tarn.Name)
	assert.Equal(t, "Tarn Valley", tarn.Site)
	assert.Equal(t, "2026-04-18", tarn.First.String())
	assert.Equal(t, "2026-04-19", tarn.Last.String())
	assert.Equal(t, "us", tarn.Ladder.Name)
	assert.Equal(t, "panel-mean", tarn.Style.Name)
	assert.Equal(t, []string{"A", "B", "C", "D", "E"}, tarn.Panel)
	points, maximum := decimal(t, "1151.87"), decimal(t, "1600")
	assert.Equal(t, []season.Result{{Pilot: l.PilotNamed("ines"), Points: &points, Maximum: &maximum, Rank: 4, Of: 9}}, tarn.Results)
	assert.Equal(t, []season.Duty{
		{Role: "scribe", Who: season.Party{Pilot: l.PilotNamed("ines")}, Sessions: 2},
		{Role: "boundary", Who: season.Party{Pilot: l.PilotNamed("tobias")}, Sessions: 1}, // one if left out
	}, tarn.Duties)

	finals := l.ContestNamed("lakes-finals")
	assert.Equal(t, []season.Result{{Pilot: l.PilotNamed("yuki"), Rank: 1, Of: 3}}, finals.Results)
	gliders := l.ContestNamed("glider-day")
	assert.Equal(t, gliders.First, gliders.Last, "a contest of a single day")
	assert.Equal(t, "as-graded", gliders.Style.Name)
}

func TestTourFlightsByDate(t *testing.T) {
	l := tour(t)
	assert.Equal(t, []string{
		"2024-09-01/ines/free", "2026-04-18/ines/known", "2026-04-19/ines/unknown", "2026-05-02/ines/practice", "2026-05-02/ines/practice/2",
		"2026-05-09/ines/free", "2026-05-16/tobias/free", "2026-05-16/yuki/free", "2026-07-11/mara/known", "2026-08-01/tobias/known",
		"2026-08-02/tobias/free-known", "2026-08-03/tobias/free-unknown", "2026-08-04/tobias/final",
	}, named(l.Flights, func(f *season.Flight) string { return f.Name }))
}

func TestTourRows(t *testing.T) {
	l := tour(t)
	f := flightOf(t, l, "2026-04-18/ines/known")
	assert.Equal(t, l.ContestNamed("tarn-open"), f.Contest)
	assert.Equal(t, l.Sequences[0], f.Sequence)
	assert.Equal(t, "intermediate", f.Category, "the sequence's")
	assert.Equal(t, "two-seat biplane, 200 hp", f.Aircraft, "the pilot's")
	assert.Equal(t, "us", f.Ladder.Name, "the contest's")
	assert.Equal(t, "panel-mean", f.Style.Name)
	assert.False(t, f.StyleDefault)
	assert.Equal(t, []string{"A", "B", "C", "D", "E"}, f.Panel)
	assert.Empty(t, f.Missing)
	require.Equal(t, 4, f.Rows.Len())
	assert.Equal(t, []string{"8.0", "7.5", "8.0", "8.5", "7.5"}, row(f.Rows.Marks(0)))
	assert.Equal(t, []string{"7.0", "HZ", "6.5", "7.0", "AV"}, row(f.Rows.Marks(1)))
	assert.Equal(t, "E was looking at the next pilot", f.Rows.At(1).Remark)
	assert.Equal(t, []string{"6.5", "6.0", "7.0", "6.5", "6.0"}, row(f.Rows.Marks(2)))
	assert.Equal(t, []string{"8.0", "8.0", "8.5", "8.0", "-"}, row(f.Rows.Marks(3)))
	assert.Equal(t, []string{"8.0", "7.5", "8.0", "8.0", "8.5"}, row(f.Positioning.Marks))
	assert.Nil(t, f.Harmony)
	assert.Equal(t, []season.Penalty{
		{Kind: "low", Points: decimal(t, "20")},
		{Kind: "interruption", Points: decimal(t, "30"), Remark: "second break"},
	}, f.Penalties)
	assert.Equal(t, 3, f.Rank)
	assert.Equal(t, 4, f.Of)
	assert.Equal(t, []string{"612.25", "577.00", "540.49", "498.75"}, named(f.Field, scoring.Decimal.String))
	assert.Equal(t, []string{"596.0", "568.17", "596.0", "603.0", "589.29"}, named(f.JudgeTotals, scoring.Decimal.String))
	assert.Equal(t, []string{"18 kt across the box", "two breaks asked for, one given"}, f.Notes)
	assert.Equal(t, "540.49", f.Official.Points.String())
	assert.Equal(t, "800", f.Official.Maximum.String(), "10 x the sequence's K")
	assert.False(t, f.Official.Typed)
	assert.Nil(t, f.Void)
	// [derived]: raw 590.4917, less penalties of 50.
	assert.Equal(t, []string{"590.4917", "540.4917", "67.56"},
		[]string{f.Score().Raw.FloatString(4), f.Score().Points.FloatString(4), f.Score().Percent.FloatString(2)})
}

// Faults in order: the flight's own, then its review's.
func TestTourFaults(t *testing.T) {
	l := tour(t)
	f := flightOf(t, l, "2026-04-18/ines/known")
	marek := l.Coaches[0]
	kind := func(name string) *season.FaultKind { return kindOfName(t, l, name) }
	none := season.Amount{Times: 1}
	degrees := func(value, text string) season.Amount {
		return season.Amount{Unit: season.Degrees, Value: decimal(t, value), Times: 1, Text: text}
	}
	assert.Equal(t, []season.Fault{
		{Figure: 2, Kind: kind("line-angle"), Amount: degrees("10", "10deg"), On: "9.1.1.1", Remark: "drawn at eighty"},
		{Figure: 1, Kind: kind("pull-rate"), Amount: none, Felt: true, Remark: "waits, then snatches"},
		{
			Figure: 3, Kind: kind("line-length"), By: marek,
			Amount: season.Amount{Unit: season.Ratio, Value: decimal(t, "2"), Second: decimal(t, "1"), Times: 1, Text: "2:1"},
		},
		{Figure: 0, Kind: kind("loose-article"), Amount: none, Safety: true, Remark: "canopy catch not latched"},
		{Figure: 2, Kind: kind("roll-stop"), Amount: degrees("5", "5deg"), On: "9.1.1.1", By: marek, Remark: "wings level a moment too late"},
		{Figure: 1, Kind: kind("radius"), Amount: season.Amount{Times: 2, Text: "2x"}, By: marek, Remark: "egg-shaped: tight, wide, tight"},
	}, f.Faults)
	assert.Equal(t, []season.Review{{By: marek}, {By: marek, Notes: []string{"the same two faults as last year"}}}, f.Reviewed)
}

// Sheets, one a judge, are turned into rows; a judge whose sheet is not to hand
// has no column.
func TestTourSheets(t *testing.T) {
	f := flightOf(t, tour(t), "2026-04-19/ines/unknown")
	assert.Equal(t, []string{"A", "B", "C"}, f.Panel)
	assert.Equal(t, []string{"D"}, f.Missing)
	require.Equal(t, 4, f.Rows.Len())
	assert.Equal(t, []string{"8.0", "7.5", "8.0"}, row(f.Rows.Marks(0)))
	assert.Equal(t, []string{"7.0", "7.0", "6.5"}, row(f.Rows.Marks(1)))
	assert.Equal(t, []string{"6.5", "6.0", "7.0"}, row(f.Rows.Marks(2)))
	assert.Equal(t, []string{"8.0", "8.0", "7.5"}, row(f.Rows.Marks(3)))
	assert.Equal(t, []string{"8.0", "7.5", "8.0"}, row(f.Positioning.Marks))
	assert.Len(t, f.Faults, 2, "both are its review's")
	assert.Equal(t, "9.11.1.4", f.Faults[1].On)
	require.Len(t, f.Reviewed, 1)
}

// In practice only what was flown has a row, and only its K is in the maximum.
func TestTourPractice(t *testing.T) {
	l := tour(t)
	first := flightOf(t, l, "2026-05-02/ines/practice")
	assert.Equal(t, []string{"marek"}, first.Panel)
	assert.Equal(t, []int{2, 3}, first.Flown())
	assert.Equal(t, 370, first.Maximum(), "derived: 10 x (17 + 20)")
	assert.Equal(t, 1, first.Label)
	assert.True(t, first.StyleDefault)
	assert.Equal(t, season.DefaultStyle, first.Style.Name)
	assert.Equal(t, "us", first.Ladder.Name, "the first shipped ladder that has the category")
	second := flightOf(t, l, "2026-05-02/ines/practice/2")
	assert.Equal(t, 2, second.Label)
	require.Len(t, second.Closed, 1)
	assert.Equal(t, []any{kindOfName(t, l, "loose-article"), "canopy catch replaced"}, []any{second.Closed[0].Kind, second.Closed[0].Remark})
	assert.Equal(t, 140, second.Maximum())
}

// What a flight says of its own goes before contest, sequence and pilot; marks
// are read in any case, with a comma for the point.
func TestTourOverrides(t *testing.T) {
	l := tour(t)
	f := flightOf(t, l, "2026-05-16/tobias/free")
	assert.Equal(t, "borrowed two-seat trainer", f.Aircraft)
	assert.Equal(t, "us", f.Ladder.Name)
	assert.Equal(t, "lakes-rules", f.Style.Name)
	assert.Equal(t, []string{"AK", "BM", "CT", "DW"}, f.Panel)
	assert.Equal(t, []string{"7.0", "6.5", "7.5", "7.0"}, row(f.Rows.Marks(0)))
	assert.Equal(t, []string{"HZ", "6.0", "HZ", "6.5"}, row(f.Rows.Marks(1)))
	require.Len(t, f.Rulings, 1)
	ruling := f.Rulings[0]
	assert.Equal(t, "figure 2", ruling.Name())
	assert.Equal(t, scoring.RuledFill, ruling.Decision)
	assert.Equal(t, "the chief judge saw the right exit", ruling.Remark)
	assert.Equal(t, []season.Review{{}}, f.Reviewed)
	require.Len(t, f.Faults, 4)
	assert.Equal(t, season.Amount{Unit: season.Points, Value: decimal(t, "1.5"), Times: 1, Text: "1.5pt"}, f.Faults[1].Amount)
	assert.Equal(t, season.Amount{Unit: season.Span, Value: decimal(t, "1.5"), Times: 1, Text: "1.5span"}, f.Faults[2].Amount)
	assert.Equal(t, season.Amount{Times: 3, Text: "3x"}, f.Faults[3].Amount)
	assert.True(t, f.Faults[3].Felt)

	yuki := flightOf(t, l, "2026-05-16/yuki/free")
	assert.Equal(t, []string{"CHZ", "-", "6.5", "5.0", "AV"}, row(yuki.Rows.Marks(1)), "`a` is read as AV")
	assert.Equal(t, []string{"7.5", "7.0", "PZ", "7.5", "7.5"}, row(yuki.Rows.Marks(2)))
	assert.Equal(t, "lakes-extremes", yuki.Style.Name)
	assert.Equal(t, "lakes", yuki.Ladder.Name)
	assert.Equal(t, "blown towards the line", yuki.Faults[0].Remark)
	require.Len(t, yuki.Faults, 4)
	assert.True(t, yuki.Faults[2].Safety)
	assert.True(t, yuki.Faults[3].Felt, "a kind that is felt")

	mara := flightOf(t, l, "2026-07-11/mara/known")
	assert.Equal(t, []string{"6.0", "6.5", "6.0"}, row(mara.Harmony.Marks))
	assert.True(t, mara.Official.Typed)
	assert.Equal(t, "510", mara.Official.Maximum.String())
}

// Flights without a row of marks.
func TestTourWithoutMarks(t *testing.T) {
	l := tour(t)
	void := flightOf(t, l, "2026-05-09/ines/free")
	require.NotNil(t, void.Void)
	assert.Equal(t, "cloud on the downline, reflown", *void.Void)
	assert.False(t, void.Counts())
	place := flightOf(t, l, "2026-08-01/tobias/known")
	assert.Equal(t, []int{2, 5}, []int{place.Rank, place.Of})
	assert.False(t, place.HasMarks())
	assert.Equal(t, season.NoRecord, place.Record().Source)
	seen := flightOf(t, l, "2026-08-02/tobias/free-known")
	assert.Equal(t, []season.Review{{By: l.Coaches[0]}}, seen.Reviewed)
	noted := flightOf(t, l, "2026-08-03/tobias/free-unknown")
	assert.Equal(t, []string{"sheets lost, total never printed"}, noted.Notes)
	printed := flightOf(t, l, "2024-09-01/ines/free")
	assert.Equal(t, "1890.25", printed.Official.Points.String())
	assert.Equal(t, "2450", printed.Official.Maximum.String())
	assert.Nil(t, printed.Sequence)
	assert.Equal(t, "intermediate", printed.Category)
}
