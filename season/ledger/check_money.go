package ledger

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"boxbook/season"
)

// moneyLine is a line about money with the places that warnings name.
type moneyLine struct {
	f          *file
	at         season.Place
	verb       string
	head       token // its keyword
	date       season.Date
	dated      token // the date as typed
	typed      bool  // false where the contest's first day is taken
	kind       token
	kindName   string             // "" for a line without a kind
	zeros      []token            // amounts of nothing
	cost       *season.Cost       // of a cost or an income
	settlement *season.Settlement // of a settle
	pot        string             // of a count of what is in hand
	count      *season.InHand     // of that
	budget     *season.Budget     // of a budget
	repeats    bool               // it was warned of as a repeat
}

// What makes a line about money look like a slip.
const (
	repeatDays  = 14  // within which the same again is a repeat
	contestDays = 400 // beyond which a cost is far from its contest
	besideDays  = 30  // within which a cost of another year would be beside its contest
	rateTimes   = 3   // beyond which a rate differs too much from another year's
	earlyYears  = 2   // before anything else in the ledger
)

// checkMoney warns of what looks like a slip. What leans on several lines is not
// said where one could not be read.
func (r *reader) checkMoney() {
	slices.SortStableFunc(r.money, func(a, b *moneyLine) int {
		return cmp.Or(cmp.Compare(a.f.order, b.f.order), cmp.Compare(a.at.Line, b.at.Line))
	})
	dates := r.otherDates()
	for _, line := range r.money {
		r.checkMoneyDate(line, dates)
		for _, tok := range line.zeros {
			r.at(line.f, tok, zeroMoney)
		}
	}
	r.checkKinds()
	r.joinKinds()
	r.checkNearKinds()
	r.checkBudgets()
	r.checkPots()
	r.checkPotCurrencies()
	r.checkRepeats()
	r.checkShares()
	r.checkReceipts()
	r.checkRefunds()
	if r.lostMoney || r.lostFile {
		return
	}
	if !r.lostIncome {
		r.checkAgreed()
		r.checkYears()
	}
	postings := season.Postings(r.out)
	r.checkSettlements(postings)
	r.checkPayers(postings)
	r.checkDebtorsIncome(postings)
	r.checkBillsPaid(postings)
	r.checkLatePayments()
}

// firstDates are the two earliest days of a ledger, the same twice where two
// things have it.
type firstDates struct{ first, second season.Date }

// otherDates finds the first days on which anything of the ledger happened.
func (r *reader) otherDates() firstDates {
	var days []season.Date
	for _, f := range r.out.Flights {
		days = append(days, f.Date)
	}
	for _, c := range r.out.Contests {
		days = append(days, c.First)
	}
	for _, d := range r.out.Drills {
		days = append(days, d.Date)
	}
	for _, s := range r.out.Signoffs {
		days = append(days, s.Date)
	}
	for _, line := range r.money {
		if line.typed {
			days = append(days, line.date)
		}
	}
	slices.Sort(days)
	days = append(days, 0, 0)
	return firstDates{days[0], days[1]}
}

// but is the first day apart from one that a line has itself, 0 for none.
func (d firstDates) but(own season.Date) season.Date {
	if d.first == own {
		return d.second
	}
	return d.first
}

// checkMoneyDate warns of a date that is later than today, far before all else,
// or far from the contest.
func (r *reader) checkMoneyDate(line *moneyLine, dates firstDates) {
	if !line.typed {
		return
	}
	first := dates.but(line.date)
	early := first != 0 && line.date.Time().AddDate(earlyYears, 0, 0).Before(first.Time())
	switch far, meant := r.farFromContest(line), r.otherYear(line); {
	case r.opts.AsOf != 0 && line.date > r.opts.AsOf:
		r.later(line.f, line.dated, line.date)
	case early:
		r.at(line.f, line.dated, dateEarly, line.date, first)
	case far > contestDays:
		c := line.cost.Contest
		r.at(line.f, line.dated, farFromContest, line.date, contestDays, c.Handle, spanText(c))
	case meant != 0:
		c := line.cost.Contest
		r.at(line.f, line.dated, yearOffContest, line.date, c.Handle, spanText(c)).hinted(messages[yearOffContest].hint, meant)
	}
}

// otherYear is the day of the year before or after that a cost of a contest was
// probably paid on: it lies beside the contest, as the typed one does not. 0 for none.
func (r *reader) otherYear(line *moneyLine) season.Date {
	if r.farFromContest(line) <= besideDays {
		return 0
	}
	for _, years := range []int{1, -1} {
		meant := *line
		meant.date = season.DateIn(line.date.Time().AddDate(years, 0, 0))
		if r.farFromContest(&meant) <= besideDays {
			return meant.date
		}
	}
	return 0
}

// farFromContest is how many days a cost is from its contest, 0 where it is of
// none.
func (r *reader) farFromContest(line *moneyLine) int {
	if line.cost == nil || line.cost.Contest == nil || r.broken[line.cost.Contest] {
		return 0
	}
	c := line.cost.Contest
	return max(0, int(c.First-line.date), int(line.date-c.Last))
}

// checkKinds warns of a kind that is another but for case or a plural's ending,
// once for each way of writing it.
func (r *reader) checkKinds() {
	type use struct {
		name string
		at   season.Place
	}
	known, seen := map[string]use{}, map[string]bool{}
	for _, line := range r.money {
		name := line.kindName
		if name == "" || seen[name] {
			continue
		}
		seen[name] = true
		for _, form := range kindForms(strings.ToLower(name)) {
			if other, there := known[form]; there {
				by := "its ending"
				if strings.EqualFold(name, other.name) {
					by = "its capitals"
				}
				r.at(line.f, line.kind, kindAlmost, name, other.name, lineText(other.at, line.f), by).
					advise(instead("write %s", other.name).unless(!strings.EqualFold(name, other.name)))
				break
			}
		}
		if lower := strings.ToLower(name); known[lower].name == "" {
			known[lower] = use{name, line.at}
		}
	}
}

// joinKinds gives kinds that differ by capitals alone the spelling that stands
// first, so that they are one.
func (r *reader) joinKinds() {
	first := map[string]string{}
	one := func(kind string) string {
		lower := strings.ToLower(kind)
		if first[lower] == "" {
			first[lower] = kind
		}
		return first[lower]
	}
	for _, line := range r.money {
		if line.kindName == "" {
			continue
		}
		if kind := one(line.kindName); line.cost != nil {
			line.cost.Kind = kind
		}
	}
	for _, b := range r.out.Budgets {
		b.Kind = one(b.Kind)
	}
}

// kindForms are a word, its singulars and its plurals.
func kindForms(word string) []string {
	forms := []string{word, word + "s", word + "es"}
	if stem, ok := strings.CutSuffix(word, "ies"); ok {
		forms = append(forms, stem+"y")
	}
	if stem, ok := strings.CutSuffix(word, "y"); ok {
		forms = append(forms, stem+"ies")
	}
	for _, ending := range []string{"s", "es"} {
		if stem, ok := strings.CutSuffix(word, ending); ok {
			forms = append(forms, stem)
		}
	}
	return forms
}

// checkRate warns of a rate that is far from the one of another year.
func (r *reader) checkRate(b *block, tok token, rate season.Rate) {
	limit := big.NewRat(rateTimes, 1)
	for _, other := range r.out.Rates {
		if other.From != rate.From || other.To != rate.To || other.Year == rate.Year {
			continue
		}
		far, times := "", new(big.Rat).Quo(rate.Rate.Rat(), other.Rate.Rat())
		switch {
		case times.Cmp(limit) > 0:
			far = "more than three times"
		case times.Inv(times).Cmp(limit) > 0:
			far = "less than a third of"
		default:
			continue
		}
		r.at(b.f, tok, rateFar, rate.Rate, far, other.Year, other.Rate, lineText(other.At, b.f))
		return
	}
}

// checkSettlements warns of payments where nothing was owed between the two on
// that day.
func (r *reader) checkSettlements(postings []season.Posting) {
	lines := map[*season.Settlement]*moneyLine{}
	for _, line := range r.money {
		lines[line.settlement] = line
	}
	repeats := func(s *season.Settlement) bool { return lines[s].repeats }
	season.EachUnowed(postings, repeats, func(s *season.Settlement, money season.Money, between season.Standing) {
		line := lines[s]
		d := r.at(line.f, line.head, nothingOwed, s.From.Name(), s.To.Name(), s.Date)
		if open := between.Open(s.From, s.To); len(open) > 0 {
			d.advise(hint("what is owed is " + moneyWords(open)))
		} else if owed := r.whoOwed(between, s.To, money); owed != "" {
			d.advise(hint(owed))
		}
	})
}

// mostOwing is how many who owed an amount are named.
const mostOwing = 3

// whoOwed says who owed a party exactly an amount, so that one of them may be meant by a
// payment of it; "" where nobody did.
func (r *reader) whoOwed(between season.Standing, to season.Party, money season.Money) string {
	var names []string
	for _, p := range r.out.Parties() {
		if p != to && between.Owes(p, to, money.Currency) == money.Minor {
			names = append(names, p.Name())
		}
	}
	more := ""
	if n := len(names) - mostOwing; n > 0 {
		names, more = names[:mostOwing], fmt.Sprintf(" and %d more", n)
	}
	if len(names) == 0 {
		return ""
	}
	return fmt.Sprintf("who owed %s %s %s then: %s%s", to.Name(), money.Text(), money.Currency.Code, strings.Join(names, ", "), more)
}

// moneyWords are sums of several currencies in words.
func moneyWords(sums []season.Money) string {
	var said []string
	for _, sum := range sums {
		said = append(said, sum.Text()+" "+sum.Currency.Code)
	}
	return strings.Join(said, " and ")
}
