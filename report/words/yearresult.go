package words

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/report/answers"
)

// outcome is what became of the club in one currency: the result, and of what that
// is made, since result = moved + (claims - claims at the opening) - exchanged.
type outcome struct {
	currency            string
	result, moved       answers.Amount
	then, now, exchange answers.Amount // claims at the opening and now, net
	owed, owes          answers.Amount // what the claims now are made of
	owing               answers.Amount // what of the claims at the opening the club owed
	agreed              string
}

// outcomes are those of a year in which the result is anything or money moved, first
// those with a result.
func outcomes(d answers.Year) []outcome {
	var codes []string
	for _, sums := range [][]answers.Sum{d.Club.Result, d.Club.Moved} {
		for _, s := range sums {
			codes = Once(codes, s.Currency)
		}
	}
	var all []outcome
	for _, code := range codes {
		in := func(sums []answers.Sum) answers.Amount {
			amount, _ := answers.SumIn(sums, code)
			return amount
		}
		o := outcome{
			currency: code, result: in(d.Club.Result), moved: in(d.Club.Moved), then: in(d.Club.ClaimsOpening), now: in(d.Club.Claims),
			exchange: in(d.Club.Exchanged), owed: in(d.Club.OwedTotals), owes: in(d.Club.Owes), owing: in(d.Club.OwesOpening), agreed: agreedSaid(d, code),
		}
		if o.hasResult() || !o.moved.IsNothing() || !o.rise().IsNothing() {
			all = append(all, o)
		}
	}
	slices.SortStableFunc(all, func(a, b outcome) int {
		switch {
		case a.hasResult() == b.hasResult():
			return 0
		case a.hasResult():
			return -1
		default:
			return 1
		}
	})
	return all
}

// hasResult reports whether there is a result to be said.
func (o outcome) hasResult() bool { return !o.result.IsNothing() || o.agreed != "" }

// rise is by how much the claims rose.
func (o outcome) rise() answers.Amount { return o.now.Minus(o.then) }

// clubResult says what the year made of the club, a sentence a currency: how far it is
// up, and by what its money and what it is owed rose or fell. What is owed and did not
// change comes after.
func clubResult(d answers.Year) string {
	all := outcomes(d)
	said, claims := resultsSaid(d, all)
	if len(said) == 0 && len(d.Club.Result) > 0 {
		said = append(said, "The club is neither up nor down.")
	}
	if standing := standingSaid(d, all); standing != "" {
		said = append(said, Sentence(standing)+".")
	} else if len(d.Club.OwedTotals)+len(d.Club.Owes) == 0 && !claims && len(all) > 0 {
		said = append(said, "Nobody owes the club anything.")
	}
	return strings.Join(said, " ")
}

// resultsSaid are the sentences of the currencies, and whether one says what the club is
// owed.
func resultsSaid(d answers.Year, all []outcome) (said []string, claims bool) {
	for i, o := range all {
		who := "it"
		if i == 0 {
			who = theClub
		}
		claim := o.claims(d)
		claims = claims || claim != ""
		said = append(said, Sentence(o.said(d, who, i == 0, claim))+".")
	}
	return said, claims
}

// said is one currency's sentence; claim is what became of what the club is owed.
func (o outcome) said(d answers.Year, who string, first bool, claim string) string {
	var head string
	if o.hasResult() {
		head = who + " is neither up nor down in " + o.currency
		if !o.result.IsNothing() {
			head = fmt.Sprintf("%s is %s %s", who, SumSaid(answers.Sum{Currency: o.currency, Amount: o.result.Size()}), upOrDown(o.result))
		}
		if before, ok := resultBeside(d, o.currency); ok {
			head += fmt.Sprintf(" (%d: %s%s)", d.Beside.Year, ProfitOrLoss(before), agreedOtherwise(*d.Beside, o.currency))
		} else if a := agreedBefore(d, o.currency); a != nil {
			head += fmt.Sprintf(" (%d: %s%s, %s)", a.Year, ProfitOrLoss(a.Amount), asAgreed, notFromLines)
		}
		head += o.agreed
		if first {
			head = "by the ledger " + head
		}
	}
	if owers := whoOwes(d, o); o.paidForOthers() && owers != "" {
		owe := "owes"
		if owers == members {
			owe = "owe"
		}
		return fmt.Sprintf("%s %s %s %s that it advanced", owers, owe, who, SumSaid(answers.Sum{Currency: o.currency, Amount: o.now}))
	}
	money := o.money(claim == "" && !o.result.IsNothing())
	switch {
	case money == "" && claim == "":
		return head
	case head != "" && money == "":
		return head + ": " + claim
	case head == "" && who == theClub && money == "":
		return fmt.Sprintf("for the club, in %s %s", o.currency, o.body(money, claim))
	case head == "" && who == theClub:
		return fmt.Sprintf("in %s the club's %s", o.currency, o.body(strings.TrimPrefix(money, "its "), claim))
	case head == "":
		return fmt.Sprintf("in %s %s", o.currency, o.body(money, claim))
	default:
		return head + ": " + o.body(money, claim)
	}
}

// paidForOthers reports whether all that went out is owed to the club, and nothing else
// was or is.
func (o outcome) paidForOthers() bool {
	return !o.hasResult() && o.then.IsNothing() && o.exchange.IsNothing() && o.owes.IsNothing() && o.moved.IsOwing() &&
		AmountSaid(o.moved.Size()) == AmountSaid(o.now)
}

// money says how the club's money rose or fell; whole says that nothing else is to be
// said, so that it did by the result.
func (o outcome) money(whole bool) string {
	switch {
	case o.moved.IsNothing() && o.result.IsNothing():
		return ""
	case o.moved.IsNothing():
		return "its money is as it was"
	case whole && AmountSaid(o.moved) == AmountSaid(o.result):
		return "its money " + roseOrFell(o.moved) + " by as much"
	default:
		return "its money " + roseOrFell(o.moved) + " by " + AmountSaid(o.moved.Size())
	}
}

// body joins what became of the money and of what is owed.
func (o outcome) body(money, claim string) string {
	text := money
	switch {
	case text == "":
		text = claim
	case claim != "":
		both := " " + roseOrFell(o.moved) + " by "
		if !o.moved.IsNothing() && strings.Contains(claim, both) {
			text += " and " + strings.Replace(claim, both, " by ", 1)
		} else {
			text += ", and " + claim
		}
	}
	if !o.exchange.IsNothing() {
		way := "less"
		if o.exchange.IsOwing() {
			way = "plus"
		}
		text += fmt.Sprintf(" (%s %s for debts paid in another currency)", way, AmountSaid(o.exchange.Size()))
	}
	return text
}

// claims says by how much what the club is owed rose or fell, and from what to what;
// "" where it is nothing now and was nothing.
func (o outcome) claims(d answers.Year) string {
	net := !o.owes.IsNothing()
	what, then, now := whatIsOwed(d, o), o.then, o.now
	switch {
	case net && o.owed.IsNothing() && (then.IsOwing() || then.IsNothing()):
		what, then, now, net = "what it owes", then.Size(), now.Size(), false
	case net || then.IsOwing():
		what = "what it is owed, less what it owes,"
	case !o.owing.IsNothing():
		what += ", net,"
	}
	rise, text := now.Minus(then), ""
	switch {
	case then.IsNothing() && now.IsNothing() && !net:
		return ""
	case rise.IsNothing() && now.IsNothing():
		text = what + " is nothing, as it was"
	case rise.IsNothing():
		text = what + " is still " + AmountSaid(now)
	case then.IsNothing():
		text = fmt.Sprintf("%s %s from nothing to %s", what, roseOrFell(rise), AmountSaid(now))
	case now.IsNothing():
		text = fmt.Sprintf("%s %s from %s to nothing", what, roseOrFell(rise), AmountSaid(then))
	default:
		text = fmt.Sprintf("%s %s by %s, from %s to %s", what, roseOrFell(rise), AmountSaid(rise.Size()), AmountSaid(then), AmountSaid(now))
	}
	if net {
		text += fmt.Sprintf(" (it is owed %s and owes %s)", AmountSaid(o.owed), AmountSaid(o.owes))
	}
	return text
}

// whatIsOwed is what those who owe the club in a currency owe it, as a sentence has it.
func whatIsOwed(d answers.Year, o outcome) string {
	switch who := whoOwes(d, o); who {
	case "":
		return "what it is owed"
	case members:
		return "what members owe it"
	default:
		return "what " + who + " owes it"
	}
}

const members = "members"

// whoOwes is the only one who owes the club in a currency in which nothing was owed at
// the start, or says that all who do fly; "" where it is neither.
func whoOwes(d answers.Year, o outcome) string {
	owing := slices.DeleteFunc(slices.Clone(d.Club.Owed), func(w answers.Owed) bool { return w.Currency != o.currency })
	switch {
	case len(owing) == 1 && o.then.IsNothing():
		return PartyName(owing[0].Name)
	case len(owing) == 0 || slices.ContainsFunc(owing, func(w answers.Owed) bool { return !isPilot(d, w.Party) }):
		return ""
	default:
		return members
	}
}

// standingSaid says what is owed in the currencies in which nothing else is said.
func standingSaid(d answers.Year, all []outcome) string {
	said := func(code string) bool {
		return slices.ContainsFunc(all, func(o outcome) bool { return o.currency == code })
	}
	left := func(sums []answers.Sum) string {
		return sumsSaid(slices.DeleteFunc(slices.Clone(sums), func(s answers.Sum) bool { return said(s.Currency) }))
	}
	owing := slices.DeleteFunc(slices.Clone(d.Club.Owed), func(w answers.Owed) bool { return said(w.Currency) })
	owed, owes, who := left(d.Club.OwedTotals), left(d.Club.Owes), "the club is owed "
	var owers []string
	for _, o := range owing {
		owers = Once(owers, o.Party)
	}
	switch {
	case len(owers) == 1:
		who = PartyName(owing[0].Name) + " owes the club "
	case len(owers) > 1 && !slices.ContainsFunc(owers, func(p string) bool { return !isPilot(d, p) }):
		who = "members owe the club "
	}
	switch {
	case owed == "" && owes == "":
		return ""
	case owed == "":
		return "the club owes " + owes
	case owes == "":
		return who + owed
	default:
		return who + owed + ", and it owes " + owes
	}
}

// isPilot reports whether a party flies.
func isPilot(d answers.Year, party string) bool {
	return slices.ContainsFunc(d.Pilots, func(p answers.PilotYear) bool { return p.Pilot == party })
}

func roseOrFell(a answers.Amount) string {
	if a.IsOwing() {
		return "fell"
	}
	return "rose"
}
