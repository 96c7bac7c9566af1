package answers

import (
	"math/big"

	"boxbook/report"
	"boxbook/scoring"
	"boxbook/season"
)

// Official is the printed total, with its decimals, beside the tool's own.
// Difference is official less own, absent where they cannot be compared: another
// maximum, a line undecided, a sheet missing. LessOwn is the same whatever sheets
// are missing. Explanations are what would give the printed total, the most
// plausible first.
type Official struct {
	Points   report.Number `json:"points"`
	Decimals int           `json:"decimals"`
	Maximum  report.Number `json:"maximum,omitzero"`
	// MaximumTyped says that the maximum was typed, not that of the sequence.
	MaximumTyped bool            `json:"maximumTyped,omitempty"`
	Percent      report.Number   `json:"percent,omitzero"`
	Difference   report.Number   `json:"difference,omitzero"`
	LessOwn      report.Number   `json:"lessOwn,omitzero"`
	Agrees       *bool           `json:"agrees,omitempty"`
	Judges       []OfficialJudge `json:"judges,omitempty"`
	MissingTotal report.Number   `json:"missingTotal,omitzero"`
	Explanations []Explanation   `json:"explanations"`
	Fits         int             `json:"fits"`
	// Coarse says that fewer than two decimals were printed, so that chance alone
	// often fits.
	Coarse bool `json:"coarse,omitempty"`
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

// MarksKind is the kind of an explanation by two marks at once.
const MarksKind = string(scoring.KindMarks)

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
	d := &Official{
		Points: report.Exact(o.Points.Rat()), Decimals: o.Points.Places, Percent: report.Exact(o.Percent()),
		MaximumTyped: o.Typed, Explanations: []Explanation{},
	}
	if o.Maximum != nil {
		d.Maximum, d.LessOwn = report.Exact(o.Maximum.Rat()), lessOwn(f)
	}
	if r, ok := f.Reconcile(); ok {
		d.reconciled(r, len(f.Missing) > 0)
	}
	return d
}

// lessOwn is the printed total less the own one, where both are out of the same
// maximum.
func lessOwn(f *season.Flight) report.Number {
	score := f.Score()
	if !score.Decided() || f.Official.Maximum.Rat().Cmp(whole(score.Maximum)) != 0 {
		return report.Number{}
	}
	return report.Exact(new(big.Rat).Sub(f.Official.Points.Rat(), score.Points))
}

func (d *Official) reconciled(r scoring.Reconciliation, missing bool) {
	if !missing {
		d.Agrees = &r.Agrees
	}
	d.Difference, d.MissingTotal = report.Exact(r.Difference), report.Exact(r.MissingTotal)
	d.Fits, d.Coarse = r.Fits, r.Coarse
	for _, j := range r.Judges {
		d.Judges = append(d.Judges, OfficialJudge{j.Judge, report.Exact(j.Printed.Rat()), report.Exact(j.Own), j.Agrees})
	}
	for _, e := range r.Explanations {
		data := Explanation{Kind: string(e.Kind), Text: e.Text, Figure: e.Figure}
		for _, c := range e.Cells {
			data.Cells = append(data.Cells, CellChange{c.Line.String(), c.Figure, c.Judge, c.Was.String(), c.Would.String()})
		}
		d.Explanations = append(d.Explanations, data)
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
