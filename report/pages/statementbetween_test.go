package pages_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report/answers"
	"boxbook/report/internal/testkit"
	"boxbook/report/pages"
	"boxbook/report/words"
)

// betweenSaid is what a member's statement says of payments between others.
func betweenSaid(t *testing.T, lines string, year int, who string) []string {
	t.Helper()
	const members = "pilot ines\n  name \"Ines Roth\"\npilot tobias\n  name \"Tobias Kern\"\npilot petra\n  name \"Petra Vogel\"\npilot yuki\n  name \"Yuki Mori\"\n"
	d := statementsOf(t, testkit.Book(t, members+lines), year, who)
	require.Len(t, d.Statements, 1)
	said := words.BetweenSaid(d, d.Statements[0])
	page := strings.Join(strings.Fields(yearText(t, pages.Statement(d))), " ")
	for _, line := range said {
		assert.Contains(t, page, line)
	}
	return said
}

// A member whose debts were settled by a payment between others is told by which, and who
// owed what; so are who paid and who was paid.
func TestStatementSaysPaymentsBetweenOthers(t *testing.T) {
	const debts = "cost 2025-03-01 fuel 80.00 EUR for ines tobias by tobias\ncost 2025-03-05 lodging 40.00 EUR for tobias by petra\n"
	const paid = debts + "settle 2025-04-01 ines petra 40.00 EUR\n"
	assert.Equal(t, []string{"40.00 EUR of your payment to Petra Vogel of 2025-04-01 settled what you owed Tobias Kern: Tobias Kern owed Petra Vogel as much"}, betweenSaid(t, paid, 2025, "ines"))
	assert.Equal(t, []string{"your 40.00 EUR for Petra Vogel was settled by the payment from Ines Roth to Petra Vogel of 2025-04-01: Ines Roth owed you as much"}, betweenSaid(t, paid, 2025, "tobias"))
	assert.Equal(t, []string{"40.00 EUR of the payment from Ines Roth of 2025-04-01 settled what Tobias Kern owed you: Ines Roth owed Tobias Kern as much"}, betweenSaid(t, paid, 2025, "petra"))
	assert.Empty(t, betweenSaid(t, paid, 2026, "tobias"), "a year says its own payments")
	assert.Len(t, betweenSaid(t, debts+"settle 2026-04-01 ines petra 40.00 EUR\n", 2026, "tobias"), 1, "though no line of the year is about the party")

	assert.Equal(t, []string{"the 40.00 EUR that Ines Roth owes you and the 40.00 EUR that you owe Petra Vogel cancel out, so that nothing is left to pay or to get"},
		betweenSaid(t, debts, 2025, "tobias"))
	assert.Empty(t, betweenSaid(t, debts, 2025, "ines"), "who is to pay has it among the payments")

	// what stands between the two comes first
	assert.Empty(t, betweenSaid(t, debts+"cost 2025-03-06 dinner 40.00 EUR for ines by petra\nsettle 2025-04-01 ines petra 40.00 EUR\n", 2025, "petra"))
	assert.Equal(t, []string{"30.00 EUR of your payment to Petra Vogel of 2025-04-01 settled what you owed Tobias Kern: Tobias Kern owed Petra Vogel as much"},
		betweenSaid(t, debts+"cost 2025-03-06 dinner 10.00 EUR for ines by petra\nsettle 2025-04-01 ines petra 40.00 EUR\n", 2025, "ines"))

	// of four, each in a chain
	const four = "cost 2025-03-01 fuel 20.00 EUR for ines by tobias\ncost 2025-03-02 fuel 20.00 EUR for tobias by yuki\ncost 2025-03-03 fuel 20.00 EUR for yuki by petra\nsettle 2025-04-01 ines petra 20.00 EUR\n"
	assert.Equal(t, []string{"your 20.00 EUR for Yuki Mori was settled by the payment from Ines Roth to Petra Vogel of 2025-04-01: Ines Roth owed you and Yuki Mori owed Petra Vogel as much"},
		betweenSaid(t, four, 2025, "tobias"))

	// money that was handed back settles no debt of others, nor does what the club is owed
	assert.Empty(t, betweenSaid(t, debts+"settle 2025-04-01 ines petra 40.00 EUR\nsettle 2025-04-02 petra ines 40.00 EUR\n", 2025, "ines"))
	assert.Empty(t, betweenSaid(t, "cost 2025-03-01 dues 40.00 EUR for ines by club to club\ncost 2025-03-02 tea 40.00 EUR for club by petra\nsettle 2025-04-01 ines petra 40.00 EUR\n", 2025, "petra"))
}

// What was found: a debt after payments that had left all even changed what these had
// settled, and pages named debts with members who had been paid.
func TestALaterDebtChangesNoPaymentBeforeIt(t *testing.T) {
	fuel := func(day, amount, debtor, creditor string) string {
		return "cost 2025-" + day + " fuel " + amount + " EUR for " + debtor + " by " + creditor + "\n"
	}
	chain := fuel("01-02", "50.00", "ines", "tobias") + fuel("01-03", "40.00", "tobias", "petra") +
		"settle 2025-01-10 ines petra 40.00 EUR\nsettle 2025-01-11 ines tobias 10.00 EUR\n"
	crossed := fuel("03-01", "64.00", "yuki", "ines") + fuel("03-02", "63.00", "petra", "ines") + fuel("03-03", "57.00", "petra", "tobias") + fuel("03-04", "45.00", "yuki", "tobias") +
		fuel("03-05", "44.00", "ines", "petra") + "settle 2025-04-01 petra ines 76.00 EUR\nsettle 2025-04-01 yuki ines 7.00 EUR\nsettle 2025-04-01 yuki tobias 102.00 EUR\n"
	circle := fuel("03-01", "43.00", "tobias", "petra") + fuel("03-02", "67.00", "ines", "tobias") + fuel("03-03", "79.00", "petra", "tobias") + fuel("03-04", "22.00", "petra", "ines") +
		fuel("03-05", "47.00", "tobias", "petra") + "settle 2025-04-01 ines tobias 45.00 EUR\nsettle 2025-04-01 petra tobias 11.00 EUR\n"
	for name, c := range map[string]struct{ paid, later string }{
		"a chain":  {chain, fuel("05-02", "30.00", "tobias", "ines")},
		"crossed":  {crossed, fuel("05-01", "90.00", "yuki", "ines")},
		"a circle": {circle, fuel("05-01", "44.00", "petra", "ines")},
	} {
		for _, who := range []string{"ines", "tobias", "petra", "yuki"} {
			before := betweenSaid(t, c.paid, 2025, who)
			assert.Equal(t, before, betweenSaid(t, c.paid+c.later, 2025, who), "%s: %s", name, who)
			d := statementsOf(t, testkit.Book(t, "pilot ines\npilot tobias\npilot petra\npilot yuki\n"+c.paid+c.later), 2025, who)
			assert.Empty(t, words.StatementPayments(d, d.Statements[0]), "%s: the one payment of %s is what stands between the two", name, who)
		}
	}
	assert.Equal(t, []string{"40.00 EUR of your payment to Petra Vogel of 2025-01-10 settled what you owed Tobias Kern: Tobias Kern owed Petra Vogel as much"}, betweenSaid(t, chain, 2025, "ines"))
	assert.Len(t, betweenSaid(t, fuel("01-02", "50.00", "ines", "tobias")+fuel("01-03", "50.00", "tobias", "petra")+fuel("01-04", "50.00", "petra", "ines"), 2025, "ines"), 1, "a circle that nobody paid cancels out, and that is said")
}

// A past year's page says what its payments come of whatever followed, in the past; in one
// currency too, and "netted" only where something was.
func TestNettedSumsStayWhateverFollows(t *testing.T) {
	const members = "pilot ines\n  name \"Ines Roth\"\npilot tobias\n  name \"Tobias Kern\"\npilot petra\n  name \"Petra Vogel\"\nrate 2025 CHF 1.05 EUR\n"
	const chain = "cost 2025-03-01 fuel 30.00 EUR for ines by tobias\ncost 2025-03-02 fuel 20.00 EUR for tobias by petra\n"
	const followed = "cost 2026-01-10 membership 50.00 EUR each for ines tobias petra to club\n"
	said := func(lines, in, who string) string {
		l := testkit.Book(t, members+lines)
		p, ok := l.PartyNamed(who)
		require.True(t, ok)
		d, err := answers.StatementsOf(l, 2025, answers.Settling{In: in}, p)
		require.NoError(t, err)
		s := d.Statements[0]
		notes := words.BetweenSaid(d, s)
		if len(s.Settle) > 0 {
			notes = append(notes, words.StatementPayments(d, s)...)
		}
		return strings.Join(notes, "; ")
	}
	const netted, rates = "debts between members are netted into as few payments as possible: ", "all in EUR at the rates of the year (1 CHF = 1.05 EUR)"
	francs := chain + "cost 2025-03-03 fuel 10.00 CHF for petra by ines\n"
	cross := "cost 2025-03-01 fuel 10.00 CHF for ines by tobias\ncost 2025-03-02 fuel 10.50 EUR for tobias by petra\n"
	equal := "cost 2025-03-01 fuel 20.00 EUR for ines by tobias\ncost 2025-03-02 fuel 20.00 EUR for tobias by petra\n"
	several := chain + "cost 2025-03-03 fuel 5.00 EUR for petra by ines\n"
	for _, c := range []struct{ name, lines, in, who, now, then string }{
		{"netted", several, "", "ines", netted + "you are owed 5.00 EUR by Petra Vogel, and owe 30.00 EUR to Tobias Kern", netted + "you were owed 5.00 EUR by Petra Vogel, and owed 30.00 EUR to Tobias Kern"},
		{"netted, in one", francs, "EUR", "ines", netted + "you are owed 10.00 CHF by Petra Vogel, and owe 30.00 EUR to Tobias Kern; " + rates, netted + "you were owed 10.00 CHF by Petra Vogel, and owed 30.00 EUR to Tobias Kern; " + rates},
		{"a debt alone, in one", "cost 2025-03-01 fuel 10.00 CHF for ines by tobias\n", "EUR", "ines", rates, rates},
		{"two currencies, in one", "cost 2025-03-01 fuel 10.00 CHF for ines by tobias\ncost 2025-03-02 fuel 7.77 EUR for ines by tobias\n", "EUR", "ines", rates, rates},
		{
			"cancels out across currencies", cross, "EUR", "tobias", "the 10.00 CHF that Ines Roth owes you and the 10.50 EUR that you owe Petra Vogel cancel out at the rates of the year, so that nothing is left to pay or to get",
			"the 10.00 CHF that Ines Roth owed you and the 10.50 EUR that you owed Petra Vogel cancel out at the rates of the year, so that nothing was left to pay or to get",
		},
		{
			"cancels out, in one", equal, "EUR", "tobias", "the 20.00 EUR that Ines Roth owes you and the 20.00 EUR that you owe Petra Vogel cancel out, so that nothing is left to pay or to get",
			"the 20.00 EUR that Ines Roth owed you and the 20.00 EUR that you owed Petra Vogel cancel out, so that nothing was left to pay or to get",
		},
	} {
		assert.Equal(t, c.now, said(c.lines, c.in, c.who), c.name)
		assert.Equal(t, c.then, said(c.lines+followed, c.in, c.who), c.name)
	}
}
