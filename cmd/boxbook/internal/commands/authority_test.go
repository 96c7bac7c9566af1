package commands

import (
	"fmt"
	"strings"
	"testing"
)

// authority is a number that stands in one place of the program. Put another way
// there, every output says the other and none the old.
type authority struct {
	name string
	planted
	says []saying
}

// saying is a command, or a sheet of the workbook, that goes by the number. What
// matches `old` in one of its formats matches it no more once the number is
// another; there it matches `new`. The fields of the JSON in `moves` are then
// others, those in `lost` are gone.
type saying struct {
	ledger      string // "" is the demo
	args        []string
	sheet       string
	old, new    string
	moves, lost []string
}

// ines asks a command about the one pilot of the tests.
func ines(words ...string) []string { return append(words, "--pilot", "ines") }

// weekly is a ledger of so many practice flights that were reviewed, a week
// apart, with a drill after the twelfth, and a fault in all before it.
func weekly(flights int) string {
	var b strings.Builder
	for i := range flights {
		day := fmt.Sprintf("2026-%02d-%02d", 3+i/4, 1+7*(i%4))
		fmt.Fprintf(&b, "flight %s ines practice\n  sequence known\n  panel A\n  2 6\n  reviewed\n", day)
		if i < 12 {
			b.WriteString("  fault 2 radius 2x\n")
		}
	}
	b.WriteString("drill 2026-05-25 ines radius\n")
	return b.String()
}

// alone is a flight before one judge.
const alone = "flight 2026-05-18 ines known\n  sequence known\n  panel A\n  1 7\n  2 6\n  3 7\n  4 8\n"

// short are flights of so many families, a figure each.
func short(families int) string {
	codes := []string{"5.2.1.1:17", "7.4.1.1:10", "1.1.1.1:2"}[:families]
	var b strings.Builder
	b.WriteString("sequence short\n  category sportsman\n")
	for i, code := range codes {
		fmt.Fprintf(&b, "  %d %s\n", i+1, code)
	}
	for month := 3; month < 9; month++ {
		fmt.Fprintf(&b, "flight 2026-%02d-18 ines known\n  sequence short\n  panel A B\n", month)
		for i := range codes {
			fmt.Fprintf(&b, "  %d %d %d\n", i+1, 5+(month*i+month)%4, 6+(month+i)%3)
		}
	}
	return b.String()
}

// authorities are the numbers that outputs speak of.
var authorities = []authority{
	{"the confidence of a level and a forecast", planted{"season/analysis", `(?i)^(\s*levelconfidence\s*=\s*)0?\.80?\b`, "${1}0.70"}, []saying{
		{args: ines("forecast", "advanced-known-26"), old: `80%|four times out of five|\b0\.80?\b`, moves: []string{"low", "high"}},
		{args: ines("ready", "--to", "advanced"), sheet: "Readiness", old: `80% confidence`, new: `70% confidence`},
		{ledger: totals(6, 6), args: ines("ready"), sheet: "Readiness", old: `80% confidence`, new: `70% confidence`},
		{args: []string{"forecast", "--help"}, old: `four times out of five`},
	}},
	{"the least flights of a trend", planted{"season/analysis", `(?i)^(\s*least(?:points|trend\w*)\s*=\s*)5\b`, "${1}6"}, []saying{
		{ledger: spread(2026, 4), args: ines("season", "--all"), old: `fewer than five`, new: `fewer than six`},
		{ledger: spread(2026, 5), args: ines("season", "--all"), new: `fewer than six`, lost: []string{"trend.p", "trend.low", "trend.slope30"}},
		{ledger: spread(2026, 5), args: ines("families", "--all"), lost: []string{"groups.0.trend.p", "groups.0.trend.low"}},
	}},
	{"the least flights on a side of a drill", planted{"season/analysis", `(?i)^(\s*drillsideflights\s*=\s*)3\b`, "${1}4"}, []saying{
		{ledger: weekly(14), args: ines("drills"), sheet: "Faults and drills", old: `at least 3 flights|at least three`, new: `at least (4|four)`},
		{ledger: weekly(15), args: ines("drills"), sheet: "Faults and drills", new: `at least (4|four)`, moves: []string{"drills.0.word"}},
	}},
	{"the flights left out before a drill", planted{"season/analysis", `(?i)^(\s*drillleftout\s*=\s*)4\b`, "${1}5"}, []saying{
		{ledger: weekly(15), args: ines("drills"), sheet: "Faults and drills", old: `last four flights before`, new: `last five flights before`, moves: []string{"drills.0.before.flights"}},
	}},
	{"the days of what comes back", planted{"season/analysis", `(?i)^(\s*recurringdays\s*=\s*)730\b`, "${1}365"}, []saying{
		{ledger: weekly(15), args: ines("faults"), sheet: "Faults and drills", old: `the last two years`, new: `the last year`},
	}},
	{"a family's interval", planted{"season/analysis", `(?i)^(\s*family(?:surety|confidence)\s*=\s*)0?\.90?\b`, "${1}0.80"}, []saying{
		{args: ines("families", "--all"), sheet: "Families", old: `90% from`, new: `80% from`, moves: []string{"groups.0.low", "groups.0.high"}},
		{args: ines("plan", "--all"), old: `level over two years about [^()]*\([^()]*at 90% confidence`, new: `level over two years about [^()]*\([^()]*at 80% confidence`, moves: []string{"items.0.levelLow", "items.0.levelHigh"}},
	}},
	{"the interval of the plan's gains", planted{"season/analysis", `(?i)^(\s*plan(?:surety|confidence)\s*=\s*)0?\.90?\b`, "${1}0.80"}, []saying{
		{args: ines("plan", "--all"), old: `points \([^()]*at 90% confidence|90% from`, new: `points \([^()]*at 80% confidence|80% from`, moves: []string{"items.0.low", "items.0.high"}},
	}},
	{"the change worth a word", planted{"season/analysis", `(?i)^(\s*smallchange\s*=\s*)3(?:\.0)?\b`, "${1}4.0"}, []saying{
		{args: ines("families", "--all"), sheet: "Families", old: `change of more than 3 percentage points`, new: `change of more than 4 percentage points`},
	}},
	{"the chance of a firm word on a family", planted{"season/analysis", `(?i)^(\s*firmgroup\s*=\s*)0?\.10\b`, "${1}0.02"}, []saying{
		{args: ines("families", "--all"), sheet: "Families", old: `at most 0\.10\b`, new: `at most 0\.02\b`},
	}},
	{"the least flights of a level and a forecast", planted{"season/stats", `(?i)^(\s*const\s+presentleast\s*=\s*)4\b`, "${1}5"}, []saying{
		{ledger: spread(2026, 3), args: ines("forecast", "known"), old: `at least four`, new: `at least five`},
		{ledger: spread(2026, 4), args: ines("forecast", "known"), new: `at least five`, lost: []string{"percent", "low", "high"}},
	}},
	{"the least flights of a plan", planted{"season/analysis", `(?i)^(\s*(?:const\s+)?plan(?:flights|least)\s*=\s*)4\b`, "${1}5"}, []saying{
		{ledger: spread(2026, 3), args: ines("plan", "--all"), sheet: "Season", old: `at least four are`, new: `at least five are`},
	}},
	{"the least families of a comparison", planted{"season/analysis", `(?i)^(\s*least(?:groups|families)\s*=\s*)3\b`, "${1}4"}, []saying{
		{ledger: short(2), args: ines("families", "--all"), old: `at least three`, new: `at least four`},
		{ledger: short(3), args: ines("families", "--all"), new: `at least four`, lost: []string{"groups.0.low", "groups.0.shrunken"}},
	}},
	{"the least judges of a panel", planted{"season/analysis", `(?i)^(\s*(?:paneljudges|leastjudges)\s*=\s*)2\b`, "${1}3"}, []saying{
		{ledger: alone, args: ines("panel"), sheet: "Panel", old: `at least two judges`, new: `at least three judges`},
	}},
	{"the least figures of a panel", planted{"season/analysis", `(?i)^(\s*(?:panelfigures|leastfigures)\s*=\s*)4\b`, "${1}5"}, []saying{
		{ledger: short(3), args: ines("panel"), sheet: "Panel", old: `four figures`, new: `five figures`},
	}},
	{"the least contests beside a move", planted{"season/analysis", `(?i)^(\s*(?:const\s+)?leastmovecontests\s*=\s*)2\b`, "${1}3"}, []saying{
		{ledger: spread(2026, 1) + later(6, 1), args: ines("season", "--all"), old: `at least two of each`, new: `at least three of each`},
		{ledger: spread(2026, 3) + later(7, 2), args: ines("season", "--all"), new: `at least three of each`, lost: []string{"moves.0.low", "moves.0.change"}},
	}},
	housePolicy("threshold", `threshold      60`, "threshold      61", `60%`, `61%`),
	housePolicy("figure floor", `figure-floor   5\.0`, "figure-floor   5.5", `needed: 5\.0 or better`, `needed: 5\.5 or better`),
	housePolicy("zeros", `zeros          0 in 4`, "zeros          0 in 5", `none in the last 4 flights \(house default\)|needed: none in 4 flights`, `none in (the last )?5 flights`),
	housePolicy("new families", `new-families   2 at 6\.0`, "new-families   3 at 6.5", `2 graded (elements of each )?at 6\.0`, `3 graded elements of each at 6\.5`),
	housePolicy("window", `window         730`, "window         700", `730 days`, `700 days`),
	housePolicy("recency", `current        60`, "current        61", `at most 60 days`, `at most 61 days`),
}

// housePolicy is a default of the policy that ships.
func housePolicy(name, find, put, old, new string) authority {
	return authority{"the policy's " + name, planted{"data/builtin/policy.boxbook", find, put}, []saying{
		{args: ines("ready", "--to", "advanced"), sheet: "Readiness", old: old, new: new},
	}}
}

// TestAuthoritiesAreFound finds each number in one place of the sources. What
// outputs make of another number is TestPlantedAuthorities' (build tag planted).
func TestAuthoritiesAreFound(t *testing.T) {
	for _, a := range authorities {
		t.Run(a.name, func(t *testing.T) { a.edit(t) })
	}
}
