package workbook

import (
	"fmt"
	"math/big"
	"strings"

	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season"
	"boxbook/season/analysis"
)

// elementRow is one element of one figure flown; a figure without elements is
// a row without a code.
type elementRow struct {
	flight  *season.Flight
	figure  value
	key     string // the figure's row on the sheet Grades
	at      int    // which row of its table that is, from 1
	code    string
	group   string
	k       *big.Rat
	allK    *big.Rat // of the figure's elements
	count   int      // elements of the figure
	own     *big.Rat // deduction noted on the element, in grades
	all     *big.Rat // deductions noted on elements of the figure
	first   bool     // the first of its group in the figure that weighs anything
	counted string   // the category in whose figures it counts, "" for none
	mean    *big.Rat
	figLost *big.Rat
	lost    *big.Rat
}

// noGroup is what has no family: not a family's name, so that no formula takes
// it for one.
const noGroup = answers.NoFamily

// familyTitle says a trend group by key and in words, as every page does. No
// formula can take it for a number, which "9.1" and "9.10" would be, the same.
func familyTitle(group string) string {
	name := words.GroupName(group)
	switch {
	case group == "":
		return noGroup
	case name == "" || strings.HasPrefix(name, group):
		return name
	}
	return group + " " + name
}

// figureKey names a row of Grades: no two are alike.
func figureKey(flight *season.Flight, figure value) string {
	name := figure.text
	if figure.numeric {
		name = fmt.Sprintf("figure %d", int(figure.number))
	}
	return flight.Name + " " + name
}

// gradeKey is the working column of Grades by which Elements finds a row.
var gradeKey = foldedAway([]column[gradeRow]{{
	key: "key", title: "row's name in formulas", look: lookText,
	value: func(g gradeRow) value { return text(figureKey(g.flight, g.figure)) },
}})

// flightCounted is the working column of Flights that says in which category's
// figures a flight counts: contest flights with marks and a percent.
var flightCounted = foldedAway([]column[flightRow]{{
	key: "counted", title: "counts for families of", look: lookText,
	formula: `IF(AND({counts}="yes",{rows}>0,ISNUMBER({record})),{category},"")`,
	value:   func(f flightRow) value { return text(f.counted()) },
}})

// counted is the category for whose families the flight counts.
func (f flightRow) counted() string {
	if f.counts() != countsYes || !f.marked() || f.line.Record.Percent == nil {
		return ""
	}
	return f.line.Flight.Category
}

// elementRows lists the elements of a flight that has rows on Grades, the first
// of which is that row of the table, from 1.
func elementRows(f flightRow, firstRow int) []elementRow {
	flight := f.line.Flight
	if !f.marked() {
		return nil
	}
	losses, charges := lossesByFigure(flight), flight.Charges()
	var rows []elementRow
	for i, index := range flight.Flown() {
		figure, line := flight.Sequence.Figures[index], f.score.Lines[i]
		of := elementRow{
			flight: flight, figure: integer(index + 1), at: firstRow + i, mean: line.Mean, figLost: line.Lost,
			k: new(big.Rat), allK: new(big.Rat), own: new(big.Rat), all: new(big.Rat), count: 1, group: noGroup,
		}
		of.key = figureKey(flight, of.figure)
		if line.Mean != nil {
			of.counted = f.counted()
		}
		if len(figure.Elements) == 0 {
			of.lost = line.Lost
			rows = append(rows, of)
			continue
		}
		rows = append(rows, of.elements(figure, deductionsOn(figure, index+1, charges), losses[index+1])...)
	}
	return rows
}

// elements makes a row of each of the figure's elements.
func (e elementRow) elements(figure season.Figure, deductions []*big.Rat, losses []analysis.ElementLoss) []elementRow {
	rows := make([]elementRow, len(figure.Elements))
	e.count = len(rows)
	for i, element := range figure.Elements {
		e.allK.Add(e.allK, element.ShareK())
		e.all.Add(e.all, deductions[i])
	}
	weighed := map[string]bool{}
	for i, element := range figure.Elements {
		row := e
		row.code, row.group, row.k, row.own = element.Code, familyTitle(element.Group), element.ShareK(), deductions[i]
		if row.k.Sign() > 0 && !weighed[row.group] {
			row.first, weighed[row.group] = true, true
		}
		if losses != nil {
			row.lost = losses[i].Lost
		}
		rows[i] = row
	}
	return rows
}

// lossesByFigure gives the parts of each decided figure's loss.
func lossesByFigure(f *season.Flight) map[int][]analysis.ElementLoss {
	found := map[int][]analysis.ElementLoss{}
	for _, figure := range analysis.LossesOf(f).Figures {
		found[figure.Number] = figure.Elements
	}
	return found
}

// deductionsOn is what the faults noted on each element of a figure take, in
// grades: elements of one code share by K, or evenly where they have none.
func deductionsOn(figure season.Figure, number int, charges []season.Charge) []*big.Rat {
	out := make([]*big.Rat, len(figure.Elements))
	for i := range out {
		out[i] = new(big.Rat)
	}
	for _, c := range charges {
		if c.Figure != number || c.Carried || c.Fault.On == "" {
			continue
		}
		k, count := new(big.Rat), int64(0)
		for _, e := range figure.Elements {
			if e.Code == c.Fault.On {
				k.Add(k, e.ShareK())
				count++
			}
		}
		for i, e := range figure.Elements {
			if e.Code != c.Fault.On {
				continue
			}
			part := big.NewRat(1, count)
			if k.Sign() > 0 {
				part.Quo(e.ShareK(), k)
			}
			out[i].Add(out[i], part.Mul(part, c.Deduction))
		}
	}
	return out
}

// noted reports whether any fault names an element of the figure.
func (e elementRow) noted() bool { return e.all.Sign() > 0 }

// charged is what the noted faults take of the element's points: at most the
// figure's whole loss.
func (e elementRow) charged() value {
	switch {
	case !e.noted():
		return integer(0)
	case e.figLost == nil:
		return value{}
	}
	points := new(big.Rat).Mul(e.all, e.figureK())
	part := new(big.Rat).Mul(e.own, e.figureK())
	if points.Cmp(e.figLost) > 0 {
		part = new(big.Rat).Quo(new(big.Rat).Mul(e.own, e.figLost), e.all)
	}
	return exact(part)
}

// figureK is the K of the whole figure.
func (e elementRow) figureK() *big.Rat {
	number := int(e.figure.number)
	return big.NewRat(int64(e.flight.FigureK(number)), 1)
}

// kTimesMean weighs the mean.
func (e elementRow) kTimesMean() value {
	if e.mean == nil {
		return value{}
	}
	return exact(new(big.Rat).Mul(e.k, e.mean))
}
