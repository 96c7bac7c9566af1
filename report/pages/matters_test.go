package pages

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/season"
)

// flowing is a page's text with its line breaks as spaces.
func flowing(t testing.TB, doc report.Document) string {
	t.Helper()
	return strings.Join(strings.Fields(textOf(t, doc)), " ")
}

const (
	looseNoted  = "flight 2026-04-18 ines known\n  sequence known-26\n  fault - loose-article \"canopy catch\"\n  fault - loose-article by marek\n"
	looseClosed = "flight 2026-05-02 ines practice\n  sequence known-26\n  reviewed by marek\n  closed loose-article \"new catch\"\n"
	looseAgain  = "flight 2026-06-02 ines practice\n  sequence known-26\n  fault 2 loose-article\n"
)

// Beside each matter of safety stands whether it is open, or when, by whom and with
// what remark it was closed; the flight whose line closes it says so.
func TestHowAMatterOfSafetyWasClosed(t *testing.T) {
	for _, test := range []struct {
		name, book       string
		faults, flight   string
		closing, notSaid string
	}{
		{"open", looseNoted, "1 matter is open", "whole flight, loose-article: open", "", "closed 2026"},
		{
			"by a line that names a coach", looseNoted + "closed 2026-05-02 ines loose-article by marek \"new catch\"\n",
			"loose article in the cockpit (1 of 1 flight), closed 2026-05-02 (by Marek Oduya).",
			"whole flight, loose-article: closed 2026-05-02 (by Marek Oduya): new catch", "", "loose-article: open",
		},
		{
			"by a line that names nobody", looseNoted + "closed 2026-05-02 ines loose-article\n",
			"loose article in the cockpit (1 of 1 flight), closed 2026-05-02 (nobody named).",
			"whole flight, loose-article: closed 2026-05-02 (nobody named)", "", "loose-article: open",
		},
		{
			"in a flight", looseNoted + looseClosed,
			"loose article in the cockpit (1 of 2 flights), closed 2026-05-02 (nobody named).",
			"whole flight, loose-article: closed 2026-05-02 (nobody named): new catch",
			"closes a matter of safety: loose article in the cockpit, noted in 2026-04-18/ines/known (nobody named): new catch", "loose-article: open",
		},
		{
			"one closed, one open", looseNoted + looseClosed + looseAgain,
			"loose article in the cockpit (2 of 3 flights), that of 2026-06-02 open; that of 2026-04-18 closed 2026-05-02 (nobody named).",
			"whole flight, loose-article: closed 2026-05-02 (nobody named): new catch", "closes a matter of safety", "loose-article: open",
		},
		{
			"closed after the day that stands for today", looseNoted + "closed 2026-12-24 ines loose-article by marek \"to come\"\n",
			"1 matter is open", "whole flight, loose-article: open", "", "to come",
		},
		{
			"a line that closes nothing", looseClosed, "", "closes nothing: loose article in the cockpit was not open: new catch",
			"closes nothing: loose article in the cockpit was not open: new catch", "closes a matter",
		},
	} {
		t.Run(test.name, func(t *testing.T) {
			l := faultBook(t, kestrelBook+test.book)
			faults := flowing(t, Faults(answers.FaultsOf(l, season.Selection{Pilot: l.Pilots[0], Season: 2026}), false))
			assert.Contains(t, faults, test.faults)
			for _, o := range []FlightOptions{{}, {All: true}} {
				text := flowing(t, Flight(answers.FlightToday(l, l.Flights[0]), o))
				assert.Equal(t, 1, strings.Count(text, "- "+test.flight), text)
				assert.NotContains(t, text, test.notSaid)
			}
			debrief := flowing(t, Debrief(answers.DebriefOf(l, l.Flights[0])))
			assert.Equal(t, 1, strings.Count(debrief, "- "+test.flight), debrief)
			if test.closing == "" {
				return
			}
			f := l.Flights[min(1, len(l.Flights)-1)]
			for _, doc := range []report.Document{Flight(answers.FlightToday(l, f), FlightOptions{}), Flight(answers.FlightToday(l, f), FlightOptions{All: true}), Debrief(answers.DebriefOf(l, f))} {
				assert.Contains(t, flowing(t, doc), "- "+test.closing)
			}
		})
	}
}

// What is open is said before what was closed: its count before any kind, its kind
// before the others, and of one kind its day before theirs.
func TestOpenMattersStandBeforeClosedOnes(t *testing.T) {
	const kinds = "fault-kind aft-belt\n  safety\n  says \"belt came open\"\nfault-kind zip\n  safety\n  says \"open pocket\"\n"
	noted := func(date, kind string) string {
		return "flight " + date + " ines practice\n  sequence known-26\n  fault - " + kind + "\n"
	}
	page := func(book string) string {
		l := faultBook(t, kestrelBook+kinds+book)
		return flowing(t, Faults(answers.FaultsOf(l, season.Selection{Pilot: l.Pilots[0], Season: 2026}), false))
	}
	assert.Regexp(t, `1 matter is open.*Matters of safety noted.*belt came open`,
		page(noted("2026-04-18", "aft-belt")+"closed 2026-04-19 ines aft-belt\n"+noted("2026-05-18", "zip")), "another kind's")
	both := page(noted("2026-04-17", "aft-belt") + noted("2026-04-18", "aft-belt") + "closed 2026-04-19 ines aft-belt\n" +
		noted("2026-05-18", "zip") + "closed 2026-05-19 ines zip\n" + noted("2026-06-18", "zip"))
	assert.Regexp(t, `1 matter is open.*Matters of safety noted.*open pocket.*that of 2026-06-18 open; that of 2026-05-18 closed.*belt came open`, both)
}

// In the booklet the flights say it too; of many closings the latest are named.
func TestClosedMattersElsewhere(t *testing.T) {
	l := faultBook(t, kestrelBook+looseNoted+"closed 2026-05-02 ines loose-article by marek \"new catch\"\n")
	book := answers.BookOf(l, season.Selection{Pilot: l.Pilots[0], Season: 2026}, nil)
	require.Len(t, book.Flights, 1)
	require.Len(t, book.Flights[0].Matters, 1, "noted by two, one matter")
	assert.Equal(t, &answers.Closed{Date: "2026-05-02", By: "marek", Name: "Marek Oduya", Remark: "new catch"}, book.Flights[0].Matters[0].Closed)

	many := ""
	for _, month := range []string{"01", "02", "03", "04", "05"} {
		many += strings.ReplaceAll("flight 2026-MM-02 ines practice\n  sequence known-26\n  fault 2 loose-article\nclosed 2026-MM-09 ines loose-article by marek\n", "MM", month)
	}
	l = faultBook(t, kestrelBook+many)
	text := flowing(t, Faults(answers.FaultsOf(l, season.Selection{Pilot: l.Pilots[0], Season: 2026}), false))
	assert.Contains(t, text, "(5 of 5 flights), that of 2026-03-02 closed 2026-03-09 (by Marek Oduya); that of 2026-04-02 closed 2026-04-09 (by Marek Oduya); that of 2026-05-02 closed 2026-05-09 (by Marek Oduya); 2 earlier ones closed too.")
	assert.NotContains(t, text, "2026-02-09")

	// two that one line closed are two
	twice := "flight 2026-01-01 ines practice\n  sequence known-26\n  fault 2 loose-article\n"
	l = faultBook(t, kestrelBook+twice+many)
	assert.Contains(t, flowing(t, Faults(answers.FaultsOf(l, season.Selection{Pilot: l.Pilots[0], Season: 2026}), false)), "; 3 earlier ones closed too.")
}
