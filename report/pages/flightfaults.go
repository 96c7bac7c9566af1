package pages

import (
	"fmt"
	"math/big"

	"boxbook/report"
	"boxbook/season"
)

// FaultData is one fault line of a flight, in JSON. Figure is absent for the
// flight as a whole; Deduction is in grades, absent where it is not known.
// Counted is false where another observer's note of the same fault counts in
// its place.
type FaultData struct {
	Figure    int           `json:"figure,omitempty"`
	Kind      string        `json:"kind"`
	Amount    string        `json:"amount,omitempty"`
	On        string        `json:"on,omitempty"`
	Deduction report.Number `json:"deduction,omitzero"`
	Seen      bool          `json:"seen"`
	By        string        `json:"by,omitempty"`
	Remark    string        `json:"remark,omitempty"`
	Counted   bool          `json:"counted"`

	graded bool // a judge takes points for it
	next   bool // and the same from the following figure
}

// ExpectedData is the grade that the seen faults should have left of a figure,
// and the panel's mean, absent where there is none.
type ExpectedData struct {
	Figure   int           `json:"figure"`
	Expected report.Number `json:"expected"`
	Given    report.Number `json:"given,omitzero"`

	label    string
	less     *big.Rat // expected less given, nil where it says nothing
	unpriced bool
	zeroed   bool
}

// faultData lists a flight's fault lines as typed.
func faultData(f *season.Flight) []FaultData {
	faults := []FaultData{}
	for _, fault := range f.Faults {
		data := FaultData{
			Figure: fault.Figure, Kind: fault.Kind.Name, Amount: fault.Amount.Text, On: fault.On,
			Deduction: report.Exact(fault.Deduction()), Seen: !fault.Felt, Remark: fault.Remark,
			graded: !fault.Felt && !fault.Safety && fault.Figure > 0,
		}
		data.next = data.graded && fault.Kind.Next
		if fault.By != nil {
			data.By = fault.By.Handle
		}
		faults = append(faults, data)
	}
	for _, n := range f.Noted() {
		for _, line := range n.Lines {
			faults[line].Counted = true
		}
	}
	return faults
}

// expectedData lists the figures with seen faults.
func expectedData(f *season.Flight) []ExpectedData {
	grades := []ExpectedData{}
	for _, g := range f.ExpectedGrades() {
		data := ExpectedData{
			Figure: g.Figure, Expected: report.Exact(g.Expected), Given: report.Exact(g.Given), unpriced: g.Unpriced, zeroed: g.Zeroed,
		}
		if f.FigureK(g.Figure) > 0 {
			data.label = f.Sequence.Figures[g.Figure-1].Label
		}
		if g.Given != nil && !g.Unpriced {
			data.less = new(big.Rat).Sub(g.Expected, g.Given)
		}
		grades = append(grades, data)
	}
	return grades
}

// The signs behind a deduction, explained beneath the table.
const (
	doubledSign = "="
	nextSign    = "+"
	unknownSign = "?"
)

// faultSections are the section on a flight's faults; none where it has none.
func faultSections(faults []FaultData, expected []ExpectedData) []report.Section {
	if len(faults) == 0 {
		return nil
	}
	var blocks []report.Block
	if text := expectedSentence(expected); text != "" {
		blocks = append(blocks, &report.Paragraph{Text: text})
	}
	blocks = append(blocks, faultTable(faults))
	if len(expected) > 0 {
		blocks = append(blocks, expectedTable(expected))
	}
	return []report.Section{{Heading: "Faults", Blocks: append(blocks, faultNotes(faults, expected))}}
}

// expectedSentence compares expected and given grades over the flight.
func expectedSentence(expected []ExpectedData) string {
	sum, n := new(big.Rat), 0
	for _, e := range expected {
		if e.less != nil {
			sum.Add(sum, e.less)
			n++
		}
	}
	if n == 0 {
		return ""
	}
	mean := sum.Mul(sum, big.NewRat(1, int64(n)))
	text := fmt.Sprintf("on %s with faults the expected grade is", season.Counted(n, "figure", "figures"))
	size := report.Exact(new(big.Rat).Abs(mean)).Text(meanDecimals)
	switch {
	case size == report.Int(0).Text(meanDecimals):
		text += " that of the panel"
	case mean.Sign() > 0:
		text += fmt.Sprintf(" %s above the panel's", size)
	default:
		text += fmt.Sprintf(" %s below the panel's", size)
	}
	if n > 1 {
		text += " on average"
	}
	return text
}

// faultTable has a row a fault line.
func faultTable(faults []FaultData) *report.Table {
	t := &report.Table{Key: 2, Columns: []report.Column{
		{Title: "fig", Align: report.Right},
		{Title: "fault", Flexible: true, Min: 10},
		{Title: "amount", Align: report.Right},
		{Title: "on", Drop: 2},
		{Title: "costs", Align: report.Right},
		{Title: "noted"},
		{Title: "by", Drop: 1},
	}}
	for _, f := range faults {
		figure, costs, noted := report.Text("-"), report.Num(f.Deduction, meanDecimals), "seen"
		if f.Figure > 0 {
			figure = countCell(f.Figure)
		}
		switch {
		case !f.graded:
			costs = report.Empty()
		case !f.Deduction.Known():
			costs = report.Text(unknownSign)
		case !f.Counted:
			costs = costs.Toned(report.Faint).Marked(doubledSign)
		case f.next:
			costs = costs.Marked(nextSign)
		}
		if !f.Seen {
			noted = "felt"
		}
		t.Rows = append(t.Rows, []report.Cell{
			figure, report.Text(f.Kind), report.Text(f.Amount), report.Text(f.On), costs, report.Text(noted), report.Text(f.By),
		})
	}
	return t
}

// where says what a fault was noted on: "figure 2, line-angle".
func (f FaultData) where() string {
	if f.Figure == 0 {
		return "whole flight, " + f.Kind
	}
	return fmt.Sprintf("figure %d, %s", f.Figure, f.Kind)
}

// expectedTable has a row a figure with seen faults.
func expectedTable(expected []ExpectedData) *report.Table {
	t := &report.Table{Title: "expected against given", Key: 2, Columns: []report.Column{
		{Title: "fig", Align: report.Right},
		{Title: "figure", Flexible: true, Min: 10},
		{Title: "expected", Align: report.Right},
		{Title: "given", Align: report.Right},
		{Title: "difference", Align: report.Right},
	}}
	for _, e := range expected {
		want := report.Num(e.Expected, meanDecimals)
		if e.unpriced {
			want = want.Marked(unknownSign)
		}
		t.Rows = append(t.Rows, []report.Cell{
			countCell(e.Figure), report.Text(e.label), want,
			report.Num(e.Given, meanDecimals), report.Signed(report.Exact(e.less), meanDecimals),
		})
	}
	return t
}

// faultNotes explain the signs that stand in the tables, give the remarks, and
// say what expected is.
func faultNotes(faults []FaultData, expected []ExpectedData) *report.Notes {
	var signs, plain []report.Note
	doubled, next, unknown, zeroed := false, false, false, false
	for _, f := range faults {
		doubled = doubled || f.graded && !f.Counted && f.Deduction.Known()
		next = next || f.next && f.Counted && f.Deduction.Known()
	}
	for _, e := range expected {
		unknown, zeroed = unknown || e.unpriced, zeroed || e.zeroed
	}
	if doubled {
		signs = append(signs, report.Note{Mark: doubledSign, Text: "noted by another observer too: the larger counts, once"})
	}
	if next {
		signs = append(signs, report.Note{Mark: nextSign, Text: "costs the following figure the same"})
	}
	if unknown {
		signs = append(signs, report.Note{Mark: unknownSign, Text: "at the most: a fault on it has no amount, and its kind no price without one"})
	}
	for _, f := range faults {
		if f.Remark != "" {
			plain = append(plain, report.Note{Text: f.where() + ": " + f.Remark})
		}
	}
	if len(expected) > 0 {
		plain = append(plain, report.Note{Text: "expected: 10 less the seen faults, 0.0 at the least; given: the panel's mean; difference: expected less given"})
	}
	if zeroed {
		plain = append(plain, report.Note{Text: "a figure made 0 as a matter of fact is no grade for faults"})
	}
	return &report.Notes{Items: append(signs, plain...)}
}
