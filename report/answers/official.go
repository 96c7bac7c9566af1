package answers

import (
	"boxbook/report"
	"boxbook/scoring"
	"boxbook/season"
)

// Official is the printed total beside the tool's own. Difference is
// official less own, absent where they cannot be compared; explanations are
// what would give the printed total, the most plausible first.
type Official struct {
	Points       report.Number   `json:"points"`
	Maximum      report.Number   `json:"maximum,omitzero"`
	Difference   report.Number   `json:"difference,omitzero"`
	Agrees       *bool           `json:"agrees,omitempty"`
	Judges       []OfficialJudge `json:"judges,omitempty"`
	MissingTotal report.Number   `json:"missingTotal,omitzero"`
	Explanations []Explanation   `json:"explanations"`
	Fits         int             `json:"fits"`

	Coarse, Undecided bool
}

// OfficialJudge compares a judge's printed total with the marks'.
type OfficialJudge struct {
	Judge  string        `json:"judge"`
	Points report.Number `json:"points"`
	Own    report.Number `json:"own,omitzero"`
	Agrees bool          `json:"agrees"`
}

// Explanation is one change that would give the printed total.
type Explanation struct {
	Kind   string       `json:"kind"`
	Text   string       `json:"text"`
	Figure int          `json:"figure,omitempty"`
	Cells  []CellChange `json:"cells,omitempty"`
}

// CellChange is one mark as typed and as it would have to be; line is
// figure, positioning or harmony.
type CellChange struct {
	Line   string `json:"line"`
	Figure int    `json:"figure,omitempty"`
	Judge  string `json:"judge"`
	Was    string `json:"was"`
	Would  string `json:"would"`
}

// officialOf lays the printed total beside the tool's own; nil where none was
// typed.
func officialOf(f *season.Flight) *Official {
	o := f.Official
	if o == nil {
		return nil
	}
	d := &Official{Points: report.Exact(o.Points.Rat()), Explanations: []Explanation{}}
	if o.Maximum != nil {
		d.Maximum = report.Exact(o.Maximum.Rat())
	}
	if r, ok := f.Reconcile(); ok {
		d.reconciled(r, len(f.Missing) > 0)
	}
	return d
}

func (d *Official) reconciled(r scoring.Reconciliation, missing bool) {
	if !missing {
		d.Agrees = &r.Agrees
	}
	d.Difference, d.MissingTotal = report.Exact(r.Difference), report.Exact(r.MissingTotal)
	d.Fits, d.Coarse, d.Undecided = r.Fits, r.Coarse, r.Undecided
	for _, j := range r.Judges {
		d.Judges = append(d.Judges, OfficialJudge{j.Judge, report.Exact(j.Printed.Rat()), report.Exact(j.Own), j.Agrees})
	}
	for _, e := range r.Explanations {
		data := Explanation{Kind: string(e.Kind), Text: e.Text, Figure: e.Figure}
		for _, c := range e.Cells {
			data.Cells = append(data.Cells, CellChange{lineWord(c.Line), c.Figure, c.Judge, c.Was.String(), c.Would.String()})
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

// JudgesAgree reports whether every judge's printed total is the marks'.
func (o *Official) JudgesAgree() bool {
	for _, j := range o.Judges {
		if !j.Agrees {
			return false
		}
	}
	return len(o.Judges) > 0
}
