package words

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/report/answers"
)

// inHandThought says whether what the club really had agrees, by the latest count that
// can be compared of each pot, or of the pots of a currency together; then what should
// be there now, and what was off in between.
func inHandThought(d answers.Year) string {
	moved := slices.ContainsFunc(d.Club.Moved, func(s answers.Sum) bool { return !s.Amount.IsNothing() })
	if !moved && len(d.Club.InHand) == 0 {
		return ""
	}
	counts := latestCounts(d.Club.InHand)
	if len(counts) == 0 {
		text := fmt.Sprintf("No count of %d can be compared, so nothing outside checks these figures.", d.Year)
		return joined(otherCurrencies(d.Club.InHand, dayOf(d.Year)), text, shouldHold(d, ""), countedBefore(d.Club.CountedBefore, d.Year))
	}
	said := []string{otherCurrencies(d.Club.InHand, dayOf(d.Year))}
	agree := slices.IndexFunc(counts, agreesWithLedger)
	for i, h := range counts {
		if i == agree {
			said = append(said, offSaid(d)...)
		}
		said = append(said, inHandSaid(d, h, i > 0 && counts[i-1].Date == h.Date))
		same := func(o answers.InHand) bool { return o.Currency == h.Currency }
		if !slices.ContainsFunc(counts[i+1:], same) {
			said = append(said, shouldHold(d, h.Currency))
		}
	}
	if agree < 0 {
		said = append(said, offSaid(d)...)
	}
	return joined(append(said, madeUpSaid(d.Club.InHand, dayOf(d.Year)), notCompared(d))...)
}

// offSaid are the sentences behind those of counts that are off: what earlier ones found,
// and that a line may be missing.
func offSaid(d answers.Year) []string {
	said := overtaken(d.Club.InHand, d.Year, dayOf(d.Year), seeCashBook(d.Year), d.Club.MissingReceipts())
	return append(said, countedBefore(d.Club.CountedBefore, d.Year), maybeMissing(countsOff(d.Club.InHand), d.Club.MissingReceipts()))
}

// joined are sentences behind each other, without those that are "".
func joined(said ...string) string {
	return strings.Join(slices.DeleteFunc(said, func(s string) bool { return s == "" }), " ")
}

// countsOff are the counts of which sentences say that they are off: the latest of each
// currency, and earlier ones.
func countsOff(all []answers.InHand) []answers.InHand {
	return slices.DeleteFunc(append(latestCounts(all), notMadeUp(all, false)...), func(h answers.InHand) bool { return h.Stands.Difference.IsNothing() })
}

// countedBefore says what the last counts before a year left unexplained; "" where none
// did.
func countedBefore(counts []answers.InHand, year int) string {
	day := func(date string) string { return DayIn(date, year) }
	var said []string
	for _, h := range counts {
		s := *h.Stands
		off := SumSaid(answers.Sum{Currency: h.Currency, Amount: s.Difference.Size()})
		said = append(said, fmt.Sprintf("The last count, of %s, was %s %s than the ledger says%s%s; `boxbook year %s` says what may explain it.",
			day(h.Date), off, lessOrMore(s.Difference), carriedSaid(s, day), ifStill(s, h.Currency, day), h.Date[:len("2006")]))
	}
	return strings.Join(said, " ")
}

// latestCounts are the latest that can be compared of each currency, by day; those that
// disagree come first.
func latestCounts(all []answers.InHand) []answers.InHand {
	var counts []answers.InHand
	var seen []string
	for _, h := range slices.Backward(all) {
		if h.Stands != nil && !slices.Contains(seen, h.Currency) {
			counts, seen = append(counts, h), append(seen, h.Currency)
		}
	}
	slices.Reverse(counts)
	slices.SortStableFunc(counts, func(a, b answers.InHand) int {
		switch agrees := agreesWithLedger(a); {
		case agrees == agreesWithLedger(b):
			return 0
		case agrees:
			return 1
		default:
			return -1
		}
	})
	return counts
}

// agreesWithLedger reports whether a count that can be compared is what the ledger says.
func agreesWithLedger(h answers.InHand) bool { return h.Stands.Difference.IsNothing() }

// shouldHold says what should be in hand now, or at the end of a year that is over, in a
// currency that was not counted on that day: all that were where it is "". Nothing is
// said of one in which no money moved since a count that agrees, or says it.
func shouldHold(d answers.Year, currency string) string {
	var sums []answers.Sum
	day, with := "", ""
	for _, e := range d.Club.ByLedger {
		if (currency == "" || e.Currency == currency) && e.Counted < e.Date && !asCounted(d, e) && !saidAlready(d, e) {
			day, sums = DayIn(e.Date, d.Year), append(sums, answers.Sum{Currency: e.Currency, Amount: e.Amount})
			with += withDoubted(d.Club.InHand, e.Currency)
		}
	}
	switch {
	case len(sums) == 0:
		return ""
	case d.Running && currency != "":
		return fmt.Sprintf("Not counted since; by the ledger %s on %s%s.", heldSaid(sums[0].Amount), day, with)
	case d.Running:
		return fmt.Sprintf("Not counted since; by the ledger %s on %s%s.", heldSums(sums), day, with)
	default:
		return fmt.Sprintf("By the ledger %s on %s%s.", heldSums(sums), day, with)
	}
}

// saidAlready reports whether the sentence of the latest count of a pot that is off has
// what the ledger says still.
func saidAlready(d answers.Year, e answers.ByLedger) bool {
	return slices.ContainsFunc(latestCounts(d.Club.InHand), func(h answers.InHand) bool {
		return h.Currency == e.Currency && h.Together == nil && AmountSaid(h.Stands.Ledger) == AmountSaid(e.Amount)
	})
}

// asCounted reports whether the ledger has what the latest count found, which agrees.
func asCounted(d answers.Year, e answers.ByLedger) bool {
	for _, h := range latestCounts(d.Club.InHand) {
		if h.Currency == e.Currency {
			held := h.Amount
			if h.Together != nil {
				held = h.Together.Amount
			}
			return agreesWithLedger(h) && AmountSaid(held) == AmountSaid(e.Amount)
		}
	}
	return false
}

// notMadeUp are the counts of all currencies, by day, that notMadeUpFor has of each.
func notMadeUp(counts []answers.InHand, named bool) []answers.InHand {
	var said []answers.InHand
	for _, of := range byCurrency(counts) {
		said = append(said, notMadeUpFor(of, named)...)
	}
	slices.SortStableFunc(said, func(a, b answers.InHand) int { return strings.Compare(a.Date, b.Date) })
	return said
}

// byCurrency are the counts of each currency that can be compared.
func byCurrency(counts []answers.InHand) [][]answers.InHand {
	var currencies []string
	for _, h := range counts {
		currencies = Once(currencies, h.Currency)
	}
	var all [][]answers.InHand
	for _, c := range currencies {
		all = append(all, slices.DeleteFunc(slices.Clone(counts), func(h answers.InHand) bool { return h.Currency != c || h.Stands == nil }))
	}
	return all
}

// madeUpSaid says of the counts that were off, and are made up for by a later one, by how
// much and by which, in one sentence each and the last for those that are many; "" where
// none is.
func madeUpSaid(counts []answers.InHand, day func(string) string) string {
	type made struct{ off, by answers.InHand }
	var all []made
	for _, of := range byCurrency(counts) {
		of = slices.DeleteFunc(of, func(h answers.InHand) bool { return h.Stands.Unsure() })
		for i, j := range madeUpBy(of) {
			if j > i && !of[i].Stands.New.IsNothing() && !ofAnotherYear(of[i]) {
				all = append(all, made{of[i], of[j]})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b made) int { return strings.Compare(a.off.Date, b.off.Date) })
	room := mostNamed
	if len(all) == mostNamed+1 {
		room++ // to count it would be no shorter
	}
	var said []string
	for _, m := range all[:min(len(all), room)] {
		s := m.off.Stands
		text := fmt.Sprintf("%s %s in %s on %s is made up for by the count of %s", SumSaid(answers.Sum{Currency: m.off.Currency, Amount: s.New.Size()}), lessOrMore(s.New), PotsOf(m.off), day(m.off.Date), day(m.by.Date))
		if agreesWithLedger(m.by) {
			text += ", which agrees"
		}
		said = append(said, text+".")
	}
	if more := len(all) - len(said); more > 0 {
		said = append(said, fmt.Sprintf("So is what %s found.", Counted(more, "other count", "other counts")))
	}
	return strings.Join(said, " ")
}

// ofAnotherYear reports whether a line of another year explains a count.
func ofAnotherYear(h answers.InHand) bool {
	return slices.ContainsFunc(h.Explained, func(s answers.Slip) bool { return s.Meant != "" })
}

// overtaken says what earlier counts found missing, or too much, where a later count
// goes on from there, so that what was missing would be said no more. What a later count
// makes up for was a slip of the earlier one, if no line explains both, and what may be in a
// pot that was not counted is no finding. A line that would explain it is named, many by
// see; those that have none come last, and are counted where others are named. day writes
// a date.
func overtaken(counts []answers.InHand, year int, day func(date string) string, see string, receipts [][]answers.ReceiptRun) []string {
	var named, left []string
	for _, h := range notMadeUp(counts, true) {
		sum := SumSaid(answers.Sum{Currency: h.Currency, Amount: h.Stands.New.Size()})
		found := fmt.Sprintf("%s %s in %s on %s", sum, lessOrMore(h.Stands.New), PotsOf(h), day(h.Date))
		if before := h.Stands.Carried; !before.IsNothing() {
			found += fmt.Sprintf(" (beside the %s %s of %s)", AmountSaid(before.Size()), lessOrMore(before), day(h.Stands.Since))
		}
		if lines := linesSaid(h, year, "that amount", "it", see); lines != "" {
			named = append(named, found+": "+orMissing(h, lines, receipts)+"."+byChance(h))
		} else if again := goneAgain(h, year); again != "" {
			named = append(named, found+": "+again+".")
		} else {
			left = append(left, found+" is not explained yet.")
		}
	}
	sentences := named[:min(len(named), mostNamed)]
	if more := len(named) - len(sentences); more > 0 {
		sentences = append(slices.Clip(sentences), fmt.Sprintf("Lines would explain %s as well; %s.", Counted(more, "other count", "other counts"), see))
	}
	room := min(len(left), max(mostNamed-len(named), 0))
	if len(left) == 1 {
		room = 1 // to count it would be no shorter
	}
	sentences = append(slices.Clip(sentences), left[:room]...)
	switch more := len(left) - room; {
	case more > 0 && room > 0:
		sentences = append(sentences, fmt.Sprintf("Nor %s of %s.", PluralWord(more, "is that", "are those"), Counted(more, "other count", "other counts")))
	case more > 0:
		sentences = append(sentences, fmt.Sprintf("What %s found is not explained yet.", Counted(more, "other count", "other counts")))
	}
	return sentences
}

// notMadeUpFor are the comparisons of a currency, by day, but the last, that found
// something new which no later one brought back: by itself, or all that was found in
// between together; with those that a line of another year explains, where such are named.
func notMadeUpFor(all []answers.InHand, named bool) []answers.InHand {
	if len(all) == 0 {
		return nil
	}
	last := all[len(all)-1].Date
	all = slices.DeleteFunc(all, func(h answers.InHand) bool { return h.Stands.Unsure() })
	made := madeUpBy(all)
	var left []answers.InHand
	for i, h := range all {
		if h.Stands.New.IsNothing() || h.Date == last {
			continue
		}
		if made[i] < 0 || named && ofAnotherYear(h) {
			left = append(left, h)
		}
	}
	return left
}

// madeUpBy is for each comparison of a currency, by day, which one makes up for it: a later
// one, itself where it is the one that does, -1 where none is.
func madeUpBy(all []answers.InHand) []int {
	made := make([]int, len(all))
	for i := range made {
		made[i] = -1
	}
	for i, h := range all {
		for j := i + 1; j < len(all) && made[i] < 0; j++ {
			later := all[j].Stands
			switch {
			case later.Difference.Minus(h.Stands.Carried).IsNothing():
				for k := i; k <= j; k++ {
					made[k] = max(made[k], j)
				}
			case made[j] < 0 && later.New.IsOwing() != h.Stands.New.IsOwing() && later.New.Size().Minus(h.Stands.New.Size()).IsNothing():
				made[i], made[j] = j, j
			}
		}
	}
	return made
}

// PotsOf names the pot of a count, or those with which it is compared.
func PotsOf(h answers.InHand) string {
	if h.Together == nil {
		return thePot(h.Pot)
	}
	return ListInWords(potNames(h.Together, thePot))
}

func potNames(t *answers.Together, name func(string) string) []string {
	var pots []string
	for _, p := range t.Pots {
		pots = append(pots, name(p.Pot))
	}
	return pots
}

// PotsTogether is what several pots are called in a table.
func PotsTogether(t *answers.Together) string {
	return strings.Join(potNames(t, strings.TrimSpace), " + ")
}

// potsHeld says what was in each of several pots, with the day where it was another; of
// pots that are only said to still have something, nothing.
func potsHeld(h answers.InHand, day func(string) string) string {
	var held []string
	for _, p := range h.Together.Pots {
		text := PotHeld(p.Pot, answers.Sum{Currency: h.Currency, Amount: p.Amount})
		if h.Stands.Unsure() && slices.ContainsFunc(h.Stands.IfStill, func(o answers.PotHeld) bool { return o.Pot == p.Pot }) {
			continue
		}
		if p.Date != h.Date {
			text += " (counted on " + day(p.Date) + ")"
		}
		held = append(held, text)
	}
	return ListInWords(held)
}

// together is a word before how several pots stand, "" where what one has is said alone.
func together(h answers.InHand) string {
	if h.Together == nil || h.Stands.Unsure() && len(h.Together.Pots)-len(h.Stands.IfStill) == 1 {
		return ""
	}
	return "together "
}

// StandsSaid says how what was counted stands to the ledger: by how much it is off, what
// of that was off before, and on what it rests.
func StandsSaid(s answers.Stands, currency string, day func(string) string) string {
	return MoreOrLess(s.Difference) + carriedSaid(s, day) + ifStill(s, currency, day)
}

// carriedSaid says what of a difference was off before, "" where nothing was.
func carriedSaid(s answers.Stands, day func(string) string) string {
	switch {
	case s.Carried.IsNothing():
		return ""
	case s.New.IsNothing():
		return ", all of which was already off on " + day(s.Since)
	case s.New.IsOwing() == s.Carried.IsOwing():
		return fmt.Sprintf(", of which %s was already off on %s", AmountSaid(s.Carried.Size()), day(s.Since))
	case s.Carried.IsOwing():
		return fmt.Sprintf(", after %s less on %s: %s more since then", AmountSaid(s.Carried.Size()), day(s.Since), AmountSaid(s.New))
	default:
		return fmt.Sprintf(", after %s more on %s: %s less since then", AmountSaid(s.Carried), day(s.Since), AmountSaid(s.New.Size()))
	}
}

// ifStill says in which pots what is new may be, and how to tell.
func ifStill(s answers.Stands, currency string, day func(string) string) string {
	if !s.Unsure() {
		return ""
	}
	return fmt.Sprintf(", if %s; count %s on one day to tell", stillHas(s, currency, day), PluralWord(len(s.IfStill), "both", "all"))
}

// stillHas lists the pots in which what is new may be, with what they are said to have.
func stillHas(s answers.Stands, currency string, day func(string) string) string {
	var pots []string
	for i, p := range s.IfStill {
		amount := AmountSaid(p.Amount.Size())
		if i == 0 {
			amount += " " + currency
		}
		if p.Amount.IsOwing() {
			amount = "overdraft of " + amount
		}
		pots = append(pots, fmt.Sprintf("%s still has the %s counted on %s", thePot(p.Pot), amount, day(p.Date)))
	}
	return ListInWords(pots)
}

// PotHeld is what was in a pot, with its name.
func PotHeld(pot string, sum answers.Sum) string {
	if sum.Amount.IsOwing() {
		return overdraft(sum) + " in the " + pot
	}
	return SumSaid(sum) + " in the " + pot
}

// overdraft is an amount below zero as a sentence names it.
func overdraft(sum answers.Sum) string {
	return "an overdraft of " + SumSaid(answers.Sum{Currency: sum.Currency, Amount: sum.Amount.Size()})
}

// heldSaid is what was in hand, an overdraft in words.
func heldSaid(amount answers.Amount) string {
	if amount.IsOwing() {
		return "overdrawn by " + AmountSaid(amount.Size())
	}
	return AmountSaid(amount)
}

// heldSums lists what was in hand in several currencies, overdrafts in words and last, so
// that none is read into a sum behind it.
func heldSums(sums []answers.Sum) string {
	var said []string
	sums = slices.Clone(sums)
	slices.SortStableFunc(sums, func(a, b answers.Sum) int {
		switch over := a.Amount.IsOwing(); {
		case over == b.Amount.IsOwing():
			return 0
		case over:
			return 1
		default:
			return -1
		}
	})
	for _, s := range sums {
		said = append(said, heldSaid(s.Amount)+" "+s.Currency)
	}
	return ListInWords(said)
}

// inHandSaid says one count, what should have been there, and what would explain
// the difference; the day of one that agrees is not said again.
func inHandSaid(d answers.Year, h answers.InHand, again bool) string {
	return countFound(d.Year, h, again, d.Club.InHand) + explained(h, d.Year, seeCashBook(d.Year), d.Club.MissingReceipts())
}

// countFound says one count of some and what should have been there, the day as of a year.
func countFound(year int, h answers.InHand, again bool, all []answers.InHand) string {
	day := dayOf(year)
	if h.Together != nil {
		stands := together(h) + StandsSaid(*h.Stands, h.Currency, day)
		if pots := doubtedPots(h, all); len(pots) > 0 && agreesWithLedger(h) && !h.Stands.Unsure() {
			stands = newMoney(pots) + ", which nothing checks; the rest agrees"
		} else if len(pots) > 0 {
			stands += ", with " + newMoney(pots)
		}
		return fmt.Sprintf("On %s there was %s: %s.", day(h.Date), potsHeld(h, day), stands)
	}
	if agreesWithLedger(h) {
		text := fmt.Sprintf("The %s agrees: %s", h.Pot, heldSums([]answers.Sum{{Currency: h.Currency, Amount: h.Amount}}))
		if !again {
			text += " on " + day(h.Date)
		}
		return text + "."
	}
	if h.Amount.IsOwing() || h.Stands.Ledger.IsOwing() {
		off := SumSaid(answers.Sum{Currency: h.Currency, Amount: h.Stands.Difference.Size()})
		return fmt.Sprintf("On %s the %s had %s %s than the ledger says (%s, not %s)%s.", day(h.Date), h.Pot, off, lessOrMore(h.Stands.Difference),
			heldSaid(h.Amount), heldSaid(h.Stands.Ledger), carriedSaid(*h.Stands, day))
	}
	return fmt.Sprintf("On %s the %s had %s, %s %s than the ledger's %s%s.", day(h.Date), h.Pot, SumSaid(answers.Sum{Currency: h.Currency, Amount: h.Amount}),
		AmountSaid(h.Stands.Difference.Size()), lessOrMore(h.Stands.Difference), AmountSaid(h.Stands.Ledger), carriedSaid(*h.Stands, day))
}

// otherCurrencies says of the counts of pots that were in another currency before that it may
// be mistyped; "" where none was.
func otherCurrencies(counts []answers.InHand, day func(string) string) string {
	var said []string
	for _, h := range counts {
		if h.WasIn != "" {
			said = append(said, fmt.Sprintf("The %s had %s on %s, and %s on %s: one of both may be mistyped.", h.Pot, h.WasIn, day(h.WasOn), h.Currency, day(h.Date)))
		}
	}
	return strings.Join(said, " ")
}

// doubted are the counts of a currency that may be of another, and are the only ones of
// their pots in it.
func doubted(counts []answers.InHand, currency string) []answers.InHand {
	return slices.DeleteFunc(slices.Clone(counts), func(h answers.InHand) bool {
		again := func(o answers.InHand) bool { return o.Pot == h.Pot && o.Currency == h.Currency && o.Date > h.Date }
		return h.WasIn == "" || h.Currency != currency || slices.ContainsFunc(counts, again)
	})
}

// doubtedPots are the pots of a comparison whose currency is in doubt.
func doubtedPots(h answers.InHand, all []answers.InHand) []string {
	var pots []string
	for _, o := range doubted(all, h.Currency) {
		if slices.ContainsFunc(h.Together.Pots, func(p answers.PotHeld) bool { return p.Pot == o.Pot && p.Date == o.Date }) {
			pots = append(pots, thePot(o.Pot))
		}
	}
	return pots
}

// newMoney is how the books take what was counted in pots for the first time.
func newMoney(pots []string) string {
	return fmt.Sprintf("what is in %s taken as new money", ListInWords(pots))
}

// withDoubted says which counts in doubt are in what should be in hand in a currency, after a
// comma; "" where none is.
func withDoubted(counts []answers.InHand, currency string) string {
	said := ""
	for _, h := range doubted(counts, currency) {
		said += fmt.Sprintf(", with the %s of %s in it", SumSaid(answers.Sum{Currency: h.Currency, Amount: h.Amount}), thePot(h.Pot))
	}
	return said
}

// dayOf writes dates as of a year.
func dayOf(year int) func(string) string {
	return func(date string) string { return DayIn(date, year) }
}

// notCompared says of which currencies of the club's money no count can be compared, and
// since when they are not counted, "" where there is none.
func notCompared(d answers.Year) string {
	if len(d.Club.Uncompared) == 0 {
		return ""
	}
	var compared []string
	for _, h := range d.Club.InHand {
		if h.Own != nil {
			compared = Once(compared, h.Currency)
		}
	}
	return fmt.Sprintf("%s: what was paid from the %s account for it is not in this comparison.", uncompared(d), AnyInWords(compared))
}

// uncompared says which currencies are not compared, those first that were never counted.
func uncompared(d answers.Year) string {
	if slices.ContainsFunc(d.Club.InHand, func(h answers.InHand) bool { return slices.Contains(d.Club.Uncompared, h.Currency) }) {
		return fmt.Sprintf("No %s can be compared yet", AnyInWords(d.Club.Uncompared))
	}
	var never, said []string
	for _, c := range d.Club.Uncompared {
		at := slices.IndexFunc(d.Club.UncomparedSince, func(s answers.CountedLast) bool { return s.Currency == c })
		if at < 0 {
			never = append(never, c)
			continue
		}
		said = append(said, fmt.Sprintf("%s was not counted since %s", c, DayIn(d.Club.UncomparedSince[at].Date, d.Year)))
	}
	if len(never) > 0 {
		said = append([]string{fmt.Sprintf("No %s %s counted", AnyInWords(never), PluralWord(len(never), "is", "are"))}, said...)
	}
	return strings.Join(said, "; ")
}

// thePot is a pot as a sentence names it.
func thePot(pot string) string { return "the " + pot }

// PotsExplained says why several pots of a currency have one comparison.
const PotsExplained = "lines of money name no pot, so that the pots of a currency are compared together"

// CountNote says of a comparison why several pots have one, where what is off may be, and
// what was off before; all that the row of a count does not have itself.
func CountNote(h answers.InHand) string {
	var said []string
	switch {
	case h.Stands == nil:
		return ""
	case h.Stands.Unsure():
		var pots []string
		for _, p := range h.Stands.IfStill {
			pots = append(pots, fmt.Sprintf("%s (counted on %s)", thePot(p.Pot), p.Date))
		}
		said = append(said, "what is off may be in "+ListInWords(pots))
	case h.Together != nil:
		said = append(said, PotsExplained)
	}
	if s := h.Stands; !s.Carried.IsNothing() {
		said = append(said, fmt.Sprintf("on %s there was already %s", s.Since, MoreOrLess(s.Carried)))
	}
	return strings.Join(said, "; ")
}
