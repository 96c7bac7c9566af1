package words

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/report/answers"
)

// The columns and titles of statements.
const (
	ColumnYourShare = "your share"
	ColumnReceived  = "received"
	ColumnOther     = "whom"
	ColumnBalance   = "balance"
	ColumnIn        = "in"
	ColumnOut       = "out"
	SettleTitle     = "Payments to settle up"
)

// CashBalance says what of a year is not in the cash book.
func CashBalance(year int) string {
	return fmt.Sprintf("only money that the club received or paid is here; what is billed but not paid yet, and what members paid for the club, are in boxbook year %d", year)
}

// TickBox is a box to tick a line off in, against the bank's statement; Everybody
// are those whom the statements of all are about.
const (
	TickBox   = "□"
	Everybody = "everybody"
)

// StatementTitle is what a statement is called.
func StatementTitle(s answers.Statement) string {
	if s.IsClub() {
		return "The club's cash book"
	}
	return "Statement for " + s.Name
}

// StatementsTitle is the title of the statements of all.
func StatementsTitle(d answers.Statements) string { return fmt.Sprintf("Statements of %d", d.Year) }

// StatementSpan says whose club and what year a statement is of, and how far the
// year has come.
func StatementSpan(d answers.Statements, s answers.Statement) string {
	year := fmt.Sprint(d.Year)
	if !d.Calendar {
		year += ","
	}
	span := strings.TrimSpace(year + " " + YearSpan(yearOf(d)))
	if s.Club != "" {
		span = s.Club + " · " + span
	}
	return span
}

// yearOf is a year with what statements have of it.
func yearOf(d answers.Statements) answers.Year {
	return answers.Year{
		Year: d.Year, First: d.First, Last: d.Last, Calendar: d.Calendar, Running: d.Running, Asof: d.Asof,
		Pooled: d.Pooled, SettleIn: d.SettleIn, SettleLeft: d.SettleLeft, Unproven: d.Unproven, Unpriced: d.Unpriced, Rates: d.Rates,
	}
}

// StatementPayments say how the payments of a statement were found; nothing needs
// to be said of what stands between a party and the club.
func StatementPayments(d answers.Statements, s answers.Statement) []string {
	among := func(p answers.Payment) bool { return p.FromName != "" && p.ToName != "" }
	var notes []string
	if d.Pooled || slices.ContainsFunc(s.Settle, among) && !(s.Direct && unproven(yearOf(d)) == "") {
		notes = append(notes, statementNetted(d, s))
	}
	if in := PaymentsInOne(yearOf(d)); in != "" {
		notes = append(notes, in)
	}
	return notes
}

// statementNetted says why payments may differ from the lines.
func statementNetted(d answers.Statements, s answers.Statement) string {
	if d.Pooled {
		return PaymentsExplained(yearOf(d))
	}
	how := ", so that amounts may differ from the lines above"
	if said := amongSaid(s); said != "" {
		how = ": " + said
	}
	return "debts between members are netted into as few payments as possible" + how + unproven(yearOf(d))
}

// mostAmong is how many members are named with what stands with each.
const mostAmong = 5

// amongSaid says what stands with each member at the end of the year, and what that comes to;
// "" where there are too many.
func amongSaid(s answers.Statement) string {
	if len(s.Among) == 0 || len(s.Among) > mostAmong {
		return ""
	}
	are, owe := "are owed ", "owe "
	if s.Since > 0 { // lines have followed
		are, owe = "were owed ", "owed "
	}
	var said []string
	for _, owed := range []bool{true, false} {
		var with []string
		lead, by := owe, " to "
		if owed {
			lead, by = are, " by "
		}
		if len(said) == 0 {
			lead = "you " + lead
		}
		for _, n := range s.Among {
			if sum := SumSaid(answers.Sum{Currency: n.Currency, Amount: n.Amount.Size()}); n.Amount.IsOwing() != owed {
				with = append(with, sum+by+n.Name)
			}
		}
		if len(with) > 0 {
			said = append(said, lead+ListInWords(with))
		}
	}
	return strings.Join(said, ", and ")
}

// StatementBalance says how each balance comes from the one above, with the columns
// that there are.
func StatementBalance(received, debts bool) string {
	text := "a balance with + is owed to you, one with - you owe; each is the one above it, less your share, plus what you paid out"
	if received {
		text += ", less what you received"
	}
	if debts {
		text += ", less a debt of yours or plus one to you"
	}
	return text
}

// StatementTwice says of each line that may be another one, typed again, or has the receipt
// of another slip, where both stand.
func StatementTwice(s answers.Statement) []string {
	var said []string
	for _, t := range s.Twice {
		what, ask := "payment", "before counting on both"
		if t.Again.Entry != answers.EntrySettle {
			what, ask = BillName(t.Again.ContestName, t.Again.Kind), "before paying both"
		}
		days := t.First.Date + " and of " + t.Again.Date
		if t.First.Date == t.Again.Date {
			days = t.Again.Date + ", on two lines,"
		}
		receipt := ""
		if t.Again.Receipt != "" {
			receipt = fmt.Sprintf(" (both receipt %s)", t.Again.Receipt)
		}
		sum := SumSaid(answers.Sum{Currency: t.Again.Currency, Amount: t.Again.Amount})
		if t.Partly && t.Again.Share != nil {
			sum = SumSaid(answers.Sum{Currency: t.Again.Currency, Amount: *t.Again.Share})
		}
		said = append(said, fmt.Sprintf("%s %s of %s may be one, typed twice%s: ask %s", what, sum, days, receipt, ask))
	}
	for _, r := range s.OneReceipt {
		said = append(said, fmt.Sprintf("receipt %s stands on two lines of other days or payers (%s, and %s): ask before paying", r.Receipt, lineSaid(r.Lines[0]), lineSaid(r.Lines[1])))
	}
	return said
}

// lineSaid names a line by what it says and its day, for whoever has no ledger.
func lineSaid(m answers.MoneyLine) string {
	what := BillName(m.Contest, m.Kind)
	if m.Kind == "" {
		what = fmt.Sprintf("payment from %s to %s", PartyName(m.From), PartyName(m.To))
	}
	return fmt.Sprintf("%s %s of %s", what, SumSaid(answers.Sum{Currency: m.Currency, Amount: m.Amount}), m.Date)
}

// mostPages is how many members are named whose pages to look at first.
const mostPages = 8

// LookFirst names those whose statements have a line in question, each once with all that
// it is in question for, and first whose money it is about; "" where nobody's has one.
func LookFirst(pages []answers.WarnedPage) string {
	worst := func(a, b answers.WarnedPage) int {
		return slices.Index(costlyDoubts, a.Why) - slices.Index(costlyDoubts, b.Why)
	}
	var members, whys []string
	doubts, of := map[string][]string{}, map[string][]string{}
	names := map[string]string{}
	for _, p := range slices.SortedStableFunc(slices.Values(pages), worst) {
		members, names[p.Party] = Once(members, p.Party), p.Name
		doubts[p.Party] = Once(doubts[p.Party], doubtSaid(p))
	}
	if len(members) == 0 {
		return ""
	}
	for _, m := range members[:min(len(members), mostPages)] {
		why := ListInWords(doubts[m])
		whys = Once(whys, why)
		of[why] = append(of[why], names[m])
	}
	var said []string
	for _, why := range whys {
		said = append(said, fmt.Sprintf("%s (%s)", ListInWords(of[why]), why))
	}
	return "look first at the pages of " + andMore(said, max(0, len(members)-mostPages), "more page", "more pages")
}

// costlyDoubts are why a line is in question, what may cost most first.
var costlyDoubts = []answers.LineDoubt{answers.DoubtWay, answers.DoubtNotOwed, answers.DoubtPaid, answers.DoubtTwice, answers.DoubtReceipt, answers.DoubtOther}

// doubtSaid says in a few words why a line is in question.
func doubtSaid(p answers.WarnedPage) string {
	switch p.Why {
	case answers.DoubtTwice:
		return "a line typed twice?"
	case answers.DoubtNotOwed:
		return "a payment of which nothing was owed"
	case answers.DoubtWay:
		return "a payment the wrong way round?"
	case answers.DoubtPaid:
		return "a bill that may be paid"
	case answers.DoubtReceipt:
		return fmt.Sprintf("receipt %s on two lines", p.Receipt)
	default:
		return "a line with a warning"
	}
}

// AloneTitle stands above what is a party's alone.
func AloneTitle(income bool) string {
	if income {
		return "Your own expenses and income, not shared and in no balance"
	}
	return "Your own expenses, not shared and in no balance"
}

// NoStatements says that nobody has anything in a year.
func NoStatements(d answers.Statements) string {
	return fmt.Sprintf("Nobody has a line of money in %d, and nothing is open.", d.Year)
}

// StatementThought says what a party is to pay to whom as of which day, and gets; of the
// club, what came in and went out, and what should be in hand.
func StatementThought(d answers.Statements, s answers.Statement) string {
	if s.IsClub() {
		return cashThought(d, s)
	}
	text := settleThought(d, s)
	switch {
	case text == "" && s.Since > 0:
		text = fmt.Sprintf("As of %s you were even with everybody.", asOf(d))
	case text == "":
		text = fmt.Sprintf("As of %s you are even with everybody: there is nothing to pay.", asOf(d))
	default:
		text = fmt.Sprintf("As of %s: %s.%s%s", asOf(d), text, inQuestion(s), oldestOwed(d, s))
	}
	if len(s.Postings) == 0 {
		text = fmt.Sprintf("Nothing of yours in %d. ", d.Year) + text
	}
	if s.Since > 0 {
		text += " " + stoodThen(d.Year, s.Since, " of yours")
	}
	return text
}

// asOf is the day of a statement's balances: the last of its year, or the one that stands
// for today before that.
func asOf(d answers.Statements) string { return min(d.Asof, d.Last) }

// stoodThen says that something is as of the end of a year, and how many lines came since.
func stoodThen(year, since int, whose string) string {
	return fmt.Sprintf("So it stood at the end of %d: %s%s %s followed since.", year, Counted(since, "line", "lines"), whose, PluralWord(since, "has", "have"))
}

// mostNamed is how many people a sentence names at most.
const mostNamed = 2

// settleThought says the payments of a party, with the club first; "" where there
// are none.
func settleThought(d answers.Statements, s answers.Statement) string {
	var parts []string
	please, owed, get := "please pay %s %s", "%[1]s owes you %[2]s", "you get %[2]s from %[1]s"
	if d.Pooled || d.SettleIn != "" {
		owed = get
	}
	if s.Since > 0 { // lines have followed, and what is to be paid now is another page's
		please, owed, get = "you were to pay %s %s", "%[1]s owed you %[2]s", "you were to get %[2]s from %[1]s"
	}
	pays, gets := paymentsWith(s, true), paymentsWith(s, false)
	var others []string
	for _, c := range slices.Concat(pays, gets) {
		if !c.club {
			others = Once(others, c.party)
		}
	}
	say := func(list []counterpart, club, other string) {
		for _, c := range list {
			switch {
			case c.club:
				parts = append(parts, fmt.Sprintf(club, theClub, sumsAsRead(c.sums)))
			case len(others) <= mostNamed:
				parts = append(parts, fmt.Sprintf(other, c.name, sumsAsRead(c.sums)))
			}
		}
	}
	say(pays, please, please)
	say(gets, owed, get)
	if len(others) > mostNamed {
		parts = append(parts, fmt.Sprintf("with %s others there are payments, below", NumberWord(len(others))))
	}
	if len(pays) == 0 && len(parts) > 0 && s.Since == 0 {
		parts = append(parts, "you have nothing to pay")
	}
	return strings.Join(parts, "; ")
}

// counterpart is somebody with whom a party settles, and what.
type counterpart struct {
	party string // its handle: two may have one name
	name  string
	club  bool
	sums  []answers.Sum
}

// paymentsWith are what a party pays, or gets, by the other, in order.
func paymentsWith(s answers.Statement, pays bool) []counterpart {
	var all []counterpart
	for _, p := range s.Settle {
		other, name := p.To, p.ToName
		if !pays {
			other, name = p.From, p.FromName
		}
		if other == s.Party {
			continue
		}
		sum := answers.Sum{Currency: p.Currency, Amount: p.Amount}
		at := slices.IndexFunc(all, func(c counterpart) bool { return c.party == other })
		if at < 0 {
			at = len(all)
			all = append(all, counterpart{party: other, name: name, club: name == ""})
		}
		all[at].sums = append(all[at].sums, sum)
	}
	slices.SortStableFunc(all, func(a, b counterpart) int {
		switch {
		case a.club == b.club:
			return 0
		case a.club:
			return -1
		default:
			return 1
		}
	})
	return all
}

// sumsAsRead lists sums with their thousands set off.
func sumsAsRead(sums []answers.Sum) string {
	var said []string
	for _, s := range sums {
		said = append(said, SumSaid(s))
	}
	return ListInWords(said)
}

// oldestOwed says since when something is owed to the club, in a sentence.
func oldestOwed(d answers.Statements, s answers.Statement) string {
	if len(s.Owed) == 0 || d.Pooled {
		return ""
	}
	oldest := slices.MinFunc(s.Owed, func(a, b answers.Owed) int { return strings.Compare(a.Since, b.Since) })
	item := oldestItem(oldest, " "+SumSaid(answers.Sum{Currency: oldest.Currency, Amount: oldest.OldestAmount}))
	if isPart(oldest) {
		item = AmountSaid(oldest.OldestOpen) + " of " + item
	}
	return fmt.Sprintf(" Your oldest unpaid item with the club dates from %s: %s.", oldest.Since, item)
}

// PostingSaid says what a line of a statement is.
func PostingSaid(p answers.StatementPosting) string {
	var text string
	switch p.Entry {
	case answers.EntrySettle:
		text = settlementSaid(p)
	case answers.EntryOwed:
		text = debtSaid(p)
	default:
		text = BillName(p.ContestName, p.Kind) + costSaid(p)
	}
	return text + noted(p)
}

// costSaid says who paid a cost, and for whom it was.
func costSaid(p answers.StatementPosting) string {
	names := peopleSaid(p.WhomNames)
	var text string
	switch {
	case p.Alone:
	case p.Billed && p.Amount.IsOwing():
		return ", credited by " + theClub + wholeSaid(p)
	case p.Billed && p.Open != nil && p.Share != nil && *p.Open != *p.Share:
		return fmt.Sprintf(", billed, %s of it not paid", AmountSaid(*p.Open)) + wholeSaid(p)
	case p.Billed && p.Unpaid:
		return ", billed, not paid" + wholeSaid(p)
	case p.Billed:
		return ", billed by " + theClub + wholeSaid(p)
	case p.Out == nil && p.Amount.IsOwing():
		return ", paid back to " + ListInWords(names) + wholeSaid(p)
	case p.Out == nil:
		return ", paid by " + ListInWords(names) + wholeSaid(p)
	case p.ToClub:
		text = ", to " + theClub
		if names = slices.DeleteFunc(names, func(n string) bool { return n == theClub }); len(names) > 0 {
			text = ", for " + ListInWords(names) + text
		}
	default:
		text = ", for " + ListInWords(names)
	}
	if p.Share != nil && len(names) > 0 && !p.Alone {
		text += " too"
	}
	return text
}

// wholeSaid says the amount of a line of which a party has a part.
func wholeSaid(p answers.StatementPosting) string {
	if p.Share == nil || *p.Share == p.Amount {
		return ""
	}
	return ", " + AmountSaid(p.Amount) + " in all"
}

func settlementSaid(p answers.StatementPosting) string {
	text := "payment to "
	if p.In != nil {
		text = "payment from "
	}
	text += ListInWords(peopleSaid(p.WhomNames))
	if p.Paid != nil {
		text += ", made with " + SumSaid(*p.Paid)
	}
	if p.Debt != nil {
		text += ", for " + SumSaid(*p.Debt)
	}
	return text
}

func debtSaid(p answers.StatementPosting) string {
	to, of := "older debt to", "older debt of"
	if !slices.Contains(p.WhomNames, "") { // between members, what one paid the club for another
		to, of = "owed to", "owed by"
	}
	if p.Change.IsOwing() {
		return fmt.Sprintf("%s %s, %s", to, ListInWords(peopleSaid(p.WhomNames)), AmountSaid(p.Change.Size()))
	}
	return fmt.Sprintf("%s %s, %s", of, ListInWords(peopleSaid(p.WhomNames)), AmountSaid(p.Change))
}

// noted are the receipt and the remark of a line.
func noted(p answers.StatementPosting) string {
	text := ""
	if p.Receipt != "" {
		text += ", receipt " + p.Receipt
	}
	if p.Remark != "" {
		text += fmt.Sprintf(", %q", p.Remark)
	}
	return text
}

// peopleSaid are people's names, the club's where there is none.
func peopleSaid(names []string) []string {
	var said []string
	for _, name := range names {
		said = append(said, PartyName(name))
	}
	return said
}
