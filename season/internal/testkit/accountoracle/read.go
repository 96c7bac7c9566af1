package accountoracle

import (
	"fmt"
	"math/big"
	"slices"
	"strings"
)

// club is the name of the party that is the club itself.
const club = "club"

// decimals of amounts, by currency (ISO 4217).
var decimals = map[string]int{"EUR": 2, "CHF": 2, "USD": 2, "JPY": 0, "BHD": 3}

// entry is one line about money.
type entry struct {
	verb     string // cost, income, settle or owed
	date     string
	kind     string
	who      []string   // for whom; of a settlement or debt: from, to
	parts    []*big.Int // how they share it
	by       string
	toClub   bool
	amount   *big.Int // in the smallest unit
	currency string
	contest  string
	paid     *big.Int // what a settlement handed over
	paidIn   string
}

// rate says that one unit of from is worth value units of to.
type rate struct {
	year, from, to string
	value          *big.Rat
}

// read reads the money lines of a text. A line that is not what it should be
// panics: the text is the test's own.
func read(text string) (entries []entry, rates []rate) {
	contest, begins := "", ""
	there := attendance(text)
	for _, line := range strings.Split(text, "\n") {
		inside := strings.HasPrefix(line, " ")
		line, _, _ = strings.Cut(line, `"`)
		line, _, _ = strings.Cut(line, "#")
		words := strings.Fields(line)
		if len(words) == 0 {
			continue
		}
		if !inside {
			contest, begins = "", ""
		}
		switch {
		case !inside && words[0] == "contest":
			contest = words[1]
			begins, _, _ = strings.Cut(words[2], "..")
		case inside && words[0] == "cost" && contest != "":
			if !isDate(words[1]) {
				words = slices.Insert(words, 1, begins)
			}
			e := readCost(words, there[contest])
			e.contest = contest
			entries = append(entries, e)
		case inside:
		case words[0] == "cost":
			entries = append(entries, readCost(words, nil))
		case words[0] == "income":
			entries = append(entries, readIncome(words))
		case words[0] == "settle" && len(words) > 6 && words[6] == "for": // the debt that it pays
			entries = append(entries, entry{
				verb: words[0], date: words[1], who: words[2:4], amount: minor(words[7], words[8]), currency: words[8],
				paid: minor(words[4], words[5]), paidIn: words[5],
			})
		case words[0] == "settle", words[0] == "owed":
			entries = append(entries, entry{
				verb: words[0], date: words[1], who: words[2:4], amount: minor(words[4], words[5]), currency: words[5],
				paid: minor(words[4], words[5]), paidIn: words[5],
			})
		case words[0] == "rate":
			value, ok := new(big.Rat).SetString(strings.Replace(words[3], ",", ".", 1))
			must(ok, line)
			rates = append(rates, rate{year: words[1], from: words[2], to: words[4], value: value})
		}
	}
	return entries, rates
}

func isDate(word string) bool { return len(word) == 10 && word[4] == '-' && word[7] == '-' }

// attendance lists the pilots with a result at each contest, as pilots are
// defined.
func attendance(text string) map[string][]string {
	var pilots []string
	results, contest := map[string]bool{}, ""
	there := map[string][]string{}
	for _, line := range strings.Split(text, "\n") {
		words := strings.Fields(line)
		switch {
		case len(words) < 2:
		case words[0] == "pilot":
			pilots = append(pilots, words[1])
		case words[0] == "contest":
			contest = words[1]
			there[contest] = nil
		case words[0] == "result":
			results[contest+" "+words[1]] = true
		}
	}
	for name := range there {
		for _, pilot := range pilots {
			if results[name+" "+pilot] {
				there[name] = append(there[name], pilot)
			}
		}
	}
	return there
}

// readCost reads `cost DATE KIND AMOUNT CUR [each] for WHO... [by WHO] [to club]
// [receipt WORD]`; all are those who were there. Nobody is called by a word of
// the language.
func readCost(words []string, all []string) entry {
	e := entry{verb: "cost", date: words[1], kind: words[2], amount: minor(words[3], words[4]), currency: words[4]}
	rest := words[5:]
	each := rest[0] == "each"
	if each {
		rest = rest[1:]
	}
	must(rest[0] == "for", words)
	rest = rest[1:]
	for len(rest) > 0 && rest[0] != "by" && rest[0] != "to" && rest[0] != "receipt" {
		e.who, rest = append(e.who, rest[0]), rest[1:]
		parts := big.NewInt(1)
		if len(rest) > 0 && strings.Trim(rest[0], "0123456789") == "" {
			parts.SetString(rest[0], 10)
			rest = rest[1:]
		}
		e.parts = append(e.parts, parts)
	}
	if len(e.who) == 1 && e.who[0] == "all" {
		e.who, e.parts = all, nil
		for range all {
			e.parts = append(e.parts, big.NewInt(1))
		}
	}
	if each {
		e.amount.Mul(e.amount, big.NewInt(int64(len(e.who))))
	}
	e.by = e.who[0] // who paid, where nothing is said
	if len(rest) > 0 && rest[0] == "by" {
		e.by, rest = rest[1], rest[2:]
	}
	if len(rest) > 0 && rest[0] == "to" {
		must(rest[1] == club, words)
		e.toClub, rest = true, rest[2:]
	}
	must(len(rest) == 0 || rest[0] == "receipt" && len(rest) == 2, words)
	return e
}

// readIncome reads `income DATE KIND AMOUNT CUR [for PILOT]`.
func readIncome(words []string) entry {
	e := entry{verb: "income", date: words[1], kind: words[2], amount: minor(words[3], words[4]), currency: words[4], who: []string{club}}
	if len(words) > 6 && words[5] == "for" {
		e.who[0] = words[6]
	}
	return e
}

// minor reads an amount in the smallest unit of its currency.
func minor(amount, currency string) *big.Int {
	places, ok := decimals[currency]
	must(ok, currency)
	whole, fraction, _ := strings.Cut(strings.Replace(amount, ",", ".", 1), ".")
	must(len(fraction) <= places, amount)
	fraction += strings.Repeat("0", places-len(fraction))
	value, ok := new(big.Int).SetString(whole+fraction, 10)
	must(ok, amount)
	return value
}

func must(ok bool, what any) {
	if !ok {
		panic(fmt.Sprintf("accountoracle: cannot read %v", what))
	}
}
