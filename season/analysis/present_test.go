package analysis_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/analysis/code"
	"boxbook/season/internal/testkit"
)

// presentDayZero is day 0 of the check values.
const presentDayZero = "2026-01-10"

// presentBook is a ledger of such totals by themselves, a contest each.
func presentBook(t *testing.T, days []int, percents ...float64) string {
	t.Helper()
	book := "pilot ines\n"
	for i, day := range days {
		book += fmt.Sprintf("flight %s ines free\n  category sportsman\n  official %g of 100\n", testkit.Day(t, presentDayZero)+season.Date(day), percents[i])
	}
	return book
}

// presentOn is where ines stands so many days after presentDayZero.
func presentOn(t *testing.T, book string, day int) analysis.Present {
	t.Helper()
	l := testkit.BookOf(t, book)
	l.AsOf = testkit.Day(t, presentDayZero) + season.Date(day)
	return analysis.PresentOf(l, l.PilotNamed("ines"))
}

var (
	steadyDays  = []int{0, 14, 35, 56, 77, 98, 119, 140}
	steadyGoing = []float64{68.1, 70.4, 66.9, 71.2, 69.5, 67.8, 72.0, 69.9}
)

// Check value A through a ledger: computed by two independent programs, in Python
// and R [derived: two-programs, Python and R].
func TestPresentOfALedger(t *testing.T) {
	present := presentOn(t, presentBook(t, steadyDays, steadyGoing...), 154)
	level, ok := present.Level()
	require.True(t, ok)
	share, ok := present.ShareAt(67, .5)
	require.True(t, ok)
	for _, c := range []struct {
		name      string
		want, got float64
	}{
		{"level", 69.68696585, level.Percent},
		{"low", 68.53233701, level.Low},
		{"high", 70.98862928, level.High},
		{"drift", .24342629, level.Drift},
		{"steady", .73318634, level.Steady},
		{"next, low", 66.86596154, level.Next.Low},
		{"next, high", 72.53840288, level.Next.High},
		{"next at the mark", .88999120, share.Next},
		{"share, low", .68178036, share.Low},
		{"share, high", .99777514, share.High},
		{"sure", .99013492, share.Sure},
	} {
		assert.InDelta(t, c.want, c.got, 1e-8, c.name)
	}
	assert.Equal(t, code.Met, share.State)
	assert.Equal(t, []any{"sportsman", 8, false, false}, []any{present.Category, present.Contests, present.Stale, present.Same})
	assert.Empty(t, present.Qualified())
}

// Check value B through a ledger, two flights a contest over two seasons.
func TestPresentOfContests(t *testing.T) {
	book := "pilot ines\n"
	percents := []float64{60.2, 58.9, 63.5, 61.0, 62.8, 65.1, 66.0, 68.3, 69.9, 67.2, 72.4, 70.8}
	for i, day := range []int{0, 40, 90, 365, 410, 455} {
		on := testkit.Day(t, presentDayZero) + season.Date(day)
		book += fmt.Sprintf("contest c%d %s\n", i, on)
		for j := range 2 {
			book += fmt.Sprintf("flight %s ines free %d\n  contest c%d\n  category sportsman\n  official %g of 100\n", on, j+1, i, percents[2*i+j])
		}
	}
	share, ok := presentOn(t, book, 475).ShareAt(70, .5)
	require.True(t, ok)
	assert.InDelta(t, .94809791, share.Sure, 1e-8)
	assert.InDelta(t, .83128864, share.Next, 1e-8)
	assert.Equal(t, code.CannotTell, share.State, "just")
}

// The series is of contest flights that count and have a result.
func TestPresentSeries(t *testing.T) {
	book := presentBook(t, steadyDays, steadyGoing...)
	for name, more := range map[string]string{
		"void":           "flight 2026-05-01 ines known\n  category sportsman\n  official 20 of 100\n  void \"cloud\"\n",
		"practice":       "flight 2026-05-01 ines practice\n  category sportsman\n  official 20 of 100\n",
		"somebody":       "pilot yuki\nflight 2026-05-01 yuki known\n  category sportsman\n  official 20 of 100\n",
		"no maximum":     "flight 2026-05-01 ines known\n  category sportsman\n  official 20\n",
		"lower category": "flight 2026-05-01 ines known\n  category primary\n  official 20 of 100\n",
		"no category":    "flight 2026-05-01 ines known\n  official 20 of 100\n",
		"later":          "flight 2026-12-01 ines known\n  category sportsman\n  official 20 of 100\n",
	} {
		assert.Len(t, presentOn(t, book+more, 154).Flights, 8, name)
	}
	assert.Len(t, presentOn(t, book+"flight 2026-05-01 ines known\n  category sportsman\n  official 20 of 100\n", 154).Flights, 9)
}

// The window is 730 days, to the day.
func TestPresentWindow(t *testing.T) {
	book := presentBook(t, []int{0, 600, 620, 640, 700}, 60, 61, 62, 63, 64)
	assert.Len(t, presentOn(t, book, 730).Flights, 5)
	assert.Len(t, presentOn(t, book, 731).Flights, 4)
}

// The present category is the highest flown in a contest within the window, not
// the latest; a higher one before it does not count.
func TestPresentCategory(t *testing.T) {
	low := presentBook(t, steadyDays, steadyGoing...)
	high := "flight 2026-02-01 ines known\n  category intermediate\n  official 66 of 100\n"
	assert.Equal(t, "intermediate", presentOn(t, low+high, 154).Category)
	assert.Equal(t, "sportsman", presentOn(t, low+strings.Replace(high, "2026", "2024", 1), 154).Category)
	assert.Equal(t, "sportsman", presentOn(t, low+strings.Replace(high, "known", "practice", 1), 154).Category)
	assert.Equal(t, "sportsman", presentOn(t, low+high+"  void \"wind\"\n", 154).Category)
	own := strings.ReplaceAll(low, "sportsman", "club")
	assert.Equal(t, "club", presentOn(t, own, 154).Category, "of no ladder")
	assert.Equal(t, "", presentOn(t, "pilot ines\n", 154).Category)
}

// A series is of one catalogue, the latest one's; what has no sequence is of no
// other.
func TestPresentCatalogue(t *testing.T) {
	book := "sequence power\n  category sportsman\n  1 K 10\nsequence soarer\n  category sportsman\n  catalogue glider\n  1 K 10\n" +
		presentBook(t, steadyDays, steadyGoing...)
	flown := func(day, sequence string) string {
		return fmt.Sprintf("flight %s ines unknown\n  sequence %s\n  official 66 of 100\n", day, sequence)
	}
	assert.Len(t, presentOn(t, book+flown("2026-02-01", "power")+flown("2026-03-01", "soarer"), 154).Flights, 9)
	assert.Len(t, presentOn(t, book+flown("2026-02-01", "power")+flown("2026-03-01", "power"), 154).Flights, 10)
}

// Under four flights or three contests nothing is known; three contests say so
// and meet no gate; four meet one from eight flights on.
func TestPresentOfFew(t *testing.T) {
	// book has so many flights at so many contests, all far above the mark.
	book := func(flights, contests int) string {
		text := "pilot ines\n"
		for c := range contests {
			text += fmt.Sprintf("contest c%d %s\n", c, testkit.Day(t, presentDayZero)+season.Date(20*c))
		}
		for i := range flights {
			c := i % contests
			text += fmt.Sprintf("flight %s ines free %d\n  contest c%d\n  category sportsman\n  official %g of 100\n",
				testkit.Day(t, presentDayZero)+season.Date(20*c), 1+i/contests, c, 80+.3*float64(i%3))
		}
		return text
	}
	for _, c := range []struct {
		flights, contests int
		reason            code.Reason
		state             code.GateState
		qualified         []code.Reason
	}{
		{3, 3, code.FewFlights, "", nil},
		{4, 2, code.FewContests, "", nil},
		{12, 2, code.FewContests, "", nil},
		{4, 3, "", code.CannotTell, []code.Reason{code.NoDriftSeen}},
		{12, 3, "", code.CannotTell, []code.Reason{code.NoDriftSeen}},
		{4, 4, "", code.CannotTell, nil},
		{7, 4, "", code.CannotTell, nil},
		{8, 4, "", code.Met, nil},
		{5, 5, "", code.Met, nil},
	} {
		name := fmt.Sprintf("%d flights at %d contests", c.flights, c.contests)
		present := presentOn(t, book(c.flights, c.contests), 20*c.contests)
		require.Equal(t, c.reason, present.Reason, name)
		assert.Equal(t, c.qualified, present.Qualified(), name)
		share, known := present.ShareAt(60, .5)
		_, level := present.Level()
		assert.Equal(t, c.reason == "", known && level, name)
		assert.Equal(t, c.state, share.State, name)
		assert.Equal(t, c.state == code.CannotTell, share.Few, name)
		below, _ := present.ShareAt(99, .5)
		if known {
			assert.Equal(t, code.NotMet, below.State, "what is surely not reached needs no more contests")
		}
	}
}

// A day more than half the span, or more than 90 days, after the last flight has
// the level of the last flight.
func TestPresentStale(t *testing.T) {
	short := presentBook(t, []int{0, 20, 40, 60, 80}, 60, 61, 62, 63, 64)
	long := presentBook(t, []int{0, 100, 200, 300, 400}, 60, 61, 62, 63, 64)
	for _, c := range []struct {
		book      string
		last, day int
		stale     bool
	}{
		{short, 80, 120, false}, {short, 80, 121, true}, {long, 400, 490, false}, {long, 400, 491, true},
	} {
		present := presentOn(t, c.book, c.day)
		require.Equal(t, c.stale, present.Stale)
		at, _ := presentOn(t, c.book, c.last).Level()
		on, _ := present.Level()
		assert.Equal(t, c.stale, at == on)
		assert.Equal(t, c.stale, slices.Contains(present.Qualified(), code.TooLongAfter))
		day := testkit.Day(t, presentDayZero) + season.Date(c.day)
		assert.Equal(t, !c.stale, present.On == day)
	}
}

// Waiting makes nobody better: the slope runs on for 30 days, and the range only
// widens.
func TestPresentWaiting(t *testing.T) {
	rising := presentBook(t, []int{0, 60, 120, 180, 240, 300, 360}, 60, 62, 63, 66, 67, 70, 71)
	before, ok := presentOn(t, rising, 390).Level()
	require.True(t, ok)
	for day := 400; day <= 450; day += 10 {
		level, ok := presentOn(t, rising, day).Level()
		require.True(t, ok)
		assert.InDelta(t, before.Percent, level.Percent, .05)
		assert.Greater(t, level.Next.High-level.Next.Low, before.Next.High-before.Next.Low)
	}
}

// For a season that is over it is as of its last day.
func TestPresentAtEnd(t *testing.T) {
	book := presentBook(t, []int{0, 60, 120, 340, 370, 400}, 60, 61, 62, 63, 70, 80)
	l := testkit.BookOf(t, book)
	l.AsOf = testkit.Day(t, presentDayZero) + 410
	then := analysis.PresentOf(analysis.PresentAtEnd(l, 2026), l.PilotNamed("ines"))
	require.Len(t, then.Flights, 4)
	l.AsOf = testkit.Day(t, "2026-12-31")
	want, _ := analysis.PresentOf(l, l.PilotNamed("ines")).Level()
	got, ok := then.Level()
	require.True(t, ok)
	assert.Equal(t, want, got)
	l.AsOf = testkit.Day(t, presentDayZero) + 200
	assert.Same(t, l, analysis.PresentAtEnd(l, 2026), "it is not over")
	assert.Same(t, l, analysis.PresentAtEnd(l, 0))
}

// Equal scores have numbers, and say so; ranges stay within 0 and 100.
func TestPresentSameScoreAndEnds(t *testing.T) {
	present := presentOn(t, presentBook(t, []int{0, 20, 40, 60, 80}, 100, 100, 100, 100, 100), 90)
	level, ok := present.Level()
	require.True(t, ok)
	assert.Equal(t, []code.Reason{code.SameScore}, present.Qualified())
	assert.LessOrEqual(t, level.Next.High, 100.0)
	assert.LessOrEqual(t, level.High, 100.0)
	assert.Less(t, level.Next.Low, 100.0)
}

func BenchmarkPresentAndGate(b *testing.B) {
	var text strings.Builder
	text.WriteString("pilot ines\n")
	first := testkit.Day(b, presentDayZero)
	for i := range 20 {
		day := first + season.Date(35*i)
		fmt.Fprintf(&text, "contest c%d %s\n", i, day)
		for j := range 2 {
			fmt.Fprintf(&text, "flight %s ines free %d\n  contest c%d\n  category sportsman\n  official %d of 100\n", day, j+1, i, 58+(7*i+3*j)%9)
		}
	}
	l := testkit.BookOf(b, text.String())
	l.AsOf = first + 700
	for b.Loop() {
		present := analysis.PresentOf(l, l.PilotNamed("ines"))
		_, known := present.Level()
		require.True(b, known)
		_, known = present.ShareAt(60, .6)
		require.True(b, known)
	}
}

// A fall of a point and a half a month that has come near the mark: by the weight
// that steady form has the level is surely above it, and were the form known to
// move it would not be. Both are said.
func TestPresentDoubtsWhatOnlySteadyFormMeets(t *testing.T) {
	falling := presentOn(t, presentBook(t, steadyDays, 70.1, 69.2, 69.9, 68.1, 68.8, 67.2, 68.0, 66.5), 154)
	share, ok := falling.ShareAt(65.6, .5)
	require.True(t, ok)
	require.Equal(t, code.Met, share.State)
	assert.Less(t, share.SureMoving, .95)
	assert.True(t, share.Doubted())

	steady := presentOn(t, presentBook(t, steadyDays, steadyGoing...), 154)
	share, ok = steady.ShareAt(60, .5)
	require.True(t, ok)
	assert.False(t, share.Doubted(), "so far above the mark no fall hides")
}

// Flights in two heaps, one just below the mark: the mean is far above it, and fewer
// than half of the flights reach it. Made up.
func TestPresentByTheCountOfTwoHeaps(t *testing.T) {
	days := []int{0, 14, 35, 56, 77, 98, 119, 140, 161, 182, 203, 224}
	heaps := presentOn(t, presentBook(t, days, 58, 85, 59, 84, 58, 59, 58, 85, 59, 86, 58, 85), 230)
	share, ok := heaps.ShareAt(60, .5)
	require.True(t, ok)
	require.Greater(t, share.Sure, .95, "by the level alone it is met")
	assert.Equal(t, []any{code.CannotTell, true, 9}, []any{share.State, share.CountDiffers, share.Expected})
	assert.False(t, share.Doubted())

	t.Run("the other way round, with a few very low ones", func(t *testing.T) {
		low := presentOn(t, presentBook(t, days, 62, 63, 62, 22, 63, 62, 20, 62, 63, 21, 62, 19), 230)
		share, ok := low.ShareAt(61, .6)
		require.True(t, ok)
		require.Less(t, share.Sure, .05, "by the level alone it is not met")
		assert.Equal(t, []any{code.CannotTell, true}, []any{share.State, share.CountDiffers})
	})
	t.Run("one heap", func(t *testing.T) {
		share, ok := presentOn(t, presentBook(t, steadyDays, steadyGoing...), 154).ShareAt(67, .5)
		require.True(t, ok)
		assert.Equal(t, []any{code.Met, false}, []any{share.State, share.CountDiffers})
	})
	t.Run("a count that is clear", func(t *testing.T) {
		clear := presentOn(t, presentBook(t, days, 85, 85, 85, 84, 58, 85, 58, 85, 85, 86, 85, 84), 230)
		share, ok := clear.ShareAt(60, .5)
		require.True(t, ok)
		assert.Equal(t, code.Met, share.State)
	})
	t.Run("a form that rises", func(t *testing.T) {
		rising := presentOn(t, presentBook(t, days, 48, 50, 51, 54, 55, 57, 59, 61, 62, 64, 66, 67), 230)
		share, ok := rising.ShareAt(60, .5)
		require.True(t, ok)
		assert.Equal(t, code.Met, share.State, "five of twelve reached it, the last five")
	})
}

// What was found: who flies power and gliders at one category was told a level of the
// catalogue flown last alone, without a word, and a forecast of the other's sequence from it.
func TestTwoCataloguesAtOneCategory(t *testing.T) {
	book := "pilot ines\nsequence power-26\n  category sportsman\n  programme known\n  1 7.4.1.1:10\n  2 5.2.1.1:17\n  3 1.2.1.1:8\n" +
		"sequence glider-26\n  category sportsman\n  programme known\n  catalogue glider\n  1 7.4.1.1:12\n  2 5.2.1.1:18\n  3 1.2.1.1:10\n"
	for i := range 6 {
		day := season.Date(20480 + 30*i)
		book += fmt.Sprintf("contest c%d %s..%s\n  panel AK BM\n", i, day, day+1)
		book += fmt.Sprintf("flight %s ines known\n  contest c%d\n  sequence power-26\n  1 5.5 6\n  2 5 5.5\n  3 6 5.5\n", day, i)
		book += fmt.Sprintf("flight %s ines known\n  contest c%d\n  sequence glider-26\n  1 8 7.5\n  2 7.5 8\n  3 8 8.5\n", day+1, i)
	}
	l := testkit.BookOf(t, book)
	l.AsOf = season.Date(20480 + 160)
	ines := l.PilotNamed("ines")
	present := analysis.PresentOf(l, ines)
	assert.Equal(t, []any{6, 6, "glider"}, []any{len(present.Flights), present.Aside, present.Catalogue})
	power := l.SequenceNamed("power-26")
	there := analysis.PresentFor(l, ines, power)
	assert.Equal(t, []any{6, 6, ""}, []any{len(there.Flights), there.Aside, there.Catalogue})
	forecast := analysis.ForecastOf(l, ines, power)
	require.True(t, forecast.Told)
	assert.Less(t, forecast.Percent, 62.0, "from its own flights")
	assert.Equal(t, 6, forecast.Flights)
	assert.Greater(t, analysis.ForecastOf(l, ines, l.SequenceNamed("glider-26")).Percent, 72.0)
	plan := analysis.PlanOf(l, season.Selection{Pilot: ines}, power)
	assert.Equal(t, 6, plan.Flights)
	assert.NotEqual(t, analysis.PlanOf(l, season.Selection{Pilot: ines}, nil).Sequence, power)
}
