package ledger

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"boxbook/season"
)

// checkAgreed warns of a year whose result was agreed otherwise than its lines come
// to: at the line that makes the difference where it is one, else at the result as
// agreed, since no other line is at fault more than the rest.
func (r *reader) checkAgreed() {
	for _, agreed := range r.agreedAs {
		own, all := r.resultOf(agreed.Year, agreed.Money.Currency)
		over := own.Minor - agreed.Money.Minor
		if len(all) == 0 || over == 0 {
			continue
		}
		lines := slices.Clone(all)
		if len(lines) > 1 {
			lines = slices.DeleteFunc(lines, func(line *moneyLine) bool { return line.cost.ClubResult() != over })
		}
		at, stands := agreed.moneyLine, ""
		if len(lines) == 1 {
			at, stands = lines[0], fmt.Sprintf(" (%s)", lineText(agreed.At, lines[0].f))
		}
		r.at(at.f, at.dateOrHead(), agreedOther, agreed.Year, resultSaid(agreed.Money, "a result of "), stands, resultSaid(own, "")).
			advise(hint(makeDifference(at.f, lines, over, own.Currency) + agreed.swapped(own) + maySwap(at.f, lines, all, over) + r.ofOtherYear(at.f, agreed, all, over)))
	}
}

// resultOf is what a year's lines come to in a currency, with those lines.
func (r *reader) resultOf(year int, currency season.Currency) (season.Money, []*moneyLine) {
	own := season.Money{Currency: currency}
	var lines []*moneyLine
	for _, line := range r.money {
		c := line.cost
		if c == nil || c.Money.Currency != currency || r.out.YearOf(c.Date) != year || c.ClubResult() == 0 {
			continue
		}
		own.Minor += c.ClubResult()
		lines = append(lines, line)
	}
	return own, lines
}

// ofOtherYear says, where no line of a year alone makes what it differs by, which line of
// another year would, were its year mistyped for this one, or how many.
func (r *reader) ofOtherYear(f *file, agreed agreedLine, all []*moneyLine, over int64) string {
	if slices.ContainsFunc(all, func(line *moneyLine) bool { return line.cost.ClubResult() == over }) {
		return ""
	}
	said, last, n := "", "", 0
	for _, line := range r.money {
		c := line.cost
		if c == nil || !line.typed || c.Money.Currency != agreed.Money.Currency || c.ClubResult() != -over {
			continue
		}
		if meant := r.inYearOf(line, agreed.Year); meant != 0 && !r.asAgreed(r.out.YearOf(c.Date), c.Money.Currency) {
			n++
			last = fmt.Sprintf("%s, of %s", lineText(line.at, f), line.date)
			said = fmt.Sprintf("; %s would make it, dated %s instead of %s", lineText(line.at, f), meant, line.date)
		}
	}
	switch n {
	case 0:
		return ""
	case 1:
		return said
	default:
		return fmt.Sprintf("; each of %d lines of other years would make it, if its year is mistyped; the last is %s", n, last)
	}
}

// inYearOf is the day of a line in the club's year that its own year may have been
// mistyped for, 0 where there is none: it is of that year, or would be further from its
// contest.
func (r *reader) inYearOf(line *moneyLine, year int) season.Date {
	if r.out.YearOf(line.date) == year {
		return 0
	}
	for calendar := year; calendar <= year+1; calendar++ {
		meant := *line
		meant.date = line.date.InYear(calendar)
		if r.out.YearOf(meant.date) == year && season.YearMistyped(line.date.Year(), calendar) && r.farFromContest(&meant) <= r.farFromContest(line) {
			return meant.date
		}
	}
	return 0
}

// asAgreed reports whether a year's result was agreed as its lines come to.
func (r *reader) asAgreed(year int, currency season.Currency) bool {
	return slices.ContainsFunc(r.agreedAs, func(a agreedLine) bool {
		if a.Year != year || a.Money.Currency != currency {
			return false
		}
		own, _ := r.resultOf(year, currency)
		return own == a.Money
	})
}

// resultSaid is a year's result, a loss in words; gain stands before one that is none.
func resultSaid(m season.Money, gain string) string {
	if m.Minor < 0 {
		gain, m.Minor = "a loss of ", -m.Minor
	}
	return gain + m.Text() + " " + m.Currency.Code
}

// swapped says where two digits of the agreed result may be swapped, by what its lines
// come to.
func (a agreedLine) swapped(own season.Money) string {
	if !slices.Contains(own.DigitsSwapped(), a.Money) {
		return ""
	}
	return fmt.Sprintf("; two digits of the agreed result may be swapped, %s for %s", a.Money.Text(), own.Text())
}

// maySwap says, where no line alone makes what a year differs by, in which line it would
// be made by two swapped digits of the amount, or in how many.
func maySwap(f *file, alone, all []*moneyLine, over int64) string {
	if len(alone) > 0 {
		return ""
	}
	said, n := "", 0
	for _, line := range all {
		typed := line.cost.Typed()
		if meant, ok := typed.SwapMaking(line.cost.ClubResult()/typed.Minor, over); ok {
			n++
			said = fmt.Sprintf("; in %s two digits may be swapped, %s for %s", lineText(line.at, f), typed.Text(), meant.Text())
		}
	}
	switch {
	case n == 0:
		return ""
	case n > 1:
		return fmt.Sprintf("; in %d lines two swapped digits would", n)
	default:
		return said
	}
}

// agreedLine is the result of a year as agreed, with its place.
type agreedLine struct {
	*season.Agreed
	*moneyLine
}

// dateOrHead is what of a line a message about its year points at.
func (line *moneyLine) dateOrHead() token {
	if line.typed {
		return line.dated
	}
	return line.head
}

// makeDifference says which lines alone come to what a year differs by.
func makeDifference(f *file, lines []*moneyLine, over int64, c season.Currency) string {
	amount := season.Money{Minor: max(over, -over), Currency: c}.Text() + " " + c.Code
	switch {
	case len(lines) == 0:
		return "no line alone makes the difference of " + amount
	case len(lines) > 1:
		return fmt.Sprintf("each of %d lines alone makes the difference of %s; the last is %s", len(lines), amount, lineText(lines[len(lines)-1].at, f))
	case lines[0].cost.ClubResult() != over:
		return "the difference is " + amount
	default:
		return "this line alone makes the difference of " + amount
	}
}

// pot is a pot of money, with the first line that counts what is in it.
type pot struct {
	name, plain string // plain: but for capitals and hyphens
	first       *moneyLine
	days        map[season.Date]bool
}

// pots are those that were counted, as they stand first.
func (r *reader) pots() []*pot {
	var pots []*pot
	named := map[string]*pot{}
	for _, line := range r.money {
		if line.pot == "" {
			continue
		}
		p := named[line.pot]
		if p == nil {
			p = &pot{line.pot, strings.NewReplacer("-", "", "_", "").Replace(strings.ToLower(line.pot)), line, map[season.Date]bool{}}
			named[line.pot], pots = p, append(pots, p)
		}
		p.days[line.date] = true
	}
	return pots
}

// checkPots warns of a pot that is spelt almost like another: they would count as
// two. Of thousands the first are compared, as of other names that may be meant.
func (r *reader) checkPots() {
	pots := r.pots()
	for i, p := range pots {
		if !r.guesses.allow(i) {
			return
		}
		if at := slices.IndexFunc(pots[:i], p.maybe); at >= 0 {
			other := pots[at]
			r.at(p.first.f, p.first.kind, potAlmost, p.name, other.name, lineText(other.first.at, p.first.f)).
				advise(hint("did you mean " + strconv.Quote(other.name) + "?"))
		}
	}
}

// checkPotCurrencies warns of a count of a pot in another currency than before, unless it
// was counted in both on one day: it would be compared with nothing.
func (r *reader) checkPotCurrencies() {
	first, of := map[*season.InHand]bool{}, map[string][]*season.InHand{}
	for _, line := range r.money {
		h := line.count
		if h == nil {
			continue
		}
		same := func(o *season.InHand) bool { return o.Money.Currency == h.Money.Currency }
		switch at := slices.IndexFunc(of[h.Pot], same); {
		case at < 0:
			of[h.Pot] = append(of[h.Pot], h)
		case h.Date < of[h.Pot][at].Date:
			of[h.Pot][at] = h
		}
	}
	for _, counts := range of {
		for _, h := range counts {
			first[h] = len(counts) > 1
		}
	}
	for _, line := range r.money {
		if !first[line.count] {
			continue
		}
		if was := r.out.OtherCurrency(line.count); was != nil {
			r.at(line.f, line.kind, potCurrency, was.Pot, was.Money.Currency.Code, lineText(was.At, line.f)).
				hinted(messages[potCurrency].hint, was.Money.Currency.Code)
		}
	}
}

// maybe reports whether two pots may be one: names that differ by capitals and
// hyphens alone are, and those that differ by one letter where they were never
// counted on one day. Other digits are another pot.
func (p *pot) maybe(other *pot) bool {
	if p.plain == other.plain {
		return true
	}
	a, b := p.name, other.name
	return min(len(a), len(b)) > shortestGuess && oneApart(strings.ToLower(a), strings.ToLower(b)) && sameNumbers(a, b) && !p.countedWith(other)
}

// countedWith reports whether both were counted on one day.
func (p *pot) countedWith(other *pot) bool {
	for day := range p.days {
		if other.days[day] {
			return true
		}
	}
	return false
}

// checkDebtorsIncome warns of an income of the club whose remark names somebody who
// owed the club as much on that day: what they pay of it is a payment, and as an
// income it would count twice. Of who is not named plainly it must be a bill's.
func (r *reader) checkDebtorsIncome(postings []season.Posting) {
	var named []*moneyLine
	for _, line := range r.money {
		if c := line.cost; c != nil && c.Income && c.For[0].Club() && c.Remark != "" {
			named = append(named, line)
		}
	}
	if len(named) == 0 {
		return
	}
	slices.SortStableFunc(named, func(a, b *moneyLine) int { return int(a.date - b.date) })
	accounts, parties := season.NewAccounts(), r.out.Parties()
	for _, line := range named {
		for len(postings) > 0 && postings[0].Date <= line.date {
			accounts.Post(postings[0])
			postings = postings[1:]
		}
		money := line.cost.Money
		for _, p := range season.NamedIn(line.cost.Remark, parties) {
			side := accounts.Between(p, season.Party{}, money.Currency)
			billed := func(b season.Posting) bool { return r.maybePays(line.cost, b) }
			if owes := side.Owes(); owes > 0 && owes >= money.Minor && (season.PlainlyNamed(line.cost.Remark, p) || slices.ContainsFunc(side.Open(money.Minor), billed)) {
				d := r.at(line.f, line.head, incomeFromDebtor, p.Name(), season.Money{Minor: owes, Currency: money.Currency}.Text(), money.Currency.Code, line.date)
				d.advise(hint(fmt.Sprintf("what %s pays of it is `settle %s %s club %s %s`; if it is something else, write it without the name",
					p.Name(), line.date, p.Name(), money.Text(), money.Currency.Code)))
				d.ofWhom([]season.Party{p})
				break
			}
		}
	}
}
