package main

import (
	"slices"
	"strings"
)

// moneyTopic is how money goes from paper to what a treasurer hands over.
const moneyTopic = `The club's money, from the slip to the page of the year.

Write down, a line each (boxbook log KIND asks; boxbook help log KIND):

  cost     somebody paid for something
           cost 2026-02-01 hall-hire 80.00 EUR for club by tobias receipt 3
           cost 2026-01-10 membership 120.00 EUR each for ines by club to club
           "to club" makes it income of the club; "by club" says that it is
           billed and not paid yet, without it each has paid
  income   came from outside: income 2026-03-01 sponsorship 300.00 EUR receipt 4
           What a member pays is no income, or it would count twice: settle
  settle   who paid whom: settle 2026-02-03 ines club 120.00 EUR
  owed     a debt older than the ledger: owed 2026-01-01 ines club 40.00 EUR
  in-hand  what was counted: in-hand 2026-12-31 bank 3120.55 EUR
           The first count of a pot begins it, each later one is compared
  budget   what the year may cost, or bring: budget 2026 hall-hire 100.00 EUR
  rate     for one sum of several currencies: rate 2026 CHF 1.04 EUR
  agreed   the result that the assembly took note of: agreed 2025 681.60 EUR

Read:

  boxbook check                  the slips: repeated lines, receipts given twice
  boxbook year 2026              result, what is in hand, who owes since when,
                                 budget, payments; --all has every balance
  boxbook statement ines 2026    one member's account; all is everybody's, ready
                                 to mail; club is the cash book, to tick off
                                 against the bank

Hand over:

  boxbook workbook --club -o FILE.xlsx   the year to calculate with
  boxbook export money -o FILE.csv       each line of money, for other programs
  boxbook statement club -o FILE.csv     the cash book for the accountant

A year is the calendar's, or begins where the ledger says (year-start 10-01).
Every line's form: boxbook help language.`

// otherWords are words that people type for what another command shows.
var otherWords = []struct {
	command string
	words   []string
}{
	{"boxbook year", []string{"owes", "owed", "owing", "debts", "debt", "balance", "balances", "budget", "budgets", "result", "accounts", "treasurer", "costs", "payments"}},
	{"boxbook statement club", []string{"cashbook", "cash-book", "cash", "bank", "cashbox", "cash-box"}},
	{"boxbook statement WHO", []string{"account", "bill", "bills", "invoice", "invoices"}},
	{"boxbook export money", []string{"journal", "bookkeeping", "accountant"}},
}

// moneyKinds are the kinds of entry that the topic is about.
var moneyKinds = []string{"cost", "income", "settle", "owed", "in-hand", "budget", "rate", "agreed"}

// elsewhere is the command that shows what a word stands for, "" where none does.
func elsewhere(word string) string {
	for _, other := range otherWords {
		if slices.Contains(other.words, word) {
			return other.command
		}
	}
	return ""
}

// topicOf is the topic that explains a word, "" where none is known to.
func topicOf(word string) string {
	if elsewhere(word) != "" || slices.Contains(moneyKinds, word) {
		return "money"
	}
	for _, topic := range sheetTopics {
		if slices.Contains(topic.words, strings.ToLower(word)) {
			return topic.page
		}
	}
	return ""
}

// sheetTopics are the pages that explain words of the score sheet.
var sheetTopics = []struct {
	page  string
	words []string
}{
	{"marks", []string{"mark", "grade", "grades", "zero", "zeros", "unreadable", "illegible", "hz", "pz", "av", "chz"}},
	{"language", []string{"penalty", "penalties", "official", "field", "place", "resolve", "result"}},
	{"import", []string{"csv", "xlsx", "spreadsheet"}},
}
