package words

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/report/answers"
)

// unpaidThought names bills that are not paid and that no row of what is owed
// names: a debt that is older hides them. It comes after what is owed, of which they
// are a part.
func unpaidThought(d answers.Year) string {
	hidden := slices.DeleteFunc(slices.Clone(d.Club.Unpaid), func(u answers.Unpaid) bool {
		return slices.ContainsFunc(d.Club.Owed, u.IsOldest)
	})
	var said []string
	for _, u := range hidden[:min(len(hidden), mostNamed)] {
		said = append(said, fmt.Sprintf("%s %s %s (%s)", BillName(u.Contest, u.Kind), AmountSaid(u.Amount), u.Currency, PartyName(u.Name)))
	}
	if more := len(hidden) - len(said); more > 0 {
		said = append(said, fmt.Sprintf("%d more", more))
	}
	if len(said) == 0 {
		return ""
	}
	return "That includes " + ListInWords(said) + "."
}

// BillName says what a bill is for, with its contest where it has one.
func BillName(contest, kind string) string { return strings.TrimSpace(contest + " " + kind) }

// owedSaid says what the club is owed and what it owes, and what it was at the start
// of the year, "" where there is neither.
func owedSaid(d answers.Year) string {
	owed, owes := sumsSaid(d.Club.OwedTotals), sumsSaid(d.Club.Owes)
	who := "the club is owed "
	if owed != "" && onlyMembersOwe(d) {
		who = "members owe the club "
	}
	if owers := owersOf(d); len(owers) == 1 {
		who = PartyName(d.Club.Owed[0].Name) + " owes the club "
	}
	switch {
	case owed == "" && owes == "":
		return ""
	case owed == "":
		return "the club owes " + owes + owedBefore(d)
	case owes == "":
		return who + owed + owedBefore(d)
	default:
		return who + owed + ", and it owes " + owes + owedBefore(d)
	}
}

// owedBefore says what was owed at the start of the year in the currencies of which
// money moved or a result came, without which they do not come out.
func owedBefore(d answers.Year) string {
	var to, by []string
	for _, s := range d.Club.ClaimsOpening {
		moved, _ := answers.SumIn(d.Club.Moved, s.Currency)
		result, _ := answers.SumIn(d.Club.Result, s.Currency)
		switch said := SumSaid(answers.Sum{Currency: s.Currency, Amount: s.Amount.Size()}); {
		case s.Amount.IsNothing(), moved.IsNothing() && result.IsNothing():
		case s.Amount.IsOwing():
			by = append(by, said)
		default:
			to = append(to, said)
		}
	}
	switch {
	case len(to)+len(by) == 0:
		return ""
	case len(by) == 0 && len(d.Club.Owes) == 0:
		return fmt.Sprintf(" (%s at the start of the year)", ListInWords(to))
	case len(by) == 0:
		return fmt.Sprintf(" (at the start of the year it was owed %s net)", ListInWords(to))
	case len(to) == 0:
		return fmt.Sprintf(" (at the start of the year it owed %s net)", ListInWords(by))
	default:
		return fmt.Sprintf(" (at the start of the year it was owed %s and owed %s, net)", ListInWords(to), ListInWords(by))
	}
}

// owersOf are those who owe the club.
func owersOf(d answers.Year) []string {
	var all []string
	for _, o := range d.Club.Owed {
		all = Once(all, o.Party)
	}
	return all
}

// onlyMembersOwe reports whether all who owe the club are pilots.
func onlyMembersOwe(d answers.Year) bool {
	return !slices.ContainsFunc(d.Club.Owed, func(o answers.Owed) bool {
		return !slices.ContainsFunc(d.Pilots, func(p answers.PilotYear) bool { return p.Pilot == o.Party })
	})
}

// betweenMembers says whether all are even, and the only payment among others than
// the club.
func betweenMembers(d answers.Year) string {
	among := AmongMembers(d)
	switch {
	case len(d.Settle) == 0:
		return "Everybody is even."
	case len(among) == 1:
		return owes(among[0]) + "."
	default: // below
		return ""
	}
}

// AmongMembers are the payments in which the club has no part.
func AmongMembers(d answers.Year) []answers.Payment {
	var among []answers.Payment
	for _, p := range d.Settle {
		if p.FromName != "" && p.ToName != "" {
			among = append(among, p)
		}
	}
	return among
}

// owing says who owes whom, or counts the payments.
func owing(d answers.Year) string {
	if len(d.Settle) == 1 {
		return owes(d.Settle[0])
	}
	return fmt.Sprintf("%d payments settle what is owed, below", len(d.Settle))
}

func owes(p answers.Payment) string {
	return fmt.Sprintf("%s owes %s %s", PartyName(p.FromName), PartyName(p.ToName), SumSaid(answers.Sum{Currency: p.Currency, Amount: p.Amount}))
}

// OwedFor says what the oldest of a debt with the club is, with its own amount; where
// a part of it is paid the rest, whose amount is that of the debt where it is all.
func OwedFor(o answers.Owed) string {
	switch {
	case !isPart(o):
		return oldestItem(o, " "+AmountSaid(o.OldestAmount))
	case o.OldestOpen.Minus(o.Amount).IsNothing():
		return "rest of " + oldestItem(o, "")
	default:
		return "rest of " + oldestItem(o, " "+AmountSaid(o.OldestOpen))
	}
}

// isPart reports whether the oldest of a debt is paid in part.
func isPart(o answers.Owed) bool { return o.OldestOpen.Minus(o.OldestAmount).IsOwing() }

// oldestItem names the oldest of a debt by its contest and kind, and has an amount
// after a space and a remark beside it.
func oldestItem(o answers.Owed, amount string) string {
	text := BillName(o.Contest, o.Kind)
	if text == "" {
		text = "older debt"
	}
	text += amount
	if o.Remark != "" && o.Contest == "" {
		text += fmt.Sprintf(", %q", o.Remark)
	}
	return text
}
