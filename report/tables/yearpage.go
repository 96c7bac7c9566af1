package tables

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/display"
	"boxbook/report/words"
)

// YearPeople has a row a person: their contests, places, their duties.
func YearPeople(d answers.Year) []report.Block {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: words.ColumnWho, Wrapped: true, Min: 12},
		{Title: words.ColumnContests, Align: report.Right},
		{Title: words.ColumnPlaces},
		{Title: words.ColumnDuties, Wrapped: true, Min: 16},
	}}
	for _, p := range d.Pilots {
		if p.Contests+p.Flights+len(p.Duties) > 0 {
			t.Rows = append(t.Rows, []report.Cell{
				report.Text(p.Name), CountCell(p.Contests), report.Text(words.PlacesSaid(p.Places)), report.Text(words.DutiesSaid(p.Duties)),
			})
		}
	}
	for _, p := range d.Others {
		if len(p.Duties) > 0 {
			t.Rows = append(t.Rows, []report.Cell{report.Text(p.Name), report.Empty(), report.Empty(), report.Text(words.DutiesSaid(p.Duties))})
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []report.Block{t}
}

// contestCost is what a contest cost everybody.
type contestCost struct {
	contest answers.ContestYear
	of      map[string][]answers.Sum // by party
}

// ContestCosts has a row a contest and currency, and a column a party that bears
// any of it; nothing where no contest cost anything.
func ContestCosts(d answers.Year) []report.Block {
	var spans []report.Block
	if said := words.ContestSpansSaid(d); len(said) > 0 {
		spans = append(spans, Notes(said))
	}
	costs, parties := contestCostsOf(d)
	if len(parties) == 0 {
		return spans
	}
	t := &report.Table{Key: 3, Columns: []report.Column{
		{Title: words.ColumnDay}, {Title: words.ColumnContest, Wrapped: true, Min: 16}, {Title: words.ColumnCurrency},
	}}
	for _, title := range partyTitles(costs, parties) {
		t.Columns = append(t.Columns, report.Column{Title: title, Align: report.Right})
	}
	t.Columns = append(t.Columns, report.Column{Title: words.ColumnAll, Align: report.Right})
	for _, c := range costs {
		for _, sum := range c.contest.Costs {
			row := []report.Cell{report.Text(words.DayIn(c.contest.Date, d.Year)), report.Text(c.contest.Name), report.Text(sum.Currency)}
			for _, party := range parties {
				row = append(row, amountIn(c.of[party], sum.Currency))
			}
			t.Rows = append(t.Rows, append(row, amountCell(sum.Amount)))
		}
	}
	return append([]report.Block{t}, spans...)
}

// namesFit is how long the names above the columns of amounts may be together, with
// the gaps between them, where the page is to stay within 80 columns.
const (
	namesFit  = 33
	columnGap = 2
)

// partyTitles are the titles of columns of parties: full names where they fit, else
// first names, and the names of the ledger where two share one.
func partyTitles(costs []contestCost, parties []string) []string {
	names := map[string]string{}
	for _, c := range costs {
		for _, p := range c.contest.Pilots {
			names[p.Pilot] = p.Name
		}
		for _, p := range c.contest.Others {
			names[p.Party] = words.PartyName(p.Name)
		}
	}
	full, first, seen, long := []string{}, []string{}, map[string]int{}, 0
	for _, party := range parties {
		name := names[party]
		short := name
		if party != answers.TheClub {
			short, _, _ = strings.Cut(name, " ")
		}
		full, first, long = append(full, name), append(first, short), long+display.Width(name)+columnGap
		seen[short]++
	}
	if long <= namesFit {
		return full
	}
	for i, short := range first {
		if seen[short] > 1 {
			first[i] = parties[i]
		}
	}
	return first
}

// contestCostsOf lists the contests that cost anything, who bears it, pilots
// first.
func contestCostsOf(d answers.Year) (costs []contestCost, parties []string) {
	var others []string
	for _, c := range d.Contests {
		cost := contestCost{c, map[string][]answers.Sum{}}
		for _, p := range c.Pilots {
			cost.of[p.Pilot] = p.Costs
		}
		for _, p := range c.Others {
			cost.of[p.Party] = p.Costs
			others = words.Once(others, p.Party)
		}
		costs = append(costs, cost)
	}
	for _, p := range d.Pilots {
		if slices.ContainsFunc(costs, func(c contestCost) bool { return len(c.of[p.Pilot]) > 0 }) {
			parties = append(parties, p.Pilot)
		}
	}
	return costs, append(parties, others...)
}

// spread has amounts of several currencies: a column each while they are few,
// else a row each, with the currency beside.
type spread struct{ currencies []string }

// fewCurrencies are as many as have a column each.
const fewCurrencies = 3

func (s spread) wide() bool { return len(s.currencies) <= fewCurrencies }

// columns are those of the amounts.
func (s spread) columns() []report.Column {
	if !s.wide() {
		return []report.Column{{Title: words.ColumnAmount, Align: report.Right}, {Title: words.ColumnCurrency}}
	}
	var columns []report.Column
	for _, currency := range s.currencies {
		columns = append(columns, report.Column{Title: currency, Align: report.Right})
	}
	return columns
}

// rows are the cells of amounts between those before and behind them, which stand
// in the first row alone.
func (s spread) rows(before []report.Cell, sums []answers.Sum, behind ...report.Cell) [][]report.Cell {
	return s.laid(amountCell, before, sums, behind)
}

// signed are rows of balances, with their signs.
func (s spread) signed(before []report.Cell, sums []answers.Sum, behind ...report.Cell) [][]report.Cell {
	return s.laid(balanceCell, before, sums, behind)
}

func (s spread) laid(cell func(answers.Amount) report.Cell, before []report.Cell, sums []answers.Sum, behind []report.Cell) [][]report.Cell {
	var rows [][]report.Cell
	switch {
	case len(sums) == 0:
	case s.wide():
		row := slices.Clone(before)
		for _, currency := range s.currencies {
			shown := report.Empty()
			if amount, ok := answers.SumIn(sums, currency); ok {
				shown = cell(amount)
			}
			row = append(row, shown)
		}
		rows = append(rows, append(row, behind...))
	default:
		for i, sum := range sums {
			row := append(slices.Clone(before), cell(sum.Amount), report.Text(sum.Currency))
			if i == 0 {
				row = append(row, behind...)
			}
			rows = append(rows, row)
		}
	}
	return rows
}

// currenciesOf are those of sums, by code.
func currenciesOf(sums []answers.Sum) []string {
	var all []string
	for _, s := range sums {
		all = words.Once(all, s.Currency)
	}
	slices.Sort(all)
	return all
}

// YearAmong is who pays whom among others than the club, and what the club pays:
// what stands in no other table of the page. Payments that are found in another
// way are all shown.
func YearAmong(d answers.Year) []report.Block {
	var shown []answers.Payment
	for _, p := range d.Settle {
		if p.ToName != "" || d.Pooled || d.SettleIn != "" {
			shown = append(shown, p)
		}
	}
	if len(shown) == 0 {
		return nil
	}
	var sums []answers.Sum
	for _, p := range shown {
		sums = append(sums, answers.Sum{Currency: p.Currency, Amount: p.Amount})
	}
	s := spread{currenciesOf(sums)}
	t := &report.Table{Key: 2, Columns: append([]report.Column{
		{Title: words.ColumnWhoPays, Wrapped: true, Min: 12}, {Title: words.ColumnWhom, Wrapped: true, Min: 12},
	}, s.columns()...)}
	for _, pair := range paymentPairs(shown) {
		before := []report.Cell{report.Text(words.PartyName(pair.FromName)), report.Text(words.PartyName(pair.ToName))}
		t.Rows = append(t.Rows, s.rows(before, pair.sums)...)
	}
	if len(d.Club.Owed) > 0 {
		t.Title = words.SomePayments(d)
	}
	if d.Pooled || d.SettleIn != "" || len(d.Unproven) > 0 {
		return []report.Block{t, YearPaymentNotes(d)}
	}
	return []report.Block{t}
}

// paymentPair is what one pays another, by currency.
type paymentPair struct {
	answers.Payment // the first of them
	sums            []answers.Sum
}

func paymentPairs(all []answers.Payment) []paymentPair {
	var pairs []paymentPair
	for _, p := range all {
		sum := answers.Sum{Currency: p.Currency, Amount: p.Amount}
		at := slices.IndexFunc(pairs, func(q paymentPair) bool { return q.From == p.From && q.To == p.To })
		if at < 0 {
			pairs = append(pairs, paymentPair{p, []answers.Sum{sum}})
			continue
		}
		pairs[at].sums = append(pairs[at].sums, sum)
	}
	return pairs
}

// side is the income or the costs of the club, in one currency.
type side struct {
	now, before []answers.KindSum
	income      bool
	budget      []answers.Budget
	total       []answers.Sum
	totalBefore []answers.Sum
}

// kinds are those of a currency, of the year, the year beside and the budget, what
// is most first.
func (s side) kinds(currency string) []string {
	kinds := kindsIn(slices.Concat(s.now, s.before), currency)
	for _, b := range s.budget {
		if b.Currency == currency {
			kinds = words.Once(kinds, b.Kind)
		}
	}
	worth := func(kind string) float64 {
		amount, _ := answers.KindIn(s.now, kind, currency)
		return amount.Number().Float64()
	}
	slices.SortFunc(kinds, func(a, b string) int { return cmp.Or(cmp.Compare(worth(b), worth(a)), strings.Compare(a, b)) })
	return kinds
}

// columns are a side's: kind, the year, the year beside and the budget where there
// are any.
func (s side) columns(d answers.Year, title string) []report.Column {
	columns := []report.Column{{Title: title, Wrapped: true, Min: 10, Names: true}, {Title: strconv.Itoa(d.Year), Align: report.Right}}
	if d.Beside != nil {
		columns = append(columns, report.Column{Title: strconv.Itoa(d.Beside.Year), Align: report.Right})
	}
	if len(s.budget) > 0 {
		columns = append(columns, report.Column{Title: words.ColumnBudgeted, Align: report.Right})
	}
	return columns
}

// cells are a kind's, as columns has them; empty ones where there is no kind.
func (s side) cells(d answers.Year, kind, currency string) []report.Cell {
	cells := []report.Cell{report.Text(words.KindSaid(kind)), amountOfKind(s.now, kind, currency)}
	if d.Beside != nil {
		cells = append(cells, amountOfKind(s.before, kind, currency))
	}
	if len(s.budget) > 0 {
		cells = append(cells, s.budgeted(d, kind, currency))
	}
	return cells
}

// budgeted is a kind's budget; where others of the currency have one and this kind, of
// which there is something, has none, it says so.
func (s side) budgeted(d answers.Year, kind, currency string) report.Cell {
	for _, b := range s.budget {
		if b.Kind == kind && b.Currency == currency {
			return amountCell(b.Amount).Marked(words.OverMark(d, b))
		}
	}
	_, some := answers.KindIn(s.now, kind, currency)
	if some && slices.ContainsFunc(s.budget, func(b answers.Budget) bool { return b.Currency == currency }) {
		return report.Text(words.NoBudget)
	}
	return report.Empty()
}

// totals are the cells of the side's sums.
func (s side) totals(d answers.Year, currency string) []report.Cell {
	cells := []report.Cell{report.Text(words.ColumnAll), amountIn(s.total, currency)}
	if d.Beside != nil {
		cells = append(cells, amountIn(s.totalBefore, currency))
	}
	if len(s.budget) > 0 {
		cells = append(cells, budgetInAll(d, s.income, currency))
	}
	return cells
}

// budgetInAll is the sum of a side's budget, marked as the sum beside it is more or less.
func budgetInAll(d answers.Year, income bool, currency string) report.Cell {
	all, found := d.Club.BudgetInAll(income, currency)
	if !found {
		return report.Empty()
	}
	return amountCell(all.Amount).Marked(words.OverMark(d, all))
}

// IncomeAndCosts has the club's income by kind beside its costs by kind, each
// beside the other year and the budget; nothing where there is none of either.
func IncomeAndCosts(d answers.Year) []report.Block {
	income := side{income: true, now: d.Club.Income, total: d.Club.IncomeTotals}
	costs := side{now: d.Club.Costs, total: d.Club.CostTotals}
	if d.Beside != nil {
		income.before, income.totalBefore = d.Beside.Club.Income, d.Beside.Club.IncomeTotals
		costs.before, costs.totalBefore = d.Beside.Club.Costs, d.Beside.Club.CostTotals
	}
	for _, b := range d.Club.Budget {
		if b.Income {
			income.budget = append(income.budget, b)
		} else {
			costs.budget = append(costs.budget, b)
		}
	}
	t := bothSides(d, income, costs)
	if len(t.Rows) == 0 {
		return nil
	}
	return []report.Block{t}
}

// bothSides lays income and costs side by side, one currency beneath the other.
func bothSides(d answers.Year, income, costs side) *report.Table {
	currencies := currenciesOf(slices.Concat(income.total, costs.total, income.totalBefore, costs.totalBefore, budgetSums(d)))
	t := &report.Table{}
	if len(currencies) > 1 {
		t.Key, t.Columns = 1, []report.Column{{Title: words.ColumnCurrency}}
	}
	t.Columns = slices.Concat(t.Columns, income.columns(d, words.ColumnIncome), costs.columns(d, words.ColumnCosts))
	for _, currency := range currencies {
		in, out := income.kinds(currency), costs.kinds(currency)
		var lead []report.Cell
		if len(currencies) > 1 {
			lead = []report.Cell{report.Text(currency)}
		}
		for i := range max(len(in), len(out)) {
			t.Rows = append(t.Rows, slices.Concat(lead, income.cells(d, kindAt(in, i), currency), costs.cells(d, kindAt(out, i), currency)))
		}
		t.Footer = append(t.Footer, slices.Concat(lead, income.totals(d, currency), costs.totals(d, currency)))
	}
	return t
}

func budgetSums(d answers.Year) []answers.Sum {
	var sums []answers.Sum
	for _, b := range d.Club.Budget {
		sums = append(sums, answers.Sum{Currency: b.Currency, Amount: b.Amount})
	}
	return sums
}

// kindAt is a kind of a list, "" behind its end.
func kindAt(kinds []string, i int) string {
	if i < len(kinds) {
		return kinds[i]
	}
	return ""
}

// YearAlso is what else a treasurer should know: slips that are missing, and on
// the first page what is not counted.
func YearAlso(d answers.Year, whole bool) []report.Block {
	notes := &report.Notes{}
	if missing := words.ReceiptsMissing(d, true); whole && missing != "" {
		AddNote(notes, "%s", missing)
	}
	if without := words.LinesWithoutReceipt(d); whole && without != "" {
		AddNote(notes, "%s", without)
	}
	if d.Later > 0 && !whole {
		AddNote(notes, "%s", words.LaterMoney(d))
	}
	if d.Loose > 0 && !whole {
		AddNote(notes, "%s", words.LooseFlights(d.Loose))
	}
	if len(notes.Items) == 0 {
		return nil
	}
	return []report.Block{notes}
}

// InHandNotes say that pots are compared together, and list what would explain each
// count where several lines would, or a later count shows that it is wrong itself.
func InHandNotes(d answers.Year) []report.Block {
	notes := &report.Notes{}
	if slices.ContainsFunc(d.Club.InHand, func(h answers.InHand) bool { return h.Joined }) {
		AddNote(notes, "%s", words.PotsExplained)
	}
	for _, h := range d.Club.InHand {
		if len(h.Explained)+len(h.Untyped) > 1 || h.AgreesLater != "" {
			AddNote(notes, "%s", words.AnyOf(h, d.Year))
		}
	}
	if len(notes.Items) == 0 {
		return nil
	}
	return []report.Block{notes}
}
