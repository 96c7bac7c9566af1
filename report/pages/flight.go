package pages

import (
	"fmt"
	"strings"

	"boxbook/report"
	"boxbook/scoring"
	"boxbook/season"
)

// The marks that stand behind a judge's mark, explained beneath the table.
const (
	filledSign    = "*"
	overruledSign = "^"
	droppedSign   = "~"
)

// FlightOptions say what else a score sheet shows.
type FlightOptions struct {
	Rules bool // the rule style in words
	Brief bool // the sheet, the score and the official total alone
}

// Flight is the score sheet of one flight.
func Flight(f *season.Flight, o FlightOptions) report.Document {
	d := flightData(f)
	doc := report.Document{Title: flightTitle(f, d), Subtitle: flightSubtitle(f, d), Data: d}
	marked := f.HasMarks()
	if marked {
		doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{sheetTable(d), sheetNotes(f, d)}})
	}
	doc.Sections = append(doc.Sections, report.Section{Heading: "Score", Blocks: []report.Block{scoreFacts(d), scoreNotes(d)}})
	if f.Void == nil {
		doc.Sections = append(doc.Sections, officialSection(d)...)
	}
	if o.Brief {
		return doc
	}
	if marked {
		doc.Sections = append(doc.Sections, panelSection(d))
		doc.Sections = append(doc.Sections, lostSections(d.Lost)...)
	}
	doc.Sections = append(doc.Sections, faultSections(d.Faults, d.Expected)...)
	if o.Rules && f.Style != nil {
		doc.Sections = append(doc.Sections, rulesSection(f))
	}
	return doc
}

func flightTitle(f *season.Flight, d FlightData) string {
	title := fmt.Sprintf("%s, %s, %s", f.Pilot.Name, f.Programme, d.Date)
	if f.Label != 1 {
		title += fmt.Sprintf(", flight %d", f.Label)
	}
	if f.Void != nil {
		title += " (void: " + d.Void + ")"
	}
	return title
}

// flightSubtitle says where the flight was flown, and by what rules.
func flightSubtitle(f *season.Flight, d FlightData) string {
	var parts []string
	if f.Contest != nil {
		parts = append(parts, f.Contest.Name)
	}
	for _, part := range []string{d.Category, d.Sequence, f.Aircraft} {
		if part != "" {
			parts = append(parts, part)
		}
	}
	if len(d.Figures) > 0 {
		rules := "rules " + d.Rules
		if f.StyleDefault {
			rules += " (default)"
		}
		parts = append(parts, rules)
	}
	return strings.Join(parts, " · ")
}

// sheetTable has a row a figure and a column a judge.
func sheetTable(d FlightData) *report.Table {
	t := &report.Table{Key: 2, Columns: []report.Column{
		{Title: "fig", Align: report.Right},
		{Title: "figure", Flexible: true, Min: 10},
		{Title: "K", Align: report.Right},
	}}
	for _, name := range d.Panel {
		t.Columns = append(t.Columns, report.Column{Title: name, Align: report.Right})
	}
	for _, title := range []string{"mean", "points", "lost"} {
		t.Columns = append(t.Columns, report.Column{Title: title, Align: report.Right})
	}
	for _, figure := range d.Figures {
		t.Rows = append(t.Rows, sheetRow(report.Int(int64(figure.Number)), figureLabel(figure), figure.LineData))
	}
	if d.Positioning != nil {
		t.Rows = append(t.Rows, sheetRow(report.Number{}, "positioning", *d.Positioning))
	}
	if d.Harmony != nil {
		t.Rows = append(t.Rows, sheetRow(report.Number{}, "harmony", *d.Harmony))
	}
	return t
}

// figureLabel is the figure's label, or its codes where it has none.
func figureLabel(f FigureData) string {
	if f.Label != "" {
		return f.Label
	}
	codes := make([]string, len(f.Elements))
	for i, e := range f.Elements {
		codes[i] = e.Code
	}
	return strings.Join(codes, " ")
}

func sheetRow(number report.Number, label string, line LineData) []report.Cell {
	row := []report.Cell{report.Num(number, 0), report.Text(label), countCell(line.K)}
	signs := [...]string{asMarked: "", filledMark: filledSign, overruledMark: overruledSign, droppedMark: droppedSign}
	for j, mark := range line.Marks {
		row = append(row, markCell(mark, line.flags[j]).Marked(signs[line.flags[j]]))
	}
	mean, points, lost := report.Num(line.Mean, meanDecimals), num(line.Points), num(line.Lost)
	if line.Ruling == string(scoring.Undecided) {
		mean = report.Text("open").Toned(report.Bad)
	}
	return append(row, mean, points, lost)
}

// markCell shows a mark; what did not count as it stands is faint, a hard zero
// stands out.
func markCell(mark string, flag markFlag) report.Cell {
	cell := report.Text(mark)
	switch {
	case mark == "HZ" || mark == "CHZ" || mark == "PZ":
		return cell.Toned(report.Bad)
	case flag != asMarked:
		return cell.Toned(report.Faint)
	default:
		return cell
	}
}

// scoreFacts goes from raw points to the record.
func scoreFacts(d FlightData) *report.Facts {
	facts := &report.Facts{}
	if d.Raw.Known() {
		addFact(facts, "raw", num(d.Raw))
	}
	for _, p := range d.Penalties {
		addFact(facts, "penalty, "+p.Kind, num(p.Points))
	}
	switch {
	case d.Points.Known():
		addFact(facts, "points", num(d.Points).Toned(report.Strong))
		addFact(facts, "maximum", report.Num(d.Maximum, 0))
		addFact(facts, "percent", report.Num(d.Percent, percentDecimals).Toned(report.Strong))
	case d.Range != nil:
		addFact(facts, "points, at the least", num(d.Range.Low))
		addFact(facts, "points, at the most", num(d.Range.High))
		addFact(facts, "maximum", report.Num(d.Maximum, 0))
	}
	if o := d.Official; o != nil {
		addFact(facts, "official", num(o.Points))
		if o.Maximum.Known() && !d.Maximum.Known() {
			addFact(facts, "official maximum", report.Num(o.Maximum, 0))
		}
		if o.Difference.Known() && !*o.Agrees {
			addFact(facts, "official less own", report.Signed(o.Difference, pointDecimals))
		}
	}
	if d.Record != nil && d.Record.Percent.Text(percentDecimals) != d.Percent.Text(percentDecimals) {
		addFact(facts, "percent of record", report.Num(d.Record.Percent, percentDecimals))
	}
	if d.Place > 0 {
		addFact(facts, "place", placeCell(d.Place, d.Of))
	}
	return facts
}
