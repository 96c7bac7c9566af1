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
	incomeAndCosts  = "Income and costs"
	PeopleHeading   = "Who flew, who helped"
	ContestCosts    = "What each contest cost each pilot and the club"
	MembersPayments = "Payments between members; those to the club are above"
	OtherPayments   = "Other payments; those to the club are above"
	ColumnBudgeted  = "budget"
	ColumnAll       = "all"
	ColumnDay       = "day"
	ColumnDays      = "days"
	ColumnDuties    = "duties"
	ColumnPlaces    = "places"
	ColumnExplains  = "would explain it"
)

// WholeYear says how the year of a page is mailed, and where it stands in full.
func WholeYear(year int) string {
	return fmt.Sprintf("To mail: boxbook statement all %[1]d -o mail.html; all: boxbook year %[1]d --all", year)
}

// YearPageTitle says whose year it is, how far it has come, and the year beside.
func YearPageTitle(d answers.Year) string {
	title := YearTitle(d.Year)
	if d.Club.Name != "" {
		title = d.Club.Name + " · " + strconv.Itoa(d.Year)
	}
	if !d.Calendar {
		title += ", " + d.First + " to " + d.Last
	}
	if d.Running {
		title += " so far, to " + DayIn(d.Asof, d.Year)
	}
	if d.Beside != nil {
		title += " · compared with " + yearBeside(d)
	}
	return title
}

// yearBeside is the year beside another, the whole of it where that is not over.
func yearBeside(d answers.Year) string {
	if d.Running && d.Beside.Year != d.Year && !d.Beside.Running {
		return fmt.Sprintf("the whole of %d", d.Beside.Year)
	}
	return strconv.Itoa(d.Beside.Year)
}

// SomePayments is the title of the payments that stand beneath what is owed to the
// club: those to the club stand above, unless they are found in another way.
func SomePayments(d answers.Year) string {
	if d.Pooled || d.SettleIn != "" {
		return PaymentsHeading
	}
	if slices.ContainsFunc(d.Settle, func(p answers.Payment) bool { return p.FromName == "" }) {
		return OtherPayments
	}
	return MembersPayments
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
	var counts []answers.InHand
	var pots []string
	for _, h := range slices.Backward(d.Club.InHand) {
		if pot := h.Pot + " " + h.Currency; h.Own != nil && !slices.Contains(pots, pot) {
			counts, pots = append(counts, h), append(pots, pot)
		}
	}
	if len(counts) == 0 {
		return fmt.Sprintf("No count of %d can be compared, so nothing outside checks these figures.", d.Year)
	}
	slices.Reverse(counts)
	agree := !slices.ContainsFunc(counts, func(h answers.InHand) bool { return !h.Difference.IsNothing() })
	var said []string
	for i, h := range counts {
		alike := func(o answers.InHand) bool { return sameMiss(o, h) }
		if slices.ContainsFunc(counts[:i], alike) {
			continue // said with the pot that was counted on the same day
		}
		if with := slices.DeleteFunc(slices.Clone(counts[i:]), func(o answers.InHand) bool { return !alike(o) }); len(with) > 1 {
			said = append(said, togetherSaid(d, with))
			continue
		}
		said = append(said, inHandSaid(d, h, agree))
	}
	said = append(said, overtaken(d.Club.InHand, func(date string) string { return DayIn(date, d.Year) })...)
	if left := notCompared(d); left != "" {
		said = append(said, left)
	}
	return strings.Join(said, " ")
}

// overtaken says what earlier counts found missing, or too much, where a later count
// of the pot goes on from there: a count is held against the one before, so that
// the next one agrees and what was missing would be said no more. What the later
// count makes up for was a slip of the earlier one. day writes a date.
func overtaken(counts []answers.InHand, day func(date string) string) []string {
	var said []answers.InHand
	for i, h := range counts {
		if h.Own == nil || h.Difference.IsNothing() {
			continue
		}
		later := slices.DeleteFunc(slices.Clone(counts[i+1:]), func(o answers.InHand) bool {
			return o.Own == nil || o.Pot != h.Pot || o.Currency != h.Currency || o.Date == h.Date
		})
		undone := slices.ContainsFunc(later, func(o answers.InHand) bool {
			return o.Difference.IsOwing() != h.Difference.IsOwing() && AmountSaid(o.Difference.Size()) == AmountSaid(h.Difference.Size())
		})
		known := slices.ContainsFunc(said, func(o answers.InHand) bool { return sameMiss(o, h) })
		if len(later) > 0 && !undone && !known {
			said = append(said, h)
		}
	}
	var sentences []string
	for _, h := range said[:min(len(said), mostNamed)] {
		sum := SumSaid(answers.Sum{Currency: h.Currency, Amount: h.Difference.Size()})
		way := "missing from"
		if !h.Difference.IsOwing() {
			way = "too much in"
		}
		sentences = append(sentences, fmt.Sprintf("%s %s the %s on %s is not explained yet.", sum, way, h.Pot, day(h.Date)))
	}
	if more := len(said) - len(sentences); more > 0 {
		sentences = append(sentences, fmt.Sprintf("Nor %s of %s.", PluralWord(more, "is that", "are those"), Counted(more, "other count", "other counts")))
	}
	return sentences
}

// sameMiss reports whether two counts found one difference: pots of a currency are
// compared together, so that those counted on one day differ by the same amount,
// which is there once.
func sameMiss(a, b answers.InHand) bool {
	return a.Date == b.Date && a.Currency == b.Currency && !a.Difference.IsNothing() &&
		AmountSaid(*a.Difference) == AmountSaid(*b.Difference)
}

// togetherSaid says what pots that were counted on one day differ by together, and
// what would explain it.
func togetherSaid(d answers.Year, counts []answers.InHand) string {
	var held []string
	for _, h := range counts {
		held = append(held, PotHeld(h.Pot, answers.Sum{Currency: h.Currency, Amount: h.Amount}))
	}
	first := counts[0]
	return fmt.Sprintf("On %s there was %s: together %s. %s.", DayIn(first.Date, d.Year), ListInWords(held),
		moreOrLess(*first.Difference), Sentence(explained(d, first)))
}

// PotHeld is what was in a pot, with its name.
func PotHeld(pot string, sum answers.Sum) string { return SumSaid(sum) + " in the " + pot }

// inHandSaid says one count, what should have been there, and what would explain
// the difference. One that agrees has its sum where all do, so that beside one
// that does not the difference is what is seen.
func inHandSaid(d answers.Year, h answers.InHand, agree bool) string {
	held := SumSaid(answers.Sum{Currency: h.Currency, Amount: h.Amount})
	switch {
	case h.Difference.IsNothing() && agree:
		return fmt.Sprintf("The %s agrees: %s on %s.", h.Pot, held, DayIn(h.Date, d.Year))
	case h.Difference.IsNothing():
		return fmt.Sprintf("The %s agrees.", h.Pot)
	}
	text := fmt.Sprintf("On %s the %s held %s; by the ledger it should have held %s: ", DayIn(h.Date, d.Year), h.Pot, held, AmountSaid(*h.Own))
	if h.Difference.IsOwing() {
		text += AmountSaid(h.Difference.Size()) + " is missing"
	} else {
		text += "there is " + AmountSaid(*h.Difference) + " too much"
	}
	return text + ". " + Sentence(explained(d, h)) + "."
}

// explained says which line would explain a difference.
func explained(d answers.Year, h answers.InHand) string {
	switch {
	case len(h.Explained) == 0:
		return "no line of that amount explains it"
	case len(h.Explained) > 1:
		return fmt.Sprintf("any one of %d lines of that amount would explain it", len(h.Explained))
	default:
		return "the " + SlipSaid(h.Explained[0], thePot(h.Pot), d.Year)
	}
}

// notCompared says of which currencies of the club's money no count can be compared,
// "" where there is none.
func notCompared(d answers.Year) string {
	if len(d.Club.Uncompared) == 0 {
		return ""
	}
	var compared []string
	for _, h := range d.Club.InHand {
		if h.Own != nil {
			compared = Once(compared, h.Currency)
		}
	}
	once := slices.ContainsFunc(d.Club.InHand, func(h answers.InHand) bool { return slices.Contains(d.Club.Uncompared, h.Currency) })
	is := PluralWord(len(d.Club.Uncompared), "is", "are") + " counted"
	if once {
		is = "can be compared yet"
	}
	return fmt.Sprintf("No %s %s: what was paid from the %s account for it is not in this comparison.", AnyInWords(d.Club.Uncompared), is, AnyInWords(compared))
}

// SlipSaid says how a line of the ledger would explain what a pot lacks or has too
// much; pot is what the pot is called there.
func SlipSaid(s answers.Slip, pot string, year int) string {
	what := fmt.Sprintf("%s of %s (%s, line %d)", slipWhat(s), DayIn(s.Date, year), fileName(s.File), s.Line)
	switch {
	case s.Twice:
		return what + " may be in the ledger twice"
	case s.Moved.IsOwing():
		return what + " may never have left " + pot
	default:
		return what + " may never have reached " + pot
	}
}

// fileName is a path's last part, of whatever system.
func fileName(path string) string { return path[strings.LastIndexAny(path, `/\`)+1:] }

// AnyOf lists the lines each of which would explain a count.
func AnyOf(h answers.InHand, year int) string {
	var lines []string
	for _, s := range h.Explained {
		lines = append(lines, SlipSaid(s, thePot(h.Pot), year))
	}
	return fmt.Sprintf("%s, %s: %s", h.Pot, DayIn(h.Date, year), strings.Join(lines, "; or "))
}

// thePot is a pot as a sentence names it.
func thePot(pot string) string { return "the " + pot }

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

// PlacesSaid lists first, second and third places: "2nd×2, 3rd".
func PlacesSaid(places map[string]int) string {
	var said []string
	for i, name := range []string{ColumnFirst, ColumnSecond, ColumnThird} {
		if n := places[strconv.Itoa(i+1)]; n > 0 {
			said = append(said, repeated(name, n))
		}
	}
	return strings.Join(said, ", ")
}

// DutiesSaid lists roles, those of most sessions first: "scribe×2, desk".
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
	return fmt.Sprintf("%s×%d", what, n)
}

// someRuns are as many runs of missing receipts as the first sentences name.
const someRuns = 3

// ReceiptsMissing names the numbers of slips that no line has, not all of them where
// they are to be few words; "" where none is missing.
func ReceiptsMissing(d answers.Year, all bool) string {
	r := d.Club.Receipts
	if r == nil || len(r.Missing) == 0 {
		return ""
	}
	var runs []string
	for i, run := range r.Missing {
		if more := len(r.Missing) - i; i == someRuns && more > 1 && !all {
			runs = append(runs, Counted(more, "more gap", "more gaps"))
			break
		}
		switch run.To - run.From {
		case 0:
			runs = append(runs, strconv.FormatInt(run.From, 10))
		case 1:
			runs = append(runs, strconv.FormatInt(run.From, 10), strconv.FormatInt(run.To, 10))
		default:
			runs = append(runs, fmt.Sprintf("%d to %d", run.From, run.To))
		}
	}
	return "receipts missing: " + ListInWords(runs)
}

// ConvertedOwed is what is owed to the club in the currency of the year's rates; ""
// where it is in that alone, or the year has no rate for a part of it.
func ConvertedOwed(d answers.Year) string {
	all := d.Club.OwedInOne
	if all == nil {
		return ""
	}
	var rates []string
	for _, r := range d.Rates {
		if owed, _ := answers.SumIn(d.Club.OwedTotals, r.From); !owed.IsNothing() {
			rates = append(rates, fmt.Sprintf("1 %s = %s", r.From, r.Rate)) // of the sum's currency
		}
	}
	if len(rates) == 0 {
		return ""
	}
	return fmt.Sprintf("%s %s (%s)", PluralWord(len(d.Club.OwedTotals), "that is", "together"), SumSaid(*all), strings.Join(rates, ", "))
}
