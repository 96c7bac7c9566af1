package analysis_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
)

// moneyWriter writes ledgers about money at random.
type moneyWriter struct {
	*rand.Rand
	pilots []string
	others []string // a coach and a person
	all    bool     // in a contest that somebody was at
	b      strings.Builder
}

func (w *moneyWriter) oneOf(words ...string) string { return words[w.IntN(len(words))] }

func (w *moneyWriter) date() string {
	return fmt.Sprintf("%d-%02d-%02d", 2024+w.IntN(4), 1+w.IntN(12), 1+w.IntN(28))
}

// amount is often so small that it does not divide, and often the same as
// another, so that groups of people are even by themselves.
func (w *moneyWriter) amount() string {
	n := w.IntN(40)
	if w.IntN(4) == 0 {
		n = w.IntN(2_000_000)
	}
	switch w.IntN(6) {
	case 0:
		return fmt.Sprintf("%d JPY", n)
	case 1:
		return fmt.Sprintf("%d.%03d BHD", n/1000, n%1000)
	case 2:
		return fmt.Sprintf("%d,%02d CHF", n/100, n%100)
	case 3:
		return fmt.Sprintf("%d EUR", n)
	case 4:
		return fmt.Sprintf("%d.%d EUR", n/10, n%10)
	default:
		return fmt.Sprintf("%d.%02d EUR", n/100, n%100)
	}
}

func (w *moneyWriter) people() []string { return slices.Concat(w.pilots, w.others) }

func (w *moneyWriter) party() string { return w.oneOf(append([]string{"club"}, w.people()...)...) }

// some are one or more people, in any order and with numbers of shares now and
// then, all who were at the contest, or the club; each says that the amount is
// of each of them.
func (w *moneyWriter) some(each bool) string {
	switch {
	case w.IntN(6) == 0:
		return "club"
	case w.all && w.IntN(4) == 0:
		return "all"
	}
	people, shared := w.people(), !each && w.IntN(4) == 0
	var names []string
	for _, i := range w.Perm(len(people))[:1+w.IntN(len(people))] {
		name := people[i]
		if shared {
			name += fmt.Sprint(" ", 1+w.IntN(5))
		}
		names = append(names, name)
	}
	return strings.Join(names, " ")
}

// cost is what follows `cost [DATE]`.
func (w *moneyWriter) cost() string {
	text := w.oneOf("entry", "fuel", "lodging", "othership") + " "
	if w.IntN(6) == 0 {
		text += "-"
	}
	each := w.IntN(6) == 0
	text += w.amount()
	if each {
		text += " each"
	}
	text += " for " + w.some(each)
	if w.IntN(2) == 0 {
		text += " by " + w.party()
	}
	if w.IntN(5) == 0 {
		text += " to club"
	}
	if w.IntN(8) == 0 {
		text += fmt.Sprint(" receipt ", w.oneOf("17", "A-4"))
	}
	if w.IntN(8) == 0 {
		text += ` "a remark"`
	}
	return text
}

func (w *moneyWriter) line() {
	switch w.IntN(8) {
	case 0:
		fmt.Fprintf(&w.b, "income %s prize %s%s\n", w.date(), w.amount(), w.oneOf("", " for "+w.pilots[0]))
	case 1:
		w.transfer("owed")
	case 2:
		w.transfer("settle")
	default:
		fmt.Fprintf(&w.b, "cost %s %s\n", w.date(), w.cost())
	}
}

func (w *moneyWriter) transfer(verb string) {
	from, to := w.party(), w.party()
	if from != to {
		amount := w.amount()
		if paid := w.oneOf("1 USD for ", "2.50 USD for "); verb == "settle" && w.IntN(3) == 0 {
			amount = paid + amount
		}
		fmt.Fprintf(&w.b, "%s %s %s %s %s\n", verb, w.date(), from, to, amount)
	}
}

func (w *moneyWriter) contest(name string) {
	begins := w.date()
	fmt.Fprintf(&w.b, "contest %s %s\n", name, begins)
	for _, i := range w.Perm(len(w.pilots))[:w.IntN(len(w.pilots)+1)] {
		fmt.Fprintf(&w.b, "  result %s place %d of 9\n", w.pilots[i], 1+w.IntN(9))
		w.all = true
	}
	defer func() { w.all = false }()
	for range w.IntN(5) {
		date := w.oneOf("", w.date()+" ")
		fmt.Fprintf(&w.b, "  cost %s%s\n", date, w.cost())
	}
}

// ledger writes a ledger of up to four pilots, a coach, a person and the club.
func (w *moneyWriter) ledger() string {
	w.pilots = []string{"ines", "tobias", "yuki", "mara"}[:1+w.IntN(4)]
	for _, p := range w.pilots {
		fmt.Fprintf(&w.b, "pilot %s\n", p)
	}
	w.others = []string{"marek", "rolf"}[:min(w.IntN(3), 5-len(w.pilots))]
	for i, p := range w.others {
		fmt.Fprintf(&w.b, "%s %s\n", []string{"coach", "person"}[i], p)
	}
	for i := range w.IntN(3) {
		w.contest(fmt.Sprintf("contest-%d", i))
	}
	for range w.IntN(30) {
		w.line()
	}
	for _, from := range []string{"CHF", "JPY", "BHD"} {
		if w.IntN(3) == 0 {
			fmt.Fprintf(&w.b, "rate 2026 %s %d.%03d EUR\n", from, w.IntN(3), 1+w.IntN(999))
		}
	}
	return w.b.String()
}
