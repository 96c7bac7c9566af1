package analysis

import (
	"fmt"
	"slices"
	"strconv"

	"boxbook/season"
)

// Slip is one line of the ledger that would explain why a pot had less or more
// than the ledger says, were it not there, or the Count itself, which moves nothing. Twice says that the same line stands
// before it; Meant is the day that would explain it, where the line has the day of
// another year, MeantAmount the amount, where two digits of that Typed are swapped, and
// MeantCurrency the currency, where another one's count is off the other way, or nothing
// was owed in the line's own. FitsAgreed is a year whose agreed result says that the line
// is of Meant, 0 for none, FitsReceipt a receipt of the line that is missing in Meant's
// year. Explains is what of a count one of two slips explains, and Alike of how many lines
// that are alike the line is the first that would. Again says that the line's amount once
// more would explain it, Turned that it would the other way round. Of Typed the point is
// elsewhere, not digits swapped, where Pointed. ZeroOn is the day on which the pot that
// Count begins had nothing, if its content came from the other pots. ByClub says that Cost,
// which another paid, would, if the club did. One of Cost, Settlement and Count is the line.
type Slip struct {
	Date               season.Date
	Moved              season.Money // what it put into the club's pots, below zero for what it took out
	Twice              bool
	Meant              season.Date
	Typed, MeantAmount season.Money
	MeantCurrency      season.Currency
	FitsAgreed         int
	FitsReceipt        string
	Explains           season.Money
	Alike              int
	Again              bool
	Turned, Pointed    bool
	ZeroOn             season.Date
	ByClub             bool
	Cost               *season.Cost
	Settlement         *season.Settlement
	Count              *season.InHand
	Opening            bool // Count is the first of its pot, by which all later ones are off
}

// At is where the line stands.
func (s Slip) At() season.Place {
	switch {
	case s.Cost != nil:
		return s.Cost.At
	case s.Settlement != nil:
		return s.Settlement.At
	default:
		return s.Count.At
	}
}

// explainCount says of a comparison what would explain what is newly off: the counts
// themselves first, which are soonest looked up, then lines. A count that
// goes on from a wrong one and is as the ledger says has nothing to explain, and where a
// later count is, no line before can be wrong but by its year: that one would be off as
// well. Money that was on the way at the count the next one has.
func (h *InHandYear) explainCount(moved moneyMoved, t season.Compared) {
	if t.New().Minor == 0 || t.Off().Minor == 0 {
		return
	}
	c, missing := t.Money.Currency, -t.New().Minor
	h.Slips = append(fromOtherPots(moved.l, t), swappedCounts(t)...)
	agrees, still, inDoubt := agreesLater(moved, h.InHand, t)
	if h.again = agrees; inDoubt {
		h.again = 0
	}
	if h.again != 0 {
		lines := movedLater(moved, c, missing, span{t.After, h.Date}, span{still, h.again})
		switch {
		case len(lines) == 0:
			h.AgreesLater = h.again
			if still == h.Date {
				h.Slips = append(h.Slips, onTheWay(moved, c, missing, t.After, h.Date)...)
			}
		case lines[0].FitsAgreed != 0:
			h.Slips = lines
		default:
			h.Slips = append(h.Slips, lines...)
		}
		return
	}
	days := span{t.After, h.Date}
	var both []Slip
	if inDoubt {
		both = movedLater(moved, c, missing, days, span{still, agrees})
	}
	lines := slipsBeside(moved, c, missing, days, both)
	h.Slips = append(append(h.Slips, lines...), fitAsWell(moved, c, missing, days, lines)...)
	if len(lines) == 0 {
		h.Slips = append(h.Slips, slipsMeant(moved, c, missing, t.After, h.Date)...)
	}
}

// TransferDays are how many days before a count a line may be whose money moved after it,
// a house choice.
const TransferDays = 7

// onTheWay lists the lines shortly before a count, and after the one before it, that moved
// exactly what is missing: their money may have moved after it.
func onTheWay(moved moneyMoved, c season.Currency, missing int64, after, counted season.Date) []Slip {
	var found []Slip
	days := span{max(after, counted-TransferDays-1), counted}
	for _, s := range moved.past(c) {
		if s.Moved.Minor == missing && days.has(s.Date) {
			found = append(found, s)
		}
	}
	return found
}

// span are the days after one up to another.
type span struct{ after, upTo season.Date }

func (s span) has(day season.Date) bool { return day > s.after && day <= s.upTo }

// movedLater lists the lines of some days that moved what was missing at their end, and
// would have their day in another year among those by whose end it had moved.
func movedLater(moved moneyMoved, c season.Currency, missing int64, days, until span) []Slip {
	var found []Slip
	for _, s := range moved.past(c) {
		if s.Moved.Minor == missing && days.has(s.Date) {
			s.Meant = meantDay(s.Date, until.after, until.upTo)
			found = append(found, s)
		}
	}
	return asAgreed(moved.l, found)
}

// explainAgain says of the counts that are as the ledger says again after ones that were
// not which line of before would have its day in another year since the last of those: by
// then it had not moved; and which line since would have its day before the first of those.
// One that explains those already, in the same year, is not named again.
func explainAgain(moved moneyMoved, counts []InHandYear) {
	for i := range counts {
		h := &counts[i]
		if h.Compared == nil || h.Compared.Unsure() || h.Compared.Off().Minor != 0 || h.Compared.New().Minor == 0 {
			continue
		}
		off := h.Compared.New()
		compared := moved.compared(off.Currency)
		h.Slips = slices.DeleteFunc(misdated(moved, off.Currency, -off.Minor, h.Compared.After, h.Date), func(s Slip) bool {
			fits := func(c comparison) bool { return c.day >= s.Date && c.day < h.Date && c.off != -off.Minor }
			return s.Date > h.Compared.After || slices.ContainsFunc(compared, fits) || namedBefore(counts[:i], s)
		})
		for _, s := range asAgreed(moved.l, movedBefore(moved, off, span{h.Compared.After, h.Date}, compared)) {
			if !namedBefore(counts[:i], s) && (s.FitsAgreed != 0 || !slices.ContainsFunc(h.Slips, func(o Slip) bool { return o.FitsAgreed != 0 })) {
				h.Slips = append(h.Slips, s)
			}
		}
	}
}

// movedBefore lists the lines of some days that moved what was found back there, and would
// have their day in another year among those at whose end it was first missing.
func movedBefore(moved moneyMoved, off season.Money, days span, compared []comparison) []Slip {
	var first *comparison
	for _, c := range slices.Backward(compared) {
		if c.day >= days.upTo {
			continue
		}
		if c.off != -off.Minor {
			break
		}
		first = &c
	}
	if first == nil {
		return nil
	}
	var found []Slip
	for _, s := range moved.past(off.Currency) {
		if s.Moved.Minor == -off.Minor && days.has(s.Date) {
			s.Meant = meantDay(s.Date, first.after, first.day)
			found = append(found, s)
		}
	}
	return found
}

// namedBefore reports whether a line is among those that would explain some counts.
func namedBefore(counts []InHandYear, s Slip) bool {
	same := func(o Slip) bool { return o.At() == s.At() }
	return slices.ContainsFunc(counts, func(h InHandYear) bool { return slices.ContainsFunc(h.Slips, same) })
}

// slipsMoved lists the lines after one day up to another that moved exactly what is
// missing, below zero what is too much: those that stand twice, else all by date.
func slipsMoved(lines []Slip, missing int64, after, upTo season.Date) []Slip {
	seen, of := map[string]bool{}, map[string][]Slip{}
	var twice, once []Slip
	for _, s := range lines {
		if s.Date <= after || s.Date > upTo || s.Moved.Minor != missing {
			continue
		}
		key, receipt := s.said(), s.receipt()
		before := slices.IndexFunc(of[key], func(o Slip) bool {
			return s.Date-o.Date <= doubledDays && (receipt == "") != (o.receipt() == "")
		})
		switch again := s; {
		case seen[key+receipt]:
			again.Twice = true
			twice = append(twice, again)
		case before >= 0:
			if receipt != "" {
				again = of[key][before]
			}
			again.Twice = true
			twice = append(twice, again)
		default:
			once = append(once, s)
		}
		seen[key+receipt], of[key] = true, append(of[key], s)
	}
	if len(twice) > 0 {
		return twice // the other of both is right, then
	}
	return once
}

// slipsMeant lists the lines of what is missing that would have had their day after one
// day up to another in another year, and else those there with two digits swapped.
func slipsMeant(moved moneyMoved, c season.Currency, missing int64, after, upTo season.Date) []Slip {
	if other := misdated(moved, c, missing, after, upTo); len(other) > 0 {
		return other
	}
	return swapped(moved, c, missing, after, upTo)
}

// misdated lists the lines outside of two days that moved what is missing there the
// other way, and would have their day there in another year. A line stays where it
// is whose own days were counted and agreed: with another year they would not.
func misdated(moved moneyMoved, c season.Currency, missing int64, after, upTo season.Date) []Slip {
	var found []Slip
	for _, s := range moved.ever(c) {
		if s.Moved.Minor != -missing || s.Date > after && s.Date <= upTo || agreedOver(moved.l, c, s.Date) {
			continue
		}
		s.Meant = meantDay(s.Date, after, upTo)
		found = append(found, s)
	}
	return asAgreed(moved.l, found)
}

// asAgreed are the lines that may be of another year by the results as agreed: those that
// one says are, else those that none says are not. Lines that have no other day are left out.
func asAgreed(l *season.Ledger, lines []Slip) []Slip {
	if len(lines) == 0 {
		return nil
	}
	agreed := resultsAgreed(l)
	var fit, others []Slip
	for _, s := range lines {
		if s.Meant == 0 {
			continue
		}
		against := false
		if s.FitsAgreed, against = agreed.say(s, s.Meant); s.FitsAgreed != 0 {
			fit = append(fit, s)
		} else if !against {
			others = append(others, s)
		}
	}
	if len(fit) > 0 {
		return fit
	}
	return others
}

// meantDay is a day's in another year, after one day up to another, of which it may be
// mistyped, the nearest of several; 0 where there is none.
func meantDay(typed, after, upTo season.Date) season.Date {
	meant := season.Date(0)
	for year := upTo.Year(); year >= after.Year(); year-- {
		if !season.YearMistyped(typed.Year(), year) {
			continue
		}
		day := typed.InYear(year)
		if day > after && day <= upTo && (meant == 0 || yearsApart(typed, day) < yearsApart(typed, meant)) {
			meant = day
		}
	}
	return meant
}

// yearsApart is how many years lie between two days of the calendar.
func yearsApart(a, b season.Date) int { return max(a.Year()-b.Year(), b.Year()-a.Year()) }

// agreedOver reports whether a count of a currency agreed that was compared over
// days of which one is this.
func agreedOver(l *season.Ledger, c season.Currency, day season.Date) bool {
	return slices.ContainsFunc(l.InHand, func(h *season.InHand) bool {
		if h.Date < day {
			return false
		}
		days, agreed := agreedSpan(l, c, h)
		return agreed && days.has(day)
	})
}

// agreedSpan are the days over which a count of a currency was compared; false where it
// is of another one, or did not agree.
func agreedSpan(l *season.Ledger, c season.Currency, h *season.InHand) (span, bool) {
	if h.Money.Currency != c {
		return span{}, false
	}
	t, compared := l.Compare(h)
	return span{t.After, h.Date}, compared && t.New().Minor == 0
}

// moneyMoved are the lines that move the club's money, each currency's listed once.
type moneyMoved struct {
	l      *season.Ledger
	of     map[season.Currency][]Slip
	counts map[season.Currency][]comparison
	unowed *struct{ all []Unowed } // nil until asked for
}

// moneyMovedIn are those of a ledger.
func moneyMovedIn(l *season.Ledger) moneyMoved {
	return moneyMoved{l, map[season.Currency][]Slip{}, map[season.Currency][]comparison{}, &struct{ all []Unowed }{}}
}

// ever lists those of a currency by date, whenever that is; nobody writes to them.
func (m moneyMoved) ever(c season.Currency) []Slip {
	if _, listed := m.of[c]; !listed {
		m.of[c] = slipsMoving(m.l, c)
	}
	return m.of[c]
}

// compared are the comparisons of a currency.
func (m moneyMoved) compared(c season.Currency) []comparison {
	if _, listed := m.counts[c]; !listed {
		m.counts[c] = comparisons(m.l, c)
	}
	return m.counts[c]
}

// past lists those that are not after AsOf.
func (m moneyMoved) past(c season.Currency) []Slip {
	all := m.ever(c)
	end, _ := slices.BinarySearchFunc(all, true, func(s Slip, _ bool) int {
		if m.l.Past(s.Date) {
			return -1
		}
		return 1
	})
	return all[:end:end]
}

// clubSlips lists the lines that moved the club's money in a currency, by date,
// none after AsOf.
func clubSlips(l *season.Ledger, c season.Currency) []Slip {
	return slices.DeleteFunc(slipsMoving(l, c), func(s Slip) bool { return !l.Past(s.Date) })
}

// slipsMoving lists the lines that move the club's money in a currency, by date,
// whenever that is.
func slipsMoving(l *season.Ledger, c season.Currency) []Slip {
	var all []Slip
	add := func(d season.Date, minor int64, s Slip) {
		if minor != 0 {
			s.Date, s.Moved = d, season.Money{Minor: minor, Currency: c}
			all = append(all, s)
		}
	}
	for _, cost := range l.Costs {
		if cost.Money.Currency == c {
			add(cost.Date, cost.ClubMoved(), Slip{Cost: cost})
		}
	}
	for _, s := range l.Settlements {
		if s.Paid.Currency == c {
			add(s.Date, s.ClubMoved(), Slip{Settlement: s})
		}
	}
	slices.SortStableFunc(all, func(a, b Slip) int { return int(a.Date - b.Date) })
	return all
}

// uncompared lists the currencies in which the club's money moved in a year and
// no count of a pot can be compared, where some other currency's can.
func uncompared(l *season.Ledger, year int, counts []InHandYear) []season.Currency {
	compared := map[season.Currency]bool{}
	for _, h := range counts {
		if h.Own != nil {
			compared[h.Money.Currency] = true
		}
	}
	var left []season.Currency
	for _, c := range moneyCurrencies(l) {
		if len(compared) > 0 && !compared[c] && slices.ContainsFunc(clubSlips(l, c), func(s Slip) bool { return pastIn(l, year, s.Date) }) {
			left = append(left, c)
		}
	}
	return left
}

// receipt is that of a line.
func (s Slip) receipt() string { return MoneyLine{Cost: s.Cost, Settlement: s.Settlement}.Receipt() }

// said is what two lines have in common that may be one, typed twice: all but
// the day, the receipt and the remark.
func (s Slip) said() string {
	if p := s.Settlement; p != nil {
		return fmt.Sprint("settle ", p.From.Name(), " ", p.To.Name())
	}
	text := fmt.Sprint(s.Cost.Kind, s.Cost.Income, s.Cost.By.Name(), s.Cost.ToClub)
	for _, p := range s.Cost.For {
		text += " " + p.Name()
	}
	if s.Cost.Contest != nil {
		text += " " + s.Cost.Contest.Handle
	}
	return text
}

// Receipts are the numbers of a year's slips: the smallest, the largest, how
// many different there are, and the runs of numbers between them that no line has.
// Receipts that are no whole number are not counted.
type Receipts struct {
	First, Last int64
	Numbers     int
	Missing     []NumberRun
}

// NumberRun is a run of whole numbers, both ends in it.
type NumberRun struct{ From, To int64 }

// receiptsOf reads the numbers of a year's slips.
func receiptsOf(l *season.Ledger, year int) Receipts {
	var numbers []int64
	for _, receipt := range receiptsIn(l, year) {
		if n, err := strconv.ParseInt(receipt, 10, 64); err == nil && n >= 0 {
			numbers = append(numbers, n)
		}
	}
	return numbered(numbers)
}

// numbered sorts numbers and finds those that are missing between them.
func numbered(numbers []int64) Receipts {
	if len(numbers) == 0 {
		return Receipts{}
	}
	slices.Sort(numbers)
	numbers = slices.Compact(numbers)
	out := Receipts{First: numbers[0], Last: numbers[len(numbers)-1], Numbers: len(numbers)}
	for i, n := range numbers[1:] {
		if before := numbers[i]; n > before+1 {
			out.Missing = append(out.Missing, NumberRun{before + 1, n - 1})
		}
	}
	return out
}
