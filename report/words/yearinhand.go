package words

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/report/answers"
)

// inHandThought says whether what the club really had agrees, by the latest count that
// can be compared of each pot, or of the pots of a currency together; then what should
// be there now.
func inHandThought(d answers.Year) string {
	moved := slices.ContainsFunc(d.Club.Moved, func(s answers.Sum) bool { return !s.Amount.IsNothing() })
	if !moved && len(d.Club.InHand) == 0 {
		return ""
	}
	counts := latestCounts(d.Club.InHand)
	if len(counts) == 0 {
		text := fmt.Sprintf("No count of %d can be compared, so nothing outside checks these figures.", d.Year)
		return strings.TrimSuffix(text+" "+shouldHold(d, ""), " ")
	}
	var said []string
	for i, h := range counts {
		said = append(said, inHandSaid(d, h, i > 0 && counts[i-1].Date == h.Date))
		same := func(o answers.InHand) bool { return o.Currency == h.Currency }
		if !slices.ContainsFunc(counts[i+1:], same) {
			said = append(said, shouldHold(d, h.Currency))
		}
	}
	said = append(said, overtaken(d.Club.InHand, func(date string) string { return DayIn(date, d.Year) })...)
	said = append(said, notCompared(d))
	return strings.Join(slices.DeleteFunc(said, func(s string) bool { return s == "" }), " ")
}

// latestCounts are the latest of each pot that can be compared, and of the pots of a
// currency where they are compared together, by day; those that disagree come first.
func latestCounts(all []answers.InHand) []answers.InHand {
	var counts []answers.InHand
	var seen []string
	for _, h := range slices.Backward(all) {
		pot := h.Pot + " " + h.Currency
		if h.Off() == nil || slices.Contains(seen, pot) || slices.Contains(seen, h.Currency) {
			continue
		}
		if h.Together != nil {
			pot = h.Currency
		}
		counts, seen = append(counts, h), append(seen, pot)
	}
	slices.Reverse(counts)
	slices.SortStableFunc(counts, func(a, b answers.InHand) int {
		switch agrees := a.Off().IsNothing(); {
		case agrees == b.Off().IsNothing():
			return 0
		case agrees:
			return 1
		default:
			return -1
		}
	})
	return counts
}

// shouldHold says what should be in hand now, or at the end of a year that is over, in a
// currency that was not counted on that day: all that were where it is "". Nothing is
// said of one in which no money moved since a count that agrees.
func shouldHold(d answers.Year, currency string) string {
	var sums []answers.Sum
	day := ""
	for _, e := range d.Club.ByLedger {
		if (currency == "" || e.Currency == currency) && e.Counted < e.Date && !asCounted(d, e) {
			day, sums = DayIn(e.Date, d.Year), append(sums, answers.Sum{Currency: e.Currency, Amount: e.Amount})
		}
	}
	switch {
	case len(sums) == 0:
		return ""
	case d.Running && currency != "":
		return fmt.Sprintf("Not counted since; by the ledger %s on %s.", AmountSaid(sums[0].Amount), day)
	case d.Running:
		return fmt.Sprintf("Not counted since; by the ledger %s on %s.", sumsSaid(sums), day)
	default:
		return fmt.Sprintf("By the ledger %s on %s.", sumsSaid(sums), day)
	}
}

// asCounted reports whether the ledger has what the latest count found, which agrees.
func asCounted(d answers.Year, e answers.ByLedger) bool {
	for _, h := range latestCounts(d.Club.InHand) {
		if h.Currency == e.Currency {
			held := h.Amount
			if h.Together != nil {
				held = h.Together.Amount
			}
			return h.Off().IsNothing() && AmountSaid(held) == AmountSaid(e.Amount)
		}
	}
	return false
}

// overtaken says what earlier counts found missing, or too much, where a later count
// goes on from there: a count is compared with the one before, so that the next one
// agrees and what was missing would be said no more. What the later count makes up for
// was a slip of the earlier one. day writes a date.
func overtaken(counts []answers.InHand, day func(date string) string) []string {
	var said []answers.InHand
	for i, h := range counts {
		off := h.Off()
		if off == nil || off.IsNothing() {
			continue
		}
		later := slices.DeleteFunc(slices.Clone(counts[i+1:]), func(o answers.InHand) bool {
			alike := o.Pot == h.Pot || o.Together != nil && h.Together != nil
			return o.Off() == nil || !alike || o.Currency != h.Currency || o.Date == h.Date
		})
		undone := slices.ContainsFunc(later, func(o answers.InHand) bool {
			return o.Off().IsOwing() != off.IsOwing() && AmountSaid(o.Off().Size()) == AmountSaid(off.Size())
		})
		if len(later) > 0 && !undone {
			said = append(said, h)
		}
	}
	var sentences []string
	for _, h := range said[:min(len(said), mostNamed)] {
		sum := SumSaid(answers.Sum{Currency: h.Currency, Amount: h.Off().Size()})
		way := "missing from"
		if !h.Off().IsOwing() {
			way = "too much in"
		}
		sentences = append(sentences, fmt.Sprintf("%s %s %s on %s is not explained yet.", sum, way, PotsOf(h), day(h.Date)))
	}
	if more := len(said) - len(sentences); more > 0 {
		sentences = append(sentences, fmt.Sprintf("Nor %s of %s.", PluralWord(more, "is that", "are those"), Counted(more, "other count", "other counts")))
	}
	return sentences
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

// potsHeld says what was in each of several pots, with the day where it was another.
func potsHeld(t *answers.Together, date string, day func(string) string) string {
	var held []string
	for _, p := range t.Pots {
		text := PotHeld(p.Pot, answers.Sum{Currency: t.Currency, Amount: p.Amount})
		if p.Date != date {
			text += " (counted on " + day(p.Date) + ")"
		}
		held = append(held, text)
	}
	return ListInWords(held)
}

// PotHeld is what was in a pot, with its name.
func PotHeld(pot string, sum answers.Sum) string { return SumSaid(sum) + " in the " + pot }

// inHandSaid says one count, what should have been there, and what would explain
// the difference; the day of one that agrees is not said again.
func inHandSaid(d answers.Year, h answers.InHand, again bool) string {
	day := func(date string) string { return DayIn(date, d.Year) }
	if h.Together != nil {
		text := fmt.Sprintf("On %s there was %s: together %s.", day(h.Date), potsHeld(h.Together, h.Date, day), MoreOrLess(h.Together.Difference))
		if h.Together.Difference.IsNothing() {
			return text
		}
		return text + " " + Sentence(explained(d, h)) + "."
	}
	if h.Difference.IsNothing() {
		text := fmt.Sprintf("The %s agrees: %s", h.Pot, SumSaid(answers.Sum{Currency: h.Currency, Amount: h.Amount}))
		if !again {
			text += " on " + day(h.Date)
		}
		return text + "."
	}
	off := SumSaid(answers.Sum{Currency: h.Currency, Amount: h.Difference.Size()})
	way := "was " + off + " short"
	if !h.Difference.IsOwing() {
		way = "had " + off + " too much"
	}
	return fmt.Sprintf("On %s the %s %s: %s, by the ledger %s. %s.", day(h.Date), h.Pot, way, AmountSaid(h.Amount), AmountSaid(*h.Own), Sentence(explained(d, h)))
}

// explained says which line would explain a difference.
func explained(d answers.Year, h answers.InHand) string {
	switch {
	case len(h.Explained) == 0:
		return "no line of that amount explains it"
	case len(h.Explained) > 1 && h.Explained[0].Meant != "":
		return fmt.Sprintf("any one of %d lines of that amount would explain it, if its year is mistyped", len(h.Explained))
	case len(h.Explained) > 1:
		return fmt.Sprintf("any one of %d lines of that amount would explain it", len(h.Explained))
	default:
		return "the " + SlipSaid(h.Explained[0], PotsOf(h), d.Year)
	}
}

// notCompared says of which currencies of the club's money no count can be compared,
// "" where there is none.
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
	once := slices.ContainsFunc(d.Club.InHand, func(h answers.InHand) bool { return slices.Contains(d.Club.Uncompared, h.Currency) })
	is := PluralWord(len(d.Club.Uncompared), "is", "are") + " counted"
	if once {
		is = "can be compared yet"
	}
	return fmt.Sprintf("No %s %s: what was paid from the %s account for it is not in this comparison.", AnyInWords(d.Club.Uncompared), is, AnyInWords(compared))
}

// SlipSaid says how a line of the ledger would explain what a pot lacks or has too
// much; pot is what the pot is called there.
func SlipSaid(s answers.Slip, pot string, year int) string {
	what := fmt.Sprintf("%s of %s (%s, line %d)", slipWhat(s), DayIn(s.Date, year), fileName(s.File), s.Line)
	switch {
	case s.Meant != "":
		return what + " would explain it, if its year is " + s.Meant[:len("2006")]
	case s.Twice:
		return what + " may be in the ledger twice"
	case s.Moved.IsOwing():
		return what + " may never have left " + pot
	default:
		return what + " may never have reached " + pot
	}
}

// fileName is a path's last part, of whatever system.
func fileName(path string) string { return path[strings.LastIndexAny(path, `/\`)+1:] }

// AnyOf lists the lines each of which would explain a count.
func AnyOf(h answers.InHand, year int) string {
	var lines []string
	for _, s := range h.Explained {
		lines = append(lines, SlipSaid(s, PotsOf(h), year))
	}
	return fmt.Sprintf("%s, %s: %s", strings.TrimPrefix(PotsOf(h), "the "), DayIn(h.Date, year), strings.Join(lines, "; or "))
}

// thePot is a pot as a sentence names it.
func thePot(pot string) string { return "the " + pot }

// PotsExplained says why several pots of a currency have one comparison.
const PotsExplained = "lines of money name no pot, so that the pots of a currency are compared together"
