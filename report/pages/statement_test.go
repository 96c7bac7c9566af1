package pages_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math/big"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/internal/testkit"
	"boxbook/report/pages"
	"boxbook/report/words"
	"boxbook/season"
)

// statementsOf are the statements of those named, of all where nobody is.
func statementsOf(t testing.TB, l *season.Ledger, year int, names ...string) answers.Statements {
	t.Helper()
	var who []season.Party
	for _, name := range names {
		p, ok := l.PartyNamed(name)
		require.True(t, ok, name)
		who = append(who, p)
	}
	d, err := answers.StatementsOf(l, year, answers.Settling{}, who...)
	require.NoError(t, err)
	return d
}

// everyFormat is a document in all formats, one behind the other.
func everyFormat(t testing.TB, doc report.Document) string {
	t.Helper()
	var b bytes.Buffer
	for _, f := range report.Formats {
		require.NoError(t, f.Write(&b, doc, report.TextOptions{Width: 80}))
	}
	return b.String()
}

// Whatever a ledger says of a pilot's flying, a statement says nothing of it.
func TestStatementsShowNoCoaching(t *testing.T) {
	const flying = `
pilot ines
  name "Ines Halloran"
coach marek
  name "Marek Oduya"
sequence known
  category sportsman
  1 7.4.1.1:10 "a loop of hers"
flight 2026-05-02 ines practice
  sequence known
  panel marek
  1 5.5
  fault 1 line-angle 10deg "drawn at eighty"
  note "afraid of the spin"
drill 2026-05-03 ines line-angle "sighting lines aloud"
signoff 2026-06-01 ines intermediate by marek "steady now"
cost 2026-05-02 coaching 60.00 EUR for ines by marek
cost 2026-05-03 hall-hire 20.00 EUR for club by ines
`
	l := testkit.Book(t, flying)
	secret := []string{"line-angle", "line at the wrong angle", "drawn at eighty", "afraid of the spin", "sighting lines aloud", "steady now", "a loop of hers"}
	flight := everyFormat(t, pages.Flight(answers.FlightOf(l.Flights[0]), pages.FlightOptions{}))
	assert.Contains(t, flight, "afraid of the spin")
	out := everyFormat(t, pages.Statements(statementsOf(t, l, 2026))) + everyFormat(t, pages.Statement(statementsOf(t, l, 2026, "ines"))) +
		everyFormat(t, pages.Statement(statementsOf(t, l, 2026, "club")))
	assert.Contains(t, out, "coaching", "a cost of that kind is money")
	for _, word := range secret {
		assert.NotContains(t, out, word)
	}
}

// However many people and whatever amounts, nothing is left out at 80 columns, and
// the table for other programs sums to what is carried out.
func TestStatementsFit(t *testing.T) {
	l := testkit.Book(t, testkit.CrowdLedger())
	d := statementsOf(t, l, 2026)
	require.Len(t, d.Statements, 16)
	doc := pages.Statements(d)
	text := yearText(t, doc)
	for _, line := range strings.Split(text, "\n") {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), 80, line)
	}
	assert.NotContains(t, text, "not shown")
	assert.NotContains(t, text, "…")
	sums := map[string]*big.Rat{}
	for _, row := range csvRows(t, doc)[1:] {
		party, currency := row["party"], row["currency"]
		change, ok := new(big.Rat).SetString(row["change"])
		require.True(t, ok, row)
		name := party + " " + currency
		if sums[name] == nil {
			sums[name] = new(big.Rat)
		}
		sums[name].Add(sums[name], change)
	}
	for _, s := range d.Statements {
		for _, c := range s.Closing {
			assert.Contains(t, text, words.AmountSaid(c.Amount))
			require.NotNil(t, sums[s.Party+" "+c.Currency])
			assert.Equal(t, c.Amount.Text(), sums[s.Party+" "+c.Currency].FloatString(c.Amount.Places()))
		}
	}
}

// csvRows are the rows of a document's csv, by the names of the columns.
func csvRows(t testing.TB, doc report.Document) []map[string]string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, report.WriteCSV(&b, doc))
	records, err := csv.NewReader(&b).ReadAll()
	require.NoError(t, err)
	var rows []map[string]string
	for _, record := range records {
		row := map[string]string{}
		for i, value := range record {
			row[records[0][i]] = value
		}
		rows = append(rows, row)
	}
	return rows
}

// Whoever is asked for, carried in, carried out and payments are what the year's
// JSON has, under the names of the contract.
func TestStatementsAreTheYears(t *testing.T) {
	l := testkit.Book(t, clubBook)
	year, err := answers.YearOf(l, 2025)
	require.NoError(t, err)
	var got struct {
		Statements []struct {
			Party, Kind      string
			Year             int
			Opening, Closing []answersSum
			Postings         []map[string]any
			Settle           []map[string]any
		}
	}
	encoded, err := json.Marshal(statementsOf(t, l, 2025))
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(encoded, &got))
	balances := map[string][][]answersSum{}
	for _, p := range year.Parties {
		balances[p.Party] = [][]answersSum{plain(p.Opening), plain(p.Balance)}
	}
	payments := 0
	for _, s := range got.Statements {
		assert.Equal(t, 2025, s.Year)
		assert.Equal(t, balances[s.Party], [][]answersSum{s.Opening, s.Closing}, s.Party)
		delete(balances, s.Party)
		for _, p := range s.Settle {
			if p["from"] == s.Party || p["from"] == "club" {
				payments++
			}
		}
		for _, p := range s.Postings {
			for _, field := range []string{"date", "currency", "amount", "running", "file", "line"} {
				assert.Contains(t, p, field)
			}
		}
	}
	delete(balances, "club")
	assert.Empty(t, balances, "everybody with a balance has a statement")
	assert.Equal(t, len(year.Settle), payments)
}

// answersSum is a sum as JSON has it.
type answersSum struct{ Currency, Amount string }

func plain(sums []answers.Sum) []answersSum {
	out := []answersSum{}
	for _, s := range sums {
		out = append(out, answersSum{s.Currency, s.Amount.Text()})
	}
	return out
}

// The first thing that a statement says.
func TestStatementThought(t *testing.T) {
	people := "pilot ines\n  name \"Ines Halloran\"\npilot tobias\n  name \"Tobias Renn\"\npilot yuki\n  name \"Yuki Lindqvist\"\npilot mara\n  name \"Mara Voss\"\n"
	for _, c := range []struct{ who, lines, want string }{
		{"ines", "cost 2026-01-10 membership 1200.00 EUR for ines by club to club\n", "As of 2026-11-25: please pay the club 1,200.00 EUR. Your oldest unpaid item with the club dates from 2026-01-10: membership 1,200.00 EUR."},
		{"ines", "cost 2026-01-10 hall-hire 80.00 EUR for club by ines\ncost 2026-01-11 fuel 20.00 CHF for ines by tobias\n", "As of 2026-11-25: please pay Tobias Renn 20.00 CHF; the club owes you 80.00 EUR."},
		{"ines", "cost 2026-01-10 fuel 20.00 EUR for tobias by ines\ncost 2026-01-11 fuel 5.00 EUR for yuki by ines\n", "As of 2026-11-25: you get 20.00 EUR from Tobias Renn; you get 5.00 EUR from Yuki Lindqvist; you have nothing to pay."},
		{"ines", "cost 2026-01-10 fuel 60.00 EUR for tobias yuki mara by ines\n", "As of 2026-11-25: with three others there are payments, below; you have nothing to pay."},
		{"ines", "cost 2026-01-10 fuel 60.00 EUR for ines\n", "As of 2026-11-25 you are even with everybody: there is nothing to pay."},
		{"ines", "owed 2025-01-10 ines club 4.00 EUR\n", "Nothing of yours in 2026. As of 2026-11-25: please pay the club 4.00 EUR. Your oldest unpaid item with the club dates from 2025-01-10: older debt 4.00 EUR."},
		{"mara", "cost 2026-01-10 fuel 60.00 EUR for ines\n", "Nothing of yours in 2026. As of 2026-11-25 you are even with everybody: there is nothing to pay."},
		{"club", "cost 2026-01-10 membership 120.00 EUR for ines to club\ncost 2026-01-11 hall-hire 1000.00 EUR for club by club\n", "120.00 EUR came in and 1,000.00 EUR went out. Since the ledger began 880.00 EUR more went out than came in, and no count says what is there."},
		{"club", "cost 2026-01-10 membership 120.00 EUR for ines to club\nin-hand 2026-01-01 bank 1000.00 EUR\nin-hand 2026-02-01 bank 1121.00 EUR\n", "On 2026-02-01 there was 1,121.00 EUR in the bank, 1.00 more than the ledger says. No line of that amount explains it. A line may be missing (a payment received, a slip not typed): check the slips first. 120.00 EUR came in. 1,120.00 EUR should be in hand."},
		{"club", "in-hand 2026-01-01 bank 100 EUR\nin-hand 2026-01-01 cash-box 10 EUR\nincome 2026-01-10 prize 5 EUR\nin-hand 2026-02-01 bank 100 EUR\nin-hand 2026-02-01 cash-box 13 EUR\n", "On 2026-02-01 there was 100.00 EUR in the bank and 13.00 EUR in the cash-box, together 2.00 less than the ledger says. No line of that amount explains it. A line may be missing (a bank charge, a slip not typed): check the slips first. 5.00 EUR came in. 115.00 EUR should be in hand."},
		{"club", "in-hand 2026-01-01 bank 100 EUR\nin-hand 2026-01-01 cash-box 10 EUR\nincome 2026-01-10 prize 5 EUR\nin-hand 2026-02-01 bank 102 EUR\nin-hand 2026-02-01 cash-box 13 EUR\n", "5.00 EUR came in. 115.00 EUR should be in hand. On 2026-02-01 there was 102.00 EUR in the bank and 13.00 EUR in the cash-box, which together agree with the book."},
		{"club", "cost 2026-01-10 fuel 60.00 EUR for ines\n", "No money of the club moved in 2026, and none is in hand."},
	} {
		d := statementsOf(t, testkit.Book(t, people+c.lines), 2026, c.who)
		assert.Equal(t, c.want, words.StatementThought(d, d.Statements[0]), c.lines)
	}
}

// What a statement of a year that is over says is to be paid is of its last day; where
// lines have followed it was so, and nothing is asked for.
func TestStatementOfAYearThatIsOver(t *testing.T) {
	owes := twoPilots + "cost 2025-03-01 membership 55 EUR for ines by club to club\ncost 2025-03-01 fuel 9 EUR for club by tobias\n"
	thought := func(lines, who string) string {
		d := statementsOf(t, testkit.Book(t, lines), 2025, who)
		return words.StatementThought(d, d.Statements[0])
	}
	assert.Equal(t, "As of 2025-12-31: please pay the club 55.00 EUR. Your oldest unpaid item with the club dates from 2025-03-01: membership 55.00 EUR.", thought(owes, "ines"))
	assert.Equal(t, "As of 2025-12-31: the club owes you 9.00 EUR; you have nothing to pay.", thought(owes, "tobias"))
	paid := owes + "settle 2026-01-02 ines club 55 EUR\nsettle 2026-01-02 club tobias 9 EUR\n"
	assert.Contains(t, thought(paid, "ines"), "As of 2025-12-31: you were to pay the club 55.00 EUR. ")
	assert.Contains(t, thought(paid, "ines"), "So it stood at the end of 2025: 1 line of yours has followed since.")
	assert.Equal(t, "As of 2025-12-31: the club owed you 9.00 EUR. So it stood at the end of 2025: 1 line of yours has followed since.", thought(paid, "tobias"))
	even := owes + "settle 2025-04-02 ines club 55 EUR\n"
	assert.Equal(t, "As of 2025-12-31 you are even with everybody: there is nothing to pay.", thought(even, "ines"))
	assert.Equal(t, "As of 2025-12-31 you were even with everybody. So it stood at the end of 2025: 1 line of yours has followed since.",
		thought(even+"cost 2026-03-01 membership 55 EUR for ines by club to club\n", "ines"))
}

// The pot that disagrees comes first in the cash book. Of two pots of a currency none has
// a difference of its own: there is one of both, with the last that was counted.
func TestCashBookComparesPotsTogether(t *testing.T) {
	d := statementsOf(t, testkit.Book(t, twoPilots+"in-hand 2026-01-01 bank 100 EUR\nin-hand 2026-01-01 till 5 CHF\nin-hand 2026-02-01 bank 90 EUR\nin-hand 2026-02-01 till 5 CHF\n"), 2026, "club")
	assert.Equal(t, "On 2026-02-01 there was 90.00 EUR in the bank, 10.00 less than the ledger says. No line of that amount explains it. A line may be missing (a bank charge, a slip not typed): check the slips first. No money of the club moved in 2026. 5.00 CHF and 100.00 EUR should be in hand. On 2026-02-01 there was 5.00 CHF in the till, which agrees with the book.", words.StatementThought(d, d.Statements[0]))
	two := "in-hand 2026-01-01 bank 100 EUR\nin-hand 2026-01-01 till 50 EUR\nin-hand 2026-02-01 bank 90 EUR\nin-hand 2026-02-01 till 50 EUR\n"
	d = statementsOf(t, testkit.Book(t, twoPilots+two), 2026, "club")
	var said []string
	for _, p := range d.Statements[0].Postings {
		said = append(said, words.CashSaid(p))
	}
	assert.Equal(t, []string{"in hand 100.00, the first count", "in hand 50.00, the first count", "in hand 90.00", "in hand 50.00, bank and till together 10.00 less than the ledger says"}, said)
	page := yearText(t, yearPage(t, twoPilots+two, 2026))
	assert.Equal(t, 1, strings.Count(page, "-10.00"))
	assert.Contains(t, page, "2026-02-01  bank + till  EUR        140.00         150.00      -10.00\n")
	assert.Contains(t, page, "lines of money name no pot")
}

// A bill that was paid is nowhere called unpaid, one that is paid in part has what is
// open of it.
func TestPaidBillsAreNotCalledUnpaid(t *testing.T) {
	both := "cost 2026-01-10 membership 120 EUR each for ines tobias by club to club\nsettle 2026-02-01 ines club 120 EUR\nsettle 2026-02-02 tobias club 120 EUR\n"
	assert.NotContains(t, yearText(t, yearPage(t, twoPilots+both, 2026)), "not paid")
	d := statementsOf(t, testkit.Book(t, twoPilots+both), 2026, "ines")
	assert.Equal(t, "membership, billed by the club, 240.00 in all", words.PostingSaid(d.Statements[0].Postings[0]))
	older := "owed 2025-01-10 ines club 4 EUR\n" + both
	d = statementsOf(t, testkit.Book(t, twoPilots+older), 2026, "ines")
	assert.Contains(t, words.PostingSaid(d.Statements[0].Postings[0]), "billed by the club", "a payment of its amount paid it")
	part := "cost 2026-01-10 membership 120 EUR for ines by club to club\nsettle 2026-02-01 ines club 50 EUR\n"
	d = statementsOf(t, testkit.Book(t, twoPilots+part), 2026, "ines")
	assert.Equal(t, "membership, billed, 70.00 of it not paid", words.PostingSaid(d.Statements[0].Postings[0]))
}

// Who pays one currency and gets another is one person, and two of one name are
// two.
func TestStatementCountsPeople(t *testing.T) {
	people := "pilot ines\n  name \"Ines Halloran\"\npilot anna\n  name \"Anna Voss\"\npilot young\n  name \"Anna Voss\"\n"
	for _, c := range []struct{ lines, want string }{
		{
			"cost 2026-01-10 fuel 20.00 EUR for anna by ines\ncost 2026-01-11 fuel 5.00 CHF for ines by anna\ncost 2026-01-12 fuel 7.00 EUR for young by ines\n",
			"As of 2026-11-25: please pay Anna Voss 5.00 CHF; you get 20.00 EUR from Anna Voss; you get 7.00 EUR from Anna Voss.",
		},
	} {
		d := statementsOf(t, testkit.Book(t, people+c.lines), 2026, "ines")
		assert.Equal(t, c.want, words.StatementThought(d, d.Statements[0]), c.lines)
	}
}

// Where a page is too narrow for all columns, those below still say what a line is of.
func TestNarrowStatementsSayWhatALineIsOf(t *testing.T) {
	l := testkit.Book(t, twoPilots+"cost 2026-02-01 lodging 60 EUR for ines tobias by ines \"two nights beside the field\"\ncost 2026-02-03 hotel 1020 EUR for ines \"a week at the lake\"\nsettle 2026-02-04 tobias club 20 EUR\n")
	for who, line := range map[string]string{"ines": `2026-02-01  lodging.*\+30\.00\n`, "club": `2026-02-04  Tobias Renn +payment +20\.00 +□\n`} {
		var b bytes.Buffer
		d := statementsOf(t, l, 2026, who)
		require.NoError(t, report.Formats[0].Write(&b, pages.Statement(d), report.TextOptions{Width: 48}))
		assert.Regexp(t, line, b.String())
		if who == "ines" {
			assert.Regexp(t, `2026-02-03  hotel.*EUR\n`, b.String())
		}
	}
}
