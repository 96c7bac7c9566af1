package words_test

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season"
	"boxbook/season/ledger"
)

// day is a date that the test knows to be one.
func day(t testing.TB, text string) season.Date {
	t.Helper()
	date, ok := season.ParseDate(text)
	require.True(t, ok, text)
	return date
}

// bookOn is a ledger as of a day, over shipped definitions.
func bookOn(t testing.TB, shipped fs.FS, text, asOf string) *season.Ledger {
	t.Helper()
	result, err := ledger.Load(ledger.Options{
		Files: ledger.Memory{"test.boxbook": text}, Main: "test.boxbook", Builtin: shipped, AsOf: day(t, asOf),
	})
	require.NoError(t, err)
	require.NoError(t, result.Diagnostics.Err())
	return result.Ledger
}

// readyHead is a pilot, a coach, a sequence of five figures at sportsman, one
// at intermediate, and the known sequence of the next step.
const readyHead = `
pilot ines
pilot yuki
coach marek
  name "Marek Oduya"
sequence five
  category sportsman
  1 7.4.1.1:10
  2 5.2.1.1:10
  3 1.2.1.1:10
  4 2.2.1.1:10
  5 8.5.2.1:10
sequence flicks
  category sportsman
  1 9.9.3.4:10
  2 9.9.2.4:10
sequence inter-known
  category intermediate
  programme known
  1 7.4.1.1:10
  2 5.2.1.1:10
  3 1.2.1.1:10
`

// ready is what is said of ines by the policy move-up as the book has it.
func ready(t testing.TB, book, to string) answers.Ready {
	t.Helper()
	return readyBy(t, bookOn(t, data.Builtin(), book, "2026-11-25"), to)
}

func readyBy(t testing.TB, l *season.Ledger, to string) answers.Ready {
	t.Helper()
	policy := l.PolicyNamed(season.HousePolicy)
	require.NotNil(t, policy)
	return words.SayReady(answers.ReadyOf(l, l.PilotNamed("ines"), policy, nil, to))
}

// gateOf is one gate of a page, the zero Gate where it was not asked.
func gateOf(d answers.Ready, name string) answers.Gate {
	for _, g := range d.Gates {
		if g.Gate == name {
			return g
		}
	}
	return answers.Gate{}
}

// evidenceOn is a gate of ines by the house policy on a day.
func evidenceOn(t testing.TB, book, date, name string) answers.Gate {
	t.Helper()
	g := gateOf(readyBy(t, bookOn(t, data.Builtin(), book, date), ""), name)
	require.NotEmpty(t, g.Gate, name)
	return g
}

// markRows are the rows of a sheet, numbered.
func markRows(rows []string) string {
	var b strings.Builder
	for i, row := range rows {
		fmt.Fprintf(&b, "  %d %s\n", i+1, row)
	}
	return b.String()
}

// readyFlights are flights of sequence five, a fortnight apart, the last on
// the day given, all figures with one grade each.
func readyFlights(last string, grades ...string) string {
	end, _ := season.ParseDate(last)
	var b strings.Builder
	for i, grade := range grades {
		on := end - season.Date(14*(len(grades)-1-i))
		fmt.Fprintf(&b, "flight %s ines known\n  sequence five\n  panel marek\n%s", on, markRows([]string{grade, grade, grade, grade, grade}))
	}
	return b.String()
}

// shortPolicy changes single keys of the house policy.
func shortPolicy(lines ...string) string {
	return "policy move-up\n  " + strings.Join(lines, "\n  ") + "\n"
}

// allMet is a book in which every gate that is asked from sportsman is met.
func allMet() string {
	return readyHead + readyFlights("2026-11-01", "7", "6.5", "7.5", "7", "6.5", "8") +
		"flight 2024-11-02 ines known\n  sequence inter-known\n  panel marek\n  1 7\n  2 7\n  3 6.5\n" +
		"flight 2026-11-03 ines practice\n  sequence flicks\n  panel marek\n  1 6\n  2 7\n" +
		"signoff 2026-11-10 ines intermediate by marek\n"
}
