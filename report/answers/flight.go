package answers

import (
	"math/big"
	"strings"

	"boxbook/report"
	"boxbook/scoring"
	"boxbook/season"
)

// FigureLabel is the figure's label, or its codes where it has none.
func FigureLabel(f Figure) string {
	if f.Label != "" {
		return f.Label
	}
	codes := make([]string, len(f.Elements))
	for i, e := range f.Elements {
		codes[i] = e.Code
	}
	return strings.Join(codes, " ")
}

// Flight is a score sheet in JSON. What is not known is absent: the tool's
// own points and percent of a flight that is undecided, or has no marks.
type Flight struct {
	Flight      string        `json:"flight"`
	Pilot       string        `json:"pilot"`
	Contest     string        `json:"contest,omitempty"`
	Date        string        `json:"date"`
	Category    string        `json:"category,omitempty"`
	Programme   string        `json:"programme"`
	Sequence    string        `json:"sequence,omitempty"`
	Rules       string        `json:"rules,omitempty"`
	Panel       []string      `json:"panel"`
	Missing     []string      `json:"missing"`
	Figures     []Figure      `json:"figures"`
	Positioning *Line         `json:"positioning,omitempty"`
	Harmony     *Line         `json:"harmony,omitempty"`
	Judges      []Judge       `json:"judges"`
	Raw         report.Number `json:"raw,omitzero"`
	Penalties   []Penalty     `json:"penalties"`
	Penalty     report.Number `json:"penalty,omitzero"`
	Points      report.Number `json:"points,omitzero"`
	Maximum     report.Number `json:"maximum,omitzero"`
	Percent     report.Number `json:"percent,omitzero"`
	Undecided   bool          `json:"undecided"`
	Range       *Range        `json:"range,omitempty"`
	Official    *Official     `json:"official,omitempty"`
	Record      *Record       `json:"record,omitempty"`
	Place       int           `json:"place,omitempty"`
	Of          int           `json:"of,omitempty"`
	Lost        *Lost         `json:"lost,omitempty"`
	Faults      []Fault       `json:"faults"`
	Expected    []Expected    `json:"expected"`
	Flags       []Flag        `json:"flags"`
	Scatter     report.Number `json:"scatter,omitzero"`
	Noise       report.Number `json:"noise,omitzero"`
	Void        string        `json:"void,omitempty"`
	Notes       []string      `json:"notes,omitempty"`

	Refit bool
}

// Line is one line of a score sheet: marks as typed; used in grades, what
// counted, null where undecided or dropped.
type Line struct {
	K      int             `json:"k"`
	Marks  []string        `json:"marks"`
	Used   []report.Number `json:"used"`
	Mean   report.Number   `json:"mean,omitzero"`
	Points report.Number   `json:"points,omitzero"`
	Lost   report.Number   `json:"lost,omitzero"`
	Ruling string          `json:"ruling"`
	Remark string          `json:"remark,omitempty"`

	Flags []MarkFlag
	Fill  report.Number
}

// MarkFlag says what became of a mark, for the page.
type MarkFlag uint8

const (
	AsMarked MarkFlag = iota
	FilledMark
	OverruledMark
	DroppedMark
)

// Figure is a figure's line.
type Figure struct {
	Number   int       `json:"number"`
	Label    string    `json:"label,omitempty"`
	Elements []Element `json:"elements"`
	Line
}

// Element is a part of a figure; K may be a fraction where hints share
// the figure's K.
type Element struct {
	Code  string        `json:"code"`
	K     report.Number `json:"k"`
	Group string        `json:"group,omitempty"`
}

// Judge is one judge of the panel: the total of the sheet in points;
// leniency, its standard error and scatter in grades, absent where there are
// too few judges or figures to say.
type Judge struct {
	Name     string        `json:"name"`
	Total    report.Number `json:"total,omitzero"`
	Leniency report.Number `json:"leniency,omitzero"`
	SE       report.Number `json:"se,omitzero"`
	Scatter  report.Number `json:"scatter,omitzero"`
}

// Penalty is points taken off.
type Penalty struct {
	Kind   string        `json:"kind"`
	Points report.Number `json:"points"`
	Remark string        `json:"remark,omitempty"`
}

// Range is the points of an undecided flight at both ends.
type Range struct {
	Low  report.Number `json:"low"`
	High report.Number `json:"high"`
}

// FlightOf collects a flight's numbers.
func FlightOf(f *season.Flight) Flight {
	d := Flight{
		Flight: f.Name, Pilot: f.Pilot.Handle, Date: f.Date.String(), Category: f.Category,
		Programme: string(f.Programme), Panel: listOf(f.Panel), Missing: listOf(f.Missing),
		Figures: []Figure{}, Judges: []Judge{}, Penalties: []Penalty{},
		Place: f.Rank, Of: f.Of, Notes: f.Notes, Flags: []Flag{},
		Lost: LostOf(f), Faults: listOf(FaultOf(f)), Expected: listOf(ExpectedOf(f)), Official: officialOf(f),
	}
	if f.Contest != nil {
		d.Contest = f.Contest.Handle
	}
	if f.Sequence != nil {
		d.Sequence = f.Sequence.Handle
	}
	if f.Style != nil {
		d.Rules = f.Style.Name
	}
	if f.Void != nil {
		d.Void = *f.Void
	}
	for _, p := range f.Penalties {
		d.Penalties = append(d.Penalties, Penalty{string(p.Kind), report.Exact(p.Points.Rat()), p.Remark})
	}
	if f.HasMarks() {
		d.addScore(f)
		d.addPanel(f)
	}
	if rec := f.Record(); rec.Source != season.NoRecord && f.Void == nil {
		data := recordOf(rec)
		d.Record = &data
	}
	return d
}

// addScore adds the lines and the totals.
func (d *Flight) addScore(f *season.Flight) {
	score, sheet := f.Score(), f.Sheet()
	flown := f.Flown()
	for i, line := range sheet.Lines {
		data := lineOf(line, score.Lines[i])
		switch line.Kind {
		case scoring.Positioning:
			data.Remark = f.Positioning.Remark
			d.Positioning = &data
		case scoring.Harmony:
			data.Remark = f.Harmony.Remark
			d.Harmony = &data
		default:
			figure := f.Sequence.Figures[flown[i]]
			data.Remark = f.Rows[flown[i]].Remark
			d.Figures = append(d.Figures, Figure{Number: flown[i] + 1, Label: figure.Label, Elements: elementOf(figure), Line: data})
		}
	}
	for j, name := range f.Panel {
		judge := Judge{Name: name}
		if score.JudgeTotals != nil {
			judge.Total = report.Exact(score.JudgeTotals[j])
		}
		d.Judges = append(d.Judges, judge)
	}
	d.Raw, d.Penalty, d.Points = report.Exact(score.Raw), report.Exact(score.Penalty), report.Exact(score.Points)
	d.Maximum, d.Percent = report.Int(int64(score.Maximum)), report.Exact(score.Percent)
	if d.Undecided = !score.Decided(); d.Undecided {
		d.Range = &Range{report.Exact(score.Low), report.Exact(score.High)}
	}
}

func elementOf(figure season.Figure) []Element {
	elements := []Element{}
	for _, e := range figure.Elements {
		elements = append(elements, Element{e.Code, report.Exact(big.NewRat(int64(e.K), int64(e.Parts))), e.Group})
	}
	return elements
}

func lineOf(line scoring.Line, score scoring.LineScore) Line {
	data := Line{
		K: line.K, Mean: report.Exact(score.Mean), Points: report.Exact(score.Points), Lost: report.Exact(score.Lost),
		Ruling: string(score.Ruling),
	}
	for j, mark := range line.Marks {
		cell := score.Cells[j]
		used, flag := report.Exact(cell.Used), AsMarked
		switch {
		case cell.Dropped:
			used, flag = report.Number{}, DroppedMark
		case cell.Fill:
			flag = FilledMark
		case cell.Overruled:
			flag = OverruledMark
		}
		if cell.Fill {
			data.Fill = report.Exact(cell.Used)
		}
		data.Marks = append(data.Marks, mark.String())
		data.Used = append(data.Used, used)
		data.Flags = append(data.Flags, flag)
	}
	return data
}
