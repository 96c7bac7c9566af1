package words

import (
	"fmt"
	"slices"
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
	BilledExplained = "billed: owed to the club by those it was for, no money has moved yet"
)

// BesidePractice counts the practice that is in no column.
func BesidePractice(n int) string {
	return Counted(n, "practice flight", "practice flights") + " beside the contest flights"
}

// LooseFlights counts contest flights that name no contest.
func LooseFlights(n int) string {
	return fmt.Sprintf("%s no contest and %s in no count of contests", Counted(n, "contest flight names", "contest flights name"), PluralWord(n, "is", "are"))
}

// LaterMoney counts what is dated after the day that stands for today.
func LaterMoney(d answers.Year) string {
	return fmt.Sprintf("%s dated after %s %s not counted", Counted(d.Later, "entry", "entries"), d.Asof, PluralWord(d.Later, "is", "are"))
}

// ContestYearExplained says what the contests' columns count.
func ContestYearExplained(d answers.Year) string {
	return fmt.Sprintf("contests that began in %d; entries: pilots with a flight or a result; costs: all that stand with the contest", d.Year)
}

// BalanceExplained says how to read a balance, and of what parts the closing one
// is made.
func BalanceExplained(parts []string) string {
	return "a balance with + is owed to that person, one with - is owed by them; closing = " + strings.Join(parts, " ")
}

// WithoutRate names the currencies that the converted balances leave out.
func WithoutRate(d answers.Year) string {
	return fmt.Sprintf("without %s, for which %d has no rate", ListInWords(d.Unpriced), d.Year)
}

// RatesExplained names the year's rates.
func RatesExplained(d answers.Year) string {
	var rates []string
	for _, r := range d.Rates {
		rates = append(rates, fmt.Sprintf("1 %s = %s %s", r.From, r.Rate, r.To))
	}
	return strings.Join(rates, ", ") + "; each sum rounded once, so that they need not sum to zero to the last digit"
}

// PaymentsExplained says what the payments are.
func PaymentsExplained(d answers.Year) string {
	text := "with the club each settles what stands between the two, the others settle with the fewest payments among themselves"
	if d.Pooled {
		text = "the fewest payments of all together, which moves debts onto others: who pays here may owe that person nothing"
	}
	if len(d.Unproven) > 0 {
		text += fmt.Sprintf("; in %s fewer might do, with so many people", ListInWords(d.Unproven))
	}
	return text
}

// PaymentsInOne says at what rates payments are in one currency, and what rounding
// them left; "" where each currency is by itself.
func PaymentsInOne(d answers.Year) string {
	if d.SettleIn == "" {
		return ""
	}
	text := "all in " + d.SettleIn + " at the rates of the year"
	if len(d.Unpriced) > 0 {
		text += " but " + ListInWords(d.Unpriced) + ", which have no rate"
	}
	for _, left := range d.SettleLeft {
		text += fmt.Sprintf("; %s %s that conversion leaves is borne by the club, else by those whose amounts rounding moved most", left.Amount.Text(), left.Currency)
	}
	return text
}

// YearThought says how the club did, what of it came in as money, and what is
// still owed; of a year without any of the club's money, who owes whom.
func YearThought(d answers.Year) string {
	nothing, open := fmt.Sprintf("Nothing in %d", d.Year), len(d.Settle) > 0
	switch {
	case d.Quiet && !open:
		return nothing + "."
	case d.Quiet:
		return nothing + "; as before, " + owing(d) + "."
	case !open && len(d.Totals) == 0 && len(d.Club.Moved) == 0:
		return fmt.Sprintf("No money was written down in %d.", d.Year)
	}
	said := []string{clubResult(d), clubMoney(d), inHandThought(d), betweenMembers(d)}
	said = slices.DeleteFunc(said, func(s string) bool { return s == "" })
	return strings.Join(said, " ")
}

// clubResult says what the year made of the club, beside the other year.
func clubResult(d answers.Year) string {
	var changes []string
	for _, r := range d.Club.Result {
		if r.Amount.IsNothing() {
			continue
		}
		change := fmt.Sprintf("%s %s %s", r.Amount.Size().Text(), r.Currency, upOrDown(r.Amount))
		if before, ok := resultBeside(d, r.Currency); ok {
			change += fmt.Sprintf(" (%d: %s)", d.Beside.Year, before.Text())
		}
		if a := d.Agreed; a != nil && a.Currency == r.Currency && !a.Difference.IsNothing() {
			change += ", agreed as " + a.Amount.Text()
		}
		changes = append(changes, change)
	}
	switch {
	case len(d.Club.Result) == 0:
		return ""
	case len(changes) == 0:
		return "The club is neither up nor down."
	default:
		return "The club is " + ListInWords(changes) + "."
	}
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

// clubMoney says what money moved, and what the club and others owe each other.
func clubMoney(d answers.Year) string {
	var parts, owed []string
	for _, m := range d.Club.Moved {
		if m.Amount.IsNothing() {
			continue
		}
		way := "came in"
		if m.Amount.IsOwing() {
			way = "went out"
		}
		parts = append(parts, fmt.Sprintf("%s %s %s", m.Amount.Size().Text(), m.Currency, way))
	}
	for _, total := range d.Club.OwedTotals {
		owed = append(owed, total.Amount.Text()+" "+total.Currency)
	}
	still, begun := "it is owed "+ListInWords(owed), "The club is owed "+ListInWords(owed)
	if len(d.Club.Owes) > 0 && len(owed) > 0 {
		still, begun = still+" and owes "+sumsSaid(d.Club.Owes), begun+" and owes "+sumsSaid(d.Club.Owes)
	}
	if len(d.Club.Owed) == 1 {
		still = d.Club.Owed[0].Name + " owes the club " + owed[0]
		begun = still
	}
	return moneySaid(parts, owed, still, begun, sumsSaid(d.Club.Owes))
}

// sumsSaid lists sums: "5.00 EUR and 3.00 CHF".
func sumsSaid(sums []answers.Sum) string {
	var said []string
	for _, s := range sums {
		said = append(said, s.Amount.Text()+" "+s.Currency)
	}
	return ListInWords(said)
}

// moneySaid puts what moved and what is owed together.
func moneySaid(parts, owed []string, still, begun, owes string) string {
	if len(owed) == 0 && owes != "" {
		still, begun = "the club owes "+owes, "The club owes "+owes
	}
	switch {
	case len(parts)+len(owed) == 0 && owes == "":
		return ""
	case len(owed) == 0 && owes == "":
		return ListInWords(parts) + "; nobody owes the club anything."
	case len(parts) == 0:
		return begun + "."
	default:
		return ListInWords(parts) + "; " + still + "."
	}
}

// inHandThought says whether what the club really had agrees, by the latest count
// that can be compared.
func inHandThought(d answers.Year) string {
	moved := slices.ContainsFunc(d.Club.Moved, func(s answers.Sum) bool { return !s.Amount.IsNothing() })
	if !moved && len(d.Club.InHand) == 0 {
		return ""
	}
	for _, h := range slices.Backward(d.Club.InHand) {
		if h.Own == nil {
			continue
		}
		text := fmt.Sprintf("In the %s were %s %s on %s, ", h.Pot, h.Amount.Text(), h.Currency, h.Date)
		switch {
		case h.Difference.IsNothing():
			return text + "as the ledger has it."
		case h.Difference.IsOwing():
			return text + h.Difference.Size().Text() + " less than the ledger has."
		default:
			return text + h.Difference.Text() + " more than the ledger has."
		}
	}
	return fmt.Sprintf("No balance of %d can be compared, so nothing outside checks these figures.", d.Year)
}

// betweenMembers counts the payments among others than the club.
func betweenMembers(d answers.Year) string {
	var among []answers.Payment
	for _, p := range d.Settle {
		if p.FromName != "" && p.ToName != "" {
			among = append(among, p)
		}
	}
	switch {
	case len(d.Settle) == 0:
		return "Everybody is even."
	case len(among) == 0:
		return ""
	case len(among) == 1:
		return owes(among[0]) + "."
	default:
		return fmt.Sprintf("Members among themselves: %d payments, at the foot.", len(among))
	}
}

// owing says who owes whom, or counts the payments.
func owing(d answers.Year) string {
	if len(d.Settle) == 1 {
		return owes(d.Settle[0])
	}
	return fmt.Sprintf("%d payments settle what is owed, at the foot", len(d.Settle))
}

func owes(p answers.Payment) string {
	return fmt.Sprintf("%s owes %s %s %s", PartyName(p.FromName), PartyName(p.ToName), p.Amount.Text(), p.Currency)
}

// OwedFor says what the oldest of a debt with the club is.
func OwedFor(o answers.Owed) string {
	text := o.Kind
	if o.Contest != "" {
		text = strings.TrimSpace(o.Contest + " " + text)
	}
	switch {
	case o.Remark == "":
		return text
	case text == "":
		return o.Remark
	default:
		return text + ", " + o.Remark
	}
}
