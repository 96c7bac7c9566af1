package pages

import (
	"fmt"

	"boxbook/report"
	"boxbook/scoring"
	"boxbook/season"
)

// OfficialData is the printed total beside the tool's own. Difference is
// official less own, absent where they cannot be compared; explanations are
// what would give the printed total, the most plausible first.
type OfficialData struct {
	Points       report.Number       `json:"points"`
	Maximum      report.Number       `json:"maximum,omitzero"`
	Difference   report.Number       `json:"difference,omitzero"`
	Agrees       *bool               `json:"agrees,omitempty"`
	Judges       []OfficialJudgeData `json:"judges,omitempty"`
	MissingTotal report.Number       `json:"missingTotal,omitzero"`
	Explanations []ExplanationData   `json:"explanations"`
	Fits         int                 `json:"fits"`

	coarse, undecided bool
}

// OfficialJudgeData compares a judge's printed total with the marks'.
type OfficialJudgeData struct {
	Judge  string        `json:"judge"`
	Points report.Number `json:"points"`
	Own    report.Number `json:"own,omitzero"`
	Agrees bool          `json:"agrees"`
}

// ExplanationData is one change that would give the printed total.
type ExplanationData struct {
	Kind   string           `json:"kind"`
	Text   string           `json:"text"`
	Figure int              `json:"figure,omitempty"`
	Cells  []CellChangeData `json:"cells,omitempty"`
}

// CellChangeData is one mark as typed and as it would have to be; line is
// figure, positioning or harmony.
type CellChangeData struct {
	Line   string `json:"line"`
	Figure int    `json:"figure,omitempty"`
	Judge  string `json:"judge"`
	Was    string `json:"was"`
	Would  string `json:"would"`
}

// officialData lays the printed total beside the tool's own; nil where none was
// typed.
func officialData(f *season.Flight) *OfficialData {
	o := f.Official
	if o == nil {
		return nil
	}
	d := &OfficialData{Points: report.Exact(o.Points.Rat()), Explanations: []ExplanationData{}}
	if o.Maximum != nil {
		d.Maximum = report.Exact(o.Maximum.Rat())
	}
	if r, ok := f.Reconcile(); ok {
		d.reconciled(r, len(f.Missing) > 0)
	}
	return d
}

func (d *OfficialData) reconciled(r scoring.Reconciliation, missing bool) {
	if !missing {
		d.Agrees = &r.Agrees
	}
	d.Difference, d.MissingTotal = report.Exact(r.Difference), report.Exact(r.MissingTotal)
	d.Fits, d.coarse, d.undecided = r.Fits, r.Coarse, r.Undecided
	for _, j := range r.Judges {
		d.Judges = append(d.Judges, OfficialJudgeData{j.Judge, report.Exact(j.Printed.Rat()), report.Exact(j.Own), j.Agrees})
	}
	for _, e := range r.Explanations {
		data := ExplanationData{Kind: string(e.Kind), Text: e.Text, Figure: e.Figure}
		for _, c := range e.Cells {
			data.Cells = append(data.Cells, CellChangeData{lineWord(c.Line), c.Figure, c.Judge, c.Was.String(), c.Would.String()})
		}
		d.Explanations = append(d.Explanations, data)
	}
}

// lineWord names the kind of a sheet's line.
func lineWord(kind scoring.LineKind) string {
	switch kind {
	case scoring.Positioning:
		return "positioning"
	case scoring.Harmony:
		return "harmony"
	default:
		return "figure"
	}
}

// shownExplanations is how many explanations a page lists; JSON has all.
const shownExplanations = 8

// officialSection says whether the official total is right, and what would
// explain it where it is not.
func officialSection(d FlightData) []report.Section {
	o := d.Official
	if o == nil || (o.Agrees == nil && len(o.Explanations) == 0) {
		return nil
	}
	section := report.Section{Heading: "Is the official total right?"}
	section.Blocks = append(section.Blocks, &report.Paragraph{Text: officialSentence(d)})
	notes := &report.Notes{}
	for i, e := range o.Explanations {
		if i == shownExplanations {
			addNote(notes, "and %d more, in --format json", len(o.Explanations)-i)
			break
		}
		addNote(notes, "%s", e.Text)
	}
	for _, j := range o.Judges {
		if !j.Agrees && j.Own.Known() {
			addNote(notes, "judge %s: printed %s, the marks give %s", j.Judge, j.Points.Text(pointDecimals), j.Own.Text(pointDecimals))
		}
	}
	if len(notes.Items) > 0 {
		section.Blocks = append(section.Blocks, notes)
	}
	if o.Agrees != nil && !*o.Agrees {
		section.Blocks = append(section.Blocks, &report.Paragraph{Text: officialFoot(o)})
	}
	return []report.Section{section}
}

// officialSentence is the answer in one line.
func officialSentence(d FlightData) string {
	o := d.Official
	differs := d.Maximum.Known() && o.Maximum.Known() && o.Maximum.Float64() != d.Maximum.Float64()
	switch {
	case o.Agrees == nil:
		return "Cannot be told: a sheet is not to hand."
	case differs && *o.Agrees:
		return fmt.Sprintf("The printed maximum is %s, that of the sequence %s; the percents agree.", o.Maximum.Text(0), d.Maximum.Text(0))
	case differs:
		return fmt.Sprintf("The printed maximum is %s, that of the sequence %s, and the percents differ; is a K mistyped?", o.Maximum.Text(0), d.Maximum.Text(0))
	case *o.Agrees && o.undecided:
		return "It is one end of the range that the undecided figure leaves open."
	case *o.Agrees:
		return "Yes: it agrees with the marks."
	case !o.Difference.Known():
		return "It is neither end of the range that the undecided figure leaves open."
	case len(o.Explanations) == 0 && o.judgesAgree():
		return fmt.Sprintf("It differs from the marks as typed by %s, although the printed totals of the judges agree with the marks: from those the points are %s.",
			report.Signed(o.Difference, pointDecimals).String(), d.Points.Text(pointDecimals))
	case len(o.Explanations) == 0:
		return fmt.Sprintf("It differs from the marks as typed by %s, and no single slip explains it.", report.Signed(o.Difference, pointDecimals).String())
	default:
		return fmt.Sprintf("It differs from the marks as typed by %s. What would explain it, the most plausible first:", report.Signed(o.Difference, pointDecimals).String())
	}
}

// judgesAgree reports whether every judge's printed total is the marks'.
func (o *OfficialData) judgesAgree() bool {
	for _, j := range o.Judges {
		if !j.Agrees {
			return false
		}
	}
	return len(o.Judges) > 0
}

// officialFoot says how much an explanation is worth, and what to do.
func officialFoot(o *OfficialData) string {
	text := ""
	if o.Fits > 0 {
		text = season.Counted(o.Fits, "mark", "marks") + " would fit, each alone. "
		if o.Explanations[0].Kind == string(scoring.KindMarks) {
			text = season.Counted(o.Fits, "pair of marks", "pairs of marks") + " would fit. "
		}
	}
	if o.coarse && len(o.Explanations) > 0 {
		text += "Printed with fewer than two decimals, too coarsely to tell: chance alone often fits. "
	}
	return text + "Ask the contest's office at once; time limits for protests are short and set by the rules in force."
}
