package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// FaultTable has a row a fault line.
func FaultTable(faults []answers.Fault) *report.Table {
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
		figure, costs, noted := report.Text("-"), report.Num(f.Deduction, words.MeanDecimals), "seen"
		if f.Figure > 0 {
			figure = CountCell(f.Figure)
		}
		switch {
		case !f.Graded:
			costs = report.Empty()
		case !f.Deduction.Known():
			costs = report.Text(words.UnknownSign)
		case !f.Counted:
			costs = costs.Toned(report.Faint).Marked(words.DoubledSign)
		case f.Next:
			costs = costs.Marked(words.NextSign)
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

// ExpectedTable has a row a figure with seen faults.
func ExpectedTable(expected []answers.Expected) *report.Table {
	t := &report.Table{Title: "expected against given", Key: 2, Columns: []report.Column{
		{Title: "fig", Align: report.Right},
		{Title: "figure", Flexible: true, Min: 10},
		{Title: "expected", Align: report.Right},
		{Title: "given", Align: report.Right},
		{Title: "difference", Align: report.Right},
	}}
	for _, e := range expected {
		want := report.Num(e.Expected, words.MeanDecimals)
		if e.Unpriced {
			want = want.Marked(words.UnknownSign)
		}
		t.Rows = append(t.Rows, []report.Cell{
			CountCell(e.Figure), report.Text(e.Label), want,
			report.Num(e.Given, words.MeanDecimals), report.Signed(e.Difference, words.MeanDecimals),
		})
	}
	return t
}

// FaultNotes explain the signs that stand in the tables, give the remarks, and
// say what expected is.
func FaultNotes(faults []answers.Fault, expected []answers.Expected) *report.Notes {
	var signs, plain []report.Note
	doubled, next, unknown, zeroed := false, false, false, false
	for _, f := range faults {
		doubled = doubled || f.Graded && !f.Counted && f.Deduction.Known()
		next = next || f.Next && f.Counted && f.Deduction.Known()
	}
	for _, e := range expected {
		unknown, zeroed = unknown || e.Unpriced, zeroed || e.Zeroed
	}
	if doubled {
		signs = append(signs, report.Note{Mark: words.DoubledSign, Text: "noted by another observer too: the larger counts, once"})
	}
	if next {
		signs = append(signs, report.Note{Mark: words.NextSign, Text: "costs the following figure the same"})
	}
	if unknown {
		signs = append(signs, report.Note{Mark: words.UnknownSign, Text: "at the most: a fault on it has no amount, and its kind no price without one"})
	}
	for _, f := range faults {
		if f.Remark != "" {
			plain = append(plain, report.Note{Text: words.Where(f) + ": " + f.Remark})
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
