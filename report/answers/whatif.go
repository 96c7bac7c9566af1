package answers

import (
	"math/big"

	"boxbook/report"
	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/analysis"
)

// WhatIf is a flight's score before and after changes of its sheet, in JSON.
// Changes are the words that asked for them. Lines are those whose points the
// changes moved. Reach is there where a target was asked for and the changed sheet
// is decided.
type WhatIf struct {
	Flight    string `json:"flight"`
	Pilot     string `json:"pilot"`
	PilotName string `json:"pilotName"`
	Date      string `json:"date"`
	Programme string `json:"programme"`
	Label     int    `json:"label"`
	Sequence  string `json:"sequence,omitempty"`
	// LastContest is the latest contest flight where the latest of all, which was not
	// named, is a practice one.
	LastContest string `json:"lastContest,omitempty"`
	// Missing are the judges whose sheets are not to hand: the marks are without them.
	Missing []string `json:"missing,omitempty"`
	Changes []string `json:"changes"`
	// Made are the same changes in their parts.
	Made   []WhatChange `json:"made"`
	Before WhatScore    `json:"before"`
	After  WhatScore    `json:"after"`
	More   WhatMore     `json:"more"`
	Lines  []WhatLine   `json:"lines"`
	// Official is the printed total where it is not that of the marks.
	Official report.Number `json:"official,omitzero"`
	// PrintedPlace is the place typed in the flight where it is not that of the marks.
	PrintedPlace int `json:"printedPlace,omitempty"`
	// OtherPanel says that the changed sheet is another panel's, so that no place
	// follows from it.
	OtherPanel bool `json:"otherPanel"`
	// NoPlace is why the changed sheet has no place, "" where it has one, the flight
	// was flown for none, or OtherPanel says it.
	NoPlace NoPlace `json:"noPlace,omitempty"`
	// OthersTyped are how many totals of the others are typed, of OthersFlown, 0 where
	// it is not known how many flew.
	OthersTyped int `json:"othersTyped"`
	OthersFlown int `json:"othersFlown,omitempty"`
	// ByPrinted is the printed place where the place after follows from it: it tells
	// that those whose totals are not typed were not ahead.
	ByPrinted int          `json:"byPrinted,omitempty"`
	Reach     *WhatItTakes `json:"reach,omitempty"`
}

// NoPlace is why no place follows from a changed sheet.
type NoPlace string

// The reasons: nobody else's total is typed; those typed are out of another maximum;
// how many flew is not typed; the totals of a part of the others are typed.
const (
	NoPlaceNoField NoPlace = "no-field"
	NoPlaceMaximum NoPlace = "other-maximum"
	NoPlacePilots  NoPlace = "pilots-unknown"
	NoPlacePart    NoPlace = "part-of-field"
)

// WhatChange is one change: the word that asked for it, and what it does. Mark is the
// mark that the figure, or the weighted line named, gets from the judge, from every
// judge where none is named.
type WhatChange struct {
	Change string   `json:"change"`
	Kind   WhatKind `json:"kind"`
	Line   string   `json:"line,omitempty"`
	Figure int      `json:"figure,omitempty"`
	Judge  string   `json:"judge,omitempty"`
	Mark   string   `json:"mark,omitempty"`
	Graded bool     `json:"graded,omitempty"`
}

// WhatKind is what a change does.
type WhatKind string

// The kinds of a change.
const (
	ChangeMark         WhatKind = "mark"
	ChangeNoZeros      WhatKind = "no-zeros"
	ChangeWithoutJudge WhatKind = "without-judge"
	ChangeNoPenalty    WhatKind = "no-penalty"
)

// WhatScore is a score: points and percent are absent while a figure is
// undecided, the place where the field is not known.
type WhatScore struct {
	Points    report.Number `json:"points,omitzero"`
	Percent   report.Number `json:"percent,omitzero"`
	Maximum   report.Number `json:"maximum"`
	Penalty   report.Number `json:"penalty"`
	Place     int           `json:"place,omitempty"`
	Of        int           `json:"of,omitempty"`
	Undecided bool          `json:"undecided"`
}

// WhatMore is after less before; absent while one of them is undecided.
type WhatMore struct {
	Points  report.Number `json:"points,omitzero"`
	Percent report.Number `json:"percent,omitzero"`
}

// WhatLine is a line of the sheet before and after: its mean grade, and the points
// that the change brings; absent while the line is undecided. Line is the weighted
// line's name, "figure" for a figure.
type WhatLine struct {
	Line   string        `json:"line"`
	Figure int           `json:"figure,omitempty"`
	Label  string        `json:"label,omitempty"`
	K      int           `json:"k"`
	Before report.Number `json:"before,omitzero"`
	After  report.Number `json:"after,omitzero"`
	Gained report.Number `json:"gained,omitzero"`
}

// WhatItTakes is what a total takes of the figures, the weighted lines and the
// penalties as they are. Have is their mean grade, each weighed by its K, and Mean
// what it must be at the least, absent where no grades come to it. Winner says
// that the total is that of the best of the others, Place that it is that of the one
// in a place, AsPoints that it was asked as points; Reached that the sheet has it,
// PlaceNow the printed place and Behind how far the official total is below it, both
// of a total of the others and a sheet that is not changed.
type WhatItTakes struct {
	Percent  report.Number `json:"percent"`
	Points   report.Number `json:"points"`
	Winner   bool          `json:"winner"`
	Place    int           `json:"place,omitempty"`
	AsPoints bool          `json:"asPoints,omitempty"`
	Reached  bool          `json:"reached"`
	PlaceNow int           `json:"placeNow,omitempty"`
	Behind   report.Number `json:"behind,omitzero"`
	Have     report.Number `json:"have,omitzero"`
	Mean     report.Number `json:"mean,omitzero"`
	Figures  []FigureAlone `json:"figures"`
}

// FigureAlone is how far one figure alone would have to go: Grade is the least
// grade in half points that would do from every judge, absent where none does.
type FigureAlone struct {
	Number int           `json:"number"`
	Label  string        `json:"label,omitempty"`
	Have   report.Number `json:"have"`
	Grade  report.Number `json:"grade,omitzero"`
}

// WhatIfOf scores a flight that has marks before and after changes, which made
// says, one by one; target is a total asked about, nil for none. That of the others is asked
// about only where analysis.OthersIn has some.
func WhatIfOf(f *season.Flight, changes []analysis.Change, made []WhatChange, target *analysis.Goal) WhatIf {
	w := analysis.WhatIfOf(f, changes)
	d := WhatIf{
		Flight: f.Name, Pilot: f.Pilot.Handle, PilotName: f.Pilot.Name, Date: f.Date.String(), Programme: string(f.Programme), Label: f.Label,
		Sequence: f.Sequence.Handle, Missing: f.Missing, Changes: []string{}, Made: listOf(made), Lines: whatLines(f, w), OtherPanel: w.Changed.Judges != w.Sheet.Judges,
		Before: whatScore(w.Before, w.PlaceBefore, f.Of), After: whatScore(w.After, w.PlaceAfter, f.Of),
	}
	d.OthersTyped, d.OthersFlown = len(w.Others), max(f.Of-1, 0)
	d.NoPlace = noPlace(f, w)
	if w.ByPrinted && d.After.Place > 0 {
		d.ByPrinted = f.Rank
	}
	for _, change := range made {
		d.Changes = append(d.Changes, change.Change)
	}
	if d.Before.Place > 0 && f.Rank > 0 && f.Rank != d.Before.Place {
		d.PrintedPlace = f.Rank
	}
	if w.Before.Decided() && w.After.Decided() {
		d.More = WhatMore{lessNumber(w.After.Points, w.Before.Points), lessNumber(w.After.Percent, w.Before.Percent)}
	}
	if f.Disputed() != nil {
		d.Official = report.Exact(f.Official.Points.Rat())
	}
	if target != nil {
		d.Reach = whatItTakes(f, w, *target)
	}
	if d.Reach != nil && target.AmongOthers() && len(changes) == 0 {
		d.Reach.PlaceNow = f.Rank
		if behind := new(big.Rat).Sub(d.Reach.Points.Rat(), f.Record().Points); behind.Sign() > 0 && d.Official.Known() {
			d.Reach.Behind = report.Exact(behind)
		}
	}
	return d
}

// noPlace is why the changed sheet has no place.
func noPlace(f *season.Flight, w analysis.WhatIf) NoPlace {
	switch {
	case w.PlaceAfter > 0 || w.Changed.Judges != w.Sheet.Judges || !w.After.Decided() || f.Void != nil:
		return ""
	case len(f.Field) == 0 && f.Rank == 0:
		return ""
	case len(w.Others) == 0 && len(f.Field) > 0 && len(f.FieldTotals()) > 1:
		return NoPlaceMaximum
	case len(w.Others) == 0:
		return NoPlaceNoField
	case f.Of == 0:
		return NoPlacePilots
	}
	return NoPlacePart
}

func lessNumber(a, b *big.Rat) report.Number { return report.Exact(new(big.Rat).Sub(a, b)) }

func whatScore(score scoring.Score, place, of int) WhatScore {
	d := WhatScore{
		Points: report.Exact(score.Points), Percent: report.Exact(score.Percent), Maximum: report.Int(int64(score.Maximum)),
		Penalty: report.Exact(score.Penalty), Undecided: !score.Decided(),
	}
	if place > 0 {
		d.Place, d.Of = place, of
	}
	return d
}

// whatLines are the lines that do not count what they did.
func whatLines(f *season.Flight, w analysis.WhatIf) []WhatLine {
	lines := []WhatLine{}
	for i, line := range w.Sheet.Lines {
		before, after := w.Before.Lines[i], w.After.Lines[i]
		if before.Points != nil && after.Points != nil && before.Points.Cmp(after.Points) == 0 || before.Points == nil && after.Points == nil {
			continue
		}
		d := WhatLine{Line: line.Kind.String(), K: line.K, Before: report.Exact(before.Mean), After: report.Exact(after.Mean)}
		if line.Kind == scoring.Figure {
			d.Figure = f.Flown()[i] + 1
			d.Label = labelIn(f.Sequence, d.Figure)
		}
		if before.Points != nil && after.Points != nil {
			d.Gained = lessNumber(after.Points, before.Points)
		}
		lines = append(lines, d)
	}
	return lines
}

// labelIn is the label of a sequence's figure, or its codes.
func labelIn(s *season.Sequence, number int) string {
	figure := s.Figures[number-1]
	return FigureLabel(Figure{Label: figure.Label, Elements: elementOf(figure)})
}

// whatItTakes is nil where the changed sheet is undecided.
func whatItTakes(f *season.Flight, w analysis.WhatIf, target analysis.Goal) *WhatItTakes {
	maximum := whole(w.After.Maximum)
	points := target.PointsOf(maximum, w.Others)
	found, ok := w.Target(f, points)
	if !ok {
		return nil
	}
	percent := new(big.Rat).Quo(points, maximum)
	d := &WhatItTakes{
		Percent: report.Exact(percent.Mul(percent, whole(100))), Points: report.Exact(points), Winner: target.AmongOthers() && target.Place == 0, Place: target.Place, AsPoints: target.Points != nil,
		Reached: w.After.Points.Cmp(points) >= 0, Have: report.Exact(found.Have), Mean: report.Exact(found.Mean), Figures: []FigureAlone{},
	}
	for _, figure := range found.Figures {
		alone := FigureAlone{Number: figure.Number, Label: labelIn(f.Sequence, figure.Number), Have: report.Exact(figure.Have)}
		if figure.Half != nil {
			alone.Grade = report.Exact(big.NewRat(int64(*figure.Half), 2))
		}
		d.Figures = append(d.Figures, alone)
	}
	return d
}

// Alone counts the figures of which one alone could bring the total.
func (r WhatItTakes) Alone() int {
	n := 0
	for _, f := range r.Figures {
		if f.Grade.Known() {
			n++
		}
	}
	return n
}
