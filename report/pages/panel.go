package pages

import (
	"fmt"
	"math"
	"strings"

	"boxbook/report"
	"boxbook/season/analysis"
)

// gradeDecimals are the decimals of leniency, scatter and fitted grades.
const gradeDecimals = 2

// noiseExplained is what a column of noise says.
const noiseExplained = "noise: how much another panel of this size would change the percent by chance, one standard deviation"

// PanelData is the judges over a selection, in JSON. Leniency, its standard
// error and scatter are in grades; leniency is relative to the part, shrunken.
// Noise is in percent.
type PanelData struct {
	Judges  []PanelJudgeData  `json:"judges"`
	Flags   []FlagData        `json:"flags"`
	Flights []PanelFlightData `json:"flights"`

	parts []analysis.PanelPart
}

// PanelJudgeData is one judge over the selection.
type PanelJudgeData struct {
	Name     string        `json:"name"`
	Part     int           `json:"part"`
	Leniency report.Number `json:"leniency"`
	SE       report.Number `json:"se"`
	Scatter  report.Number `json:"scatter,omitzero"`
	N        int           `json:"n"`
	Flights  int           `json:"flights"`
}

// FlagData is a lone grade that stands apart. T and P are absent where only the
// second look, by medians, saw it.
type FlagData struct {
	Flight string        `json:"flight,omitempty"`
	Figure int           `json:"figure"`
	Judge  string        `json:"judge"`
	Mark   string        `json:"mark"`
	Fitted report.Number `json:"fitted"`
	T      report.Number `json:"t,omitzero"`
	P      report.Number `json:"p,omitzero"`
}

// PanelFlightData is one flight's panel.
type PanelFlightData struct {
	Flight  string        `json:"flight"`
	Noise   report.Number `json:"noise"`
	Scatter report.Number `json:"scatter"`
}

func flagData(flag analysis.MarkFlag, named bool) FlagData {
	d := FlagData{Figure: flag.Figure, Judge: flag.Judge, Mark: flag.Mark.String(), Fitted: report.Float(flag.Fitted)}
	if named {
		d.Flight = flag.Flight.Name
	}
	if flag.T != 0 {
		d.T, d.P = report.Float(flag.T), report.Float(flag.P)
	}
	return d
}

func panelData(p analysis.Panels) PanelData {
	d := PanelData{Judges: []PanelJudgeData{}, Flags: []FlagData{}, Flights: []PanelFlightData{}, parts: p.Parts}
	for _, j := range p.Judges {
		judge := PanelJudgeData{
			Name: j.Name, Part: j.Part, Leniency: report.Float(j.Leniency), SE: report.Float(j.SE), N: j.Grades, Flights: j.Flights,
		}
		if j.N > 1 {
			judge.Scatter = report.Float(j.Scatter)
		}
		d.Judges = append(d.Judges, judge)
	}
	for _, flag := range p.Flags {
		d.Flags = append(d.Flags, flagData(flag, true))
	}
	for _, f := range p.Flights {
		d.Flights = append(d.Flights, PanelFlightData{f.Flight.Name, report.Float(f.Check.Noise), report.Float(f.Check.Scatter)})
	}
	return d
}

// Panel is the page of the judges over a selection.
func Panel(p analysis.Panels, title string) report.Document {
	d := panelData(p)
	doc := report.Document{Title: title, Data: d}
	doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{&report.Paragraph{Text: panelThought(d)}}})
	for i := range d.parts {
		heading := "Judges"
		if len(d.parts) > 1 {
			heading = fmt.Sprintf("Judges who can be compared, part %d of %d", i+1, len(d.parts))
		}
		doc.Sections = append(doc.Sections, report.Section{Heading: heading, Blocks: []report.Block{panelJudges(d, i+1)}})
	}
	if len(d.Flags) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Heading: "Lone grades", Blocks: []report.Block{flagTable(d.Flags), flagNotes(d.Flags)}})
	}
	if len(d.Flights) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Heading: "Flights", Blocks: []report.Block{panelFlights(d), panelNotes(d)}})
	}
	return doc
}

// panelThought is the page in one sentence.
func panelThought(d PanelData) string {
	if len(d.parts) == 0 {
		return "Too few judges or figures to say anything about a panel: at least two judges and four figures are needed."
	}
	var said []string
	for i, part := range d.parts {
		if part.Between == 0 {
			continue
		}
		var names []string
		for _, j := range d.Judges {
			if j.Part == i+1 && math.Abs(j.Leniency.Float64()) > 2*j.SE.Float64() {
				names = append(names, fmt.Sprintf("%s (%s)", j.Name, report.Signed(j.Leniency, gradeDecimals).String()))
			}
		}
		if len(names) > 0 {
			said = append(said, strings.Join(names, ", "))
		}
	}
	if len(said) == 0 {
		return "No judge differs from the panel by more than chance."
	}
	return "Grades above or below the panel by more than chance: " + strings.Join(said, "; ") + "."
}

func panelJudges(d PanelData, part int) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: "judge", Flexible: true, Min: 8},
		{Title: "leniency", Align: report.Right},
		{Title: "give or take", Align: report.Right},
		{Title: "scatter", Align: report.Right},
		{Title: "grades", Align: report.Right},
		{Title: "flights", Align: report.Right},
	}}
	for _, j := range d.Judges {
		if j.Part == part {
			t.Rows = append(t.Rows, []report.Cell{
				report.Text(j.Name), report.Signed(j.Leniency, gradeDecimals), report.Num(j.SE, gradeDecimals),
				report.Num(j.Scatter, gradeDecimals), countCell(j.N), countCell(j.Flights),
			})
		}
	}
	return t
}

func flagTable(flags []FlagData) *report.Table {
	t := &report.Table{Columns: []report.Column{
		{Title: "flight", Flexible: true, Min: 20},
		{Title: "figure", Align: report.Right},
		{Title: "judge"},
		{Title: "mark", Align: report.Right},
		{Title: "others say", Align: report.Right},
	}}
	for _, f := range flags {
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(f.Flight), countCell(f.Figure), report.Text(f.Judge), report.Text(f.Mark), report.Num(f.Fitted, gradeDecimals),
		})
	}
	return t
}

// flagNotes say what to do about a lone grade; the score is never changed.
func flagNotes(flags []FlagData) *report.Notes {
	notes := &report.Notes{}
	for _, f := range flags {
		addNote(notes, "judge %s gave %s on figure %d; the rest of the panel and %s's own habit say about %s: ask for the remark",
			f.Judge, f.Mark, f.Figure, f.Judge, f.Fitted.Text(1))
	}
	return notes
}

func panelFlights(d PanelData) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: "flight", Flexible: true, Min: 20},
		{Title: "scatter of a grade", Align: report.Right},
		{Title: "noise of the percent", Align: report.Right},
	}}
	for _, f := range d.Flights {
		t.Rows = append(t.Rows, []report.Cell{report.Text(f.Flight), report.Num(f.Scatter, gradeDecimals), report.Num(f.Noise, 1)})
	}
	return t
}

func panelNotes(d PanelData) *report.Notes {
	notes := &report.Notes{Items: []report.Note{
		{Text: "leniency: grades above (+) or below (-) the judges compared with, drawn towards 0 by how much of the spread is chance; one pilot's sheets cannot tell a lenient judge from one who likes this pilot's flying"},
		{Text: "scatter: the standard deviation about the others, in grades; it says nothing of who is right"},
		{Text: noiseExplained},
	}}
	if len(d.parts) > 1 {
		addNote(notes, "judges of different parts never sat together, not even through others, and are not compared")
	}
	return notes
}
