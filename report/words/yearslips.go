package words

import (
	"cmp"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"boxbook/report/answers"
	"boxbook/season"
)

// explained says which line would explain what is newly off, in a sentence after a
// space; "" where nothing is. Where it may be in a pot that was not counted, the line
// is named for the case that it is not. See says where many lines are named; a receipt that
// is missing comes before two slips.
func explained(h answers.InHand, year int, see string, receipts [][]answers.ReceiptRun) string {
	s := h.Stands
	switch {
	case (agreesWithLedger(h) || s.New.IsNothing()) && len(h.Explained) == 0:
		return ""
	case s.New.IsNothing():
		return " " + Sentence(linesSaid(h, year, "that amount", "it", see)) + "."
	}
	amount, it, none := "that amount", "it", unexplained(h)
	if !s.Carried.IsNothing() {
		amount, it = AmountSaid(s.New.Size()), newSince(*s, func(date string) string { return DayIn(date, year) })
	}
	lines := linesSaid(h, year, amount, it, see)
	if !s.Carried.IsNothing() && len(h.Explained) <= mostNamed {
		lines = it + ": " + lines
	}
	switch {
	case none && h.AgreesLater != "":
		return " " + Sentence(goneAgain(h, year)) + "."
	case none && s.Unsure():
		return ""
	case none && !s.Carried.IsNothing():
		return fmt.Sprintf(" No line explains %s%s.", it, pairsNoClue(h))
	case none:
		return fmt.Sprintf(" No line of %s explains %s%s.", amount, it, pairsNoClue(h))
	case s.Unsure():
		return fmt.Sprintf(" If %s, %s.%s", PluralWord(len(s.IfStill), "it has", "they have"), lines, byChance(h))
	default:
		return " " + Sentence(orMissing(h, lines, receipts)) + "." + byChance(h)
	}
}

// orMissing is what two slips would explain together, behind that a line is likelier missing
// where a receipt is; else the lines as they are.
func orMissing(h answers.InHand, lines string, receipts [][]answers.ReceiptRun) string {
	if !receiptFirst(h, receipts) {
		return lines
	}
	return fmt.Sprintf("a line may be missing (%s): check the slips first. Or %s", receiptNumbers(receipts, false), lines)
}

// receiptFirst reports whether a count that found less is explained by two slips alone, which
// is less than that the bill of a missing receipt is not typed, if no more than their amounts
// speaks for them.
func receiptFirst(h answers.InHand, receipts [][]answers.ReceiptRun) bool {
	if len(h.Explained)+len(h.Untyped) > 0 || unexplained(h) {
		return false
	}
	for _, pair := range h.ExplainedByTwo.Pairs {
		if slices.ContainsFunc(pair[:], func(s answers.Slip) bool { return s.Twice || s.MeantCurrency != "" }) {
			return false
		}
	}
	return mayLackLine(h) && !h.Stands.Unsure() && h.Stands.New.IsOwing() && receiptNumbers(receipts, false) != ""
}

// unexplained reports whether neither a debt, nor a slip, nor a named pair of them explains
// a count.
func unexplained(h answers.InHand) bool {
	return len(h.Explained)+len(h.Untyped) == 0 && (h.ExplainedByTwo == nil || h.ExplainedByTwo.More)
}

// pairsNoClue says that too many pairs of slips explain a count, behind what says that no
// line does; "" where there are none.
func pairsNoClue(h answers.InHand) string {
	if h.ExplainedByTwo == nil {
		return ""
	}
	return "; " + pairsTooMany + " would together, which is no clue"
}

// pairsTooMany are more pairs of slips than are a clue.
var pairsTooMany = "more than " + NumberWord(answers.MostPairs) + " pairs of slips"

// byChance says how many lines or pairs of slips were tried and how often chance alone makes
// one fit, in a sentence after a space; "" where more than an amount speaks for a line, and
// where no pair is named.
func byChance(h answers.InHand) string {
	switch p := h.ExplainedByTwo; {
	case h.ByChance != nil:
		return chanceSaid(Counted(int(h.ByChance.Tried), "line", "lines"), h.ByChance.Share.Float64())
	case p == nil || p.More:
		return ""
	default:
		return chanceSaid(Counted(int(p.Tried), "pair", "pairs"), p.Share.Float64())
	}
}

func chanceSaid(tried string, share float64) string {
	text := shareOfTotals(share) + " of the differences this near"
	if share >= oftenFits {
		return fmt.Sprintf(" A weak clue: of %s tried, chance alone makes one fit %s.", tried, text)
	}
	return fmt.Sprintf(" Of %s tried, chance alone makes one fit %s.", tried, text)
}

// newSince says what is newly off, which way and since when.
func newSince(s answers.Stands, day func(string) string) string {
	return fmt.Sprintf("the %s %s since %s", AmountSaid(s.New.Size()), lessOrMore(s.New), day(s.Since))
}

// seeCashBook says where many lines are named; in the cash book itself they are below it.
func seeCashBook(year int) string {
	return fmt.Sprintf("`boxbook statement club %d` names them", year)
}

const seeBelow = "the notes below name them"

// maybeMissing says of counts that are off that a line may be missing, of which the
// numberings of the receipts may tell, and to see the slips before a line is changed; ""
// where no count is, or where it is said before two slips.
func maybeMissing(counts []answers.InHand, receipts [][]answers.ReceiptRun) string {
	named, less := false, false
	counts = slices.DeleteFunc(slices.Clone(counts), func(h answers.InHand) bool { return !mayLackLine(h) || receiptFirst(h, receipts) })
	if len(counts) == 0 {
		return ""
	}
	for _, h := range counts {
		named = named || !unexplained(h)
		less = less || h.Stands.New.IsOwing()
	}
	begin, what := "A line may be missing", "a payment received"
	if named {
		begin = "Or a line is missing"
	}
	if less {
		what = "a bank charge"
	}
	slip := "a slip not typed"
	if numbers := receiptNumbers(receipts, false); numbers != "" {
		slip = numbers
	}
	return fmt.Sprintf("%s (%s, %s): check the slips first.", begin, what, slip)
}

// mayLackLine reports whether a missing line may be why a count is off: not where a later
// count shows it to be wrong itself, an agreed result says as well which line is, or what is
// off may be in a pot that was not counted.
func mayLackLine(h answers.InHand) bool {
	fits := func(s answers.Slip) bool { return s.FitsAgreed != 0 }
	return !slices.ContainsFunc(h.Explained, fits) && h.Stands != nil && !h.Stands.New.IsNothing() && !agreesWithLedger(h) && h.AgreesLater == "" && (!unexplained(h) || !h.Stands.Unsure())
}

// linesSaid says which lines would each alone explain what is newly off, or which two
// together, or how many would; "" where there is none. Lines of one kind of slip are named
// or counted together.
func linesSaid(h answers.InHand, year int, amount, it, see string) string {
	if len(h.Explained)+len(h.Untyped) == 0 {
		return pairsSaid(h, year, it, see)
	}
	said := untypedSaid(h, year, mostNamed)
	counted := ""
	for from, i := 0, 1; i <= len(h.Explained); i++ {
		if i < len(h.Explained) && sameSlip(h.Explained[from], h.Explained[i]) {
			continue
		}
		switch of := h.Explained[from:i]; {
		case len(of) == 1 || len(of) == mostNamed && of[0].MeantAmount == nil:
			for _, s := range of {
				said = append(said, "the "+SlipSaid(s, h, year))
			}
		default:
			text := fmt.Sprintf("any one of %d lines%s would explain %s", len(of), ofThatAmount(of[0], amount), it)
			if len(of) < len(h.Explained) && slipsIf(of[0]) == "" && !of[0].Twice {
				text += ", if it never moved"
			}
			said, counted = append(said, text+slipsIf(of[0])), "; "+see
		}
		from = i
	}
	return strings.Join(said, ", or ") + counted
}

// untypedSaid says which debts may have been paid without a line; more than some as one,
// with the first.
func untypedSaid(h answers.InHand, year, most int) []string {
	var said []string
	if len(h.Untyped) == 0 {
		return nil
	}
	first := h.Untyped[0]
	paid, whose := "may have been paid and not typed", "to the club"
	if first.Out {
		paid, whose = "may have been paid out and not typed", "of the club"
	}
	if n := len(h.Untyped); n > most {
		return []string{fmt.Sprintf("one of the %s open debts of %s %s, the first %s's, %s", NumberWord(n), AmountSaid(first.Amount), whose, untypedName(first), paid)}
	}
	for _, u := range h.Untyped {
		what := fmt.Sprintf("%s's open %s", untypedName(u), AmountSaid(u.Amount))
		switch {
		case u.Out:
			what = fmt.Sprintf("the %s that the club owes %s", AmountSaid(u.Amount), untypedName(u))
		case u.Kind != "":
			what = fmt.Sprintf("%s's %s of %s, %s,", untypedName(u), BillName(u.Contest, u.Kind), DayIn(u.Since, year), AmountSaid(u.Amount))
		case u.Entry != "":
			what = fmt.Sprintf("%s's debt of %s, %s,", untypedName(u), DayIn(u.Since, year), AmountSaid(u.Amount))
		}
		said = append(said, what+" "+paid)
	}
	return said
}

func untypedName(u answers.Untyped) string { return cmp.Or(u.Name, u.Party) }

// sameSlip reports whether two lines would explain a count in the same way; each count of a
// pot has its own.
func sameSlip(a, b answers.Slip) bool {
	return a.Pot == "" && b.Pot == "" && slipsIf(a) == slipsIf(b) && a.Twice == b.Twice
}

// pairsSaid says which two slips would explain a count together, or how many pairs would;
// "" where none is named.
func pairsSaid(h answers.InHand, year int, it, see string) string {
	switch {
	case unexplained(h):
		return ""
	case len(h.ExplainedByTwo.Pairs) == 1:
		return pairSaid(h.ExplainedByTwo.Pairs[0], h, year)
	default:
		return fmt.Sprintf("any one of %d pairs of slips would together explain %s; %s", len(h.ExplainedByTwo.Pairs), it, see)
	}
}

// pairSaid says two slips that would explain a count together.
func pairSaid(pair [2]answers.Slip, h answers.InHand, year int) string {
	said := func(s answers.Slip, what string) string {
		text := "the " + SlipSaid(s, h, year)
		if s.Alike > 0 {
			text = SlipSaid(s, h, year)
		}
		if explains := strings.Replace(text, "explain it", "explain "+what, 1); explains != text {
			return explains
		}
		return text + ", " + AmountSaid(s.Explains.Size())
	}
	if bothAlike(pair) {
		two := "two" + strings.TrimPrefix(said(pair[0], AmountSaid(pair[0].Explains.Size())+" each"), "one")
		if strings.Contains(two, " each") {
			return two
		}
		return two + " each"
	}
	return fmt.Sprintf("%s, and %s", said(pair[0], AmountSaid(pair[0].Explains.Size())+" of it"), said(pair[1], "the rest"))
}

// bothAlike reports whether two slips are of lines that are alike, and the same.
func bothAlike(pair [2]answers.Slip) bool {
	a, b := pair[0], pair[1]
	a.Date, a.File, a.Line, a.Remark, a.Contest, a.From, a.To, a.Meant = b.Date, b.File, b.Line, b.Remark, b.Contest, b.From, b.To, b.Meant
	return a.Alike > 0 && reflect.DeepEqual(a, b)
}

// alikeSaid names a line by what it has in common with those that are alike.
func alikeSaid(s answers.Slip, year int) string {
	what := fmt.Sprintf("lines of %s for %s", AmountSaid(s.Moved.Size()), BillName("", s.Kind))
	switch {
	case s.Kind != "":
	case s.Moved.IsOwing():
		what = fmt.Sprintf("payments of %s by the club", AmountSaid(s.Moved.Size()))
	default:
		what = fmt.Sprintf("payments of %s to the club", AmountSaid(s.Moved.Size()))
	}
	return fmt.Sprintf("one of the %s %s, the first of %s (%s, line %d),", NumberWord(s.Alike), what, DayIn(s.Date, year), fileName(s.File), s.Line)
}

// ofThatAmount is that lines have the amount that explains a count, "" where each has
// another one.
func ofThatAmount(s answers.Slip, amount string) string {
	if s.MeantAmount != nil {
		return ""
	}
	return " of " + amount
}

// slipsIf says of lines of one kind for which case each would explain a count.
func slipsIf(s answers.Slip) string {
	switch {
	case s.Meant != "":
		return ", if its year is mistyped"
	case s.Pointed:
		return ", if its decimal point is elsewhere"
	case s.MeantAmount != nil:
		return ", if two of its digits are swapped"
	case s.MeantCurrency != "":
		return ", if its currency is mistyped"
	case s.Again:
		return ", if it moved twice or a second one is not typed"
	case s.Turned:
		return ", if it was the other way round"
	case s.PaidBy != "":
		return ", if the club paid it itself"
	default:
		return ""
	}
}

// SlipSaid says how a line of the ledger would explain what a count found less or more.
func SlipSaid(s answers.Slip, h answers.InHand, year int) string {
	pot := PotsOf(h)
	what := fmt.Sprintf("%s of %s (%s, line %d)", slipWhat(s), DayIn(s.Date, year), fileName(s.File), s.Line)
	if s.Pot != "" && !s.Opening {
		what = fmt.Sprintf("%s (%s, line %d)", slipWhat(s), fileName(s.File), s.Line)
	}
	if s.Alike > 0 {
		what = alikeSaid(s, year)
	}
	switch {
	case s.Meant != "":
		return what + " would explain it, if " + meantSaid(s, h, year)
	case s.ZeroOn != "":
		return fmt.Sprintf("%s first counted in %s (%s, line %d) would explain it, if moved there from the other pots: then add `in-hand %s %s %s %s`", AmountSaid(*s.Typed), thePot(s.Pot), fileName(s.File), s.Line, s.ZeroOn, s.Pot, AmountSaid(s.Moved), h.Currency)
	case s.Pointed:
		return fmt.Sprintf("%s would explain it, if its decimal point is elsewhere, %s for %s", what, AmountSaid(*s.Typed), AmountSaid(*s.MeantAmount))
	case s.MeantAmount != nil:
		return fmt.Sprintf("%s would explain it, if two digits are swapped, %s for %s", what, AmountSaid(*s.Typed), AmountSaid(*s.MeantAmount))
	case s.MeantCurrency != "":
		return fmt.Sprintf("%s, noted in %s, would explain it, if it was in %s", what, s.Currency, s.MeantCurrency)
	case s.Twice:
		return what + " may be in the ledger twice"
	case s.Turned:
		return what + " would explain it, " + turnedSaid(s)
	case s.PaidBy != "":
		return fmt.Sprintf("%s would explain it, if the club paid it, and not %s", what, s.PaidBy)
	case s.Again && s.Moved.IsOwing():
		return fmt.Sprintf("%s may have left %s twice, or a second one is not typed", what, pot)
	case s.Again:
		return fmt.Sprintf("%s may have reached %s twice, or a second one is not typed", what, pot)
	}
	never := "never"
	if onTheWay(s, h) {
		never = "not"
		pot += " yet by " + DayIn(h.Date, year)
	}
	if s.Moved.IsOwing() {
		return fmt.Sprintf("%s may %s have left %s", what, never, pot)
	}
	return fmt.Sprintf("%s may %s have reached %s", what, never, pot)
}

// turnedSaid says for which case a line explains a count the other way round.
func turnedSaid(s answers.Slip) string {
	switch {
	case s.Kind == "" && s.From == "":
		return "if it was from " + s.To
	case s.Kind == "":
		return "if it was to " + s.From
	case s.Moved.IsOwing():
		return "if it came in (an income, or a refund with its minus)"
	default:
		return "if it went out (a cost, or a minus too many)"
	}
}

// onTheWay reports whether a line is so shortly before a count that its money may have
// moved after it.
func onTheWay(s answers.Slip, h answers.InHand) bool {
	on, _ := season.ParseDate(s.Date)
	counted, _ := season.ParseDate(h.Date)
	return on <= counted && counted-on <= answers.TransferDays
}

// daysOnTheWay is how long after a count a line may be whose money had moved by then.
const daysOnTheWay = 31

// yearMistyped reports whether a line of another year that explains a count is not of soon
// after it, so that its year may be mistyped.
func yearMistyped(s answers.Slip, h answers.InHand) bool {
	counted, _ := season.ParseDate(h.Date)
	day, _ := season.ParseDate(s.Date)
	return day <= counted || day > counted+daysOnTheWay
}

// meantSaid says for which case a line of another year explains a count: where it comes
// soon after it, its money may have moved before; else its year may be mistyped, which its
// receipt and an agreed result may say as well.
func meantSaid(s answers.Slip, h answers.InHand, year int) string {
	day, _ := season.ParseDate(s.Date)
	var too []string
	if s.FitsReceipt != "" {
		too = append(too, "receipt "+s.FitsReceipt)
	}
	if s.FitsAgreed != 0 {
		too = append(too, fmt.Sprintf("the agreed result of %d", s.FitsAgreed))
	}
	switch {
	case yearMistyped(s, h) && len(too) > 0:
		return fmt.Sprintf("it was on %s, not %d, as %s %s too", DayIn(s.Meant, day.Year()), day.Year(), ListInWords(too), PluralWord(len(too), "says", "say"))
	case yearMistyped(s, h):
		return fmt.Sprintf("it was on %s, not %d", DayIn(s.Meant, day.Year()), day.Year())
	case s.Moved.IsOwing():
		return fmt.Sprintf("it had left %s by %s", PotsOf(h), DayIn(h.Date, year))
	default:
		return fmt.Sprintf("it had reached %s by %s", PotsOf(h), DayIn(h.Date, year))
	}
}

// fileName is a path's last part, of whatever system.
func fileName(path string) string { return path[strings.LastIndexAny(path, `/\`)+1:] }

// AnyOf lists the lines each of which would explain a count.
func AnyOf(h answers.InHand, year int) string {
	return fmt.Sprintf("%s, %s: %s", strings.TrimPrefix(PotsOf(h), "the "), DayIn(h.Date, year), slipsListed(h, year))
}

// slipsListed lists what would each alone explain a count, and says from when on a later
// count shows that it is this one; "" where there is nothing of either.
func slipsListed(h answers.InHand, year int) string {
	lines := untypedSaid(h, year, len(h.Untyped))
	for _, s := range h.Explained {
		lines = append(lines, SlipSaid(s, h, year))
	}
	if !unexplained(h) && h.ExplainedByTwo != nil {
		for _, pair := range h.ExplainedByTwo.Pairs {
			lines = append(lines, pairSaid(pair, h, year))
		}
	}
	switch text := strings.Join(lines, "; or "); {
	case text == "":
		return goneAgain(h, year)
	case h.AgreesLater != "":
		return text + "; " + goneAgain(h, year)
	default:
		return text + ifItHas(h, year)
	}
}

// goneAgain says that a later count shows a count to be wrong itself, "" where none does.
func goneAgain(h answers.InHand, year int) string {
	if h.AgreesLater == "" {
		return ""
	}
	if slices.ContainsFunc(h.Explained, func(s answers.Slip) bool { return s.MeantAmount == nil && onTheWay(s, h) }) {
		return fmt.Sprintf("by the count of %s it is gone again; else the count of %s is the slip", DayIn(h.AgreesLater, year), DayIn(h.Date, year))
	}
	return fmt.Sprintf("by the count of %s it is gone again, so that the count of %s is likelier the slip than a line before it", DayIn(h.AgreesLater, year), DayIn(h.Date, year))
}

// ifItHas says after lines that would explain a count for which case they do, "" for any.
func ifItHas(h answers.InHand, year int) string {
	if !h.Stands.Unsure() {
		return ""
	}
	return "; if " + stillHas(*h.Stands, h.Currency, func(date string) string { return DayIn(date, year) })
}
