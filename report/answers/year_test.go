package answers_test

import (
	"bytes"
	"encoding/json"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report/answers"
	"boxbook/report/internal/testkit"
)

func yearOf(t testing.TB, text string, year int) answers.Year {
	t.Helper()
	d, err := answers.YearOf(testkit.Book(t, text), year)
	require.NoError(t, err)
	return d
}

func yearJSON(t testing.TB, text string, year int) string {
	t.Helper()
	encoded, err := json.Marshal(yearOf(t, text, year))
	require.NoError(t, err)
	return string(encoded)
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
	require.NoError(t, json.Unmarshal([]byte(yearJSON(t, testkit.YearLedger, 2026)), &got))
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
		{"payments' totals", got.SettleTotals, `[{"currency":"BHD","amount":"1.000"},{"currency":"EUR","amount":"315.50"},{"currency":"JPY","amount":"667"}]`},
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
				`{"pilot":"yuki","name":"Yuki Lindqvist","place":1}],` +
				`"pilots":[{"pilot":"ines","name":"Ines Halloran","costs":[{"currency":"EUR","amount":"95.00"},{"currency":"JPY","amount":"334"}]},` +
				`{"pilot":"tobias","name":"Tobias Renn","costs":[{"currency":"JPY","amount":"333"}]},` +
				`{"pilot":"yuki","name":"Yuki Lindqvist","costs":[{"currency":"JPY","amount":"333"}]}]}]`,
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
					`{"from":+yuki,"to":-tobias,"currency":"EUR","amount":"80.00"},{"from":+yuki,"to":"club","currency":"EUR","amount":"120.00"},{"from":"club","to":-tobias,"currency":"EUR","amount":"80.50"},` +
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
    "moved": [], "exchanged": [], "claimsOpening": [], "claims": [], "claimsChange": [], "owed": [], "owedTotals": [],
    "inHand": [], "budget": [], "accounts": []
  },
  "totals": [],
  "pilotCosts": [],
  "pilotCostTotals": [],
  "costs": [],
  "costTotals": [],
  "first": "2019-01-01",
  "last": "2019-12-31",
  "calendar": true,
  "others": [],
  "parties": [],
  "contests": [],
  "categories": [],
  "settle": [],
  "settleTotals": [],
  "quiet": true,
  "asof": "2026-11-25"
}
`

func TestYearOfNothing(t *testing.T) {
	for _, text := range []string{"", testkit.YearLedger} {
		assert.JSONEq(t, emptyYear, yearJSON(t, text, 2019))
	}
}

// The balances of the JSON sum to zero in every currency, and its payments
// settle them.
func TestYearSumsToZero(t *testing.T) {
	for _, text := range []string{testkit.YearLedger, testkit.CrowdLedger()} {
		data := yearOf(t, text, 2026)
		left, sums := map[string]*big.Rat{}, map[string]*big.Rat{}
		add := func(to map[string]*big.Rat, key string, amount answers.Amount, sign int64) {
			value, ok := new(big.Rat).SetString(amount.Text())
			require.True(t, ok, amount.Text())
			if to[key] == nil {
				to[key] = new(big.Rat)
			}
			to[key].Add(to[key], value.Mul(value, big.NewRat(sign, 1)))
		}
		books := map[string]answers.Books{"club": data.Club.Books}
		for _, p := range data.Pilots {
			books[p.Pilot] = p.Books
		}
		for name, b := range books {
			for i := range b.Balance {
				add(left, name+b.Balance[i].Currency, b.Balance[i].Amount, 1)
				add(sums, "closing "+b.Balance[i].Currency, b.Balance[i].Amount, 1)
				add(sums, "opening "+b.Opening[i].Currency, b.Opening[i].Amount, 1)
			}
		}
		for _, p := range data.Settle {
			add(left, p.From+p.Currency, p.Amount, 1)
			add(left, p.To+p.Currency, p.Amount, -1)
		}
		require.NotEmpty(t, sums)
		for key, sum := range sums {
			assert.Zero(t, sum.Sign(), key)
		}
		for key, sum := range left {
			assert.Zero(t, sum.Sign(), key)
		}
	}
}
