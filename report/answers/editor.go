package answers

import (
	"math/big"

	"boxbook/report"
	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/analysis"
)

// RowMeans are what the rows of a flight come to, for an editor: the means in
// grades of each row of a figure in their order, by its number; of the weighted
// lines; and the total in points of each judge's sheet, by name. What is not known
// is absent.
type RowMeans struct {
	Figures     map[int][]report.Number  `json:"figures"`
	Positioning report.Number            `json:"positioning,omitzero"`
	Harmony     report.Number            `json:"harmony,omitzero"`
	Judges      map[string]report.Number `json:"judges"`
}

// RowMeansOf gives a flight's means; none where it has no marks.
func RowMeansOf(f *season.Flight) RowMeans {
	means := RowMeans{Figures: map[int][]report.Number{}, Judges: map[string]report.Number{}}
	if !f.HasMarks() {
		return means
	}
	score, flown := f.Score(), f.Flown()
	for i, line := range f.Sheet().Lines {
		mean := report.Exact(score.Lines[i].Mean)
		switch {
		case line.Kind == scoring.Positioning:
			means.Positioning = mean
		case line.Kind == scoring.Harmony:
			means.Harmony = mean
		case len(score.Lines[i].Rows) > 0:
			for _, row := range score.Lines[i].Rows {
				means.Figures[flown[i]+1] = append(means.Figures[flown[i]+1], report.Exact(row.Mean))
			}
		default:
			means.Figures[flown[i]+1] = []report.Number{mean}
		}
	}
	if score.JudgeTotals != nil {
		for j, name := range f.Panel {
			means.Judges[name] = report.Exact(score.JudgeTotals[j])
		}
	}
	return means
}

// FigureSoFar is a figure of a sequence with what a pilot was given for it: the
// mean in grades over so many flights, those of `families SEQUENCE/FIGURE`;
// absent where there is none.
type FigureSoFar struct {
	Sequence string        `json:"sequence"`
	Number   int           `json:"number"`
	Label    string        `json:"label,omitempty"`
	K        int           `json:"k"`
	Elements []Element     `json:"elements"`
	Pilot    string        `json:"pilot,omitempty"`
	Mean     report.Number `json:"mean,omitzero"`
	Flights  int           `json:"flights"`
}

// FigureSoFarOf follows a figure over all seasons of a pilot; nil for no pilot.
func FigureSoFarOf(l *season.Ledger, s *season.Sequence, number int, pilot *season.Pilot) FigureSoFar {
	figure := s.Figures[number-1]
	d := FigureSoFar{Sequence: s.Handle, Number: number, Label: figure.Label, K: figure.K, Elements: elementOf(figure)}
	if pilot == nil {
		return d
	}
	d.Pilot = pilot.Handle
	sum := new(big.Rat)
	for _, row := range analysis.FamilyOver(l, season.Selection{Pilot: pilot}, analysis.FamilyKey{Sequence: s, Figure: number}).Flights {
		for i, at := range row.Flight.Flown() {
			if mean := row.Flight.Score().Lines[i].Mean; at+1 == number && mean != nil {
				sum.Add(sum, mean)
				d.Flights++
			}
		}
	}
	if d.Flights > 0 {
		d.Mean = report.Exact(sum.Quo(sum, big.NewRat(int64(d.Flights), 1)))
	}
	return d
}

// FaultsNoted are a flight's fault lines and what each costs, in the order of the
// ledger.
func FaultsNoted(f *season.Flight) []Fault { return faultsOf(f) }

// SequenceSum is what the K of a sequence add up to.
type SequenceSum struct {
	Sequence string `json:"sequence"`
	Figures  int    `json:"figures"`
	K        int    `json:"k"`
	Weighted int    `json:"weighted,omitempty"`
}

// SequenceSumOf adds a sequence's K up.
func SequenceSumOf(s *season.Sequence) SequenceSum {
	return SequenceSum{s.Handle, len(s.Figures), s.K(), s.Positioning + s.Harmony}
}
