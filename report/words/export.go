package words

import (
	"fmt"
	"strings"
)

// MoneyTable is the name of the exported table that is the club's.
const MoneyTable = "money"

// ExportedTable is one of the tables that export writes: its name, what a row is,
// and its columns. Help, csv and JSON are made of it.
type ExportedTable struct {
	Name, Row string
	Columns   []ExportedColumn
}

// ExportedColumn is a column of an exported table: its name in csv and JSON, and
// what stands in it.
type ExportedColumn struct{ Name, Says string }

// ExportedTables are the tables that export writes, that of no word first.
var ExportedTables = []ExportedTable{
	{"marks", "a judge's mark of a figure, each time that it was flown", []ExportedColumn{
		{"flight", "the flight's name: DATE/PILOT/PROGRAMME"},
		{"date", "of the flight"},
		{"pilot", "who flew"},
		{"contest", "where; empty outside a contest"},
		{"category", "that was flown in; empty where not known"},
		{"programme", "known, free, unknown ... or practice"},
		{"figure", "number of the figure; positioning and harmony by name"},
		{"label", "the figure's label; empty where it has none"},
		{"k", "K of the figure"},
		{"codes", "of its elements, a space between them"},
		{"groups", "families of its elements, each once"},
		{"judge", "who gave the mark"},
		{"mark", "as given: 7.5, HZ, CHZ, PZ, AV, - (no mark)"},
		{"kind", "of the mark: grade, hard zero, not seen ..."},
		{"used", "the grade that counted; empty where undecided, dropped or void"},
		{"points", "k x used; a figure's points are the mean over its rows"},
		{"void", "true for a void flight"},
	}},
	{"flights", "a flight", []ExportedColumn{
		{"flight", "the flight's name: DATE/PILOT/PROGRAMME"},
		{"date", "of the flight"},
		{"pilot", "who flew"},
		{"contest", "where; empty outside a contest"},
		{"category", "that was flown in; empty where not known"},
		{"programme", "known, free, unknown ... or practice"},
		{"sequence", "that was flown; empty where not known"},
		{"points", "of the counted result: the official total, else the calculated one"},
		{"maximum", "of the counted result"},
		{"percent", "100 x points / maximum"},
		{"source", "official, or computed (calculated from the marks)"},
		{"official", "the total on the printed result; empty where not typed"},
		{"penalty", "sum of the penalties"},
		{"place", "in the programme; empty where not typed"},
		{"of", "how many flew it; empty where not typed"},
		{"void", "true for a void flight, which has no counted result"},
	}},
	{"elements", "an element of a decided figure", []ExportedColumn{
		{"flight", "the flight's name"},
		{"figure", "number of the figure"},
		{"code", "of the element; empty where only the figure's K is known"},
		{"group", "its family; empty where it belongs to none"},
		{"k", "K of the element; a part of the figure's where hints share it"},
		{"mean", "mean grade of the figure"},
		{"lost", "points that the element lost"},
	}},
	{"faults", "a fault as noted", []ExportedColumn{
		{"flight", "the flight's name"},
		{"figure", "number of the figure; empty for the flight as a whole"},
		{"kind", "of fault"},
		{"on", "code of the element; empty for the whole figure"},
		{"group", "family that it was noted on; empty where that is not known"},
		{"amount", "in units; of a ratio the first by the second, empty for 1:0"},
		{"unit", "deg, ratio, span, count or pt; empty without an amount"},
		{"times", "how often"},
		{"deduction", "in grades; empty where not known"},
		{"points", "deduction x K; empty where not known"},
		{"seen", "true where a judge would see it, false where it was felt"},
		{"counted", "false where another's note of the same fault counts instead"},
		{"at", "place in the video"},
		{"video", "in which that is"},
		{"by", "the coach who noted it; empty for the pilot"},
		{"remark", "as typed"},
	}},
	{"drills", "a drill", []ExportedColumn{
		{"pilot", "whose"},
		{"target", "the kind of fault or the family that it is on"},
		{"date", "on which it was set"},
		{"ended", "on which it was ended; empty while it is open"},
		{"seenBefore", "flights before it in which the target was noted"},
		{"before", "flights before it that could show the target"},
		{"seenSince", "flights since in which the target was noted"},
		{"since", "flights since that could show the target"},
		{"word", "fell or rose, may have fallen, cannot tell, too few to tell"},
	}},
	{MoneyTable, "what a line of money moves between two parties", []ExportedColumn{
		{"date", "of the line"},
		{"number", "of the line, by date; the shares of one cost have one number"},
		{"entry", "cost, income, settle or owed"},
		{"from", "who gave it: paid the cost, settled, is owed the older debt"},
		{"to", "who benefits: whom the share is for, was paid, owes the debt"},
		{"amount", "below 0 for a refund"},
		{"currency", "of the amount"},
		{"paid", "handed over for it, of a debt that was paid in another currency"},
		{"paidIn", "currency of what was handed over"},
		{"kind", "of the cost or the income"},
		{"contest", "that it belongs to; empty where to none"},
		{"for", "all that the line is for, with the numbers of their shares"},
		{"toClub", "true where the line says to club; with club in from it is billed"},
		{"receipt", "number of the slip"},
		{"remark", "as typed"},
		{"file", "of the ledger in which the line stands"},
		{"line", "in that file"},
	}},
}

// ExportedNames are the names of the tables.
func ExportedNames() []string {
	var names []string
	for _, t := range ExportedTables {
		names = append(names, t.Name)
	}
	return names
}

// ExportedTableNamed finds a table by its name.
func ExportedTableNamed(name string) (ExportedTable, bool) {
	for _, t := range ExportedTables {
		if t.Name == name {
			return t, true
		}
	}
	return ExportedTable{}, false
}

// Title is the table's name as a heading.
func (t ExportedTable) Title() string { return strings.ToUpper(t.Name[:1]) + t.Name[1:] }

// ExportHelp explains what export writes: every table with its columns.
func ExportHelp() string {
	var b strings.Builder
	b.WriteString(exportIntroduction)
	for _, t := range ExportedTables {
		fmt.Fprintf(&b, "\n\n%s: a row is %s", t.Name, t.Row)
		for _, c := range t.Columns {
			fmt.Fprintf(&b, "\n  %-10s  %s", c.Name, c.Says)
		}
	}
	return b.String()
}

const exportIntroduction = `Write one table for any other program, as csv or JSON. A column holds one type;
numbers are unrounded and ungrouped, dates are written 2026-05-17, yes and no as
TRUE and FALSE. What is not known is an empty cell, in JSON null or left out.
Codes and families are text even where they look like numbers: 9.10 is not 9.1.
The tables are marks (the default), flights, elements, faults, drills and money;
their columns are listed below.

PILOT, or $BOXBOOK_PILOT, narrows the table to one pilot; money heeds only PILOT
or --pilot. SELECTOR is the name of a flight or the beginning of it; all flights
if omitted. Drills and money belong to no flight: drills are chosen by pilot and
days, money by pilot, days and contest. In csv, text that a spreadsheet would
run as a formula gets an apostrophe in front. "boxbook import" reads the marks
of a flight back, except a flight in which a figure was flown several times.

The word of a drill says what is seen. In JSON, here and of the page, it is
worked for fell or rose and may have worked for may have fallen; neither says
that the drill was the cause.

A family's percent is 10 x the sum of k x mean over the sum of k of its
elements, over the contest flights of one category that are not void and have a
percent. A flight's points are the sum of its figures' points less the penalty,
where they are calculated. A balance is what a party gave (from) less what it
had (to), in each currency; income from outside has neither.

A page asked for as csv (season --format csv) is one table too, its main one,
with the headings of the page. Its rows are: season, flights; families,
families; faults, a kind and a family; drills, drills; plan, families to
practise; ready, gates; forecast, figures; flight, the lines of its sheet;
panel, judges; year, payments. Titles, sentences, notes, signs after numbers and
totals at the foot are left out; JSON has everything. A page that advises has a
last column "caution", filled in its first row. A page without a table has its
sentences as rows.`
