package season

import (
	"math/big"
	"slices"

	"boxbook/scoring"
)

// HasMarks reports whether any judge's mark is in the ledger.
func (f *Flight) HasMarks() bool {
	if f.Sequence == nil {
		return false
	}
	return f.Rows.Any() || f.Positioning != nil || f.Harmony != nil
}

// MarksOf gives the marks of a figure or a weighted line, nil where there is
// no row.
func (f *Flight) MarksOf(kind scoring.LineKind, figure int) []scoring.Mark {
	switch {
	case kind == scoring.Positioning && f.Positioning != nil:
		return f.Positioning.Marks
	case kind == scoring.Harmony && f.Harmony != nil:
		return f.Harmony.Marks
	case kind == scoring.Figure && figure >= 1 && figure <= f.Rows.Len():
		return f.Rows.Marks(figure - 1)
	default:
		return nil
	}
}

// Flown lists the figures that have a row of marks, as indexes into the
// sequence: all of them, but in practice.
func (f *Flight) Flown() []int {
	var flown []int
	for i := range f.Rows.Len() {
		if f.Rows.Has(i) {
			if flown == nil {
				flown = make([]int, 0, f.Rows.Len()-i)
			}
			flown = append(flown, i)
		}
	}
	return flown
}

// Times is how often a figure is known to have been flown: once for each row of
// marks, and once where the whole sequence was flown and has none.
func (f *Flight) Times(figure int) int {
	switch {
	case !f.Flew(figure):
		return 0
	case figure > f.Rows.Len():
		return 1
	default:
		return 1 + len(f.Rows.again(figure-1))
	}
}

// Maximum is 10 x the K of what was flown: the whole sequence with its
// weighted lines, in practice only the rows that are there. 0 where there is
// no sequence.
func (f *Flight) Maximum() int {
	switch {
	case f.Sequence == nil:
		return 0
	case f.HasMarks():
		return f.Sheet().Maximum()
	default:
		return f.Sequence.Maximum()
	}
}

// Sheet gives the flight's marks as scoring reads them: flown figures in
// order, then positioning, then harmony.
func (f *Flight) Sheet() scoring.Sheet {
	sheet := scoring.Sheet{Judges: len(f.Panel)}
	if f.Style != nil {
		sheet.Style = f.Style.Style
	}
	sheet.Lines = make([]scoring.Line, 0, f.Rows.Len()+2)
	for i := range f.Rows.Len() {
		if len(f.Rows.Marks(i)) > 0 {
			sheet.Lines = append(sheet.Lines, f.figureLine(i))
		}
	}
	if f.Positioning != nil {
		sheet.Lines = append(sheet.Lines, f.line(scoring.Positioning, 0, f.Sequence.Positioning, f.Positioning.Marks))
	}
	if f.Harmony != nil {
		sheet.Lines = append(sheet.Lines, f.line(scoring.Harmony, 0, f.Sequence.Harmony, f.Harmony.Marks))
	}
	for _, p := range f.Penalties {
		sheet.Penalties = append(sheet.Penalties, p.Points)
	}
	return sheet
}

func (f *Flight) figureLine(i int) scoring.Line {
	return f.line(scoring.Figure, i+1, f.Sequence.Figures[i].K, f.Rows.Marks(i))
}

// FigureScore is what the row of a figure, an index into the sequence, is worth
// by itself: nothing else of the flight is scored for it.
func (f *Flight) FigureScore(i int) scoring.LineScore {
	var style scoring.Style
	if f.Style != nil {
		style = f.Style.Style
	}
	return f.figureLine(i).Score(style)
}

func (f *Flight) line(kind scoring.LineKind, figure, k int, marks []scoring.Mark) scoring.Line {
	line := scoring.Line{Kind: kind, K: k, Marks: marks}
	if kind == scoring.Figure {
		for _, row := range f.Rows.again(figure - 1) {
			line.Again = append(line.Again, row.Marks)
		}
	}
	for _, r := range f.Rulings {
		if r.Line == kind && r.Figure == figure {
			line.Decision = r.Decision
		}
	}
	return line
}

// Score is what the marks are worth, worked out once. It is the zero Score
// where there are no marks.
func (f *Flight) Score() scoring.Score {
	if score := f.score.Load(); score != nil {
		return *score
	}
	score := new(scoring.Score)
	if f.HasMarks() {
		*score = f.Sheet().Score()
	}
	if !f.score.CompareAndSwap(nil, score) {
		score = f.score.Load() // two asked at once: one answer for both
	}
	return *score
}

// Undecided are the lines that wait for a ruling, each as a ruling would name it.
func (f *Flight) Undecided() []Ruling {
	if !f.HasMarks() {
		return nil
	}
	score := f.Score()
	if score.Decided() {
		return nil
	}
	var open []Ruling
	flown := f.Flown()
	for i, line := range f.Sheet().Lines {
		if score.Lines[i].Ruling != scoring.Undecided {
			continue
		}
		ruling := Ruling{Line: line.Kind}
		if line.Kind == scoring.Figure {
			ruling.Figure = flown[i] + 1
		}
		open = append(open, ruling)
	}
	return open
}

// Total is what Score comes to without its parts, and leaves none of them behind:
// for who asks of every flight of an archive. It is the zero Total where there are
// no marks.
func (f *Flight) Total() scoring.Total {
	if !f.HasMarks() {
		return scoring.Total{}
	}
	if score := f.score.Load(); score != nil || f.Style == nil {
		return f.Score().Total()
	}
	tally := scoring.TallyOf(f.Style.Style)
	f.Rows.Each(func(i int, marks []scoring.Mark) {
		if len(f.Rulings) == 0 && len(f.Rows.again(i)) == 0 {
			tally.AddRow(f.Sequence.Figures[i].K, marks, scoring.NoDecision)
		} else {
			tally.Add(f.figureLine(i))
		}
	})
	if f.Positioning != nil {
		tally.Add(f.line(scoring.Positioning, 0, f.Sequence.Positioning, f.Positioning.Marks))
	}
	if f.Harmony != nil {
		tally.Add(f.line(scoring.Harmony, 0, f.Sequence.Harmony, f.Harmony.Marks))
	}
	for _, p := range f.Penalties {
		tally.Less(p.Points)
	}
	if total, ok := tally.Total(); ok {
		return total
	}
	return f.Score().Total()
}

// Source says where a flight's record comes from.
type Source string

// The sources of a record.
const (
	NoRecord Source = ""
	Printed  Source = "official"
	Computed Source = "computed"
)

// Record is what season, trend and readiness use: the official total where it
// was typed, else the tool's own. Points are nil where neither is known;
// Maximum and Percent are nil where no maximum is known.
type Record struct {
	Points  *big.Rat
	Maximum *big.Rat
	Percent *big.Rat
	Source  Source
}

// Record gives the flight's record.
func (f *Flight) Record() Record {
	if o := f.Official; o != nil {
		rec := Record{Points: o.Points.Rat(), Percent: o.Percent(), Source: Printed}
		if o.Maximum != nil {
			rec.Maximum = o.Maximum.Rat()
		}
		return rec
	}
	total := f.Total()
	if !total.Decided() {
		return Record{}
	}
	return Record{Points: total.Points(), Maximum: big.NewRat(int64(total.Maximum()), 1), Percent: total.Percent(), Source: Computed}
}

// HasPercent reports whether the record has a percent, without working one out where
// a total was typed.
func (f *Flight) HasPercent() bool {
	if o := f.Official; o != nil {
		return o.Maximum != nil && o.Maximum.Positive()
	}
	return f.Record().Percent != nil
}

// RecordPoints is the record's total, nil where it is not known.
func (f *Flight) RecordPoints() *big.Rat { return f.Record().Points }

// Counts reports whether the flight enters figures at all: a void one is kept
// and shown and enters none.
func (f *Flight) Counts() bool { return f.Void == nil }

// Contested reports whether the flight was flown for a result: practice apart.
func (f *Flight) Contested() bool { return f.Programme != Practice }

// Watched reports whether the flight was looked at: it has a fault line or a review.
func (f *Flight) Watched() bool { return len(f.Faults) > 0 || len(f.Reviewed) > 0 }

// FiguresWatched reports whether its figures were looked at, so that it counts as a
// flight in which a fault was seen or not. A safety matter says nothing of the
// figures: a flight on which no other fault is noted shows none and misses none.
func (f *Flight) FiguresWatched() bool {
	return len(f.Reviewed) > 0 || slices.ContainsFunc(f.Faults, func(fault Fault) bool { return !fault.Safety })
}

// WaitsForReview reports whether nobody has gone through a flight that has marks or a
// video: what its pilot felt, and safety matters, are no review.
func (f *Flight) WaitsForReview() bool {
	return (f.HasMarks() || len(f.Videos) > 0) && len(f.Reviewed) == 0 &&
		!slices.ContainsFunc(f.Faults, func(fault Fault) bool { return !fault.Felt && !fault.Safety })
}

// FieldTotals is the field with the pilot's own total in it, nil where no
// field was typed or the flight has no total.
func (f *Flight) FieldTotals() []*big.Rat {
	own := f.RecordPoints()
	if len(f.Field) == 0 || own == nil {
		return nil
	}
	totals := make([]*big.Rat, 0, len(f.Field)+1)
	there := false
	for _, t := range f.Field {
		total := t.Rat()
		if !there && scoring.Agrees(own, t) {
			there, total = true, own
		}
		totals = append(totals, total)
	}
	if !there {
		totals = append(totals, own)
	}
	slices.SortFunc(totals, (*big.Rat).Cmp)
	return totals
}
