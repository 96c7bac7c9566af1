package commands

import (
	"slices"
	"strings"
	"unicode"

	"boxbook/cmd/boxbook/internal/entry"
	"boxbook/data"
	"boxbook/season"
)

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

// partOfEntry says which entry has what a word stands for as a part of its own, ""
// where none is known to.
func partOfEntry(word string) string {
	for _, part := range entryParts {
		if slices.Contains(part.words, strings.ToLower(word)) {
			return part.hint
		}
	}
	return ""
}

// entryParts are words for what is no entry of its own.
var entryParts = []struct {
	hint  string
	words []string
}{
	{"a pilot's note on a flight is boxbook log note, a coach's boxbook log review --note TEXT", []string{"notes", "comment", "comments"}},
	{"a remark is part of an entry: --remark TEXT, with boxbook log fault, cost, signoff ...", []string{"remark", "remarks"}},
}

// wordsAnswered are words that people type where no command does it.
var wordsAnswered = []struct {
	answer string
	words  []string
}{
	{howToCorrect, []string{"fix", "edit", "correct", "change", "amend", "modify", "delete", "remove", "redo"}},
	{howToRename, []string{"rename"}},
	{howToSearch, []string{"search", "find", "grep"}},
	{howToClose, []string{"close", "closing", "close-year", "year-end", "yearend", "new-year", "newyear", "next-year", "carry", "carry-over", "opening"}},
	{theLastFlight, []string{season.LastSelector, "latest"}},
}

// answeredElsewhere says how that is done which a word stands for, "" where no command
// or topic is meant.
func answeredElsewhere(word string) string {
	for _, answered := range wordsAnswered {
		if slices.Contains(answered.words, strings.ToLower(word)) {
			return answered.answer
		}
	}
	return ""
}

// topicOf is the topic that explains a word, "" where none is known to.
func topicOf(word string) string {
	if elsewhere(word) != "" || slices.Contains(moneyKinds, word) {
		return "money"
	}
	return sheetTopic(word)
}

// sheetTopic is the page of a word of the score sheet or of the trade, "" where none is known.
func sheetTopic(word string) string {
	for _, topic := range sheetTopics {
		if slices.Contains(topic.words, strings.ToLower(word)) {
			return topic.page
		}
	}
	return ""
}

// pageOfWord says which page explains a word of the ledger, and which how a line of it is
// added.
func pageOfWord(word string) string {
	page := "language"
	if !hasWord(data.Language, word) {
		page = "language --all"
	}
	if slices.Contains(moneyKinds, word) {
		page = "money"
	} else if topic := sheetTopic(word); topic != "" {
		page = topic
	}
	said := "it is explained by boxbook help " + page
	if slices.ContainsFunc(entry.Kinds(), func(k entry.Kind) bool { return k.Name == word }) {
		said += ", and how to add one by boxbook help log " + word
	}
	return said
}

// hasWord reports whether a page has a word as one by itself.
func hasWord(page, word string) bool {
	return slices.Contains(strings.FieldsFunc(page, func(c rune) bool { return c != '-' && !unicode.IsLetter(c) }), word)
}

// sheetTopics are the pages that explain words of the score sheet and of the trade.
var sheetTopics = []struct {
	page  string
	words []string
}{
	{"marks", []string{"mark", "grade", "grades", "zero", "zeros", "unreadable", "illegible", "hz", "pz", "av", "chz"}},
	{"language", []string{"penalty", "penalties", "official", "field", "place", "resolve", "result", "policy", "policies", "include", "syntax"}},
	{"methods", []string{
		"level", "trend", "trends", "gate", "gates", "readiness", "leniency", "lenient", "severity", "confidence", "range", "ranges", "rule", "rules",
		"style", "styles", "score", "scoring", "reconciliation", "calculation",
	}},
	{"money", []string{
		"exchange", "currency", "currencies", "rates", "payment", "payments", "pay", "paid", "settlement", "settlements", "refund", "refunds", "deposit",
		"deposits", "membership", "dues", "receipt", "receipts", "pot", "pots", "share", "shares", "each", "netting", "netted",
	}},
	{"import", []string{"csv", "xlsx", "spreadsheet"}},
}
