package season_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/internal/testkit"
)

// year is a book of two pilots over two years, the season from October.
const year = `
season-start 10-01
pilot ines
pilot yuki
pilot tobias
contest spring 2026-04-18..2026-04-19
contest autumn 2026-10-10
flight 2025-09-30 ines known
  category sportsman
  place 1
flight 2025-10-01 ines known
  category intermediate
  place 1
flight 2026-04-18 ines free
  contest spring
  category intermediate
  place 1
flight 2026-04-18 ines free-unknown
  contest spring
  category intermediate
  place 1
flight 2026-04-18 ines practice
  category intermediate
  note "warm-up"
flight 2026-04-18 ines practice 2
  category intermediate
  note "again"
flight 2026-04-18 ines practice 10
  category intermediate
  note "and again"
flight 2026-04-18 yuki free
  contest spring
  category advanced
  void "cloud"
flight 2026-04-19 yuki practice 2
  category advanced
  note "the second only"
flight 2026-10-10 ines known
  contest autumn
  category intermediate
  place 2
flight 2026-12-24 ines known
  category intermediate
  place 1
`

func TestSelect(t *testing.T) {
	l := testkit.BookOf(t, year)
	ines, yuki := l.PilotNamed("ines"), l.PilotNamed("yuki")
	count := func(s season.Selection) int { return len(l.Select(s)) }
	assert.Equal(t, 10, count(season.Selection{}), "all but the one after today")
	assert.Equal(t, 8, count(season.Selection{Pilot: ines}))
	assert.Equal(t, 2, count(season.Selection{Pilot: yuki}), "a void one among them")
	assert.Equal(t, []string{"2025-09-30/ines/known"}, testkit.Names(l.Select(season.Selection{Season: 2024})))
	assert.Equal(t, 8, count(season.Selection{Season: 2025}))
	assert.Equal(t, []string{"2026-10-10/ines/known"}, testkit.Names(l.Select(season.Selection{Season: 2026})))
	assert.Equal(t, 0, count(season.Selection{Season: 2027}))
	assert.Equal(t, []string{"2026-04-19/yuki/practice/2", "2026-10-10/ines/known"}, testkit.Names(l.Select(season.Selection{Since: testkit.Day(t, "2026-04-19")})))
	assert.Equal(t, []string{"2025-09-30/ines/known", "2025-10-01/ines/known"}, testkit.Names(l.Select(season.Selection{Until: testkit.Day(t, "2025-10-01")})))
	assert.Equal(t, []string{"2025-09-30/ines/known"}, testkit.Names(l.Select(season.Selection{Category: "sportsman"})))
	assert.Equal(t, []string{"2026-10-10/ines/known"}, testkit.Names(l.Select(season.Selection{Contest: l.ContestNamed("autumn")})))
	assert.Equal(t, []string{"2026-04-18/ines/free", "2026-04-18/ines/free-unknown"},
		testkit.Names(l.Select(season.Selection{Pilot: ines, Contest: l.ContestNamed("spring"), Season: 2025, Category: "intermediate"})))
	l.AsOf = 0
	assert.Equal(t, 11, count(season.Selection{}), "no day stands for today")
	l.AsOf = testkit.Day(t, "2026-04-18")
	assert.Equal(t, 8, count(season.Selection{}), "the day itself belongs to it")
}

// The days of a selection find what a look at every flight finds, before 1970 too, whose
// days count below 0.
func TestSelectByDays(t *testing.T) {
	l := &season.Ledger{SeasonStart: season.MonthDay{Month: 10, Day: 1}}
	for day := season.Date(-900); day < 900; day += 30 {
		l.Flights = append(l.Flights, &season.Flight{Date: day}, &season.Flight{Date: day})
	}
	for year := 1966; year < 1974; year++ {
		want := 0
		for _, f := range l.Flights {
			if l.SeasonStart.Season(f.Date) == year {
				want++
			}
		}
		require.Len(t, l.Select(season.Selection{Season: year}), want, "%d", year)
	}
	require.Len(t, l.Select(season.Selection{Since: -30, Until: 30}), 6)
	l.AsOf = -1
	require.Len(t, l.Select(season.Selection{Since: -60}), 4)
	require.Empty(t, l.Select(season.Selection{Since: 30}))
}

// Printed results are known from a contest's last day on, and are of no category.
func TestShowsResults(t *testing.T) {
	ines, tobias := &season.Pilot{Handle: "ines"}, &season.Pilot{Handle: "tobias"}
	june := &season.Contest{Handle: "june", First: 100, Last: 102, Results: []season.Result{{Pilot: ines}}}
	l := &season.Ledger{Pilots: []*season.Pilot{tobias, ines}, Contests: []*season.Contest{june}, AsOf: 200}
	assert.Equal(t, []*season.Pilot{ines}, l.Placed(season.Selection{}))
	assert.Equal(t, []*season.Pilot{ines}, l.Placed(season.Selection{Season: 1970, Since: 102, Until: 102, Contest: june}))
	for _, s := range []season.Selection{{Season: 1971}, {Since: 103}, {Until: 101}, {Category: "sportsman"}, {Contest: &season.Contest{}}} {
		assert.Empty(t, l.Placed(s), "%+v", s)
	}
	l.AsOf = 101
	assert.Empty(t, l.Placed(season.Selection{}), "it is not over")
}

func TestLatestSeasonAndFlyers(t *testing.T) {
	l := testkit.BookOf(t, year)
	ines, yuki, tobias := l.PilotNamed("ines"), l.PilotNamed("yuki"), l.PilotNamed("tobias")
	assert.Equal(t, 2026, l.LatestSeason(season.Selection{Pilot: ines}))
	assert.Equal(t, 2025, l.LatestSeason(season.Selection{Pilot: yuki}))
	assert.Equal(t, 0, l.LatestSeason(season.Selection{Pilot: tobias}))
	assert.Equal(t, []*season.Pilot{ines, yuki}, l.Flyers(season.Selection{}))
	assert.Equal(t, []*season.Pilot{ines}, l.Flyers(season.Selection{Season: 2026}))
	assert.Empty(t, l.Flyers(season.Selection{Season: 2030}))
	assert.Nil(t, l.PilotNamed("nobody"))
	assert.Nil(t, l.ContestNamed("nowhere"))
}

// An exact name wins, else a leading part in whole pieces.
func TestMatching(t *testing.T) {
	l := testkit.BookOf(t, year)
	for _, test := range []struct {
		selector string
		want     []string
	}{
		{"2026-04-18/ines/free", []string{"2026-04-18/ines/free"}},
		{"2026-04-18/ines/free-unknown", []string{"2026-04-18/ines/free-unknown"}},
		{"2026-04-18/ines/free/1", []string{"2026-04-18/ines/free"}},         // 1 is the label of those that have none
		{"2026-04-18/ines/practice", []string{"2026-04-18/ines/practice"}},   // exact, though others begin so
		{"2026-04-18/ines/practice/1", []string{"2026-04-18/ines/practice"}}, // not /10
		{"2026-04-18/ines/practice/2", []string{"2026-04-18/ines/practice/2"}},
		{"2026-04-18/ines/practice/10", []string{"2026-04-18/ines/practice/10"}},
		{"2026-04-19/yuki/practice", []string{"2026-04-19/yuki/practice/2"}}, // a leading part of one
		{"2026-04-19/yuki/practice/1", []string{}},
		{"2026-04-18/yuki", []string{"2026-04-18/yuki/free"}},
		{"2026-04-18/yuki/", []string{"2026-04-18/yuki/free"}},
		{"2026-04-18/ines", []string{"2026-04-18/ines/free", "2026-04-18/ines/free-unknown", "2026-04-18/ines/practice", "2026-04-18/ines/practice/2", "2026-04-18/ines/practice/10"}},
		{"2026-10-10", []string{"2026-10-10/ines/known"}},
		{"2026-10", []string{}}, // no whole piece
		{"2026-04-18/ines/fre", []string{}},
		{"2026-04-18/ine", []string{}},
		{"ines", []string{}}, // no leading part
		{"2026-12-24/ines/known", []string{}},
		{"", []string{}},
		{"/", []string{}},
		{"last", []string{"2026-10-10/ines/known"}},
		{"LAST", []string{}},
	} {
		assert.Equal(t, test.want, testkit.Names(l.Matching(test.selector, season.Selection{})), "selector %q", test.selector)
	}
}

// `last` is the latest date, then the last in the file, of the chosen pilot.
func TestMatchingLast(t *testing.T) {
	l := testkit.BookOf(t, year)
	last := func(s season.Selection) []string { return testkit.Names(l.Matching(season.LastSelector, s)) }
	assert.Equal(t, []string{"2026-10-10/ines/known"}, last(season.Selection{Pilot: l.PilotNamed("ines")}))
	assert.Equal(t, []string{"2026-04-19/yuki/practice/2"}, last(season.Selection{Pilot: l.PilotNamed("yuki")}))
	assert.Equal(t, []string{"2026-04-18/ines/practice/10"}, last(season.Selection{Pilot: l.PilotNamed("ines"), Until: testkit.Day(t, "2026-04-18")}),
		"of one day, the last in the file")
	assert.Empty(t, last(season.Selection{Pilot: l.PilotNamed("tobias")}))
	assert.Equal(t, []string{"2026-04-18/ines/free"}, testkit.Names(l.Matching("2026-04-18/ines/free", season.Selection{Season: 2025})))
	assert.Empty(t, l.Matching("2026-04-18/ines/free", season.Selection{Season: 2026}), "among the selected ones only")
}

// Ladders' categories first and in order, then what flights have beside them.
func TestCategoryNames(t *testing.T) {
	l := testkit.BookOf(t, "ladder own\n  category novice\n  category sportsman\npilot ines\nflight 2026-04-18 ines known\n  category zulu\n  place 1\nflight 2026-04-19 ines known\n  category alpha\n  place 1\n")
	assert.Equal(t, []string{
		"primary", "sportsman", "intermediate", "advanced", "unlimited", "club", "sports", "novice", "alpha", "zulu",
	}, l.CategoryNames())
}
