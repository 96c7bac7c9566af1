package pages

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/internal/testkit"
	"boxbook/report/words"
	"boxbook/season"
)

// faultBook reads a ledger that must have no errors, as of 2026-12-01.
func faultBook(t testing.TB, text string) *season.Ledger {
	t.Helper()
	return testkit.BookAsOf(t, text, "2026-12-01")
}

// textOf is a document at 80 columns, without the line feed at its end.
func textOf(t testing.TB, doc report.Document) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, report.WriteText(&b, doc, report.TextOptions{Width: 80}))
	for _, line := range strings.Split(b.String(), "\n") {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), 80, line)
	}
	return strings.TrimSpace(b.String())
}

// kestrelBook is an invented pilot with a sequence for all tests of faults.
const kestrelBook = `
pilot ines
  name  "Ines Halloran"
coach marek
  name  "Marek Oduya"
sequence known-26
  category     intermediate
  1            8.5.2.1:10 9.1.4.2:4   "half Cuban"
  2            5.2.1.1:17 9.1.1.1:6   "stall turn, quarter roll up"
  3            1.2.6.3:8  9.11.1.5:6  "one and a quarter spin"
  4            7.4.1.1:10             "round loop"
  5            K 9                    "unlabelled"
  6            K 14 2-rolling 9.1     "rolling turn"
  7            1.1.1.1:2 9.1.3.4:8    "slow roll"
  positioning  K 10
`

// kestrelFlight has every kind of row that the pages of a flight's faults know.
const kestrelFlight = `
flight 2026-04-18 ines known
  sequence     known-26
  panel        A B C
  1            8.0  7.5  8.0
  2            7.0  HZ   6.5
  3            6.5  6.0  7.0
  4            8.0  8.0  8.5
  5            HZ   HZ   7.0
  6            7.0  7.0  7.5
  7            7.0  7.0  7.5
  positioning  8.0  7.5  8.0
  fault        2 line-angle 10deg on 9.1.1.1 seen "drawn at eighty"
  fault        1 pull-rate felt "waits, then snatches"
  fault        3 spin-stop 12deg on 9.11.1.5 seen by marek
  fault        3 spin-stop 8deg on 9.11.1.5 "thought it was less"
  fault        4 radius 3x by marek
  fault        4 no-line
  fault        2 drift seen
  fault        5 other 9pt seen
  fault        - loose-article "canopy catch not latched"
  reviewed     by marek
`

// kestrelSeason adds practice, a flight without a sequence, a void one and a
// reviewed one.
const kestrelSeason = kestrelBook + kestrelFlight + `
flight 2026-05-02 ines practice 2
  sequence     known-26
  panel        marek
  3            7.5
  fault        3 spin-stop 5deg on 9.11.1.5 seen by marek
flight 2026-06-02 ines free
  category     intermediate
  official     700 of 1000
  fault        3 spin-stop 10deg on 9.11.1.5 seen by marek
flight 2026-07-02 ines free
  sequence     known-26
  void         "cloud"
  fault        3 spin-stop 40deg on 9.11.1.5 seen by marek
flight 2026-08-02 ines known
  sequence     known-26
  reviewed     by marek
drill 2026-05-03 ines spin-stop "stop on the number, ten a leg"
`

func faultsPage(t testing.TB, book string) report.Document {
	t.Helper()
	l := faultBook(t, book)
	return Faults(answers.FaultsOf(l, season.Selection{Pilot: l.Pilots[0], Season: 2026}), true)
}

func TestFaultsPage(t *testing.T) {
	assert.Equal(t, faultsPageText, textOf(t, faultsPage(t, kestrelSeason)))
}

func TestFaultsJSON(t *testing.T) {
	var b strings.Builder
	require.NoError(t, report.WriteJSON(&b, faultsPage(t, kestrelSeason)))
	assert.JSONEq(t, faultsPageJSON, b.String())
}

// Where there is nothing, the lists are empty, not null, and the page says why.
func TestFaultsPageWithoutFaults(t *testing.T) {
	const flight = "flight 2026-04-18 ines known\n  sequence known-26\n  official 500\n"
	for _, test := range []struct{ book, first, reviewed string }{
		{kestrelBook + flight, "No flight in this selection has been reviewed: none has a fault line or a\n`reviewed` line.", "0"},
		{kestrelBook + flight + "  reviewed\n", "Only 1 flight reviewed: too few to tell a fault that comes back from a single\none.", "1"},
	} {
		doc := faultsPage(t, test.book)
		assert.Equal(t, "Faults\n\n"+test.first+"\n\n"+footText, textOf(t, doc))
		encoded, err := json.Marshal(doc.Data)
		require.NoError(t, err)
		assert.JSONEq(t, `{"pilot":"ines","season":2026,"reviewed":`+test.reviewed+`,"kinds":[],"recurring":[],"without":[],"open":[],"calibration":{"n":0},"limits":{"flights":3,"named":3,"days":730}}`, string(encoded))
	}
}

// footText is the caution at 80 columns.
const footText = `A count of faults says nothing about height, g tolerance, the aircraft's limits
or the day. Fly new or changed figures first with a licensed instructor and
plenty of height. The rules in force, the aircraft's manual and licensed
instruction come before anything here.`

// The first sentences say what comes back most, and on what flights, whatever is
// selected; what came once has not come back.
func TestFaultsSentences(t *testing.T) {
	flights := func(faults ...string) string {
		text := kestrelBook
		for i, fault := range faults {
			text += fmt.Sprintf("flight 2026-04-%02d ines known\n  sequence known-26\n  %s\n", 11+i, fault)
		}
		return text
	}
	for _, test := range []struct{ book, want string }{
		{flights("fault 3 spin-stop 10deg on 9.11.1.5", "fault 3 spin-stop 10deg on 9.11.1.5", "reviewed"), "spin under- or over-rotated, 2 of 3 flights, no drill on it, about 19 points per flight."},
		{flights("fault 3 pull-rate", "fault 3 pull-rate\n  fault 4 radius", "fault 4 radius", "fault 3 pull-rate"), "uneven pull or push, 3 of 4 flights, no drill on it. Then radius changed, 2 of 4 flights, no drill on it, about 5.0 points per flight."},
		{flights("fault 4 radius", "fault 4 radius", "fault 4 radius", "fault 4 radius", "reviewed", "fault 4 radius") + "drill 2026-04-12 ines radius\n  ended 2026-04-20\n", "radius changed, 3 of 4 flights since its drill of 2026-04-12, ended 2026-04-20, about 7.5 points per flight."},
		{flights("fault 4 radius", "fault 3 pull-rate", "reviewed"), "No flying fault has come back in the last two years: none was noted twice since its drill, in at least three flights that could show it."},
		{flights("fault 4 radius", "fault 4 radius", "fault 4 radius") + "drill 2026-04-11 ines radius\n", "Too few flights since the drill to tell whether it comes back: radius changed, noted in 2 of 2 flights since its drill of 2026-04-11. Nothing else has come back in the last two years."},
		{flights("fault 4 radius", "reviewed", "fault 4 radius") + "drill 2026-04-13 ines radius\n", "Comes back most in"},
		{flights("fault 4 radius", "reviewed") + "drill 2026-04-12 ines radius\n" + "flight 2026-04-20 ines known\n  sequence known-26\n  fault 4 radius\n", "noted in 1 of 1 flight since its drill of 2026-04-12."},
		{flights("fault 4 radius", "reviewed", "reviewed") + "drill 2026-04-11 ines radius\n", "No flying fault has come back in the last two years"},
		{flights("fault 4 radius", "reviewed", "reviewed", "reviewed", "fault 4 radius") + "drill 2026-04-11 ines radius\n", "No flying fault has come back in the last two years"},
		{flights("fault 4 radius\n  fault 3 pull-rate", "fault 4 radius\n  fault 3 pull-rate", "fault 4 radius") + "drill 2026-04-11 ines radius\n", "Comes back most in the last two years"},
		{flights("fault 4 radius", "fault 4 radius"), "Only 2 flights reviewed: too few to tell a fault that comes back from a single one."},
		{flights("fault - loose-article", "reviewed", "reviewed"), "1 matter is open and comes before any grade. No flying fault has come back"},
	} {
		l := faultBook(t, test.book)
		for _, year := range []int{0, 2026} {
			page := oneLine(textOf(t, Faults(answers.FaultsOf(l, season.Selection{Pilot: l.Pilots[0], Season: year}), false)))
			assert.Contains(t, page, test.want)
			if strings.Contains(page, "Comes back most") {
				assert.Equal(t, year != 0, strings.Contains(page, "Comes back most in the last two years, practice included, not in season 2026 alone: "), page)
			}
		}
	}
}

// Without --all the page has no standard deviation and not every row.
func TestFaultsPageInShort(t *testing.T) {
	l := faultBook(t, kestrelSeason)
	d := answers.FaultsOf(l, season.Selection{Pilot: l.Pilots[0]})
	short := textOf(t, Faults(d, false))
	assert.Contains(t, short, "Coach compared with the judges: expected grades lie 0.39 below the given ones,")
	assert.Contains(t, oneLine(short), "That is no verdict on either: what nobody noted lowers the given grade alone.")
	assert.NotContains(t, short, "standard deviation")
	assert.Contains(t, short, "Other numbers: boxbook faults ines --all")
	for len(d.Kinds) < mostKinds+3 {
		d.Kinds = append(d.Kinds, d.Kinds[0])
	}
	assert.Contains(t, textOf(t, Faults(d, false)), "3 more rows with --all")
	assert.Regexp(t, `(?m)^kind +family +flights +points +drill$`, short)
	assert.Contains(t, short, "loops, part loops and eights")
	var rows strings.Builder
	require.NoError(t, report.WriteCSV(&rows, Faults(d, false)))
	assert.Equal(t, len(d.Kinds)+1, strings.Count(rows.String(), "\n"), "csv has every row")
	assert.NotContains(t, textOf(t, Faults(d, true)), "more rows")
	d.Calibration.Bias = report.Float(.5)
	assert.Contains(t, textOf(t, Faults(d, false)), "0.50 above the given ones")
}

// The caution stands once, at the foot, and no page calls anything harmless.
func TestFaultsCaution(t *testing.T) {
	for _, book := range []string{kestrelBook, kestrelSeason} {
		page := textOf(t, faultsPage(t, book))
		assert.True(t, strings.HasSuffix(page, footText))
		assert.Equal(t, 1, strings.Count(page, "licensed instructor"))
		assert.NotContains(t, strings.ToLower(page), "safe")
	}
}

// faultsPageText is the page of kestrelSeason: spin stops 2.5 on K 14, 1 on K 14
// and 2 on an unknown K; 9 points on K 9; 2 on K 23; 3 on K 10; a point each on
// K 10 and the K 9 after it [derived].
const faultsPageText = `Faults

1 matter is open and comes before any grade.
Too few flights since the drill to tell whether it comes back: spin under- or
over-rotated, noted in 1 of 2 flights since its drill of 2026-05-03. Nothing
else has come back in the last two years.

Open, before anything else

- loose article in the cockpit, 2026-04-18/ines/known: canopy catch not latched

Not a matter of grades. Each stays open until a later flight has ` + "`" + `closed KIND` + "`" + `,
or the ledger ` + "`" + `closed DATE PILOT KIND` + "`" + `.

Closed by: boxbook log closed --pilot ines --kind loose-article

Faults by kind and family, season 2026, most points first

kind           family  flights  seen  felt  points  since       drill
──────────────────────────────────────────────────────────────────────────
other          -        1 of 4     1     0  81.00   2026-04-18  none
spin-stop      spins    3 of 4     3     0  49.00?  2026-04-18  2026-05-03
line-angle     9.1      1 of 3     1     0  46.00   2026-04-18  none
radius         7        1 of 3     3     0  30.00   2026-04-18  none
no-line        7        1 of 3     1     0  19.00   2026-04-18  none
bridging       5        1 of 3     1     0      ?   2026-04-18  none
loose-article  -        1 of 4     1     0   0.00   2026-04-18  none
pull-rate      -        1 of 4     0     1   0.00   2026-04-18  none

? not known, or a lower limit: for 2 faults the K or the amount is not in the
  ledger
- flights: those with it, of the reviewed ones that could show it, practice too;
  what comes back is counted by kind, since its drill; since: of any season
- points: at stake, deduction x K as noted, not what the judges took off
- seen, felt: how often noted as seen, or as felt, a cause that no judge marks
  down; a fault noted by two people counts once, at the larger amount
- a dash for the family: noted of a whole figure or flight

Coach compared with the judges

expected minus given, mean   -0.39
spread (standard deviation)   1.62
figures                       3

- expected: 10 minus the seen faults; given: the panel's mean, in contest
  flights. Above 0 the judges took more than the noted faults account for, below
  0 less; figures without a noted fault are left out. That is no verdict on
  either: what nobody noted lowers the given grade alone
- 1 of the figures was made 0 as a matter of fact, which no sum of faults
  explains: without it the mean is -0.58

` + footText

// faultsPageJSON is the same for programs.
const faultsPageJSON = `{
	"pilot": "ines",
	"season": 2026,
	"reviewed": 4,
	"kinds": [
		{"kind": "other", "flights": 1, "exposed": 4, "count": 1, "points": 81, "seen": 1, "felt": 0, "since": "2026-04-18", "says": "another fault", "perFlight": 20.25},
		{"kind": "spin-stop", "group": "spins", "flights": 3, "exposed": 4, "count": 3, "points": 49, "seen": 3, "felt": 0, "since": "2026-04-18", "drill": "2026-05-03", "unknown": 1, "says": "spin under- or over-rotated", "perFlight": 12.25, "drillText": "stop on the number, ten a leg"},
		{"kind": "line-angle", "group": "9.1", "flights": 1, "exposed": 3, "count": 1, "points": 46, "seen": 1, "felt": 0, "since": "2026-04-18", "says": "line at the wrong angle", "perFlight": 15.333333333333334},
		{"kind": "radius", "group": "7", "flights": 1, "exposed": 3, "count": 3, "points": 30, "seen": 3, "felt": 0, "since": "2026-04-18", "says": "radius changed", "perFlight": 10},
		{"kind": "no-line", "group": "7", "flights": 1, "exposed": 3, "count": 1, "points": 19, "seen": 1, "felt": 0, "since": "2026-04-18", "says": "no line shown between two figures", "perFlight": 6.333333333333333},
		{"kind": "bridging", "group": "5", "flights": 1, "exposed": 3, "count": 1, "seen": 1, "felt": 0, "since": "2026-04-18", "unknown": 1, "says": "slid sideways at the top of the stall turn"},
		{"kind": "loose-article", "flights": 1, "exposed": 4, "count": 1, "points": 0, "seen": 1, "felt": 0, "since": "2026-04-18", "says": "loose article in the cockpit", "perFlight": 0, "safety": true},
		{"kind": "pull-rate", "flights": 1, "exposed": 4, "count": 1, "points": 0, "seen": 0, "felt": 1, "since": "2026-04-18", "says": "uneven pull or push", "perFlight": 0}
	],
	"recurring": [],
	"without": [],
	"untold": [{
		"kind": "spin-stop", "group": "spins", "flights": 3, "exposed": 4, "count": 3, "points": 49, "perFlight": 12.25, "seen": 3, "felt": 0, "unknown": 1,
		"since": "2026-04-18", "drill": "2026-05-03", "drillText": "stop on the number, ten a leg", "says": "spin under- or over-rotated", "seenSince": 1, "exposedSince": 2
	}],
	"open": [
		{"flight": "2026-04-18/ines/known", "kind": "loose-article", "remark": "canopy catch not latched", "says": "loose article in the cockpit"}],
	"matters": [
		{"flight": "2026-04-18/ines/known", "date": "2026-04-18", "kind": "loose-article", "remark": "canopy catch not latched", "says": "loose article in the cockpit"}],
	"calibration": {"bias": -0.3888888888888889, "spread": 1.61875580937, "n": 3, "zeroed": 1, "graded": -0.5833333333333334},
	"limits": {"flights": 3, "named": 3, "days": 730},
	"caution": "` + words.FaultsCaution + `"
}`

// A closed matter of safety stands before what comes back; the season's rows say that
// they are of it, and a drill that was ended that it was.
func TestFaultsPageSaysWhatItCounts(t *testing.T) {
	book := strings.Replace(kestrelSeason, "drill 2026-05-03 ines spin-stop", "closed 2026-05-01 ines loose-article\ndrill 2026-05-03 ines spin-stop", 1) + "  ended 2026-09-01\n"
	l := faultBook(t, book)
	d := answers.FaultsOf(l, season.Selection{Pilot: l.Pilots[0], Season: 2026})
	short := textOf(t, Faults(d, false))
	assert.True(t, strings.HasPrefix(short, "Faults\n\nMatters of safety noted, which cost no points: loose article in the cockpit (1\nof 4 flights), closed 2026-05-01 (nobody named).\n"), short)
	assert.Contains(t, short, "Faults by kind and family, season 2026, most points first")
	assert.Contains(t, short, "2026-05-03, ended")
	assert.Contains(t, short, "whole figure or flight")
	var rows strings.Builder
	require.NoError(t, report.WriteCSV(&rows, Faults(d, true)))
	assert.Contains(t, rows.String(), ",since,drill,ended,", "columns of days")
	assert.Contains(t, rows.String(), ",2026-05-03,2026-09-01,")
}
