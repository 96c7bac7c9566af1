package season_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/internal/testkit"
)

// A record is the official total where it was typed, else the tool's own; both
// stay known.
func TestRecord(t *testing.T) {
	for _, test := range []struct {
		name, more string
		want       string
		computed   string
	}{
		{"computed", "  sequence one\n  1 6\n", "60.00 of 100.00 = 60.00 computed", "60.00"},
		{"official before computed", "  sequence one\n  1 6\n  official 61.5\n", "61.50 of 100.00 = 61.50 official", "60.00"},
		{"official with its own maximum", "  sequence one\n  1 6\n  official 61.5 of 120\n", "61.50 of 120.00 = 51.25 official", "60.00"},
		{"official alone, the maximum from the sequence", "  sequence one\n  official 61.5\n", "61.50 of 100.00 = 61.50 official", "none"},
		{"official alone, a percentage", "  official 67.56 of 100\n", "67.56 of 100.00 = 67.56 official", "none"},
		{"official alone, no maximum known", "  official 1200.5\n", "1200.50 of none = none official", "none"},
		{"official 0", "  sequence one\n  1 6\n  official 0\n", "0.00 of 100.00 = 0.00 official", "60.00"},
		{"penalties beyond the marks", "  sequence one\n  1 6\n  penalty low 70\n", "0.00 of 100.00 = 0.00 computed", "0.00"},
		{"undecided", "  sequence one\n  panel A B\n  1 HZ 6\n", "nothing", "none"},
		{"undecided, with an official", "  sequence one\n  panel A B\n  1 HZ 6\n  official 60\n", "60.00 of 100.00 = 60.00 official", "none"},
		{"decided by a ruling", "  sequence one\n  panel A B\n  1 HZ 6\n  resolve 1 zero\n", "0.00 of 100.00 = 0.00 computed", "0.00"},
		{"nothing but a place", "  place 2\n", "nothing", "none"},
	} {
		t.Run(test.name, func(t *testing.T) {
			f := testkit.BookOf(t, testkit.FieldBook+"flight 2026-04-18 ines known\n  contest cup\n  category sportsman\n"+test.more).Flights[0]
			assert.Equal(t, test.want, testkit.RecordText(f.Record()))
			assert.Equal(t, testkit.Text(f.Record().Points), testkit.Text(f.RecordPoints()))
			assert.Equal(t, test.computed, testkit.Text(f.Score().Points), "the tool's own")
		})
	}
}

// In practice only what was flown has a row, and only its K is in the maximum.
func TestPracticeMaximum(t *testing.T) {
	const setup = `
pilot ines
sequence four
  category sportsman
  1 K 10
  2 K 20
  3 K 30
  positioning K 5
  harmony K 7
`
	practice := func(rows string) *season.Flight {
		return testkit.BookOf(t, setup+"flight 2026-04-18 ines practice\n  sequence four\n  panel A\n"+rows).Flights[0]
	}
	f := practice("  3 8\n  1 6\n")
	assert.Equal(t, []int{0, 2}, f.Flown(), "in the sequence's order")
	assert.Equal(t, 400, f.Maximum())
	assert.Equal(t, "300.00", testkit.Text(f.Score().Points), "derived: 10 x 6 + 30 x 8")
	assert.False(t, f.Contested())
	f = practice("  positioning 8\n")
	assert.True(t, f.HasMarks())
	assert.Equal(t, 50, f.Maximum())
	f = practice("  note \"no sheet\"\n")
	assert.False(t, f.HasMarks())
	assert.Equal(t, 720, f.Maximum(), "nothing says what was flown: the whole sequence")
	assert.Equal(t, scoring.Score{}, f.Score())
}

// A sheet has the flown figures in order, then positioning, then harmony,
// whatever the order of the rows.
func TestSheet(t *testing.T) {
	f := testkit.BookOf(t, `
pilot ines
sequence three
  category sportsman
  positioning K 5
  1 K 10
  harmony K 7
  2 K 20
flight 2026-04-18 ines known
  sequence three
  rules as-graded
  harmony 5 6
  2 7 HZ
  positioning 8 -
  1 9 AV
  penalty low 10
  penalty out 2,5
  resolve positioning zero
  panel A B
`).Flights[0]
	sheet := f.Sheet()
	assert.Equal(t, 2, sheet.Judges)
	assert.Equal(t, "as-graded", sheet.Style.Name)
	require.Len(t, sheet.Lines, 4)
	marks := func(line scoring.Line) (list []string) {
		for _, m := range line.Marks {
			list = append(list, m.String())
		}
		return list
	}
	for i, want := range []struct {
		kind  scoring.LineKind
		k     int
		marks []string
	}{
		{scoring.Figure, 10, []string{"9.0", "AV"}},
		{scoring.Figure, 20, []string{"7.0", "HZ"}},
		{scoring.Positioning, 5, []string{"8.0", "-"}},
		{scoring.Harmony, 7, []string{"5.0", "6.0"}},
	} {
		assert.Equal(t, want.kind, sheet.Lines[i].Kind)
		assert.Equal(t, want.k, sheet.Lines[i].K)
		assert.Equal(t, want.marks, marks(sheet.Lines[i]))
	}
	assert.Equal(t, scoring.RuledZero, sheet.Lines[2].Decision)
	assert.Equal(t, scoring.NoDecision, sheet.Lines[0].Decision)
	assert.Equal(t, "12.50", testkit.Text(f.Score().Penalty))
	// [derived], hard zeros as given: 90 + 70 + 40 + 38.5 = 238.5 of 420, less 12.5.
	assert.Equal(t, "226.00", testkit.Text(f.Score().Points))
	assert.Equal(t, 420, f.Score().Maximum)
}

func TestMarksOf(t *testing.T) {
	f := testkit.BookOf(t, testkit.FlightOver("6", "")).Flights[0]
	assert.Equal(t, []scoring.Mark{scoring.GradeOf(12)}, f.MarksOf(scoring.Figure, 1))
	assert.Nil(t, f.MarksOf(scoring.Figure, 0))
	assert.Nil(t, f.MarksOf(scoring.Figure, 2))
	assert.Nil(t, f.MarksOf(scoring.Positioning, 0))
	assert.Nil(t, f.MarksOf(scoring.Harmony, 0))
}

// A score is worked out once: whoever asks gets the same numbers.
func TestScoreIsWorkedOutOnce(t *testing.T) {
	f := testkit.BookOf(t, testkit.FlightOver("6", "")).Flights[0]
	assert.Same(t, f.Score().Points, f.Score().Points)
}

func TestRulingName(t *testing.T) {
	assert.Equal(t, "figure 3", season.Ruling{Figure: 3}.Name())
	assert.Equal(t, "positioning", season.Ruling{Line: scoring.Positioning}.Name())
	assert.Equal(t, "harmony", season.Ruling{Line: scoring.Harmony}.Name())
}
