package answers_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/season"
	"boxbook/season/ledger"
)

const flightHead = `
pilot ines
  name  "Ines Halloran"
contest spring 2026-04-18
  name "Longmere Spring"
rules ours
  like           panel-mean
  drop-extremes  yes
  fill-rounding  0.5
sequence s
  category  intermediate
  1         5.2.1.1:17 9.1.1.1:6   "stall turn"
  2         K 14 2-rolling 9.1
  3         K 10
  positioning K 10
`

// flightsOf reads the flights of a ledger that begins with the head.
func flightsOf(t *testing.T, text string) []answers.Flight {
	t.Helper()
	today, _ := season.ParseDate("2026-12-01")
	result, err := ledger.Load(ledger.Options{
		Files: ledger.Memory{"book.boxbook": flightHead + text}, Main: "book.boxbook", Builtin: data.Builtin(), AsOf: today,
	})
	require.NoError(t, err)
	require.NoError(t, result.Diagnostics.Err())
	flights := make([]answers.Flight, len(result.Ledger.Flights))
	for i, f := range result.Ledger.Flights {
		flights[i] = answers.FlightOf(f)
	}
	return flights
}

// What each mark is and what became of it are codes, with the values that the
// judges' own sheets count.
func TestMarkCells(t *testing.T) {
	d := flightsOf(t, `flight 2026-05-01 ines known
  sequence s
  rules ours
  panel A B C D E
  1 7 HZ 8 AV PZ
  2 CHZ 8 8 8 -
  3 HZ HZ 8 9 -
  positioning 8 8 8 8 9
`)[0]
	number := func(value float64) report.Number { return report.Float(value) }
	text := func(cells []answers.MarkCell) [][4]any {
		var out [][4]any
		for _, c := range cells {
			out = append(out, [4]any{c.Kind, c.Grade.Text(1), c.Value.Text(2), c.Counted})
		}
		return out
	}
	// [derived]: (7 + 8 + 0) / 3 is 5; the highest and the first lowest stand apart.
	assert.Equal(t, [][4]any{
		{answers.Grade, "7.0", "7.00", answers.AsMarked},
		{answers.HardZero, "", "5.00", answers.FilledMark},
		{answers.Grade, "8.0", "8.00", answers.DroppedMark},
		{answers.NotSeen, "", "5.00", answers.FilledMark},
		{answers.PerceptionZero, "", "0.00", answers.DroppedMark},
	}, text(d.Figures[0].Cells))
	assert.Equal(t, number(5).Text(2), d.Figures[0].Fill.Text(2))
	assert.Equal(t, &answers.Vote{HardZeros: 1, Given: 4, Side: answers.MinorityOf}, d.Figures[0].Vote)
	assert.Equal(t, [][4]any{
		{answers.ConfirmedHardZero, "", "0.00", answers.AsMarked},
		{answers.Grade, "8.0", "0.00", answers.OverruledMark},
		{answers.Grade, "8.0", "0.00", answers.OverruledMark},
		{answers.Grade, "8.0", "0.00", answers.OverruledMark},
		{answers.NoMark, "", "0.00", answers.OverruledMark},
	}, text(d.Figures[1].Cells))
	assert.Equal(t, &answers.Vote{HardZeros: 0, Given: 4, Side: answers.MinorityOf, Confirmed: true}, d.Figures[1].Vote)
	assert.Equal(t, [4]any{answers.HardZero, "", "", answers.OpenMark}, text(d.Figures[2].Cells)[0])
	assert.Equal(t, &answers.Vote{HardZeros: 2, Given: 4, Side: answers.HalfOf}, d.Figures[2].Vote)
	assert.Equal(t, answers.RulingUndecided, d.Figures[2].Ruling)
	assert.Nil(t, d.Positioning.Vote)
	assert.Equal(t, answers.RuleStyle{
		Name: "ours", HardZero: answers.Majority, Half: answers.HalfUndecided, FillRounding: answers.ToHalf, DropExtremes: true, DropPanel: 5,
	}, *d.Style)
	assert.False(t, d.RulesDefault)
	assert.True(t, d.Marked)
	assert.False(t, d.Enters, "undecided, without an official total")
}

// A recorded ruling and one that nobody needed are both there as typed.
func TestDecisions(t *testing.T) {
	d := flightsOf(t, "flight 2026-05-01 ines practice\n  sequence s\n  panel A B\n  1 HZ 8\n  2 7 7\n  resolve 1 fill\n")[0]
	assert.Equal(t, []string{answers.RuledFill, answers.RulingResolved}, []string{d.Figures[0].Decision, d.Figures[0].Ruling})
	assert.Equal(t, []string{"", ""}, []string{d.Figures[1].Decision, d.Figures[1].Ruling})
	assert.Equal(t, answers.CountsPractice, d.Counts)
	assert.True(t, d.RulesDefault)
}

// What a fault on an element takes, in grades, what of it is charged and the
// whole loss: 2 of K 23 are 46 of 74.75, and 6 of 23 of the rest [derived].
func TestElementsOfAFigure(t *testing.T) {
	d := flightsOf(t, `flight 2026-05-01 ines practice
  sequence s
  panel A B
  1 7.0 6.5
  2 7 8
  fault 1 line-angle 10deg on 9.1.1.1
`)[0]
	parts := func(e answers.Element) []string {
		return []string{e.K.Text(1), e.Deducted.Text(1), e.Charged.Text(1), e.Lost.Text(2)}
	}
	assert.Equal(t, []string{"17.0", "", "", "21.25"}, parts(d.Figures[0].Elements[0]))
	assert.Equal(t, []string{"6.0", "2.0", "46.0", "53.50"}, parts(d.Figures[0].Elements[1]))
	assert.Equal(t, []string{"7.0", "", "", "17.50"}, parts(d.Figures[1].Elements[0]), "hints share the K")
	open := flightsOf(t, "flight 2026-05-01 ines practice\n  sequence s\n  panel A B\n  1 HZ 6.5\n  fault 1 line-angle 10deg on 9.1.1.1\n")[0]
	assert.Equal(t, []string{"6.0", "2.0", "", ""}, parts(open.Figures[0].Elements[1]), "nothing is lost while it is undecided")
}

// The flight beside its official total, its field, and what it is to a season.
func TestFlightsStanding(t *testing.T) {
	const rows = "  sequence s\n  panel A B missing C\n  1 7 7\n  2 7 7\n  3 7 7\n  positioning 7 7\n"
	flights := flightsOf(t, "flight 2026-04-18 ines known\n  contest spring\n  aircraft \"monoplane\"\n"+rows+
		"  penalty low 20\n  penalty other 2.50\n  official 380.5\n  place 2 of 3\n  field 400 380.5 300\n"+
		"flight 2026-05-02 ines known\n  category intermediate\n  official 380 of 570\n  penalty low 5\n"+
		"flight 2026-05-03 ines known\n"+rows+"  void \"cloud\"\n")
	d := flights[0]
	assert.Equal(t, []string{"Ines Halloran", "Longmere Spring", "monoplane"}, []string{d.PilotName, d.ContestName, d.Aircraft})
	assert.Equal(t, []any{answers.CountsContest, true, 1}, []any{d.Counts, d.Enters, d.Label})
	assert.Equal(t, []any{"22.50", 0, 2}, []any{d.Penalty.Text(2), d.Penalties[0].Decimals, d.Penalties[1].Decimals})
	// [derived]: 57 x 7 = 399 less 22.5 is 376.5, of 570.
	o := d.Official
	assert.Equal(t, []any{"4.00", "", 1, false, "66.75"}, []any{o.LessOwn.Text(2), o.Difference.Text(2), o.Decimals, o.MaximumTyped, o.Percent.Text(2)})
	require.NotNil(t, o.MissingSheets)
	assert.Equal(t, []string{"300", "380.5", "400"}, []string{d.Field.Totals[0].Text(0), d.Field.Totals[1].Text(1), d.Field.Totals[2].Text(0)})
	assert.Equal(t, []string{"400.0", "380.5", "-19.5", "0.0"}, []string{d.Field.Winner.Text(1), d.Field.Median.Text(1), d.Field.ToWinner.Text(1), d.Field.ToMedian.Text(1)})
	bare := flights[1]
	assert.Equal(t, []any{false, true, "5.00", true, ""}, []any{bare.Marked, bare.Enters, bare.Penalty.Text(2), bare.Official.MaximumTyped, bare.Official.LessOwn.Text(2)})
	assert.Nil(t, bare.Field)
	void := flights[2]
	assert.Equal(t, []any{answers.CountsVoid, false, "cloud"}, []any{void.Counts, void.Enters, void.Void})
	assert.Nil(t, void.Record)
}
