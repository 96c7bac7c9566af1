package commands

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season"
	"boxbook/season/ledger"
)

// moneyExample is a line of the ledger in the help page on money.
var moneyExample = regexp.MustCompile(`\b(?:cost|income|settle|owed|in-hand) \d{4}-\d\d-\d\d [^\n]*|\b(?:budget|rate|agreed) \d{4} [^\n]*`)

// Every example of the help page on money is read, and says on a member's statement what
// the page says of it.
func TestMoneyHelpIsRead(t *testing.T) {
	page := data.Money
	examples := moneyExample.FindAllString(page, -1)
	require.Greater(t, len(examples), 12)
	for _, example := range examples {
		reads(t, "pilot ines\npilot tobias\npilot yuki\nperson landlord\n"+example+"\n")
	}
	has := func(example string) string {
		require.Contains(t, page, example)
		return example + "\n"
	}
	bills := "pilot ines\npilot tobias\npilot yuki\n  name \"Yuki Lindqvist\"\ncost 2026-01-10 membership 120.00 EUR each for tobias yuki by club to club\n"
	l := reads(t, bills+has(`cost 2026-12-31 written-off -120.00 EUR for yuki by club to club`)+
		has(`settle 2026-02-05 tobias club 120.00 EUR "paid by ines"`)+has(`owed 2026-02-05 tobias ines 120.00 EUR "his membership"`))
	said := func(who string) (lines []string, thought string) {
		party, ok := l.PartyNamed(who)
		require.True(t, ok)
		d, err := answers.StatementsOf(l, 2026, answers.Settling{}, party)
		require.NoError(t, err)
		for _, p := range d.Statements[0].Postings {
			lines = append(lines, words.PostingSaid(p))
			if strings.HasPrefix(p.Kind, "written") {
				assert.Nil(t, p.Out, "nothing was paid")
			}
		}
		return lines, words.StatementThought(d, d.Statements[0])
	}
	lines, thought := said("yuki")
	assert.Equal(t, []string{"membership, billed by the club, 240.00 in all", "written off, credited by the club"}, lines)
	assert.Contains(t, thought, "even with everybody")
	lines, thought = said("tobias")
	assert.Equal(t, []string{"membership, billed by the club, 240.00 in all", `owed to ines, 120.00, "his membership"`, `payment to the club, "paid by ines"`}, lines)
	assert.Contains(t, thought, "please pay ines 120.00 EUR")
	lines, _ = said("ines")
	assert.Equal(t, []string{`owed by tobias, 120.00, "his membership"`}, lines)
}

// Whoever asks for help on a word of the ledger is led to a page that has it.
func TestEveryWordOfTheLedgerHasItsPage(t *testing.T) {
	tables, err := ledger.Specify(data.Builtin())
	require.NoError(t, err)
	whole, err := words.LanguagePage(data.Specification, tables)
	require.NoError(t, err)
	pages := map[string]string{"money": data.Money, "language": data.Language, "language --all": whole, "methods": data.Methods}
	explained := regexp.MustCompile("explained by boxbook help ([a-z]+(?: --all)?)")
	for _, word := range ledger.LanguageWords() {
		said := explained.FindStringSubmatch(pageOfWord(word))
		require.NotNil(t, said, word)
		if page := said[1]; page != "marks" {
			assert.True(t, hasWord(pages[page], word), "%s on the page %s", word, page)
		}
	}
	assert.Contains(t, pageOfWord("settle"), "boxbook help money, and how to add one by boxbook help log settle")
	assert.Contains(t, pageOfWord("result"), "boxbook help language")
	assert.Equal(t, "money", topicOf("pot"))
}

// reads is a ledger of a text that has no errors.
func reads(t *testing.T, text string) *season.Ledger {
	t.Helper()
	today, _ := season.ParseDate("2026-12-31")
	r, err := ledger.Load(ledger.Options{Files: ledger.Memory{"b.boxbook": text}, Main: "b.boxbook", Builtin: data.Builtin(), AsOf: today})
	require.NoError(t, err)
	require.NoError(t, r.Diagnostics.Err(), text)
	return r.Ledger
}
