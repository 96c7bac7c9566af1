package commands

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"boxbook/cmd/boxbook/internal/entry"
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/season"
)

// Follows says what follows from an entry before it is written: a flight's
// score, a cost's shares.
func (h *logHost) Follows(kind string, l *season.Ledger, v entry.Answers) (string, error) {
	if kind == "flight" || kind == "practice" {
		page, err := scoreOf(l, entry.FlightName(v), h.app.width)
		if said := leftOpen(l, v); said != "" && err == nil {
			page = strings.TrimRight(page, "\n") + "\n\n" + h.app.pasted().in(said)
		}
		return page, err
	}
	return h.app.pasted().in(moneyFollows(kind, l, v)), nil
}

// moneyFollows is what follows from a line of money, "" from another entry.
func moneyFollows(kind string, l *season.Ledger, v entry.Answers) string {
	switch kind {
	case "cost":
		return sharesOf(l, v)
	case "income":
		return incomeOf(l, v)
	case "settle", "owed":
		return standsOf(l, v)
	case "in-hand":
		return countOf(l, v)
	case "agreed":
		return resultOf(l, v)
	default:
		return ""
	}
}

// scoreOf is the sheet and the score of a flight.
func scoreOf(l *season.Ledger, name string, width int) (string, error) {
	var page bytes.Buffer
	for _, f := range l.Flights {
		if f.Name != name {
			continue
		}
		if err := report.WriteText(&page, pages.Flight(answers.FlightOf(f), pages.FlightOptions{Brief: true}), report.TextOptions{Width: width}); err != nil {
			return "", err
		}
	}
	return page.String(), nil
}

// incomeOf says of an income that looks like what a member pays how that is written:
// where the club's remark names somebody or its kind is one that is billed, or where
// somebody's own is of a kind that the club billed and that is unpaid.
func incomeOf(l *season.Ledger, v entry.Answers) string {
	if v.One("for") != "" {
		return ownIncomeOf(l, v)
	}
	who := ""
	if named := season.NamedIn(v.One("remark"), l.Parties()); len(named) > 0 {
		who = named[0].Name()
	}
	switch {
	case who != "":
		return fmt.Sprintf("income from outside; what %[1]s pays of a debt is boxbook log settle --from %[1]s --to club,\n"+
			"a fee that %[1]s pays is boxbook log cost --for %[1]s --to-club yes", who)
	case clubBills(l, v.One("kind")):
		return "income from outside; " + v.One("kind") + " is also billed to members, whose payments are boxbook log settle"
	default:
		return ""
	}
}

// ownIncomeOf says of a pilot's own income of a kind that the club bills that it pays no
// bill, and what of this pilot's stays unpaid.
func ownIncomeOf(l *season.Ledger, v entry.Answers) string {
	who, kind := v.One("for"), v.One("kind")
	day, ok := season.ParseDate(v.One("date"))
	if !ok {
		return ""
	}
	year, err := answers.YearOf(l, l.YearOf(day))
	if err != nil {
		return "" // its balances cannot be said, which is no answer to this line
	}
	for _, u := range year.Club.Unpaid {
		if u.Party == who && u.Kind == kind {
			return fmt.Sprintf("income of %[1]s's own, which no balance has: of the %[2]s that the club billed %[1]s, %[3]s %[4]s stay unpaid;\n"+
				"what %[1]s pays of it is boxbook log settle --from %[1]s --to club", who, kind, u.Amount.Text(), u.Currency)
		}
	}
	if clubBills(l, kind) {
		return fmt.Sprintf("income of %[1]s's own, which no balance has, though the club bills %[2]s;\n"+
			"what %[1]s pays of it is boxbook log settle --from %[1]s --to club", who, kind)
	}
	return ""
}

// clubBills reports whether costs of a kind are the club's income.
func clubBills(l *season.Ledger, kind string) bool {
	return slices.ContainsFunc(l.Costs, func(c *season.Cost) bool { return c.ToClub && c.Kind == kind })
}

// sharesOf says who bears how much of the cost that was added last.
func sharesOf(l *season.Ledger, v entry.Answers) string {
	var added *season.Cost
	for _, c := range l.Costs {
		contest := ""
		if c.Contest != nil {
			contest = c.Contest.Handle
		}
		last := added == nil || c.At.File == added.At.File && c.At.Line > added.At.Line
		if !c.Income && c.Kind == v.One("kind") && contest == v.One("contest") && last {
			added = c
		}
	}
	if added == nil {
		return ""
	}
	var shares []string
	for i, share := range added.Shares() {
		money := season.Money{Minor: share, Currency: added.Money.Currency}
		shares = append(shares, fmt.Sprintf("%s %s %s", partySaid(added.For[i]), money.Text(), money.Currency.Code))
	}
	said := "each one's share: " + strings.Join(shares, ", ")
	then := ""
	if added.For[0] != added.By && len(added.For) == 1 {
		then = "\n" + standsSaid(l, added.For[0], added.By, added.Money.Currency.Code)
		said = ""
	}
	bill := added.ToClub && added.By.Club()
	switch {
	case bill && added.Money.Minor < 0:
		return strings.TrimPrefix(said+"\ncredited by the club"+then, "\n")
	case added.Money.Minor < 0:
		return strings.TrimPrefix(said+"\n"+refundOf(added)+then, "\n")
	case bill:
		return strings.TrimPrefix(said+"\nbilled by the club, not paid yet; a payment: boxbook log settle"+then, "\n")
	case added.ToClub:
		return said + "\ntaken as paid to the club by " + added.By.Name() + ";\na bill that is not paid yet has club as its payer (--by club)"
	case v.One("by") == "":
		return said + "\ntaken as paid by " + partySaid(added.By) + then
	default:
		return strings.TrimPrefix(said+then, "\n")
	}
}

// refundOf says to whom a refund came back, and where that leaves a member's account with
// the club as it was, how one that the club got is written.
func refundOf(c *season.Cost) string {
	to := partySaid(c.By)
	switch {
	case c.ToClub:
		return "taken as given back by the club to " + to + ";\na bill that is lowered, paid or not, has club as its payer (--by club)"
	case !c.By.Club() && len(c.For) == 1 && c.For[0] == c.By:
		return "taken as paid back to " + to + ": nothing changes between " + to + " and the club;\n" +
			"what came back to the club, for what it had paid, has club as its payer (--by club)"
	default:
		return "taken as paid back to " + to
	}
}
