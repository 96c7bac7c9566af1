package pages

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/season"
)

// yearDocument is the page for people: one thought first, then what it rests
// on.
func yearDocument(d YearData) report.Document {
	doc := report.Document{Title: fmt.Sprintf("Year %d", d.Year), Data: d}
	add := func(heading string, blocks ...report.Block) {
		if len(blocks) > 0 {
			doc.Sections = append(doc.Sections, report.Section{Heading: heading, Blocks: blocks})
		}
	}
	add("", &report.Paragraph{Text: yearThought(d)})
	add("Pilots", yearPilots(d)...)
	add("Money", yearMoney(d)...)
	if len(d.Contests) > 0 {
		add("Contests", yearContests(d)...)
	}
	if len(d.Categories) > 0 {
		add("Categories", yearCategoryTable(d))
	}
	if len(d.Settle) > 0 {
		add("Payments", yearPaymentTable(d), yearPaymentNotes(d))
	}
	return doc
}

// saidPayments is up to how many payments the first sentence names.
const saidPayments = 3

// yearThought says in a sentence who owes whom.
func yearThought(d YearData) string {
	nothing, open := fmt.Sprintf("Nothing in %d", d.Year), len(d.Settle) > 0
	switch {
	case d.quiet && !open:
		return nothing + "."
	case d.quiet:
		return nothing + "; as before, " + owing(d) + "."
	case !open && len(accountCurrencies(d)) == 0:
		return fmt.Sprintf("No money was written down in %d.", d.Year)
	case !open:
		return fmt.Sprintf("At the close of %d everybody is even.", d.Year)
	default:
		return fmt.Sprintf("At the close of %d %s.", d.Year, owing(d))
	}
}

// owing says who owes whom: each payment where they are few, else a sum for
// each currency.
func owing(d YearData) string {
	var debts []string
	if len(d.Settle) <= saidPayments {
		for _, p := range d.Settle {
			debts = append(debts, owingIn([]PaymentData{p}))
		}
		return listInWords(debts)
	}
	for i := 0; i < len(d.Settle); {
		first := i
		for i < len(d.Settle) && d.Settle[i].Currency == d.Settle[first].Currency {
			i++
		}
		debts = append(debts, owingIn(d.Settle[first:i]))
	}
	return fmt.Sprintf("%s: %d payments settle it, at the foot", listInWords(debts), len(d.Settle))
}

// owingIn sums payments of one currency: "a owes b 5.00 EUR".
func owingIn(payments []PaymentData) string {
	var from, to []string
	var sum amountSum
	for _, p := range payments {
		from, to = addName(from, p.fromName), addName(to, p.toName)
		sum.add(p.Amount)
	}
	return fmt.Sprintf("%s %s %s %s %s", people(from), pluralWord(len(from), "owes", "owe"), people(to), sum.text(), payments[0].Currency)
}

func addName(names []string, name string) []string {
	if slices.Contains(names, name) {
		return names
	}
	return append(names, name)
}

// people names people, or counts them where they are many.
func people(names []string) string {
	const most = 4
	if len(names) > most {
		return fmt.Sprintf("%d people", len(names))
	}
	return listInWords(names)
}

// listInWords joins a list: "a", "a and b", "a, b and c".
func listInWords(items []string) string {
	last := len(items) - 1
	if last < 1 {
		return strings.Join(items, "")
	}
	return strings.Join(items[:last], ", ") + " and " + items[last]
}

// yearPilots is who flew what, and who did which duties.
func yearPilots(d YearData) []report.Block {
	var blocks []report.Block
	if pilots := yearPilotTable(d); len(pilots.Rows) > 0 {
		blocks = append(blocks, pilots, yearPilotNotes(d))
	}
	if duties := dutyTable(d); len(duties.Rows) > 0 {
		blocks = append(blocks, duties)
	}
	return blocks
}

// yearPilotTable lists those who flew or had a result.
func yearPilotTable(d YearData) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: "pilot", Flexible: true, Min: 12},
		{Title: "contests", Align: report.Right},
		{Title: "flights", Align: report.Right},
		{Title: "best", Align: report.Right},
		{Title: "mean", Align: report.Right},
		{Title: "1st", Align: report.Right},
		{Title: "2nd", Align: report.Right},
		{Title: "3rd", Align: report.Right},
	}}
	for _, p := range d.Pilots {
		if p.Contests+p.Flights+p.Practice == 0 {
			continue // duties or money alone
		}
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(p.name), countCell(p.Contests), countCell(p.Flights),
			report.Num(p.Best, percentDecimals), report.Num(p.Mean, percentDecimals),
			countCell(p.Places["1"]), countCell(p.Places["2"]), countCell(p.Places["3"]),
		})
	}
	return t
}

// dutyTable has a row a pilot and a column a role.
func dutyTable(d YearData) *report.Table {
	var roles []string
	for _, p := range d.Pilots {
		for role := range p.Duties {
			roles = addName(roles, role)
		}
	}
	slices.Sort(roles)
	t := &report.Table{Title: "duties, in sessions", Key: 1, Columns: []report.Column{{Title: "pilot", Flexible: true, Min: 12}}}
	for _, role := range roles {
		t.Columns = append(t.Columns, report.Column{Title: role, Align: report.Right})
	}
	for _, p := range d.Pilots {
		if len(p.Duties) == 0 {
			continue
		}
		row := []report.Cell{report.Text(p.name)}
		for _, role := range roles {
			cell := report.Empty()
			if sessions := p.Duties[role]; sessions > 0 {
				cell = countCell(sessions)
			}
			row = append(row, cell)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func yearPilotNotes(d YearData) *report.Notes {
	notes := &report.Notes{}
	flown, practice := false, 0
	for _, p := range d.Pilots {
		flown, practice = flown || p.Contests+p.Flights > 0, practice+p.Practice
	}
	if flown {
		addNote(notes, "best and mean: percent over the contest flights; places: of contests' overall results")
	}
	if practice > 0 {
		addNote(notes, "%s beside the contest flights", season.Counted(practice, "practice flight", "practice flights"))
	}
	if d.loose > 0 {
		addNote(notes, "%s no contest and %s in no count of contests", season.Counted(d.loose, "contest flight names", "contest flights name"), pluralWord(d.loose, "is", "are"))
	}
	return notes
}

func yearContests(d YearData) []report.Block {
	blocks := []report.Block{yearContestTable(d)}
	results := &report.Table{Title: "results as printed", Key: 2, Columns: []report.Column{
		{Title: "contest", Flexible: true, Min: 16},
		{Title: "pilot", Flexible: true, Min: 12},
		{Title: "result", Align: report.Right},
		{Title: "place", Align: report.Right},
	}}
	for _, c := range d.Contests {
		for _, r := range c.Results {
			results.Rows = append(results.Rows, []report.Cell{report.Text(c.name), report.Text(r.name), report.Text(r.printed), placeCell(r.Place, r.Of)})
		}
	}
	if len(results.Rows) > 0 {
		blocks = append(blocks, results)
	}
	return append(blocks, &report.Notes{Items: []report.Note{
		{Text: fmt.Sprintf("contests that began in %d; entries: pilots with a flight or a result; costs: all that stand with the contest", d.Year)},
	}})
}

// yearContestTable has a column of costs for every currency of them.
func yearContestTable(d YearData) *report.Table {
	t := &report.Table{Key: 2, Columns: []report.Column{
		{Title: "date"},
		{Title: "contest", Flexible: true, Min: 16},
		{Title: "entries", Align: report.Right},
		{Title: "flights", Align: report.Right},
	}}
	var currencies []string
	for _, c := range d.Contests {
		for _, cost := range c.Costs {
			currencies = addName(currencies, cost.Currency)
		}
	}
	slices.Sort(currencies)
	for _, currency := range currencies {
		t.Columns = append(t.Columns, report.Column{Title: "costs " + currency, Align: report.Right})
	}
	for _, c := range d.Contests {
		row := []report.Cell{report.Text(c.Date), report.Text(c.name), countCell(c.Entries), countCell(c.Flights)}
		for _, currency := range currencies {
			row = append(row, amountIn(c.Costs, currency))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// amountIn shows the amount of a currency, nothing where there is none.
func amountIn(amounts []AmountData, currency string) report.Cell {
	for _, a := range amounts {
		if a.Currency == currency {
			return amountCell(a.Amount)
		}
	}
	return report.Empty()
}

// amountCell shows a decimal string as the number that it is.
func amountCell(text string) report.Cell {
	value, decimals := parseAmount(text)
	return report.Num(report.Exact(value), decimals)
}

// balanceCell shows a balance with its sign.
func balanceCell(text string) report.Cell {
	value, decimals := parseAmount(text)
	return report.Signed(report.Exact(value), decimals)
}

// parseAmount reads a decimal string back; it is one of this package's own.
func parseAmount(text string) (*big.Rat, int) {
	value, _ := new(big.Rat).SetString(text)
	_, fraction, _ := strings.Cut(text, ".")
	return value, len(fraction)
}

func yearCategoryTable(d YearData) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: "category", Flexible: true, Min: 12},
		{Title: "entries", Align: report.Right},
		{Title: "flights", Align: report.Right},
		{Title: "best", Align: report.Right},
		{Title: "mean", Align: report.Right},
	}}
	for _, c := range d.Categories {
		name := report.Text(c.Category)
		if c.Category == "" {
			name = report.Text("not known")
		}
		t.Rows = append(t.Rows, []report.Cell{
			name, countCell(c.Entries), countCell(c.Flights), report.Num(c.Best, percentDecimals), report.Num(c.Mean, percentDecimals),
		})
	}
	return t
}

func yearPaymentTable(d YearData) *report.Table {
	t := &report.Table{Key: 2, Columns: []report.Column{
		{Title: "who pays", Flexible: true, Min: 12},
		{Title: "whom", Flexible: true, Min: 12},
		{Title: "amount", Align: report.Right},
		{Title: "currency"},
	}}
	for _, p := range d.Settle {
		t.Rows = append(t.Rows, []report.Cell{report.Text(p.fromName), report.Text(p.toName), amountCell(p.Amount), report.Text(p.Currency)})
	}
	return t
}

func yearPaymentNotes(d YearData) *report.Notes {
	text := "the fewest payments that bring every closing balance to zero"
	if len(d.Unproven) > 0 {
		text = fmt.Sprintf("payments that bring every closing balance to zero; in %s fewer might do, with so many people", listInWords(d.Unproven))
	}
	return &report.Notes{Items: []report.Note{{Text: text}}}
}
