package pages_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/season"
	"boxbook/season/ledger"
)

// yearPage is the page of a year of a ledger text, as of 2026-11-25.
func yearPage(t testing.TB, text string, year int) report.Document {
	t.Helper()
	today, ok := season.ParseDate("2026-11-25")
	require.True(t, ok)
	result, err := ledger.Load(ledger.Options{
		Files: ledger.Memory{"year.boxbook": text}, Main: "year.boxbook", Builtin: data.Builtin(), AsOf: today,
	})
	require.NoError(t, err)
	require.NoError(t, result.Diagnostics.Err())
	d, err := answers.YearOf(result.Ledger, year)
	require.NoError(t, err)
	return pages.Year(d)
}

func yearText(t testing.TB, doc report.Document) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, report.WriteText(&b, doc, report.TextOptions{Width: 80}))
	return b.String()
}

func yearJSON(t testing.TB, doc report.Document) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, report.WriteJSON(&b, doc))
	return b.String()
}

// yearLedger is a small year with a bit of everything. By hand (derived):
//
//	EUR  ines    -40.00 before; entry -95.00 (the club paid); settled +100.00: -35.00
//	     yuki    -120.00 billed; -80.00 of the lodging: -200.00
//	     club    +40.00 before; +95.00 +120.00 -80.50 -100.00: +74.50
//	     tobias  +80.50 for the hall, +80.00 of the lodging: +160.50
//	JPY  1000 among ines, tobias and yuki: 334, 333, 333; tobias paid: +667
//	BHD  1.000 for yuki by ines
//	rate 1 JPY = 0.006 EUR: ines -35.00 - 2.004 = -37.004 EUR;
//	     tobias 160.50 + 4.002 = 164.502; yuki -200.00 - 1.998 = -201.998
const yearLedger = `
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

const yearScreen = `Year 2026

At the close of 2026 Yuki Lindqvist owes Ines Halloran 1.000 BHD, Ines Halloran
and Yuki Lindqvist owe the club and Tobias Renn 235.00 EUR and Ines Halloran and
Yuki Lindqvist owe Tobias Renn 667 JPY: 6 payments settle it, at the foot.

Pilots

pilot           contests  flights   best   mean  1st  2nd  3rd
──────────────────────────────────────────────────────────────
Ines Halloran          1        2  70.00  67.83    0    1    0
Yuki Lindqvist         1        0                  1    0    0

- best and mean: percent over the contest flights; places: of contests' overall
  results
- 1 practice flight beside the contest flights
- 1 contest flight names no contest and is in no count of contests

duties, in sessions
pilot          scribe
─────────────────────
Ines Halloran       2
Tobias Renn         1

Money

BHD, who is owed what
who             opening   paid  own costs  closing
──────────────────────────────────────────────────
Ines Halloran     0.000  1.000      0.000   +1.000
Yuki Lindqvist    0.000  0.000      1.000   -1.000
──────────────────────────────────────────────────
sum               0.000  1.000      1.000    0.000

EUR, who is owed what
who             opening    paid  billed  own costs  settled  closing
────────────────────────────────────────────────────────────────────
Ines Halloran    -40.00    0.00    0.00      95.00  +100.00   -35.00
Tobias Renn        0.00  240.50    0.00      80.00     0.00  +160.50
Yuki Lindqvist     0.00    0.00    0.00     200.00     0.00  -200.00
the club         +40.00   95.00  120.00      80.50  -100.00   +74.50
────────────────────────────────────────────────────────────────────
sum                0.00  335.50  120.00     455.50     0.00     0.00

JPY, who is owed what
who             opening  paid  own costs  closing
─────────────────────────────────────────────────
Ines Halloran         0     0        334     -334
Tobias Renn           0  1000        333     +667
Yuki Lindqvist        0     0        333     -333
─────────────────────────────────────────────────
sum                   0  1000       1000        0

- a balance with + is owed to that person, one with - is owed by them; closing =
  opening + paid + billed - own costs + settled
- billed: owed to the club by those it was for, no money has moved yet

closing balances, converted at the rates of 2026
who                BHD      EUR   JPY  all in EUR
─────────────────────────────────────────────────
Ines Halloran   +1.000   -35.00  -334     -37.00*
Tobias Renn             +160.50  +667    +164.50
Yuki Lindqvist  -1.000  -200.00  -333    -202.00*
the club                 +74.50           +74.50

* without BHD, for which 2026 has no rate
- 1 JPY = 0.006 EUR; each sum rounded once, so that they need not sum to zero to
  the last digit

BHD, pilots' costs by kind
pilot            fuel    sum
────────────────────────────
Yuki Lindqvist  1.000  1.000

EUR, pilots' costs by kind
pilot           entry  lodging  membership     sum
──────────────────────────────────────────────────
Ines Halloran   95.00                        95.00
Tobias Renn              80.00               80.00
Yuki Lindqvist           80.00      120.00  200.00
──────────────────────────────────────────────────
sum             95.00   160.00      120.00  375.00

JPY, pilots' costs by kind
pilot            tea   sum
──────────────────────────
Ines Halloran    334   334
Tobias Renn      333   333
Yuki Lindqvist   333   333
──────────────────────────
sum             1000  1000

pilots' income, in nobody's balance
pilot           kind   amount  currency
───────────────────────────────────────
Yuki Lindqvist  prize    5.50  EUR

EUR, the club by kind
kind               income  costs
────────────────────────────────
hall-hire                  80.50
membership         120.00
────────────────────────────────
sum                120.00  80.50
income less costs  +39.50

- 1 entry dated after 2026-11-25 is not counted

Contests

date        contest           entries  flights  costs EUR  costs JPY
────────────────────────────────────────────────────────────────────
2026-04-18  Tarn Valley Open        2        1      95.00       1000

results as printed
contest           pilot                     result   place
──────────────────────────────────────────────────────────
Tarn Valley Open  Ines Halloran   1105.350 of 1600  2 of 9
Tarn Valley Open  Yuki Lindqvist                         1

- contests that began in 2026; entries: pilots with a flight or a result; costs:
  all that stand with the contest

Categories

category      entries  flights   best   mean
────────────────────────────────────────────
sportsman           0        1  70.00  70.00
intermediate        1        1  65.66  65.66
not known           1        0

Payments

who pays        whom           amount  currency
───────────────────────────────────────────────
Yuki Lindqvist  Ines Halloran   1.000  BHD
Ines Halloran   the club        35.00  EUR
Yuki Lindqvist  Tobias Renn    160.50  EUR
Yuki Lindqvist  the club        39.50  EUR
Ines Halloran   Tobias Renn       334  JPY
Yuki Lindqvist  Tobias Renn       333  JPY

- the fewest payments that bring every closing balance to zero
`

func TestYearText(t *testing.T) {
	assert.Equal(t, yearScreen, yearText(t, yearPage(t, yearLedger, 2026)))
}

// The fields of the contract: their names, their form, and nothing unknown in
// them.
func TestYearJSON(t *testing.T) {
	var got struct {
		Year       int
		Pilots     []map[string]json.RawMessage
		Club       map[string]json.RawMessage
		Contests   json.RawMessage
		Categories json.RawMessage
		Settle     json.RawMessage
		Totals     json.RawMessage
		PilotCosts json.RawMessage
		Rates      json.RawMessage

		PilotCostTotals, SettleTotals json.RawMessage
		Unpriced                      json.RawMessage
	}
	require.NoError(t, json.Unmarshal([]byte(yearJSON(t, yearPage(t, yearLedger, 2026))), &got))
	assert.Equal(t, 2026, got.Year)
	require.Len(t, got.Pilots, 3)
	ines, yuki := got.Pilots[0], got.Pilots[2]
	for _, c := range []struct {
		name string
		got  json.RawMessage
		want string
	}{
		{"pilot", ines["pilot"], `"ines"`},
		{"contests", ines["contests"], `1`},
		{"flights", ines["flights"], `2`},
		{"best", ines["best"], `70`},
		{"mean", ines["mean"], `67.82828282828282`}, // (65/99 + 70/100) / 2
		{"places", ines["places"], `{"1":0,"2":1,"3":0}`},
		{"duties", ines["duties"], `{"scribe":2}`},
		{"costs", ines["costs"], `[{"kind":"entry","currency":"EUR","amount":"95.00"},{"kind":"tea","currency":"JPY","amount":"334"}]`},
		{"paid", ines["paid"], `[{"currency":"BHD","amount":"1.000"},{"currency":"EUR","amount":"0.00"},{"currency":"JPY","amount":"0"}]`},
		{"opening", ines["opening"], `[{"currency":"BHD","amount":"0.000"},{"currency":"EUR","amount":"-40.00"},{"currency":"JPY","amount":"0"}]`},
		{"balance", ines["balance"], `[{"currency":"BHD","amount":"1.000"},{"currency":"EUR","amount":"-35.00"},{"currency":"JPY","amount":"-334"}]`},
		{"converted", ines["converted"], `{"currency":"EUR","amount":"-37.00","without":["BHD"]}`},
		{"best of yuki", yuki["best"], ``},
		{"cost totals", ines["costTotals"], `[{"currency":"EUR","amount":"95.00"},{"currency":"JPY","amount":"334"}]`},
		{"income totals", ines["incomeTotals"], `[{"currency":"EUR","amount":"0.00"},{"currency":"JPY","amount":"0"}]`},
		{"a result is the club's alone", ines["result"], ``},
		{"club result", got.Club["result"], `[{"currency":"EUR","amount":"39.50"}]`},
		{
			"totals", got.Totals,
			`[{"currency":"BHD","opening":"0.000","paid":"1.000","billed":"0.000","share":"1.000","settled":"0.000","owed":"0.000","movement":"0.000","closing":"0.000"},` +
				`{"currency":"EUR","opening":"0.00","paid":"335.50","billed":"120.00","share":"455.50","settled":"0.00","owed":"0.00","movement":"0.00","closing":"0.00"},` +
				`{"currency":"JPY","opening":"0","paid":"1000","billed":"0","share":"1000","settled":"0","owed":"0","movement":"0","closing":"0"}]`,
		},
		{"pilots' costs", got.PilotCosts, `[{"kind":"entry","currency":"EUR","amount":"95.00"},{"kind":"fuel","currency":"BHD","amount":"1.000"},` +
			`{"kind":"lodging","currency":"EUR","amount":"160.00"},{"kind":"membership","currency":"EUR","amount":"120.00"},{"kind":"tea","currency":"JPY","amount":"1000"}]`},
		{"pilots' cost totals", got.PilotCostTotals, `[{"currency":"BHD","amount":"1.000"},{"currency":"EUR","amount":"375.00"},{"currency":"JPY","amount":"1000"}]`},
		{"payments' totals", got.SettleTotals, `[{"currency":"BHD","amount":"1.000"},{"currency":"EUR","amount":"235.00"},{"currency":"JPY","amount":"667"}]`},
		{"income of yuki", yuki["income"], `[{"kind":"prize","currency":"EUR","amount":"5.50"}]`},
		{"duties of yuki", yuki["duties"], `{}`},
		{"club costs", got.Club["costs"], `[{"kind":"hall-hire","currency":"EUR","amount":"80.50"}]`},
		{"club income", got.Club["income"], `[{"kind":"membership","currency":"EUR","amount":"120.00"}]`},
		{"club opening", got.Club["opening"], `[{"currency":"EUR","amount":"40.00"}]`},
		{"club balance", got.Club["balance"], `[{"currency":"EUR","amount":"74.50"}]`},
		{
			"club accounts", got.Club["accounts"],
			`[{"currency":"EUR","opening":"40.00","paid":"95.00","billed":"120.00","share":"80.50","settled":"-100.00","owed":"0.00","movement":"34.50","closing":"74.50"}]`,
		},
		{
			"contests", got.Contests,
			`[{"contest":"tarn-open","name":"Tarn Valley Open","date":"2026-04-18","entries":2,"flights":1,"costs":[{"currency":"EUR","amount":"95.00"},{"currency":"JPY","amount":"1000"}],` +
				`"results":[{"pilot":"ines","name":"Ines Halloran","points":1105.35,"maximum":1600,"printedPoints":"1105.350","printedMaximum":"1600","place":2,"of":9},` +
				`{"pilot":"yuki","name":"Yuki Lindqvist","place":1}]}]`,
		},
		{
			"categories", got.Categories,
			`[{"category":"sportsman","entries":0,"flights":1,"best":70,"mean":70},` +
				`{"category":"intermediate","entries":1,"flights":1,"best":65.65656565656566,"mean":65.65656565656566},{"entries":1,"flights":0}]`,
		},
		{
			"settle", got.Settle,
			strings.NewReplacer("+yuki", `"yuki","fromName":"Yuki Lindqvist"`, "+ines", `"ines","fromName":"Ines Halloran"`,
				"-ines", `"ines","toName":"Ines Halloran"`, "-tobias", `"tobias","toName":"Tobias Renn"`).Replace(
				`[{"from":+yuki,"to":-ines,"currency":"BHD","amount":"1.000"},{"from":+ines,"to":"club","currency":"EUR","amount":"35.00"},` +
					`{"from":+yuki,"to":-tobias,"currency":"EUR","amount":"160.50"},{"from":+yuki,"to":"club","currency":"EUR","amount":"39.50"},` +
					`{"from":+ines,"to":-tobias,"currency":"JPY","amount":"334"},{"from":+yuki,"to":-tobias,"currency":"JPY","amount":"333"}]`),
		},
		{"rates", got.Rates, `[{"from":"JPY","to":"EUR","rate":"0.006"}]`},
		{"unpriced", got.Unpriced, `["BHD"]`},
	} {
		var flat bytes.Buffer
		if len(c.got) > 0 {
			require.NoError(t, json.Compact(&flat, c.got), c.name)
		}
		assert.Equal(t, c.want, flat.String(), c.name)
	}
}

const emptyYear = `{
  "year": 2019,
  "pilots": [],
  "club": {
    "costs": [],
    "income": [],
    "costTotals": [],
    "incomeTotals": [],
    "paid": [],
    "opening": [],
    "balance": [],
    "accounts": []
  },
  "totals": [],
  "pilotCosts": [],
  "pilotCostTotals": [],
  "contests": [],
  "categories": [],
  "settle": [],
  "settleTotals": [],
  "quiet": true,
  "asof": "2026-11-25"
}
`

func TestYearEmpty(t *testing.T) {
	for _, text := range []string{"", yearLedger} {
		doc := yearPage(t, text, 2019)
		assert.Equal(t, "Year 2019\n\nNothing in 2019.\n", yearText(t, doc))
		assert.Equal(t, emptyYear, yearJSON(t, doc))
	}
}

// The first thing that the page says.
func TestYearThought(t *testing.T) {
	people := "pilot ines\n  name \"Ines Halloran\"\npilot tobias\n  name \"Tobias Renn\"\npilot yuki\npilot mara\npilot olan\n"
	for _, c := range []struct {
		text string
		year int
		want string
	}{
		{"contest tarn-open 2026-04-18", 2026, "No money was written down in 2026."},
		{"cost 2026-01-10 membership 120 EUR for ines to club", 2026, "At the close of 2026 everybody is even."},
		{"owed 2026-01-01 ines club 40 EUR", 2026, "At the close of 2026 Ines Halloran owes the club 40.00 EUR."},
		{"owed 2025-01-01 ines club 40 EUR", 2026, "Nothing in 2026; as before, Ines Halloran owes the club 40.00 EUR."},
		{"owed 2025-01-01 club tobias 40 JPY", 2025, "At the close of 2025 the club owes Tobias Renn 40 JPY."},
		{
			"owed 2026-01-01 ines club 40 EUR\nowed 2026-01-01 tobias yuki 5 EUR\nowed 2026-01-01 tobias mara 1 CHF", 2026,
			"At the close of 2026 Tobias Renn owes mara 1.00 CHF, Ines Halloran owes the club 40.00 EUR and Tobias Renn owes yuki 5.00 EUR.",
		},
		{
			"owed 2026-01-01 ines club 4 EUR\nowed 2026-01-01 tobias club 5 EUR\nowed 2026-01-01 yuki club 6 EUR\nowed 2026-01-01 mara club 7 EUR", 2026,
			// 4 + 5 + 6 + 7 = 22
			"At the close of 2026 Ines Halloran, Tobias Renn, yuki and mara owe the club 22.00 EUR: 4 payments settle it, at the foot.",
		},
		{
			"cost 2026-01-01 lodging 3 EUR for ines tobias yuki mara olan by club\nowed 2026-01-01 olan ines 1 JPY", 2026,
			"At the close of 2026 5 people owe the club 3.00 EUR and olan owes Ines Halloran 1 JPY: 6 payments settle it, at the foot.",
		},
	} {
		doc := yearPage(t, people+c.text, c.year)
		require.NotEmpty(t, doc.Sections)
		paragraph, ok := doc.Sections[0].Blocks[0].(*report.Paragraph)
		require.True(t, ok)
		assert.Equal(t, c.want, paragraph.Text)
	}
}
