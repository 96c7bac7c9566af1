package analysis_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit"
)

// simulatedJudge is a judge of a made season: level and scatter in grades, and in how
// many of its flights.
type simulatedJudge struct {
	name           string
	level, scatter float64
	flights        int
}

// judgedSeason is a season of flights of eight figures, marked in halves.
func judgedSeason(t testing.TB, flights int, judges []simulatedJudge, seed uint64) analysis.Panels {
	t.Helper()
	draw := rand.New(rand.NewPCG(seed, 7))
	var b strings.Builder
	b.WriteString(panelHead())
	for n := range flights {
		var panel []simulatedJudge
		for i, j := range judges {
			if (n+i)%flights < j.flights {
				panel = append(panel, j)
			}
		}
		names, rows := make([]string, len(panel)), make([]string, 8)
		for i, j := range panel {
			names[i] = j.name
		}
		for i := range rows {
			figure := 7 + .6*draw.NormFloat64()
			for _, j := range panel {
				grade := math.Round(2*(figure+j.level+j.scatter*draw.NormFloat64())) / 2
				rows[i] += fmt.Sprintf(" %g", min(10, max(0, grade)))
			}
		}
		b.WriteString(panelContest(fmt.Sprintf("2026-%02d-18", n+3), fmt.Sprintf("c%d", n), strings.Join(names, " "), rows...))
	}
	return analysis.PanelsOf(testkit.BookOf(t, b.String()), season.Selection{})
}

// calledApart is how often a judge of made seasons is said to be apart.
func calledApart(t testing.TB, flights int, judges []simulatedJudge, name string, seasons int) float64 {
	t.Helper()
	called := 0
	for seed := range seasons {
		for _, j := range judgedSeason(t, flights, judges, uint64(seed)).Judges {
			if j.Name == name && j.Apart {
				called++
			}
		}
	}
	return 100 * float64(called) / float64(seasons)
}

// A judge at the panel's level whose grades scatter twice as much as the others' is
// said to be apart from it by no more than chance allows, and an ordinary lenient
// judge is found about as often as by one scatter for all. By one scatter for all the
// scattered judge was called in 14 to 29% of seasons.
func TestScatteredJudgeIsNotCalledLenient(t *testing.T) {
	const seasons = 400
	slack := 100 * 2.5 * math.Sqrt(analysis.JudgeChance*(1-analysis.JudgeChance)/seasons)
	for name, flights := range map[string]int{"a season": 6, "two flights": 2} {
		for _, scatter := range []float64{.4, .8, 1.2} {
			panel := []simulatedJudge{
				{"AK", .5, .4, flights}, {"BM", 0, .4, flights}, {"CT", -.2, .4, flights}, {"DW", -.3, .4, flights/2 + 1}, {"XN", 0, scatter, flights},
			}
			got := calledApart(t, flights, panel, "XN", seasons)
			t.Logf("%s, scatter %g: the level judge is called in %.1f%%", name, scatter, got)
			assert.LessOrEqual(t, got, 100*analysis.JudgeChance+slack, "%s, scatter %g", name, scatter)
		}
	}
	panel := []simulatedJudge{{"AK", .3, .4, 4}, {"BM", 0, .4, 4}, {"CT", -.1, .4, 4}, {"DW", -.2, .4, 4}, {"EV", 0, .4, 4}}
	got := calledApart(t, 4, panel, "AK", seasons)
	t.Logf("a judge of +.3: %.1f%%", got)
	assert.GreaterOrEqual(t, got, 90.0)
}

// One judge far from the others draws the mean of all, so that others seem to lie on its
// other side. Held against the rest alone, of judges who grade alike no more are called than
// chance allows, and one who does lie apart is named about as often as without the far one.
func TestFarJudgeDrawsTheOthers(t *testing.T) {
	const seasons = 200
	slack := 100 * 2.5 * math.Sqrt(analysis.JudgeChance*(1-analysis.JudgeChance)/seasons)
	panel := []simulatedJudge{{"GH", .7, .4, 4}, {"BM", 0, .4, 4}, {"CT", 0, .4, 4}, {"DW", 0, .4, 4}, {"EV", -.3, .4, 4}}
	called, named, found := 0, 0, 0
	for seed := range seasons {
		for _, j := range judgedSeason(t, 4, panel, uint64(seed)).Judges {
			switch {
			case j.Drawn:
				require.True(t, j.Apart)
				require.NotEqual(t, "GH", j.Name)
				called++
			case j.Apart && j.Name == "BM":
				called, named = called+1, named+1
			case j.Apart && j.Name == "EV":
				found++
			}
		}
	}
	without := calledApart(t, 4, panel[1:], "EV", seasons)
	t.Logf("a level judge is named in %.1f%%, one of -.3 in %.1f%%, without the far one in %.1f%%", 100*float64(named)/seasons, 100*float64(found)/seasons, without)
	assert.LessOrEqual(t, 100*float64(named)/seasons, 100*analysis.JudgeChance+slack)
	assert.InDelta(t, without, 100*float64(found)/seasons, 8)
	assert.Greater(t, called, seasons/10)
}

// namedFair counts the seasons in which a level judge is named as apart without the word that
// others draw the mean, and those in which one is while another is said to be drawn.
func namedFair(panels func(seed uint64) analysis.Panels, fair string, seasons int) (named, beside int) {
	for seed := range seasons {
		plain, drawn := false, false
		for _, j := range panels(uint64(seed)).Judges {
			if strings.Contains(fair, j.Name) {
				plain, drawn = plain || j.Apart && !j.Drawn, drawn || j.Drawn
			}
		}
		if plain {
			named++
			if drawn {
				beside++
			}
		}
	}
	return named, beside
}

// Two harsh judges of five draw the mean as far as three fair ones seem lenient by it: none of
// these is named without that word more often than chance allows. By the distance of the harsh
// ones alone a fair one was named in most seasons.
func TestTwoHarshJudgesDrawTheOthers(t *testing.T) {
	const seasons = 100
	for _, harsh := range []float64{-.5, -.8} {
		panel := []simulatedJudge{{"AK", harsh, .45, 8}, {"BM", harsh, .45, 8}, {"CT", 0, .45, 8}, {"DW", 0, .45, 8}, {"EV", 0, .45, 8}}
		named, beside := namedFair(func(seed uint64) analysis.Panels { return judgedSeason(t, 8, panel, seed) }, "CT DW EV", seasons)
		t.Logf("two of %g: a fair judge is named in %d of %d seasons, %d of them beside one who is drawn", harsh, named, seasons, beside)
		assert.LessOrEqual(t, named, 12)
	}
}

// One harsh judge who sits under another name in each contest draws the mean as well, though
// each name has few grades.
func TestHarshJudgesOfOneContestEachDrawTheOthers(t *testing.T) {
	const seasons = 60
	named, _ := namedFair(func(seed uint64) analysis.Panels { return harshAnew(t, seed) }, "BM CT DW EV", seasons)
	t.Logf("a fair judge is named in %d of %d seasons", named, seasons)
	assert.LessOrEqual(t, named, 12)
}

// harshAnew is a season of six contests of a flight each, whose harsh judge is another each time.
func harshAnew(t testing.TB, seed uint64) analysis.Panels {
	t.Helper()
	draw := rand.New(rand.NewPCG(seed, 9))
	var b strings.Builder
	b.WriteString(panelHead())
	for n := range 6 {
		rows := make([]string, 8)
		for i := range rows {
			figure := 7 + .6*draw.NormFloat64()
			for j := range 5 {
				grade := figure + .4*draw.NormFloat64()
				if j == 0 {
					grade -= .8
				}
				rows[i] += fmt.Sprintf(" %g", min(10, max(0, math.Round(2*grade)/2)))
			}
		}
		b.WriteString(panelContest(fmt.Sprintf("2026-%02d-18", n+3), fmt.Sprintf("c%d", n), fmt.Sprintf("H%dA BM CT DW EV", n), rows...))
	}
	return analysis.PanelsOf(testkit.BookOf(t, b.String()), season.Selection{})
}

// Of two who lie as far on either side of a third nobody can say which draws the mean.
func TestOfTwoAsFarNeitherDraws(t *testing.T) {
	for seed := range 40 {
		for _, j := range judgedSeason(t, 8, []simulatedJudge{{"AK", -.6, .4, 8}, {"BM", 0, .4, 8}, {"CT", .55, .4, 8}}, uint64(seed)).Judges {
			require.False(t, j.Drawn || j.Draws, "seed %d", seed)
		}
	}
}

// hiddenIn counts the seasons in which any judge, and those in which one of a name, is said
// to be apart only once a far one is left out.
func hiddenIn(t testing.TB, judges []simulatedJudge, name string, seasons int) (any, one int) {
	t.Helper()
	for seed := range seasons {
		some := 0
		for _, j := range judgedSeason(t, 4, judges, uint64(seed)).Judges {
			if j.Hidden {
				require.False(t, j.Apart)
				require.NotZero(t, j.Without)
				some = 1
				if j.Name == name {
					one++
				}
			}
		}
		any += some
	}
	return any, one
}

// A judge between the others and one far away is apart once that one is left out, and is
// named so; of judges who grade alike no more seasons name any than chance allows.
func TestFarJudgeHidesAnother(t *testing.T) {
	const seasons = 200
	slack := 2.5 * math.Sqrt(analysis.JudgeChance*(1-analysis.JudgeChance)/seasons)
	level := []simulatedJudge{{"GH", 1.5, .4, 4}, {"BM", 0, .4, 4}, {"CT", 0, .4, 4}, {"DW", 0, .4, 4}, {"EV", 0, .4, 4}}
	wrong, _ := hiddenIn(t, level, "", seasons)
	hidden := append(append([]simulatedJudge{}, level[:4]...), simulatedJudge{"EV", .4, .4, 4})
	_, found := hiddenIn(t, hidden, "EV", seasons)
	t.Logf("any of alike judges in %d, the hidden one in %d of %d seasons", wrong, found, seasons)
	assert.LessOrEqual(t, float64(wrong)/seasons, analysis.JudgeChance+slack)
	assert.Greater(t, found, seasons/2)
}

// Of two judges who scatter alike one is not named alone.
func TestNoUnevenJudgeBesideAnotherAlike(t *testing.T) {
	const seasons = 300
	alone, both := 0, 0
	for seed := range seasons {
		panel := []simulatedJudge{{"AK", .5, .3, 4}, {"BM", 0, .3, 4}, {"CT", -.2, .3, 4}, {"XN", 0, .8, 4}, {"YO", 0, .8, 4}}
		named, most, least := 0, 0.0, math.Inf(1)
		for _, j := range judgedSeason(t, 4, panel, uint64(seed)).Judges {
			if j.Times > 0 {
				named, least = named+1, min(least, j.Scatter)
			} else {
				most = max(most, j.Scatter)
			}
		}
		switch {
		case named > 1:
			both++
		case named == 1:
			alone++
		}
		require.False(t, named > 0 && least*.95 <= most, "named beside one of %.2f", most)
	}
	t.Logf("one named in %d, both in %d of %d seasons", alone, both, seasons)
	assert.Positive(t, alone+both)
}

// The judge whose grades scatter more than the others' is named with how much more, and
// the lone grades are counted by judge; alike judges are named in few seasons.
func TestUnevenJudges(t *testing.T) {
	const seasons = 200
	found, wrong, times := 0, 0, 0.0
	for seed := range seasons {
		panel := []simulatedJudge{{"AK", .5, .4, 4}, {"BM", 0, .4, 4}, {"CT", -.2, .4, 4}, {"DW", -.3, .4, 3}, {"XN", 0, .9, 4}}
		p := judgedSeason(t, 4, panel, uint64(seed))
		flagged := 0
		for _, j := range p.Judges {
			flagged += j.Flagged
			if j.Name == "XN" && j.Times > 0 {
				found++
				times += j.Times
			}
		}
		assert.Len(t, p.Flags, flagged)
		panel[4].scatter = .4
		for _, j := range judgedSeason(t, 4, panel, uint64(seed)).Judges {
			if j.Times > 0 {
				wrong++
			}
		}
	}
	t.Logf("found in %d, wrongly named in %d of %d seasons, times %.2f", found, wrong, seasons, times/float64(found))
	assert.Greater(t, found, 95*seasons/100)
	assert.LessOrEqual(t, wrong, 8*seasons/100)
	assert.InDelta(t, 2.1, times/float64(found), .3)
}

// One judge of six panels who is uneven as one of thirty is by chance is not named: the
// chance is over all judges of a page, however many parts they sit in. Made up.
func TestUnevenOverAllParts(t *testing.T) {
	uneven := func(panels int) int {
		random := rand.New(rand.NewPCG(7, 11))
		named := 0
		for range 60 {
			book := "pilot ines\nsequence ten\n  category sportsman\n"
			for i := range 10 {
				book += fmt.Sprintf("  %d 7.4.1.1:10\n", i+1)
			}
			for c := range panels {
				book += fmt.Sprintf("contest c%d 2026-0%d-10\n  ladder us\n", c, c+1)
				for _, programme := range []string{"known", "free"} {
					book += fmt.Sprintf("flight 2026-0%d-10 ines %s\n  contest c%d\n  sequence ten\n  panel A B C D E\n", c+1, programme, c)
					for i := range 10 {
						book += fmt.Sprintf("  %d", i+1)
						for range 5 {
							book += fmt.Sprintf(" %.1f", math.Round(2*(7+.5*random.NormFloat64()))/2)
						}
						book += "\n"
					}
				}
			}
			l := testkit.BookOf(t, book)
			for _, j := range analysis.PanelsOf(l, season.Selection{}).Judges {
				if j.Times > 0 {
					named++
					break
				}
			}
		}
		return named
	}
	one, six := uneven(1), uneven(6)
	t.Logf("of 60 pages: %d of one panel, %d of six", one, six)
	assert.LessOrEqual(t, one, 8)
	assert.LessOrEqual(t, six, 6)
}
