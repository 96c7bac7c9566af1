package words

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"boxbook/report/answers"
)

// theClub is what people call the club among the parties.
const theClub = "the club"

// PartyName is a party's name, the club's where there is none.
func PartyName(name string) string {
	if name == "" {
		return theClub
	}
	return name
}

// PrintedResult is a result as printed: "1105.350 of 1600", "" where none is.
func PrintedResult(r answers.ResultYear) string {
	if r.PrintedPoints == "" || r.PrintedMaximum == "" {
		return r.PrintedPoints + r.PrintedMaximum
	}
	return r.PrintedPoints + " of " + r.PrintedMaximum
}

// The notes of a year that stand for themselves.
const (
	NoCategory      = "not known" // of an entry without one
	BestAndMean     = "best and mean: percent over the contest flights; places: of contests' overall results"
	BilledExplained = "billed: by the club to those it was for; what they have paid of it is in settled"
)

// BesidePractice counts the practice that is in no column.
func BesidePractice(n int) string {
	return "besides the contest flights, " + Counted(n, "practice flight", "practice flights")
}

// LooseFlights counts contest flights that name no contest.
func LooseFlights(n int) string {
	return fmt.Sprintf("%s no contest and %s in no count of contests", Counted(n, "contest flight names", "contest flights name"), PluralWord(n, "is", "are"))
}

// LaterMoney counts what is dated after the day that stands for today.
func LaterMoney(d answers.Year) string {
	text := fmt.Sprintf("%s dated after %s %s not counted", Counted(d.Later, "entry", "entries"), d.Asof, PluralWord(d.Later, "is", "are"))
	for i, m := range d.LaterLines {
		mark := "; "
		if i == 0 {
			mark = ": "
		}
		text += mark + moneyLineSaid(m)
	}
	return text
}

// moneyLineSaid names a line of money: what it is, its amount, day and place.
func moneyLineSaid(m answers.MoneyLine) string {
	what := BillName(m.Contest, m.Kind)
	switch {
	case m.Entry == answers.EntryInHand:
		what = "count of the " + m.Pot
	case m.Entry == answers.EntryOwed:
		what = "older debt of " + PartyName(m.From)
	case m.Entry == answers.EntrySettle && m.From == "":
		what = "payment to " + m.To
	case m.Entry == answers.EntrySettle:
		what = "payment from " + m.From
	}
	return fmt.Sprintf("%s, %s, of %s (%s, line %d)", what, SumSaid(answers.Sum{Currency: m.Currency, Amount: m.Amount}), m.Date, fileName(m.File), m.Line)
}

// ContestYearExplained says what the contests' columns count.
func ContestYearExplained(d answers.Year) string {
	return fmt.Sprintf("contests that began in %d; entries: pilots with a flight or a result; costs: all that belong to the contest%s", d.Year, contestIncome(d))
}

// contestIncome explains the columns of the contests' income, "" where there is none.
func contestIncome(d answers.Year) string {
	if !slices.ContainsFunc(d.Contests, func(c answers.ContestYear) bool { return len(c.Income) > 0 }) {
		return ""
	}
	return "; income: the club's, what was paid or billed to it, a cost of others"
}

// BalanceExplained says how to read a balance, and of what parts the closing one
// is made.
func BalanceExplained(parts []string) string {
	return "a balance with + is owed to that person, one with - is owed by them; carried out = " + strings.Join(parts, " ")
}

// WithoutRate names the currencies that the converted balances leave out.
func WithoutRate(d answers.Year) string {
	return fmt.Sprintf("without %s, for which %d has no rate", ListInWords(d.Unpriced), d.Year)
}

// RatesExplained names the year's rates.
func RatesExplained(d answers.Year) string {
	var rates []string
	for _, r := range d.Rates {
		rates = append(rates, rateSaid(r))
	}
	return strings.Join(rates, ", ") + "; each sum is rounded once, so together they can be a last digit off zero"
}

func rateSaid(r answers.ExchangeRate) string {
	return fmt.Sprintf("1 %s = %s %s", r.From, r.Rate, r.To)
}

// PaymentsExplained says what the payments are.
func PaymentsExplained(d answers.Year) string {
	text := "each settles with the club what is open between the two; the others settle among themselves with the fewest payments, along debts where as few do"
	if d.Pooled {
		text = "the fewest payments of all together, which moves debts onto others: who pays here may owe that person nothing"
	}
	return text + unproven(d)
}

// unproven names the currencies in which fewer payments might do.
func unproven(d answers.Year) string {
	if len(d.Unproven) == 0 {
		return ""
	}
	return fmt.Sprintf("; in %s fewer might do, with so many people", ListInWords(d.Unproven))
}

// PaymentsInOne says at what rates payments are in one currency, and what rounding
// them left; "" where each currency is by itself.
func PaymentsInOne(d answers.Year) string {
	if d.SettleIn == "" {
		return ""
	}
	text := "all in " + d.SettleIn + " at the rates of the year"
	var rates []string
	for _, r := range d.Rates {
		rates = append(rates, rateSaid(r))
	}
	if len(rates) > 0 {
		text += " (" + strings.Join(rates, ", ") + ")"
	}
	if len(d.Unpriced) > 0 {
		text += " but " + ListInWords(d.Unpriced) + ", which have no rate"
	}
	for _, left := range d.SettleLeft {
		text += fmt.Sprintf("; %s that conversion leaves is borne by the club, else by those whose amounts rounding moved most", SumSaid(left))
	}
	return text
}

// YearThought says how the club did, what of that moved as money and what is owed,
// and what should be in hand; of a year without any of the club's money, who owes whom.
func YearThought(d answers.Year) string {
	nothing, open := nothingIn(d), len(d.Settle) > 0
	switch {
	case d.Quiet && !open:
		return joined(nothing+".", agreedAlone(d), agreedBeforeAlone(d), countedBefore(d.Club.CountedBefore, d.Year), yearWarned(d))
	case d.Quiet:
		return joined(nothing+"; as before, "+owing(d)+".", agreedAlone(d), agreedBeforeAlone(d), countedBefore(d.Club.CountedBefore, d.Year), yearWarned(d))
	case !open && len(d.Totals)+len(d.Club.Moved)+len(d.Club.InHand) == 0:
		return joined(fmt.Sprintf("No money was written down in %d.", d.Year), agreedAlone(d), agreedBeforeAlone(d))
	}
	said := []string{clubResult(d), agreedAlone(d), agreedBeforeAlone(d), unpaidThought(d), unbilledThought(d), inHandThought(d), receiptsThought(d), betweenMembers(d), yearWarned(d)}
	said = slices.DeleteFunc(said, func(s string) bool { return s == "" })
	if len(said) == 0 {
		return Sentence(owing(d)) + "."
	}
	if d.LinesSince > 0 {
		said = append(said, stoodThen(d.Year, d.LinesSince, ""))
	}
	return strings.Join(said, " ")
}

// nothingIn says that a year has nothing in it, and after the latest that has
// anything which one that is.
func nothingIn(d answers.Year) string {
	if d.Later > 0 && d.Asof != "" {
		return fmt.Sprintf("What is in %d is later than %s, the day that counts as today: `--asof` with a later day shows it", d.Year, d.Asof)
	}
	text := fmt.Sprintf("Nothing in %d", d.Year)
	if d.Latest != 0 {
		text += fmt.Sprintf(" yet (the latest year with an entry: boxbook year %d)", d.Latest)
	}
	return text
}

// What stands before a result that the assembly agreed, and what is said of
// one that is the same.
const (
	agreedAs = ", agreed as "
	asAgreed = ", as agreed"
)

// notFromLines is said of an agreed result beside which the ledger has none of its own.
const notFromLines = "not calculated from lines"

// agreedSaid says whether the result of a currency is what the assembly took note
// of, with its remark, which says when; "" where there is none.
func agreedSaid(d answers.Year, currency string) string {
	if d.Running || !AgreedCompared(d, currency) {
		return "" // what was agreed is the whole year's
	}
	for _, a := range AllAgreed(d) {
		switch {
		case a.Currency != currency:
		case !a.Difference.IsNothing():
			return agreedAs + ProfitOrLoss(a.Amount)
		case a.Remark != "":
			return fmt.Sprintf("%s (%s)", asAgreed, a.Remark)
		default:
			return asAgreed
		}
	}
	return ""
}

// agreedOtherwise is agreedSaid of a result that is another than the agreed one, else "".
func agreedOtherwise(d answers.Year, currency string) string {
	other := func(a answers.Agreed) bool { return a.Currency == currency && !a.Difference.IsNothing() }
	if slices.ContainsFunc(AllAgreed(d), other) {
		return agreedSaid(d, currency)
	}
	return ""
}

// AllAgreed are the results of a year as agreed, a currency each.
func AllAgreed(d answers.Year) []answers.Agreed {
	if d.Agreed == nil {
		return nil
	}
	return append([]answers.Agreed{*d.Agreed}, d.AgreedElse...)
}

// AgreedCompared reports whether the ledger has a result of a year in a currency, beside
// which an agreed one can stand.
func AgreedCompared(d answers.Year, currency string) bool {
	_, found := answers.SumIn(d.Club.Result, currency)
	return found && !d.NotBegun()
}

// agreedAlone says of results as agreed beside which the ledger has none what keeps them
// from being compared, "" where there is none, or the year runs.
func agreedAlone(d answers.Year) string {
	var alone, currencies []string
	for _, a := range AllAgreed(d) {
		if AgreedCompared(d, a.Currency) || d.Running {
			continue
		}
		currencies = append(currencies, a.Currency)
		text := ProfitOrLoss(a.Amount) + " " + a.Currency
		if a.Remark != "" {
			text += " (" + a.Remark + ")"
		}
		alone = append(alone, text)
	}
	switch {
	case len(alone) == 0:
		return ""
	case d.NotBegun():
		return fmt.Sprintf("The result of %d stands as agreed, as %s, though the year has not begun.", d.Year, ListInWords(alone))
	default:
		return fmt.Sprintf("The result of %d was agreed as %s; the ledger has no income or costs of the club in %s there.", d.Year, ListInWords(alone), AnyInWords(currencies))
	}
}

// agreedBefore is the result of the other year in a currency, as agreed, where the ledger
// has none of it there; nil where it has, or none was agreed.
func agreedBefore(d answers.Year, currency string) *answers.AgreedBefore {
	for _, a := range agreedAllBefore(d) {
		if a.Currency == currency {
			return &a
		}
	}
	return nil
}

// agreedAllBefore are those results, a currency each.
func agreedAllBefore(d answers.Year) []answers.AgreedBefore {
	if d.Beside == nil {
		return d.AgreedBefore
	}
	var all []answers.AgreedBefore
	for _, a := range AllAgreed(*d.Beside) {
		if !AgreedCompared(*d.Beside, a.Currency) && !d.Beside.Running && !d.Beside.NotBegun() {
			all = append(all, answers.AgreedBefore{Year: d.Beside.Year, Currency: a.Currency, Amount: a.Amount, Remark: a.Remark})
		}
	}
	return all
}

// agreedBeforeAlone says the results of the other year, as agreed, of currencies in which
// no result of the year has them behind it; "" where there is none.
func agreedBeforeAlone(d answers.Year) string {
	var said []string
	beside := outcomes(d)
	for _, a := range agreedAllBefore(d) {
		with := func(o outcome) bool { return o.currency == a.Currency && o.hasResult() }
		if !slices.ContainsFunc(beside, with) {
			said = append(said, fmt.Sprintf("The result of %d in %s was agreed as %s, %s.", a.Year, a.Currency, ProfitOrLoss(a.Amount), notFromLines))
		}
	}
	return joined(said...)
}

// ProfitOrLoss is a year's result, a loss in words.
func ProfitOrLoss(a answers.Amount) string {
	if a.IsOwing() {
		return "a loss of " + AmountSaid(a.Size())
	}
	return AmountSaid(a)
}

// receiptsThought says which slips are missing, in a sentence.
func receiptsThought(d answers.Year) string {
	first := func(h answers.InHand) bool { return receiptFirst(h, d.Club.MissingReceipts()) }
	if off := countsOff(d.Club.InHand); maybeMissing(off, d.Club.MissingReceipts()) != "" || slices.ContainsFunc(off, first) {
		return Sentence(elsewhereSaid(notNamed(d.Club.ReceiptsElsewhere, d.Club.InHand), d.Year))
	}
	if missing := ReceiptsMissing(d, false); missing != "" {
		return Sentence(missing) + "."
	}
	return ""
}

// yearWarned says the warnings of the ledger where they may tell of the year's money.
func yearWarned(d answers.Year) string {
	return warnedSaid(d.Warned, d.Year, len(countsOff(d.Club.InHand))+len(d.Club.CountedBefore) > 0)
}

// warnedSaid counts the warnings of a ledger and names the lines of a year that may be
// typed twice, else those that have another warning, and its budgets; "" where no line of
// the year has one and no count is off.
func warnedSaid(w *answers.Warned, year int, off bool) string {
	if w == nil || len(w.Lines)+len(w.Budgets) == 0 && !off {
		return ""
	}
	var twice, others []string
	for _, line := range w.Lines {
		if line.Twice {
			twice = append(twice, fmt.Sprintf("line %d may be typed twice, %s", line.Line, AmountSaid(line.Amount)))
		} else {
			others = append(others, strconv.Itoa(line.Line))
		}
	}
	var budgets []string
	for _, b := range w.Budgets {
		budgets = append(budgets, strconv.Itoa(b.Line))
	}
	text := Counted(w.Warnings, "warning", "warnings") + " about the ledger: `boxbook check`"
	if len(twice) > 0 {
		text += "; " + andMore(twice[:min(len(twice), mostNamed)], len(twice)-min(len(twice), mostNamed), "more line", "more lines")
	}
	if len(others) > 0 {
		also := ""
		if len(twice) > 0 {
			also = "also "
		}
		text += "; " + also + linesOf("money", year, others)
	}
	if len(budgets) > 0 {
		text += "; " + linesOf("budget", year, budgets)
	}
	return text + "."
}

// linesOf names lines of a year's money or budget: "of the money of 2026: lines 7 and 9".
func linesOf(what string, year int, lines []string) string {
	n := len(lines)
	text := fmt.Sprintf("of the %s of %d: %s %s", what, year, PluralWord(n, "line", "lines"), ListInWords(lines[:min(n, someRuns)]))
	if n > someRuns {
		text += " and more"
	}
	return text
}

// resultBeside is the club's result in the other year; false where there is none.
func resultBeside(d answers.Year, currency string) (answers.Amount, bool) {
	if d.Beside == nil {
		return answers.Amount{}, false
	}
	return answers.SumIn(d.Beside.Club.Result, currency)
}

func upOrDown(a answers.Amount) string {
	if a.IsOwing() {
		return "down"
	}
	return "up"
}

// sumsSaid lists sums: "5.00 EUR and 3.00 CHF".
func sumsSaid(sums []answers.Sum) string {
	var said []string
	for _, s := range sums {
		said = append(said, SumSaid(s))
	}
	return ListInWords(said)
}
