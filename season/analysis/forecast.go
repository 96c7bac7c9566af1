package analysis

import (
	"math"
	"slices"

	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/analysis/code"
	"boxbook/season/stats"
)

// ForecastAnswer is what a pilot would score on a sequence, from what families and
// figures cost in the flights of the series that the pilot's level is made of, and
// in those of the sequence's category. Percents are of the whole sequence,
// weighted lines included, with nothing zeroed and before penalties.
type ForecastAnswer struct {
	Pilot    *season.Pilot
	Sequence *season.Sequence
	// Told says that there was enough to forecast from; Lack says what was not.
	Told               bool
	Lack               Lack
	Flights, Contests  int
	Percent, Low, High float64
	Figures            []FigureForecast
	Lines              []LineForecast
	// On is the day it is made for; Stale says that the last flight is too far back
	// for today, and that it is made for the day of that flight.
	On    season.Date
	Stale bool
	// Same says that every flight scored the same; SteadyOnly that the contests are
	// too few to show a drift.
	Same, SteadyOnly bool
	// Unseen are the groups of the sequence that no figure graded in these flights
	// had, NeverFlown those of them that the pilot never flew; Bare are the numbers
	// of the figures without a family.
	Unseen, NeverFlown []string
	Bare               []int
	// NotFlown are those that the pilot does not fly; they are not unseen.
	NotFlown []NotFlownGroup
	// NewCategory says that the pilot never flew the sequence's category.
	NewCategory bool
	// Uncoded are flights that say nothing of the percent, since none of their
	// figures has a family; they count in Spoilt.
	Uncoded []*season.Flight
	Spoilt  SpoiltFlights

	ungraded []string             // the unseen groups with those not flown
	flights  []*season.Flight     // that it is made from
	next     stats.StudentMixture // of the figures' percent
}

// Lack is why nothing can be said, with the numbers of the reason. It has the
// fields of the JSON contract, in their order.
type Lack struct {
	Reason   code.Reason
	Flights  int // with marks
	Contests int // that those are of
	Least    int // flights, or contests, that are needed
	Bare     int // flights with an official total only
	Uncoded  int // flights that have marks, and no family in any figure
	// Families were flown, LeastFamilies are needed.
	Families, LeastFamilies int
}

// FigureForecast is one figure's grade: mean and range. Wide says that it has
// something that was never graded, and a range wider than all figures without.
type FigureForecast struct {
	Number          int
	Mean, Low, High float64
	Wide            bool
}

// LineForecast is a weighted line: its K, and its mean percent over the flights
// that had it; NaN where none had.
type LineForecast struct {
	Line    scoring.LineKind
	K       int
	Percent float64
	Flights int
}

// SpoiltFlights are what a forecast leaves out: figures zeroed and penalties. Partly
// counts the figures that it does not: a zero is in their mean, which is not 0.
type SpoiltFlights struct {
	Flights        int     // that have marks
	Zeros, Figures int     // figures zeroed, of those decided
	ZeroChance     float64 // of at least one in a flight of the sequence; NaN where it cannot be told
	Partly         int
	Penalised      int     // flights with a penalty
	Penalty        float64 // points of those flights, a mean; NaN where there is none
}

// Reach is how a mark stands to a forecast: the chance that a flight comes to it,
// and the mean grade of the figures that it takes, the weighted lines at their
// mean; NaN where no grade does. Both are of flights in which nothing is zeroed. Came
// is how many of the flights that it is made from came to it as they were flown, zeros
// and penalties counted, Of how many of these have a percent.
type Reach struct {
	Percent, Mean, Chance float64
	Came, Of              int
}

// The rules of a forecast.
const (
	ForecastConfidence = LevelConfidence // of every range of a score or a grade to come
	ForecastDays       = PresentDays
	fullMarks          = 10.0
)

// ForecastOf answers for a pilot and a sequence.
func ForecastOf(l *season.Ledger, p *season.Pilot, seq *season.Sequence) ForecastAnswer {
	return forecastFrom(l, p, PresentCategory(l, p), seq)
}

// forecastFrom answers from a present category that somebody else's window says.
func forecastFrom(l *season.Ledger, p *season.Pilot, present string, seq *season.Sequence) ForecastAnswer {
	basis := forecastBasisOf(l, p, present, seq.Category, &seq.Catalogue, l.AsOf)
	out := ForecastAnswer{
		Pilot: p, Sequence: seq, Flights: len(basis.flights), Contests: basis.contests, On: basis.on, Stale: basis.stale,
		NewCategory: seq.Category != "" && !everFlew(l, p, seq.Category), Bare: bareFigures(seq),
		Unseen: unseenGroups(basis.flights, seq), Uncoded: basis.uncoded, Spoilt: basis.spoiltOf(seq), Lack: basis.lack,
	}
	out.ungraded, out.flights = slices.Clone(out.Unseen), basis.flights
	out.setApart(p)
	out.NeverFlown = neverFlown(l, p, out.Unseen)
	if out.Lack.Reason == "" && !out.tell(basis) {
		out.Lack = basis.lacking(code.NoRange, 0)
	}
	return out
}

// tell fills the numbers; false where the flights allow none.
func (o *ForecastAnswer) tell(basis forecastBasis) bool {
	model, err := newForecastModel(basis.flights, o.Sequence, allFigures(o.Sequence), basis.on, true)
	if err != nil {
		return false
	}
	o.next = model.next()
	o.Lines = lineForecasts(basis.flights, o.Sequence)
	span, err := o.next.Central(ForecastConfidence)
	if err != nil {
		return false
	}
	span = stats.Interval{Low: o.withLines(span.Low), High: o.withLines(span.High)}.Clip(0, 100)
	o.Percent, o.Low, o.High = clip(o.withLines(o.next.Mean()), 0, 100), span.Low, span.High
	percents := recordPercents(basis.flights)
	o.Same, o.SteadyOnly = slices.Min(percents) == slices.Max(percents), basis.contests < LeastDriftContests
	o.Told = true
	return o.tellFigures(model)
}

// allFigures are the indexes of a sequence's figures.
func allFigures(seq *season.Sequence) []int {
	all := make([]int, len(seq.Figures))
	for i := range all {
		all[i] = i
	}
	return all
}

// tellFigures forecasts each figure's grade alone.
func (o *ForecastAnswer) tellFigures(model *forecastModel) bool {
	for i := range o.Sequence.Figures {
		mixture := model.figure(i)
		span, err := mixture.Central(ForecastConfidence)
		if err != nil {
			return false
		}
		grade := func(percent float64) float64 { return clip(percent/fullMarks, 0, fullMarks) }
		o.Figures = append(o.Figures, FigureForecast{Number: i + 1, Mean: grade(mixture.Mean()), Low: grade(span.Low), High: grade(span.High)})
	}
	o.markWide()
	return true
}

// markWide finds the figures whose range is wide because something in them was never
// graded, to a reader, who has both ends in tenths of a grade.
func (o *ForecastAnswer) markWide() {
	tenths := func(f FigureForecast) float64 { return math.Round(10*f.High) - math.Round(10*f.Low) }
	widest := 0.0
	for _, f := range o.Figures {
		if !o.lacksGrades(f.Number) {
			widest = math.Max(widest, tenths(f))
		}
	}
	for i, f := range o.Figures {
		o.Figures[i].Wide = o.lacksGrades(f.Number) && tenths(f) > widest
	}
}

// lacksGrades reports whether a figure has no family, or one that these flights
// have no grade of.
func (o *ForecastAnswer) lacksGrades(number int) bool {
	has := func(group string) bool { return figureHas(o.Sequence.Figures[number-1], group) }
	return slices.Contains(o.Bare, number) || slices.ContainsFunc(o.ungraded, has)
}

// withLines takes a percent of the figures to one of the sequence, its weighted
// lines at their means. A line never graded counts for nothing.
func (o *ForecastAnswer) withLines(percent float64) float64 {
	share, lines := o.lineShare()
	return (1-share)*percent + share*lines
}

// lineShare is the share of the weighted lines in the K, and their mean percent.
func (o *ForecastAnswer) lineShare() (share, percent float64) {
	var lines weightedMean
	for _, line := range o.Lines {
		if line.Flights > 0 {
			lines.add(line.Percent, float64(line.K))
		}
	}
	if lines.weight == 0 {
		return 0, 0
	}
	return lines.weight / (lines.weight + float64(o.Sequence.K())), lines.mean()
}

// Reach asks what it takes to come to a percent of the sequence, of an answer that
// is told.
func (o *ForecastAnswer) Reach(percent float64) Reach {
	share, lines := o.lineShare()
	figures := (percent - share*lines) / (1 - share)
	r := Reach{Percent: percent, Mean: max(0, figures/fullMarks), Chance: o.next.AtLeast(figures)}
	for _, f := range o.flights {
		if f.HasPercent() {
			r.Of++
			if flown, _ := f.Record().Percent.Float64(); flown >= percent {
				r.Came++
			}
		}
	}
	if r.Mean > fullMarks {
		r.Mean, r.Chance = math.NaN(), 0
	}
	return r
}

func clip(x, low, high float64) float64 { return math.Min(high, math.Max(low, x)) }

func everFlew(l *season.Ledger, p *season.Pilot, category string) bool {
	return slices.ContainsFunc(l.Select(season.Selection{Pilot: p}), func(f *season.Flight) bool {
		return f.Counts() && f.Contested() && f.Category == category
	})
}

// unseenGroups lists the sequence's groups that no figure graded in the flights
// had.
func unseenGroups(flights []*season.Flight, seq *season.Sequence) []string {
	var unseen []string
	for j, group := range season.Groups {
		graded := func(f *season.Flight) bool {
			return slices.ContainsFunc(costCells(f), func(c costCell) bool { return c.shares[j] > 0 })
		}
		if sequenceHas(seq, group) && !slices.ContainsFunc(flights, graded) {
			unseen = append(unseen, group)
		}
	}
	return unseen
}

// neverFlown are those of groups that stand in no sequence which the pilot ever
// flew, in practice or in a contest.
func neverFlown(l *season.Ledger, p *season.Pilot, groups []string) []string {
	flights := l.Select(season.Selection{Pilot: p})
	var never []string
	for _, group := range groups {
		has := func(f *season.Flight) bool { return f.Sequence != nil && sequenceHas(f.Sequence, group) }
		if !slices.ContainsFunc(flights, has) {
			never = append(never, group)
		}
	}
	return never
}
