package ledger

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/season"
)

// Words of a cost that version 1 of the language brought.
const (
	eachWord = "each"
	allWord  = "all"
)

// costPeople reads whom a cost was for, who paid and whether it went to the
// club: WHO... [by WHO] [to club].
func (w *words) costPeople(c *season.Cost) bool {
	newer := c.Each || w.newerCost() && !w.plainCost()
	end := w.peopleEnd(newer)
	if c.Contest != nil {
		w.also = []string{allWord}
	}
	var ok bool
	switch {
	case c.Contest != nil && w.peek() == allWord && w.r.pilotCalledAll() == nil:
		if !w.allOfContest(c, end) {
			return false
		}
	case newer:
		ok = w.shares(c, end)
	default:
		c.For, ok = w.parties(end)
	}
	if !ok && !c.All {
		return false
	}
	if p := w.r.pilotCalledAll(); c.Contest != nil && len(c.For) == 1 && p != nil && c.For[0].Pilot == p {
		w.r.at(w.f, w.f.tokens[end-1], allIsPilot)
	}
	if c.Each {
		c.Money.Minor *= int64(max(len(c.For), 1))
	}
	return w.payer(c)
}

// payer reads `[by WHO] [to club]`; who paid is the first of those it was for if
// it is left out.
func (w *words) payer(c *season.Cost) bool {
	var ok bool
	switch {
	case w.accept("by"):
		if c.By, _, ok = w.party("who paid"); !ok {
			return false
		}
	case c.All:
		w.r.payAll = append(w.r.payAll, c)
	default:
		c.By = c.For[0]
	}
	if w.accept("to") {
		if !w.accept(season.ClubName) {
			w.absentClub()
			return false
		}
		c.ToClub = true
	}
	return true
}

// absentClub reports somebody else than the club behind `to`.
func (w *words) absentClub() {
	before := len(w.r.list)
	w.absent("`club`")
	if len(w.r.list) > before {
		w.r.list[before].hinted("only the club can receive a cost: to %s; between people write a settle line", season.ClubName)
	}
}

// newerCost reports whether what follows has a number or the word receipt, which
// a cost did not know before version 1.
func (w *words) newerCost() bool {
	return slices.ContainsFunc(w.f.tokens[w.i:w.last], func(tok token) bool {
		word := w.text(tok)
		return !tok.quoted && (word == receiptWord || numberish(word))
	})
}

// plainCost reports whether what follows can be read without what is newer: such
// a line keeps that reading, whatever people are called.
func (w *words) plainCost() bool {
	rest := w.f.tokens[w.i:w.last]
	if n := len(rest); n > 0 && rest[n-1].quoted {
		rest = rest[:n-1]
	}
	take := func(word string) bool {
		if len(rest) == 0 || rest[0].quoted || word != "" && w.text(rest[0]) != word {
			return false
		}
		rest = rest[1:]
		return true
	}
	someone := func() bool {
		if len(rest) == 0 || rest[0].quoted {
			return false
		}
		_, known := w.r.partyNamed(w.text(rest[0]))
		return known && take("")
	}
	for first := true; first || len(rest) > 0 && w.text(rest[0]) != "by" && w.text(rest[0]) != "to"; first = false {
		if !someone() {
			return false
		}
	}
	if take("by") && !someone() {
		return false
	}
	if take("to") && !take(season.ClubName) {
		return false
	}
	return len(rest) == 0
}

// peopleEnd is the token behind those a cost was for: the first by or to, and
// in a line of what is newer the first by, to or receipt that what it needs
// follows. The first word is a name in any case.
func (w *words) peopleEnd(newer bool) int32 {
	for i := w.i + 1; i < w.last; i++ {
		tok := w.f.tokens[i]
		word := w.text(tok)
		switch {
		case tok.quoted:
			return i
		case w.needed(word, i+1) && (newer || word != receiptWord), !newer && (word == "by" || word == "to") && !w.isParty(word):
			return i
		}
	}
	return w.last
}

// needed reports whether a word ends a list of people and what it needs stands
// at i.
func (w *words) needed(word string, i int32) bool {
	if i >= w.last || w.f.tokens[i].quoted {
		return false
	}
	next := w.text(w.f.tokens[i])
	switch word {
	case "by":
		return season.IsHandle(next)
	case "to":
		return next == season.ClubName
	default:
		return word == receiptWord
	}
}

// isParty reports whether somebody is called by a word.
func (w *words) isParty(word string) bool {
	_, known := w.r.partyNamed(word)
	return known
}

// parties takes those a cost was for, who share it equally.
func (w *words) parties(end int32) ([]season.Party, bool) {
	var all []season.Party
	lost := false
	for len(all) == 0 || w.more() && w.i < end {
		p, ok := w.sharer(&all, &lost)
		if !ok {
			return nil, false
		}
		all = append(all, p)
	}
	w.failed = w.failed || lost
	return all, !lost
}

// twoLines is the hint where a line goes on with what begins another.
const twoLines = "two lines in one?"

// sharer takes one more of those a cost was for. An unknown name is reported and
// gone past: the others may be wrong, too.
func (w *words) sharer(all *[]season.Party, lost *bool) (season.Party, bool) {
	before := len(w.r.list)
	p, tok, ok := w.party("a pilot, coach or person, or club")
	if _, begins := blockSpecs[w.text(tok)]; !ok && begins && len(w.r.list) > before {
		w.r.list[before].hinted(twoLines)
		return p, false
	}
	if !ok && len(w.r.list) > before && w.r.list[before].Code == unknownName {
		*lost, w.failed = true, false
		return season.Party{Pilot: &season.Pilot{Handle: w.text(tok)}}, true
	}
	if !ok {
		return p, false
	}
	if !*lost && !w.joins(*all, p, tok) { // behind an unknown name it may be none of the list
		return p, false
	}
	return p, true
}

// joins reports whether one more can share a cost, and says why not.
func (w *words) joins(all []season.Party, p season.Party, tok token) bool {
	for _, earlier := range all {
		switch {
		case earlier == p:
			w.fail(tok, nameListed, w.text(tok))
			return false
		case earlier.Club() || p.Club():
			w.fail(tok, pilotsOrClub)
			return false
		}
	}
	return true
}

// largestShare keeps sums of shares far from overflow.
const largestShare = 100_000

// numberish reports whether a word is meant as a number, right or wrong.
func numberish(word string) bool {
	return startsAmount(strings.TrimLeft(word, "+-−–"))
}

// shares takes those a cost was for, each with a number behind it or none; every
// word that is wrong is said.
func (w *words) shares(c *season.Cost, end int32) bool {
	lost, start := false, w.i
	var weights []int64 // 0 for a name without a number
	var names []token
	for len(c.For) == 0 || w.more() && w.i < end {
		if numberish(w.peek()) {
			code := shareFirst
			if len(names) > 0 {
				code = extraWord
			}
			w.fail(w.f.tokens[w.i], code, w.peek())
			return false
		}
		at := w.i
		p, ok := w.sharer(&c.For, &lost)
		if !ok {
			return false
		}
		c.For, names, weights = append(c.For, p), append(names, w.f.tokens[at]), append(weights, 0)
		if w.i < end && numberish(w.peek()) {
			weight, ok := w.share(c, w.next(), names[len(names)-1])
			weights[len(weights)-1], lost = weight, lost || !ok
		}
	}
	if !lost {
		if lost = !w.sharesComplete(c, names, weights); !lost && c.Weights != nil {
			w.checkShares(c, w.f.tokens[start+1])
		}
	} else if w.accept("by") {
		w.party("who paid") // every word that is wrong is said
	}
	w.failed = w.failed || lost
	return !lost
}

// sharesComplete reports every name that has no number where others have one.
func (w *words) sharesComplete(c *season.Cost, names []token, weights []int64) bool {
	if !slices.ContainsFunc(weights, func(n int64) bool { return n != 0 }) {
		return true
	}
	c.Weights = weights
	complete := true
	for i, n := range weights {
		if n == 0 {
			w.r.at(w.f, names[i], someShares, w.text(names[i]))
			complete = false
		}
	}
	return complete
}

// Numbers are taken for amounts by mistake where they come to nearly the amount:
// within a tenth of it, and not all of them as small as shares mostly are.
const (
	nearAmount  = 10
	smallShares = 10
)

// checkShares warns where the numbers behind names look like amounts that do not
// add up. Where they do, each has as much either way, and nothing is said.
func (w *words) checkShares(c *season.Cost, first token) {
	sum, largest, divisor := int64(0), int64(0), int64(0)
	for _, n := range c.Weights {
		sum, largest, divisor = sum+n, max(largest, n), gcd(divisor, n)
	}
	percent, amount := sum == 100, max(c.Money.Minor, -c.Money.Minor)
	for range c.Money.Currency.Decimals {
		sum *= 10
	}
	off := amount - sum
	if largest < smallShares || percent || off == 0 || max(off, -off) > amount/nearAmount {
		return
	}
	other := make([]string, len(c.For))
	for i, p := range c.For {
		n := 2 * c.Weights[i]
		if divisor > 1 {
			n = c.Weights[i] / divisor
		}
		other[i] = fmt.Sprint(p.Name(), " ", n)
	}
	part := season.Money{Minor: c.Shares()[0], Currency: c.Money.Currency}
	w.r.at(w.f, first, sharesNear, w.text(first), c.For[0].Name(), part.Text(), c.Money.Text(), c.Money.Currency.Code).
		hinted("amounts are a line each; as shares these are: for %s", strings.Join(other, " "))
}

// gcd is the greatest common divisor.
func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// share reads the number behind a name; one that is wrong counts as 1, so that
// its name is not said to have none.
func (w *words) share(c *season.Cost, tok, name token) (int64, bool) {
	text := w.text(tok)
	switch who := w.text(name); {
	case who == season.ClubName:
		w.r.at(w.f, tok, shareOfClub, text)
	case who == allWord:
		w.r.at(w.f, tok, shareOfAll, text)
	case c.Each:
		w.r.at(w.f, tok, eachAndShares)
	case !isNumber(text) || rowNumber(text) == 0 || rowNumber(text) > largestShare:
		d := w.r.at(w.f, tok, badShare, text)
		d.advise(shareAdvice(text, c.For))
		if w.isFraction(tok) {
			d.hinted("shares are whole numbers: 2 and 1 for 2/3 and 1/3")
			d.rooted(lineOf{w.f, w.line}, "fractions")
		}
	default:
		return int64(rowNumber(text)), true
	}
	return 1, false
}

// isFraction reports a share of the form 2/3 where others of the line have it too.
func (w *words) isFraction(tok token) bool {
	count := 0
	for _, other := range w.f.tokens[w.f.lines[w.line].first:w.last] {
		if a, b, found := strings.Cut(w.text(other), "/"); found && isNumber(a) && isNumber(b) {
			count++
		}
	}
	return count > 1 && strings.Contains(w.text(tok), "/")
}

// shareAdvice names the slip: 0, a fraction, or all numbers in one word, 2:1.
func shareAdvice(text string, people []season.Party) advice {
	numbers := strings.FieldsFunc(text, func(c rune) bool { return c == ':' || c == '/' })
	if len(numbers) > 1 && len(numbers) == len(people) {
		var said []string
		for i, p := range people {
			said = append(said, p.Name(), numbers[i])
		}
		return hint("write each number after its name: " + strings.Join(said, " "))
	}
	if strings.Trim(text, "0") == "" {
		return hint("leave out who pays nothing")
	}
	a := numberAdvice(text).or(hint(shareNotAmount))
	return a.unless(!isNumber(a.text))
}

// allOfContest takes `all`, which stands alone: who that is, is known once
// flights are read.
func (w *words) allOfContest(c *season.Cost, end int32) bool {
	c.All = true
	w.r.forAll = append(w.r.forAll, forAll{c, w.f, w.next()})
	if w.i == end {
		return true
	}
	code := besideAll
	if numberish(w.peek()) {
		code = shareOfAll
	}
	tok := w.next()
	w.fail(tok, code, w.text(tok))
	return false
}

// forAll is a cost for all of a contest.
type forAll struct {
	cost *season.Cost
	f    *file
	tok  token
}

// pilotCalledAll is a pilot whose handle is all: it means that pilot, then.
func (r *reader) pilotCalledAll() *season.Pilot {
	if e := r.names.pilots.items[allWord]; e != nil {
		return e.value
	}
	return nil
}

// readAll fills in who was at the contests of costs for all: every pilot with a
// flight or a result there, as pilots are defined.
func (r *reader) readAll() {
	for _, a := range r.forAll {
		for _, p := range r.out.Pilots {
			if r.wasAt(a.cost.Contest, p) {
				a.cost.For = append(a.cost.For, season.Party{Pilot: p})
			}
		}
		switch {
		case len(a.cost.For) > 0:
		case r.errors > 0: // who was there may stand on a line that could not be read
			a.cost.For = []season.Party{{}}
		default:
			r.at(a.f, a.tok, nobodyThere, a.cost.Contest.Handle)
			r.lostMoney, a.cost.For = true, []season.Party{{}}
		}
		if a.cost.Each {
			a.cost.Money.Minor *= int64(len(a.cost.For))
		}
	}
	for _, c := range r.payAll {
		c.By = c.For[0]
	}
}

func (r *reader) wasAt(c *season.Contest, p *season.Pilot) bool {
	return slices.ContainsFunc(c.Results, func(res season.Result) bool { return res.Pilot == p }) ||
		slices.ContainsFunc(r.out.Flights, func(f *season.Flight) bool { return f.Contest == c && f.Pilot == p })
}
