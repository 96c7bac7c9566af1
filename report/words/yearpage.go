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
	ContestCosts    = "What each contest cost each pilot and the club, before income"
	MembersPayments = "Left to pay between members; what the club is owed is above"
	OtherPayments   = "Other payments left; what the club is owed is above"
	ColumnBudgeted  = "budget"
	NoBudget        = "none" // beneath that
	ColumnAll       = "all"
	ColumnDay       = "day"
	ColumnDays      = "days"
	ColumnDuties    = "duties"
	ColumnPlaces    = "places"
	ColumnExplains  = "would explain it"
)

// WholeYear says how the year of a page is mailed, and where it stands in full.
func WholeYear(year int) string {
	return fmt.Sprintf("To mail: boxbook statement all %[1]d -o mail/; all: boxbook year %[1]d --all", year)
}

// BeforeMailing says whose statements have a line in question, "" where nobody's has one.
func BeforeMailing(d answers.Year) string {
	if d.Warned == nil || len(d.Warned.Pages) == 0 {
		return ""
	}
	return "Before mailing, " + LookFirst(d.Warned.Pages) + "."
}

// ContestSpansSaid say of contests with costs in two years with which they stand.
func ContestSpansSaid(d answers.Year) []string {
	var said []string
	for _, c := range d.ContestSpans {
		if c.Stands == d.Year {
			said = append(said, fmt.Sprintf("%s of %s is dated %d, and in the money of that year", sumsSaid(c.Costs), c.Name, c.Dated))
		} else {
			said = append(said, fmt.Sprintf("without %s for %s, which began in %d and stands there", sumsSaid(c.Costs), c.Name, c.Stands))
		}
	}
	return said
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
	switch {
	case d.Running && d.Beside.Year != d.Year && !d.Beside.Running:
		return fmt.Sprintf("the whole of %d", d.Beside.Year)
	case !d.Running && d.Beside.Running:
		return fmt.Sprintf("%d so far", d.Beside.Year)
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

// DaysOf writes the days of a column in one form: with its year each, where one is of
// another than this.
func DaysOf(dates []string, year int) func(string) string {
	if slices.ContainsFunc(dates, func(date string) bool {
		day, ok := season.ParseDate(date)
		return ok && day.Year() != year
	}) {
		year = 0
	}
	return func(date string) string { return DayIn(date, year) }
}

// slipWhat names a line by its kind and contest, a settlement by who it is with.
func slipWhat(s answers.Slip) string {
	switch {
	case s.Opening:
		return "first count of the " + s.Pot
	case s.Pot != "":
		return "count of the " + s.Pot + " itself"
	case s.Kind != "":
		return BillName(s.Contest, s.Kind)
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

// RoleTitle is a role of a duty for people: a boundary judge is noted as boundary.
func RoleTitle(role string) string {
	if role == "boundary" {
		return "boundary judge"
	}
	return role
}

// DutiesSaid lists roles as they are noted, for which there is little room, those of
// most sessions first: "scribe×2, desk".
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
// they are to be few words, where what explains a count says some of it; "" where none is
// missing.
func ReceiptsMissing(d answers.Year, all bool) string {
	var said []string
	for _, missing := range d.Club.MissingReceipts() {
		said = append(said, "no "+runsSaid(missing, all))
	}
	lines := d.Club.ReceiptsElsewhere
	if !all {
		lines = notNamed(lines, d.Club.InHand)
	}
	if elsewhere := elsewhereSaid(lines, d.Year); elsewhere != "" {
		said = append(said, strings.TrimSuffix(elsewhere, "."))
	}
	return strings.Join(said, "; ")
}

// receiptNumbers names the missing receipts of all numberings, "" where none is.
func receiptNumbers(missing [][]answers.ReceiptRun, all bool) string {
	var said []string
	for _, runs := range missing {
		said = append(said, runsSaid(runs, all))
	}
	return strings.Join(said, ", ")
}

// notNamed are the lines that no sentence about a count has with their receipts.
func notNamed(lines []answers.ReceiptElsewhere, counts []answers.InHand) []answers.ReceiptElsewhere {
	return slices.DeleteFunc(slices.Clone(lines), func(e answers.ReceiptElsewhere) bool {
		return slices.ContainsFunc(counts, func(h answers.InHand) bool {
			return len(h.Explained) <= mostNamed && slices.ContainsFunc(h.Explained, func(s answers.Slip) bool {
				return s.FitsReceipt == e.Receipt && s.File == e.File && s.Line == e.Line && yearMistyped(s, h)
			})
		})
	})
}

// elsewhereSaid says which missing receipts stand on lines of other years, or may be those
// of lines without one, with a full stop behind; "" where none does.
func elsewhereSaid(lines []answers.ReceiptElsewhere, year int) string {
	var said []string
	for _, e := range lines {
		text := fmt.Sprintf("receipt %s stands on a line of %s (%s, line %d)", e.Receipt, DayIn(e.Date, year), fileName(e.File), e.Line)
		if e.Unnumbered {
			text = fmt.Sprintf("receipt %s may be that of %s of %s (%s, line %d), which has none", e.Receipt, BillName("", e.Kind), DayIn(e.Date, year), fileName(e.File), e.Line)
		}
		said = append(said, text)
	}
	if more := len(said) - someRuns; more > 0 {
		said = append(said[:someRuns], Counted(more, "more line of another year", "more lines of other years"))
	}
	if len(said) == 0 {
		return ""
	}
	return strings.Join(said, "; ") + "."
}

// runsSaid names the missing receipts of a numbering.
func runsSaid(missing []answers.ReceiptRun, all bool) string {
	var runs []string
	for i, run := range missing {
		if more := len(missing) - i; i == someRuns && more > 1 && !all {
			runs = append(runs, Counted(more, "more gap", "more gaps"))
			break
		}
		switch run.Count {
		case 1:
			runs = append(runs, run.From)
		case 2:
			runs = append(runs, run.From, run.To)
		default:
			runs = append(runs, run.From+" to "+run.To)
		}
	}
	if len(missing) == 1 && missing[0].Count == 1 {
		return "receipt " + runs[0]
	}
	return "receipts " + ListInWords(runs)
}

// LinesWithoutReceipt says how many of the club's lines name no receipt, where others
// do; "" where all do, or few.
func LinesWithoutReceipt(d answers.Year) string {
	r := d.Club.ReceiptLines
	if r == nil {
		return ""
	}
	return fmt.Sprintf("%d of %s of the club's costs and income %s no receipt", r.Without, Counted(r.Lines, "line", "lines"), PluralWord(r.Without, "has", "have"))
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
