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
	"boxbook/season/internal/testkit"
)

// panelContest is a contest with one flight of ines.
func panelContest(date, handle, panel string, rows ...string) string {
	return fmt.Sprintf("contest %s %s\n", handle, date) +
		strings.Replace(sheetOf(date+" ines known", panel, rows...), "\n", "\n  contest "+handle+"\n", 1)
}

var fiveRows = []string{"7 6.5 7.5", "6 6 7", "8 7 8", "7 6 7", "6.5 6.5 7"}

// seatedName is a judge's name with where a seat was.
func seatedName(j analysis.SeasonJudge) string {
	if j.At == "" {
		return j.Name
	}
	return j.Name + " at " + j.At
}

func judgeNames(p analysis.Panels) []string {
	var list []string
	for _, j := range p.Judges {
		list = append(list, fmt.Sprintf("%d %s %d/%d", j.Part, seatedName(j), j.Flights, j.Grades))
	}
	return list
}

// Judges stand in the order in which they first sat, as the page says, not by name or
// by how they grade.
func TestJudgesStandAsTheyFirstSat(t *testing.T) {
	l := testkit.BookOf(t, panelHead()+
		panelContest("2026-04-18", "one", "DW AK CT", fiveRows...)+
		panelContest("2026-05-16", "two", "HO AK BM", fiveRows...))
	assert.Equal(t, []string{"1 DW 1/5", "1 AK 2/10", "1 CT 1/5", "1 HO 1/5", "1 BM 1/5"}, judgeNames(analysis.PanelsOf(l, season.Selection{})))
}

// A seat means a person only within its contest; any longer name is the same
// person throughout. Those who never sat together are not compared.
func TestPanelsJoinPersonsNotSeats(t *testing.T) {
	l := testkit.BookOf(t, panelHead()+
		panelContest("2026-04-18", "one", "A J2 AK", fiveRows...)+
		panelContest("2026-05-16", "two", "A J2 BM", fiveRows...))
	assert.Equal(t, []string{
		"1 A at one 1/5", "1 J2 at one 1/5", "1 AK 1/5",
		"2 A at two 1/5", "2 J2 at two 1/5", "2 BM 1/5",
	}, judgeNames(analysis.PanelsOf(l, season.Selection{})), "seats alone connect nothing")

	l = testkit.BookOf(t, panelHead()+
		panelContest("2026-04-18", "one", "A B AK", fiveRows...)+
		panelContest("2026-05-16", "two", "A B AK", fiveRows...)+
		panelContest("2026-06-13", "three", "CT DW JX", fiveRows...))
	p := analysis.PanelsOf(l, season.Selection{})
	assert.Equal(t, []string{
		"1 A at one 1/5", "1 B at one 1/5", "1 AK 2/10", "1 A at two 1/5", "1 B at two 1/5",
		"2 CT 1/5", "2 DW 1/5", "2 JX 1/5",
	}, judgeNames(p), "AK joins the first two; J and letters is a person")
	require.Len(t, p.Parts, 2)
	for part := range p.Parts {
		sum := 0.0
		for _, j := range p.Judges {
			if j.Part == part+1 {
				sum += j.Raw
			}
		}
		assert.InDelta(t, 0, sum, 1e-9, "each part about its own mean")
	}

	// Through a chain: AK with BM, BM with CT.
	l = testkit.BookOf(t, panelHead()+
		panelContest("2026-04-18", "one", "AK DW BM", fiveRows...)+
		panelContest("2026-05-16", "two", "EV CT BM", fiveRows...))
	assert.Len(t, analysis.PanelsOf(l, season.Selection{}).Parts, 1)
}

// A seat of a flight without a contest is of that flight alone.
func TestJudgesAndSeats(t *testing.T) {
	l := testkit.BookOf(t, panelHead()+panelContest("2026-04-18", "one", "A J12 Ä", fiveRows...)+
		sheetOf("2026-05-02 yuki known", "A JJ J-1", fiveRows...))
	var names []string
	for _, j := range analysis.PanelsOf(l, season.Selection{}).Judges {
		names = append(names, seatedName(j))
	}
	assert.Equal(t, []string{
		"A at one", "J12 at one", "Ä at one", "A at 2026-05-02/yuki/known", "JJ", "J-1",
	}, names)
}

// Practice and void flights are out; so are flights after the day that counts
// as today, and those without marks.
func TestPanelsOfContestFlightsAlone(t *testing.T) {
	book := panelHead() + panelContest("2026-04-18", "one", "AK BM CT", fiveRows...)
	want := analysis.PanelsOf(testkit.BookOf(t, book), season.Selection{})
	more := sheetOf("2026-05-02 ines practice", "AK BM CT", fiveRows...) +
		sheetOf("2026-05-03 ines free", "AK BM CT", fiveRows...) + "  void \"cloud\"\n" +
		sheetOf("2026-12-24 ines free", "AK BM CT", fiveRows...) +
		"flight 2026-05-04 ines final\n  category sportsman\n  official 60 of 100\n"
	got := analysis.PanelsOf(testkit.BookOf(t, book+more), season.Selection{})
	require.Len(t, got.Flights, 1)
	assert.Equal(t, judgeNames(want), judgeNames(got))
	for i := range want.Judges {
		assert.InDelta(t, want.Judges[i].Leniency, got.Judges[i].Leniency, 1e-12)
	}
}

// Flagged grades are out of the season's table too.
func TestPanelsSetFlagsAside(t *testing.T) {
	rows, grades := twoWay(t)
	p := analysis.PanelsOf(testkit.BookOf(t, panelHead()+panelContest("2026-04-18", "one", "AK BM CT DW EV", rows...)), season.Selection{})
	require.Len(t, p.Flags, 1)
	grades[3][2] = math.NaN()
	_, _, judges, sigma := alternating(grades)
	for i, j := range p.Judges {
		assert.InDelta(t, judges[i], j.Raw, 1e-9, j.Name)
		assert.LessOrEqual(t, math.Abs(j.Leniency), math.Abs(j.Raw), "drawn towards 0")
	}
	assert.InDelta(t, sigma, p.Parts[0].Scatter, 1e-9)
	assert.Equal(t, 5, p.Judges[2].Grades)
}

// A part whose judges differ by no more than chance says so: the component is
// 0, and every leniency with it.
func TestPanelsWithoutLevels(t *testing.T) {
	p := analysis.PanelsOf(testkit.BookOf(t, panelHead()+panelContest("2026-04-18", "one", "AK BM CT",
		"7 6 6.5", "6 7 6.5", "6.5 6.5 8", "7 7.5 5.5", "6.5 6 6.5")), season.Selection{})
	require.Len(t, p.Parts, 1)
	assert.Zero(t, p.Parts[0].Between)
	for _, j := range p.Judges {
		assert.Zero(t, j.Leniency)
	}
}

// A zero where most gave a grade stands alone, and a grade where most gave a zero;
// halves, and what nobody saw, say nothing.
func TestZerosAlone(t *testing.T) {
	l := testkit.BookOf(t, panelHead()+panelContest("2026-04-18", "one", "DW AK CT HO BM",
		"7 6.5 HZ 7 7", "HZ HZ HZ 6.0 PZ", "HZ HZ 7 7 AV", "HZ AV - AV 7", "HZ HZ HZ HZ HZ"))
	var got []string
	for _, z := range analysis.PanelsOf(l, season.Selection{}).Zeros {
		got = append(got, fmt.Sprintf("%s %d %s %s", z.Flight.Name, z.Figure, z.Judge, z.Mark))
	}
	assert.Equal(t, []string{"2026-04-18/ines/known 1 CT HZ", "2026-04-18/ines/known 2 HO 6.0"}, got)
}
