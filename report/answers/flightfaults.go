package answers

import (
	"math/big"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// Fault is one fault line of a flight, in JSON. Figure is absent for the
// flight as a whole; Deduction is in grades, absent where it is not known.
// Counted is false where another observer's note of the same fault counts in
// its place. At is a place in the video, M:SS or H:MM:SS, AtSeconds the same from
// its beginning, Video the one that it is in, absent where none was typed. Says is
// the kind in words; Points are the deduction by the figure's K, of the figure after
// it too where Next, absent as the deduction is.
type Fault struct {
	Figure    int           `json:"figure,omitempty"`
	Label     string        `json:"label,omitempty"` // the figure's, where the sequence has one
	Kind      string        `json:"kind"`
	Amount    string        `json:"amount,omitempty"`
	On        string        `json:"on,omitempty"`
	Says      string        `json:"says,omitempty"`
	Deduction report.Number `json:"deduction,omitzero"`
	Points    report.Number `json:"points,omitzero"`
	Seen      bool          `json:"seen"`
	At        string        `json:"at,omitempty"`
	AtSeconds int           `json:"atSeconds,omitempty"`
	Video     string        `json:"video,omitempty"`
	By        string        `json:"by,omitempty"`
	Remark    string        `json:"remark,omitempty"`
	Counted   bool          `json:"counted"`
	// Graded says that a judge takes points for it, Next that it costs the
	// following figure the same.
	Graded bool `json:"graded"`
	Next   bool `json:"next,omitempty"`
}

// Expected is the grade that the seen faults should have left of a figure,
// and the panel's mean, absent where there is none. Difference is expected less
// given, absent where it says nothing. Unpriced says that some fault on the
// figure has no known price, so that expected is the most it can be; Zeroed that
// the figure was made 0 as a matter of fact.
type Expected struct {
	Figure     int           `json:"figure"`
	Label      string        `json:"label,omitempty"`
	Expected   report.Number `json:"expected"`
	Given      report.Number `json:"given,omitzero"`
	Difference report.Number `json:"difference,omitzero"`
	Unpriced   bool          `json:"unpriced,omitempty"`
	Zeroed     bool          `json:"zeroed,omitempty"`
}

// faultsOf lists a flight's fault lines as typed.
func faultsOf(f *season.Flight) []Fault {
	faults := []Fault{}
	for _, fault := range f.Faults {
		data := Fault{
			Figure: fault.Figure, Label: sequenceLabel(f, fault.Figure), Kind: fault.Kind.Name, Amount: fault.Amount.Text, On: fault.On,
			Says: fault.Kind.Says, Deduction: report.Exact(fault.Deduction()), Points: report.Exact(analysis.FaultLineOf(f, fault).Points), Seen: !fault.Felt, Remark: fault.Remark,
			Graded: !fault.Felt && !fault.Safety && fault.Figure > 0,
		}
		data.Next = data.Graded && fault.Kind.Next
		if fault.At != nil {
			data.At, data.AtSeconds, data.Video = fault.At.String(), int(*fault.At), fault.Video
		}
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

// expectedOf lists the figures with seen faults.
func expectedOf(f *season.Flight) []Expected {
	grades := []Expected{}
	for _, g := range f.ExpectedGrades() {
		data := Expected{
			Figure: g.Figure, Expected: report.Exact(g.Expected), Given: report.Exact(g.Given), Unpriced: g.Unpriced, Zeroed: g.Zeroed,
		}
		if f.FigureK(g.Figure) > 0 {
			data.Label = f.Sequence.Figures[g.Figure-1].Label
		}
		if g.Given != nil && !g.Unpriced {
			data.Difference = report.Exact(new(big.Rat).Sub(g.Expected, g.Given))
		}
		grades = append(grades, data)
	}
	return grades
}

// expectedAbove is the mean difference between expected and given grades, not
// known where no figure has one.
func expectedAbove(expected []Expected) report.Number {
	sum, n := new(big.Rat), int64(0)
	for _, e := range expected {
		if difference := e.Difference.Rat(); difference != nil {
			sum.Add(sum, difference)
			n++
		}
	}
	if n == 0 {
		return report.Number{}
	}
	return report.Exact(sum.Mul(sum, big.NewRat(1, n)))
}
