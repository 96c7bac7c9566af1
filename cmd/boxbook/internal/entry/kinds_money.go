package entry

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/season"
	"boxbook/season/ledger"
)

const costLong = `Add money spent. Those it was for share it equally, or by the numbers after
their names (--for "ines 2 tobias 1"), which are shares, not amounts; with
--each yes each of them has that amount. Where each has an amount of their own,
add a cost for each. Of a contest, --for all is every pilot who was there. Who
paid is the first of those it was for, unless --by says otherwise.`

func costKind() Kind {
	contest := contestField("the contest it belongs to")
	contest.Optional, contest.Propose = true, contestsNearToday
	kind := moneyKindField("what it was for", "fuel", CostKinds)
	kind.Help = "entry, fuel, lodging, membership, or any word"
	each := yesField("each", "whether each of them has that amount", "yes: 120.00 of each, such as a membership; no: 120.00 is shared among them")
	each.When = forSeveral
	return Kind{
		Name: "cost", Short: "add money spent", Long: costLong,
		Fields: []Field{
			kind, amountField(),
			contest, // before its day; most costs have none
			{
				Name: "date", Asks: "the date", Example: "2026-04-18", Optional: true, Meant: ledger.DateMeant, Slip: dateSlip,
				Help:     "today, or the contest's first day, if omitted",
				None:     "the contest's first day",
				NeededIf: func(s Scene) bool { return !s.Has("contest") },
				Default:  dateWithoutContest,
			},
			{
				Name: "for", Asks: "who it was for: people, or club", Example: "ines tobias", Shape: Words, List: true, Not: []string{"by", "to", "receipt"},
				Help:    "several share it equally, or by the numbers after their names, which are shares, not amounts: ines 2 tobias 1; for amounts of their own, a cost each; of a contest, all is every pilot there",
				Propose: PartiesOrAll, Fits: func(s Scene, name string) bool { return name != allThere || s.Has("contest") },
			},
			each,
			{Name: "by", Asks: "who paid", Example: "club", Optional: true, Propose: Parties, Was: "paid-by", None: "the first named", Help: "if omitted, the first of those it was for", Never: noParty},
			yesField("to-club", "whether the club received it", "what the club received is its income"),
			receiptField(), remarkField("paid with the block entry"),
		},
		Write: writeCost,
	}
}

// noParty refuses what nobody can be called before the line is read with it, which
// would take the word in front for a name.
func noParty(text string) string {
	if words := strings.Fields(text); len(words) == 1 && !season.IsHandle(words[0]) {
		return fmt.Sprintf("no pilot, coach or person is called %q", words[0])
	}
	return ""
}

// forSeveral reports whether a cost is for more than one, and no shares say how it is
// divided.
func forSeveral(s Scene) bool {
	words := strings.Fields(s.One("for"))
	return s.One("for") == allThere || len(words) > 1 && !slices.ContainsFunc(words, func(word string) bool { return word[0] >= '0' && word[0] <= '9' })
}

// contestsNearToday are the contests, the nearest to the day that counts as today first.
func contestsNearToday(l *season.Ledger) []string {
	away := func(c *season.Contest) season.Date { return max(c.First-l.AsOf, l.AsOf-c.Last, 0) }
	contests := slices.Clone(l.Contests)
	slices.Reverse(contests)
	slices.SortStableFunc(contests, func(a, b *season.Contest) int { return cmp.Compare(away(a), away(b)) })
	return namesOf(contests, func(c *season.Contest) string { return c.Handle })
}

// allThere is the word for every pilot at a contest.
const allThere = "all"

// dateWithoutContest is the day that counts as today, where no contest has one.
func dateWithoutContest(s Scene) string {
	if s.Has("contest") {
		return ""
	}
	return s.Ledger.AsOf.String()
}

func writeCost(s Scene) (Addition, error) {
	line := joined(
		"cost", s.One("date"), s.One("kind"), s.One("amount"), s.ifYes("each", "each"), s.Behind("for", "for"), s.Behind("by", "by"),
		s.ifYes("to-club", "to club"), s.Behind("receipt", "receipt"), quoted(s.One("remark")))
	switch {
	case s.Has("contest"):
		return s.inContest("a cost of ", line)
	case !s.Has("date"):
		return Addition{}, &Refusal{Text: "a cost needs a date, or a contest to belong to: --date or --contest"}
	default:
		return Addition{Block: line + "\n", Said: "a cost"}, nil
	}
}

func incomeKind() Kind {
	return Kind{
		Name: "income", Short: "add money received",
		Fields: []Field{
			dateField(),
			moneyKindField("what it was", "sponsorship", IncomeKinds), amountField(),
			{Name: "for", Asks: "who received it, where it was not the club", Example: "ines", Optional: true, Propose: Parties},
			receiptField(), remarkField("local paper"),
		},
		Write: func(s Scene) (Addition, error) {
			return oneLine("an income", "income", s.One("date"), s.One("kind"), s.One("amount"), s.Behind("for", "for"),
				s.Behind("receipt", "receipt"), quoted(s.One("remark")))
		},
	}
}

// oneLine adds a block of one line.
func oneLine(said string, words ...string) (Addition, error) {
	return Addition{Block: joined(words...) + "\n", Said: said}, nil
}

// transferFields are what one party pays or owes another.
func transferFields(from, to string) []Field {
	return []Field{
		dateField(),
		{Name: "from", Asks: from, Example: "ines", Propose: Parties},
		{Name: "to", Asks: to, Example: "club", Propose: Parties},
		amountField(),
	}
}

func settleKind() Kind {
	debt := Field{
		Name: "for", Was: "debt", Asks: "the debt it paid, in another currency", Example: "100.00 CHF", Holds: "AMOUNT", Shape: Words, Count: 2, Optional: true,
		When: func(s Scene) bool { return len(Currencies(s.Ledger)) > 1 },
	}
	return Kind{
		Name: "settle", Short: "add a payment between people, or with the club",
		Blames: func(d ledger.Diagnostic) string {
			if ledger.PaysOtherWay(d) {
				return "from"
			}
			return ""
		},
		Fields: append(transferFields("who paid", "who was paid"), debt, receiptField(), remarkField("by bank transfer")),
		Write: func(s Scene) (Addition, error) {
			return oneLine("the settle line", "settle", s.One("date"), s.One("from"), s.One("to"), s.One("amount"), s.Behind("for", "for"),
				s.Behind("receipt", "receipt"), quoted(s.One("remark")))
		},
	}
}

func owedKind() Kind {
	return Kind{
		Name: "owed", Short: "add a debt older than the ledger",
		Fields: append(transferFields("who owes", "who is owed"), remarkField("from the old book")),
		Write: func(s Scene) (Addition, error) {
			return oneLine("the owed line", "owed", s.One("date"), s.One("from"), s.One("to"), s.One("amount"), quoted(s.One("remark")))
		},
	}
}
