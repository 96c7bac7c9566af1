package pages

import (
	"slices"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// addPanel adds what the grades say of the panel; nothing where there are too
// few judges or figures.
func (d *FlightData) addPanel(f *season.Flight) {
	check, ok := analysis.CheckPanel(f)
	if !ok {
		return
	}
	d.Scatter, d.Noise = report.Float(check.Scatter), report.Float(check.Noise)
	for _, judge := range check.Judges {
		j := slices.IndexFunc(d.Judges, func(data JudgeData) bool { return data.Name == judge.Name })
		if j < 0 {
			continue
		}
		d.Judges[j].Leniency, d.Judges[j].SE = report.Float(judge.Leniency), report.Float(judge.SE)
		if judge.N > 1 {
			d.Judges[j].Scatter = report.Float(judge.Scatter)
		}
	}
	for _, flag := range check.Flags {
		d.Flags = append(d.Flags, flagData(flag, false))
	}
	d.refit = check.Refit
}

// panelSection shows the judges' totals, and what the grades say of the panel.
func panelSection(d FlightData) report.Section {
	section := report.Section{Heading: "Judges", Blocks: []report.Block{judgeTable(d)}}
	notes := &report.Notes{}
	if d.Noise.Known() {
		addNote(notes, "noise: another panel of this size would change the percent by about %s by chance, one standard deviation; a grade scatters by %s",
			d.Noise.Text(1), d.Scatter.Text(gradeDecimals))
		addNote(notes, "leniency: grades above (+) or below (-) this panel; one pilot's sheets cannot tell a lenient judge from one who likes this pilot's flying")
	}
	notes.Items = append(notes.Items, flagNotes(d.Flags).Items...)
	if d.refit {
		addNote(notes, "leniency and scatter are worked out without the flagged grades; the score is not changed")
	}
	if len(notes.Items) > 0 {
		section.Blocks = append(section.Blocks, notes)
	}
	return section
}

// judgeTable has a row a judge with the judge's own total.
func judgeTable(d FlightData) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{{Title: "judge"}, {Title: "total", Align: report.Right}}}
	if d.Noise.Known() {
		t.Columns = append(t.Columns, report.Column{Title: "leniency", Align: report.Right},
			report.Column{Title: "give or take", Align: report.Right}, report.Column{Title: "scatter", Align: report.Right})
	}
	for _, j := range d.Judges {
		total := num(j.Total)
		if !j.Total.Known() {
			total = report.Text("open")
		}
		row := []report.Cell{report.Text(j.Name), total}
		if d.Noise.Known() {
			row = append(row, report.Signed(j.Leniency, gradeDecimals), report.Num(j.SE, gradeDecimals), report.Num(j.Scatter, gradeDecimals))
		}
		t.Rows = append(t.Rows, row)
	}
	for _, name := range d.Missing {
		row := make([]report.Cell, len(t.Columns))
		row[0], row[1] = report.Text(name), report.Text("missing")
		t.Rows = append(t.Rows, row)
	}
	return t
}
