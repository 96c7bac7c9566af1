// Package testkit has ledgers for the tests of answers and of what shows them.
package testkit

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/season"
	"boxbook/season/ledger"
)

// Book reads a ledger text that must have no errors, as of 2026-11-25.
func Book(t testing.TB, text string) *season.Ledger {
	t.Helper()
	return BookAsOf(t, text, "2026-11-25")
}

// BookAsOf reads one as of another day.
func BookAsOf(t testing.TB, text, day string) *season.Ledger {
	t.Helper()
	today, ok := season.ParseDate(day)
	require.True(t, ok)
	result, err := ledger.Load(ledger.Options{
		Files: ledger.Memory{"book.boxbook": text}, Main: "book.boxbook", Builtin: data.Builtin(), AsOf: today,
	})
	require.NoError(t, err)
	require.NoError(t, result.Diagnostics.Err())
	return result.Ledger
}

// YearLedger is a small year with a bit of everything. By hand [derived]:
//
//	EUR  ines    -40.00 before; entry -95.00 (the club paid); settled +100.00: -35.00
//	     yuki    -120.00 billed; -80.00 of the lodging: -200.00
//	     club    +40.00 before; +95.00 +120.00 -80.50 -100.00: +74.50
//	     tobias  +80.50 for the hall, +80.00 of the lodging: +160.50
//	JPY  1000 among ines, tobias and yuki: 334, 333, 333; tobias paid: +667
//	BHD  1.000 for yuki by ines
//	rate 1 JPY = 0.006 EUR: ines -35.00 - 2.004 = -37.004 EUR;
//	     tobias 160.50 + 4.002 = 164.502; yuki -200.00 - 1.998 = -201.998
const YearLedger = `
pilot ines
  name "Ines Halloran"
pilot tobias
  name "Tobias Renn"
pilot yuki
  name "Yuki Lindqvist"
contest tarn-open 2026-04-18..2026-04-19
  name    "Tarn Valley Open"
  result  ines 1105.350 of 1600 place 2 of 9
  result  yuki place 1
  duty    scribe ines 2
  duty    scribe tobias
  cost    entry 95.00 EUR for ines by club
  cost    tea 1000 JPY for ines tobias yuki by tobias
flight 2026-04-18 ines known
  contest  tarn-open
  category intermediate
  official 65 of 99
flight 2026-04-20 ines practice
  category intermediate
  official 70 of 100
flight 2026-06-01 ines free
  category sportsman
  official 70 of 100
owed   2025-12-31 ines club 40.00 EUR
cost   2026-01-10 membership 120.00 EUR for yuki by club to club
cost   2026-02-01 hall-hire 80.50 EUR for club by tobias
cost   2026-04-18 lodging 160.00 EUR for yuki tobias by tobias
cost   2026-05-20 fuel 1.000 BHD for yuki by ines
income 2026-05-21 prize 5.50 EUR for yuki
settle 2026-11-25 ines club 100.00 EUR
cost 2026-12-24 fuel 61.40 EUR for yuki by tobias
rate   2026 JPY 0.006 EUR
`

// CrowdLedger is a club of many with long names, many kinds and the largest
// amounts that a ledger takes.
func CrowdLedger() string {
	var b strings.Builder
	people := 16
	for i := range people {
		fmt.Fprintf(&b, "pilot p%d\n  name \"Pilot Number %d Of The Long And Winding Family Name %d\"\n", i, i, i)
	}
	b.WriteString("contest tarn-open 2026-04-18\n  name \"Tarn Valley Open and Longmere Autumn Ladder, both days together\"\n")
	for i, unit := range []string{"EUR", "CHF", "JPY", "BHD"} {
		for p := range people {
			fmt.Fprintf(&b, "  cost parachute-repack-%d 1000%02d0%d7.%s for p%d by p%d\n", p%9, 3*p, i, []string{"11 EUR", "12 CHF", "0 JPY", "123 BHD"}[i], p, (p*p+1)%people)
		}
		fmt.Fprintf(&b, "  cost lodging 10000000 %s for club by p%d\n", unit, i)
	}
	for p := range people {
		fmt.Fprintf(&b, "  duty judge-of-lines p%d 2\n  duty scribe p%d 12\n  result p%d 123456.789 of 200000 place %d of 16\n", p, p, p, p+1)
	}
	b.WriteString("owed 2026-01-01 p1 p2 9999999.99 EUR\nsettle 2026-01-01 p2 p3 9999999.99 EUR\ncost 2026-01-01 membership 10 EUR for p4 by club to club\n")
	b.WriteString("rate 2026 CHF 1.04 EUR\n")
	return strings.ReplaceAll(b.String(), ".0 JPY", " JPY")
}
