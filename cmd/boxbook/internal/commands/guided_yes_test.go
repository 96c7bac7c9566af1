package commands

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestYesTakesWhatWasMeant takes the one name that an answer nearly is by yes, asks again
// by no, and makes nothing that is called so.
func TestYesTakesWhatWasMeant(t *testing.T) {
	dir, path := ledgerIn(t, twoFigures+"\nin-hand 2026-01-01 bank 5.00 EUR\n")
	k := startTalk(t, dir, "log", "in-hand", "--date", "2026-02-01")
	k.answer("where it was [bank]: ", "Bank")
	k.expect(`did you mean "bank"?`)
	k.answer("where it was [bank]: ", "no")
	k.answer("where it was [bank]: ", "no")
	k.expect(`"no" is no name here`)
	k.answer("where it was [bank]: ", "Bank")
	k.expect(`did you mean "bank"?`)
	k.answer("where it was [bank]: ", "yes")
	k.expect("taken as bank")
	k.answer("the amount", "7 EUR")
	k.answer("a remark", "none")
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	require.Contains(t, textOf(t, path), "in-hand 2026-02-01 bank 7 EUR\n")
}

// TestYesTakesTheNameThatARefusalNames is the same where the ledger refuses the answer, and
// where it could be added.
func TestYesTakesTheNameThatARefusalNames(t *testing.T) {
	dir, path := ledgerIn(t, springFlown)
	k := startTalk(t, dir, "log", "fault", "--flight", "last", "--figure", "2")
	k.answer("the kind of fault", "headin")
	k.expect("taken as heading")
	for _, question := range []string{"how much", "the code", "seen by", "where it is"} {
		k.answer(question, "")
	}
	k.answer("the coach", "marec")
	k.answer(`did you mean "marek"? (yes, no, new): `, "y")
	k.answer("a remark", "no")
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	require.Contains(t, textOf(t, path), "fault        2 heading by marek\n")

	k = startTalk(t, dir, "log", "fault", "--flight", "last", "--figure", "2")
	k.answer("the kind of fault", "hedaing")
	k.expect(`did you mean "heading"?`)
	k.answer("the kind of fault", "yes")
	k.answer("how much", "")
}

// TestYesGivesADoubtedAnswer takes an answer that was doubted as it was.
func TestYesGivesADoubtedAnswer(t *testing.T) {
	dir, _ := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "flight", "--programme", "known", "--asof", "2026-05-01")
	k.answer("the date [2026-05-01]: ", "2062-04-18")
	k.expect("(type it again if it is right)")
	k.answer("the date [2026-05-01]: ", "yes")
	k.answer("the pilot [ines]: ", "")
}

// TestADateWithoutAYearIsOffered puts the one day that can be meant on the line.
func TestADateWithoutAYearIsOffered(t *testing.T) {
	for _, answer := range []string{"", "yes"} {
		dir, _ := ledgerIn(t, twoFigures)
		k := startTalk(t, dir, "log", "flight", "--programme", "known", "--asof", "2026-05-01")
		k.answer("the date [2026-05-01]: ", "18.4.")
		k.expect("write 2026-04-18")
		k.answer("the date [2026-05-01]: 2026-04-18", answer)
		k.answer("the pilot [ines]: ", "")
		k.answer("the contest, - for none [spring]: ", "")
	}
}

// TestNoIsNoNote stores no note that only says that there is none.
func TestNoIsNoNote(t *testing.T) {
	for _, answer := range []string{"no", "None", "-", "N"} {
		dir, path := ledgerIn(t, "")
		k := startTalk(t, dir, "log", "pilot")
		k.answer("a short name", "ines")
		k.answer("the full name", answer)
		k.answer("the club", "Kestrel")
		k.answer("the aircraft", answer)
		k.answer("write it?", "yes")
		require.Equal(t, exitDone, k.exit())
		require.Equal(t, "pilot ines\n  club      \"Kestrel\"\n", textOf(t, path))
	}
}

// TestTheOneCurrencyIsTaken adds the currency to an amount where there is only one, and
// asks for it alone where there are several.
func TestTheOneCurrencyIsTaken(t *testing.T) {
	dir, path := ledgerIn(t, "pilot ines\n\nin-hand 2026-01-01 bank 5.00 EUR\n")
	k := startTalk(t, dir, "log", "in-hand", "--date", "2026-02-01", "--pot", "bank")
	k.answer("the amount with its currency", "120,00")
	k.expect("taken as 120,00 EUR")
	k.answer("a remark", "")
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())

	k = startTalk(t, dir, "log", "cost", "--date", "2026-02-01", "--kind", "fuel", "--for", "ines")
	k.answer("the amount with its currency", "7 CHF")
	for _, question := range []string{"the contest", "who paid", "whether the club", "the receipt", "a remark"} {
		k.answer(question, "")
	}
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	k = startTalk(t, dir, "log", "in-hand", "--date", "2026-03-01", "--pot", "bank")
	k.answer("the amount with its currency", "80.50")
	k.answer("its currency (CHF, EUR): ", "EUR")
	k.answer("a remark", "")
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	require.Contains(t, textOf(t, path), "in-hand 2026-03-01 bank 80.50 EUR\n")
	k = startTalk(t, dir, "log", "cost", "--date", "2026-03-01", "--kind", "fuel", "--for", "ines")
	k.answer("the amount with its currency", "9")
	k.expect("taken as 9 CHF")
}
