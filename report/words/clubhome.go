package words

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/report/answers"
)

// The labels of a treasurer's home page.
const (
	homeOwed   = "Owed to it"
	homeInHand = "In hand"
	homeLedger = "Ledger"
)

// homeOwing is how many who owe the club the page names before it counts.
const homeOwing = 4

// ClubHomeTitle is the title of a treasurer's home page.
func ClubHomeTitle(d answers.ClubHome) string { return ClubTitle(d.Year.Club.Name) }

// ClubHomeLines are what a treasurer should know first; warnings and drafts are the
// ledger's.
func ClubHomeLines(d answers.ClubHome, warnings int, drafts []answers.Draft) []HomeLine {
	y, label := d.Year, YearTitle(d.Year.Year)
	if y.Running {
		label += " so far"
	}
	lines := []HomeLine{
		{Label: label, Text: homeResult(y)}, {Label: homeOwed, Text: homeOwedSaid(y)}, {Label: homeInHand, Text: homeInHandSaid(d)},
	}
	if warnings > 0 {
		lines = append(lines, HomeLine{homeLedger, WarningsLine(warnings), true})
	}
	if len(drafts) > 0 {
		lines = append(lines, HomeLine{Label: homeDraft, Text: DraftWords(drafts)})
	}
	return append(lines, HomeLine{Label: homeThen, Text: fmt.Sprintf("boxbook year %d: income and costs, who owes what since when", y.Year)})
}

// homeResult is the club's result, a sentence a currency.
func homeResult(y answers.Year) string {
	said, _ := resultsSaid(y, outcomes(y))
	if len(said) == 0 {
		return "no income or cost of the club"
	}
	return strings.Join(said, " ")
}

// homeOwedSaid says what the club is owed, by whom since when, the oldest first, and what
// it owes.
func homeOwedSaid(y answers.Year) string {
	text := "nothing"
	if len(y.Club.OwedTotals) > 0 {
		owing, said := slices.Clone(y.Club.Owed), []string{}
		slices.SortStableFunc(owing, func(a, b answers.Owed) int { return strings.Compare(a.Since, b.Since) })
		for _, o := range owing[:min(len(owing), homeOwing)] {
			said = append(said, fmt.Sprintf("%s %s %s since %s", PartyName(o.Name), AmountSaid(o.Amount), o.Currency, DayIn(o.Since, y.Year)))
		}
		text = fmt.Sprintf("%s: %s", sumsSaid(y.Club.OwedTotals), andMore(said, len(owing)-len(said), "other debt", "other debts"))
	}
	if len(y.Club.Owes) > 0 {
		text += "; it owes " + sumsSaid(y.Club.Owes)
	}
	return text
}

// homeInHandSaid says what the latest counts found and whether that agrees, then what
// should be there now.
func homeInHandSaid(d answers.ClubHome) string {
	y, counts := d.Year, latestCounts(d.Counts)
	if len(d.Counts) == 0 {
		return "never counted; a count: boxbook log in-hand"
	}
	said := []string{otherCurrencies(y.Club.InHand, dayOf(y.Year))}
	for i, h := range counts {
		said = append(said, countFound(y.Year, h, i > 0 && counts[i-1].Date == h.Date, y.Club.InHand))
		if !slices.ContainsFunc(counts[i+1:], func(o answers.InHand) bool { return o.Currency == h.Currency }) {
			said = append(said, shouldHold(y, h.Currency))
		}
	}
	if len(counts) == 0 {
		last := d.Counts[len(d.Counts)-1]
		held := PotHeld(last.Pot, answers.Sum{Currency: last.Currency, Amount: last.Amount})
		said = append(said, fmt.Sprintf("On %s there was %s, the first count, so nothing checks these figures yet.", DayIn(last.Date, y.Year), held), shouldHold(y, ""))
	}
	return strings.Join(slices.DeleteFunc(said, func(s string) bool { return s == "" }), " ")
}
