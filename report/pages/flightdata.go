package pages

import (
	"math/big"

	"boxbook/report"
	"boxbook/scoring"
	"boxbook/season"
)

// FlightData is a score sheet in JSON. What is not known is absent: the tool's
// own points and percent of a flight that is undecided, or has no marks.
type FlightData struct {
	Flight      string         `json:"flight"`
	Pilot       string         `json:"pilot"`
	Contest     string         `json:"contest,omitempty"`
	Date        string         `json:"date"`
	Category    string         `json:"category,omitempty"`
	Programme   string         `json:"programme"`
	Sequence    string         `json:"sequence,omitempty"`
	Rules       string         `json:"rules,omitempty"`
	Panel       []string       `json:"panel"`
	Missing     []string       `json:"missing"`
	Figures     []FigureData   `json:"figures"`
	Positioning *LineData      `json:"positioning,omitempty"`
	Harmony     *LineData      `json:"harmony,omitempty"`
	Judges      []JudgeData    `json:"judges"`
	Raw         report.Number  `json:"raw,omitzero"`
	Penalties   []PenaltyData  `json:"penalties"`
	Penalty     report.Number  `json:"penalty,omitzero"`
	Points      report.Number  `json:"points,omitzero"`
	Maximum     report.Number  `json:"maximum,omitzero"`
	Percent     report.Number  `json:"percent,omitzero"`
	Undecided   bool           `json:"undecided"`
	Range       *RangeData     `json:"range,omitempty"`
	Official    *OfficialData  `json:"official,omitempty"`
	Record      *RecordData    `json:"record,omitempty"`
	Place       int            `json:"place,omitempty"`
	Of          int            `json:"of,omitempty"`
	Lost        *LostData      `json:"lost,omitempty"`
	Faults      []FaultData    `json:"faults"`
	Expected    []ExpectedData `json:"expected"`
	Flags       []FlagData     `json:"flags"`
	Scatter     report.Number  `json:"scatter,omitzero"`
	Noise       report.Number  `json:"noise,omitzero"`
	Void        string         `json:"void,omitempty"`
	Notes       []string       `json:"notes,omitempty"`

	refit bool
}

// LineData is one line of a score sheet: marks as typed; used in grades, what
// counted, null where undecided or dropped.
type LineData struct {
	K      int             `json:"k"`
	Marks  []string        `json:"marks"`
	Used   []report.Number `json:"used"`
	Mean   report.Number   `json:"mean,omitzero"`
	Points report.Number   `json:"points,omitzero"`
	Lost   report.Number   `json:"lost,omitzero"`
	Ruling string          `json:"ruling"`
	Remark string          `json:"remark,omitempty"`

	flags []markFlag
	fill  report.Number
}

// markFlag says what became of a mark, for the page.
type markFlag uint8

const (
	asMarked markFlag = iota
	filledMark
	overruledMark
	droppedMark
)

// FigureData is a figure's line.
type FigureData struct {
	Number   int           `json:"number"`
	Label    string        `json:"label,omitempty"`
	Elements []ElementData `json:"elements"`
	LineData
}

// ElementData is a part of a figure; K may be a fraction where hints share
// the figure's K.
type ElementData struct {
	Code  string        `json:"code"`
	K     report.Number `json:"k"`
	Group string        `json:"group,omitempty"`
}

// JudgeData is one judge of the panel: the total of the sheet in points;
// leniency, its standard error and scatter in grades, absent where there are
// too few judges or figures to say.
type JudgeData struct {
	Name     string        `json:"name"`
	Total    report.Number `json:"total,omitzero"`
	Leniency report.Number `json:"leniency,omitzero"`
	SE       report.Number `json:"se,omitzero"`
	Scatter  report.Number `json:"scatter,omitzero"`
}

// PenaltyData is points taken off.
type PenaltyData struct {
	Kind   string        `json:"kind"`
	Points report.Number `json:"points"`
	Remark string        `json:"remark,omitempty"`
}

// RangeData is the points of an undecided flight at both ends.
type RangeData struct {
	Low  report.Number `json:"low"`
	High report.Number `json:"high"`
}

// flightData collects a flight's numbers.
func flightData(f *season.Flight) FlightData {
	d := FlightData{
		Flight: f.Name, Pilot: f.Pilot.Handle, Date: f.Date.String(), Category: f.Category,
		Programme: string(f.Programme), Panel: listOf(f.Panel), Missing: listOf(f.Missing),
		Figures: []FigureData{}, Judges: []JudgeData{}, Penalties: []PenaltyData{},
		Place: f.Rank, Of: f.Of, Notes: f.Notes, Flags: []FlagData{},
		Lost: lostData(f), Faults: listOf(faultData(f)), Expected: listOf(expectedData(f)), Official: officialData(f),
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
		d.Penalties = append(d.Penalties, PenaltyData{string(p.Kind), report.Exact(p.Points.Rat()), p.Remark})
	}
	if f.HasMarks() {
		d.addScore(f)
		d.addPanel(f)
	}
	if rec := f.Record(); rec.Source != season.NoRecord && f.Void == nil {
		data := recordData(rec)
		d.Record = &data
	}
	return d
}

// addScore adds the lines and the totals.
func (d *FlightData) addScore(f *season.Flight) {
	score, sheet := f.Score(), f.Sheet()
	flown := f.Flown()
	for i, line := range sheet.Lines {
		data := lineData(line, score.Lines[i])
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
			d.Figures = append(d.Figures, FigureData{Number: flown[i] + 1, Label: figure.Label, Elements: elementData(figure), LineData: data})
		}
	}
	for j, name := range f.Panel {
		judge := JudgeData{Name: name}
		if score.JudgeTotals != nil {
			judge.Total = report.Exact(score.JudgeTotals[j])
		}
		d.Judges = append(d.Judges, judge)
	}
	d.Raw, d.Penalty, d.Points = report.Exact(score.Raw), report.Exact(score.Penalty), report.Exact(score.Points)
	d.Maximum, d.Percent = report.Int(int64(score.Maximum)), report.Exact(score.Percent)
	if d.Undecided = !score.Decided(); d.Undecided {
		d.Range = &RangeData{report.Exact(score.Low), report.Exact(score.High)}
	}
}

func elementData(figure season.Figure) []ElementData {
	elements := []ElementData{}
	for _, e := range figure.Elements {
		elements = append(elements, ElementData{e.Code, report.Exact(big.NewRat(int64(e.K), int64(e.Parts))), e.Group})
	}
	return elements
}

func lineData(line scoring.Line, score scoring.LineScore) LineData {
	data := LineData{
		K: line.K, Mean: report.Exact(score.Mean), Points: report.Exact(score.Points), Lost: report.Exact(score.Lost),
		Ruling: string(score.Ruling),
	}
	for j, mark := range line.Marks {
		cell := score.Cells[j]
		used, flag := report.Exact(cell.Used), asMarked
		switch {
		case cell.Dropped:
			used, flag = report.Number{}, droppedMark
		case cell.Fill:
			flag = filledMark
		case cell.Overruled:
			flag = overruledMark
		}
		if cell.Fill {
			data.fill = report.Exact(cell.Used)
		}
		data.Marks = append(data.Marks, mark.String())
		data.Used = append(data.Used, used)
		data.flags = append(data.flags, flag)
	}
	return data
}
