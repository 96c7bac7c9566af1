package words

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"boxbook/report/answers"
	"boxbook/season"
)

// The words of the treasurer's first page.
const (
	IncomeAndCosts = "Income and costs"
	PeopleHeading  = "Who flew, who helped"
	ContestCosts   = "What each contest cost, by person"
	OtherPayments  = "Payments other than to the club"
	ColumnBudgeted = "budget"
	ColumnAll      = "all"
	ColumnDay      = "day"
	ColumnDays     = "days"
	ColumnDuties   = "duties"
	ColumnPlaces   = "places"
	ColumnExplains = "would explain it"
	WholeYear      = "Statements to mail: boxbook statement all -o statements.html\nEverything, and how it comes about: boxbook year --all"
)

// YearPageTitle says whose year it is, how far it has come, and the year beside.
func YearPageTitle(d answers.Year) string {
	title := YearTitle(d.Year)
	if d.Club.Name != "" {
		title = d.Club.Name + " · " + YearChosen(d.Year)
	}
	if !d.Calendar {
		title += ", " + d.First + " to " + d.Last
	}
	if d.Running {
		title += " so far, to " + DayIn(d.Asof, d.Year)
	}
	if d.Beside != nil {
		title += fmt.Sprintf(" · beside %d", d.Beside.Year)
	}
	return title
}

// SomePayments is the heading of the payments that the page has: those to the club
// stand above, unless they are found in another way.
func SomePayments(d answers.Year) string {
	if d.Pooled || d.SettleIn != "" || len(d.Club.Owed) == 0 {
		return PaymentsHeading
	}
	return OtherPayments
}

// DayIn is a day as people say it, "19 Apr", with its year where that is another.
func DayIn(iso string, year int) string {
	day, ok := season.ParseDate(iso)
	switch {
	case !ok:
		return iso
	case day.Year() == year:
		return day.Time().Format("2 Jan")
	default:
		return day.Time().Format("2 Jan 2006")
	}
}

// inHandThought says whether what the club really had agrees, by each pot's latest
// count that can be compared.
func inHandThought(d answers.Year) string {
	moved := slices.ContainsFunc(d.Club.Moved, func(s answers.Sum) bool { return !s.Amount.IsNothing() })
	if !moved && len(d.Club.InHand) == 0 {
		return ""
	}
	var said, pots []string
	for _, h := range slices.Backward(d.Club.InHand) {
		if pot := h.Pot + " " + h.Currency; h.Own != nil && !slices.Contains(pots, pot) {
			said, pots = append(said, inHandSaid(d, h)), append(pots, pot)
		}
	}
	if len(said) == 0 {
		return fmt.Sprintf("No balance of %d can be compared, so nothing outside checks these figures.", d.Year)
	}
	slices.Reverse(said)
	return strings.Join(said, " ")
}

// inHandSaid says one count, and what would explain it.
func inHandSaid(d answers.Year, h answers.InHand) string {
	text := fmt.Sprintf("In the %s were %s on %s, ", h.Pot, SumSaid(answers.Sum{Currency: h.Currency, Amount: h.Amount}), DayIn(h.Date, d.Year))
	switch {
	case h.Difference.IsNothing():
		return text + "as the ledger has it."
	case h.Difference.IsOwing():
		text += AmountSaid(h.Difference.Size()) + " less than the ledger has"
	default:
		text += AmountSaid(*h.Difference) + " more than the ledger has"
	}
	return text + ": " + explained(d, h) + "."
}

// explained says which line would explain a difference.
func explained(d answers.Year, h answers.InHand) string {
	switch {
	case len(h.Explained) == 0:
		return "no line of that amount explains it"
	case len(h.Explained) > 1:
		return fmt.Sprintf("any one of %d lines of that amount would explain it", len(h.Explained))
	default:
		return SlipSaid(h.Explained[0], h.Pot, d.Year)
	}
}

// SlipSaid says how a line of the ledger would explain what a pot lacks or has too
// much.
func SlipSaid(s answers.Slip, pot string, year int) string {
	what := fmt.Sprintf("%s of %s (line %d)", slipWhat(s), DayIn(s.Date, year), s.Line)
	switch {
	case s.Twice:
		return what + " may be in the ledger twice"
	case s.Moved.IsOwing():
		return what + " may never have left it"
	default:
		return what + " may never have reached the " + pot
	}
}

// AnyOf lists the lines each of which would explain a count.
func AnyOf(h answers.InHand, year int) string {
	var lines []string
	for _, s := range h.Explained {
		lines = append(lines, SlipSaid(s, h.Pot, year))
	}
	return fmt.Sprintf("%s, %s: %s", h.Pot, DayIn(h.Date, year), strings.Join(lines, "; or "))
}

// slipWhat names a line by its kind and contest, a settlement by who it is with.
func slipWhat(s answers.Slip) string {
	switch {
	case s.Kind != "" && s.Contest != "":
		return s.Contest + " " + s.Kind
	case s.Kind != "":
		return s.Kind
	case s.From == "":
		return "payment to " + s.To
	default:
		return "payment from " + s.From
	}
}

// PlacesSaid lists first, second and third places: "2nd ×2, 3rd".
func PlacesSaid(places map[string]int) string {
	var said []string
	for i, name := range []string{ColumnFirst, ColumnSecond, ColumnThird} {
		if n := places[strconv.Itoa(i+1)]; n > 0 {
			said = append(said, repeated(name, n))
		}
	}
	return strings.Join(said, ", ")
}

// DutiesSaid lists roles, those of most sessions first: "scribe ×2, desk".
func DutiesSaid(sessions map[string]int) string {
	roles := make([]string, 0, len(sessions))
	for role := range sessions {
		roles = append(roles, role)
	}
	slices.SortFunc(roles, func(a, b string) int {
		if n := sessions[b] - sessions[a]; n != 0 {
			return n
		}
		return strings.Compare(a, b)
	})
	for i, role := range roles {
		roles[i] = repeated(role, sessions[role])
	}
	return strings.Join(roles, ", ")
}

func repeated(what string, n int) string {
	if n == 1 {
		return what
	}
	return fmt.Sprintf("%s ×%d", what, n)
}

// ReceiptsMissing names the numbers of slips that no line has; "" where none is
// missing.
func ReceiptsMissing(d answers.Year) string {
	r := d.Club.Receipts
	if r == nil || len(r.Missing) == 0 {
		return ""
	}
	var runs []string
	for _, run := range r.Missing {
		switch run.To - run.From {
		case 0:
			runs = append(runs, strconv.FormatInt(run.From, 10))
		case 1:
			runs = append(runs, strconv.FormatInt(run.From, 10), strconv.FormatInt(run.To, 10))
		default:
			runs = append(runs, fmt.Sprintf("%d to %d", run.From, run.To))
		}
	}
	return fmt.Sprintf("receipts %d to %d: no line has %s", r.First, r.Last, AnyInWords(runs))
}

// ConvertedOwed is what the club has to get or to give in one currency; "" where
// the year has no rates or only one currency is open.
func ConvertedOwed(d answers.Year) string {
	c := d.Club.Converted
	open := 0
	for _, a := range d.Club.Balance {
		if !a.Amount.IsNothing() {
			open++
		}
	}
	if c == nil || c.Amount == nil || len(c.Without) > 0 || open < 2 || len(d.Club.Owes) > 0 {
		return ""
	}
	return "all in " + SumSaid(answers.Sum{Currency: c.Currency, Amount: *c.Amount})
}
