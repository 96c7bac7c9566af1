package analysis

import (
	"math"
	"slices"

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
	// Same says that every flight scored the same.
	Same bool
	// Unseen are the groups of the sequence that no figure graded in these flights
	// had, NeverFlown those of them that the pilot never flew; Bare are the numbers
	// of the figures without a family: the range is wide because of them.
	Unseen, NeverFlown []string
	Bare               []int
	// NotFlown are those that the pilot does not fly; they are not unseen.
	NotFlown []NotFlownGroup
	// NewCategory says that the pilot never flew the sequence's category.
	NewCategory bool
	Spoilt      SpoiltFlights

	next stats.StudentMixture // of the figures' percent
}

// Lack is why nothing can be said, with the numbers of the reason.
type Lack struct {
	Reason  code.Reason
	Flights int // with marks
	Least   int // of those, or of contests, that are needed
	Bare    int // flights with an official total only
	// Contests that the flights are of; Uncoded flights have marks, and no family
	// in any figure.
	Contests, Uncoded int
	// Families were flown, LeastFamilies are needed.
	Families, LeastFamilies int
}

// FigureForecast is one figure's grade: mean and range.
type FigureForecast struct {
	Number          int
	Mean, Low, High float64
}

// LineForecast is a weighted line: its K, and its mean percent over the flights
// that had it; NaN where none had.
type LineForecast struct {
	Line    scoring.LineKind
	K       int
	Percent float64
	Flights int
}

// SpoiltFlights are what a forecast leaves out: figures zeroed and penalties.
type SpoiltFlights struct {
	Zeros, Figures int     // figures zeroed, of those decided
	ZeroChance     float64 // of at least one in a flight of the sequence; NaN where it cannot be told
	Penalised      int     // flights with a penalty
	Penalty        float64 // points of those flights, a mean; NaN where there is none
}

// Reach is how a mark stands to a forecast: the chance that a flight comes to it,
// and the mean grade of the figures that it takes, the weighted lines at their
// mean; NaN where no grade does.
type Reach struct{ Percent, Mean, Chance float64 }

// The rules of a forecast.
const (
	ForecastConfidence = 0.80 // of every range of a score or a grade to come
	ForecastDays       = 730  // that are looked at, two seasons
	ForecastLeast      = 4    // flights to forecast from
	fullMarks          = 10.0
)

// ForecastOf answers for a pilot and a sequence.
func ForecastOf(l *season.Ledger, p *season.Pilot, seq *season.Sequence) ForecastAnswer {
	basis := forecastBasis(l, p, seq.Category, l.AsOf)
	out := ForecastAnswer{
		Pilot: p, Sequence: seq, Flights: len(basis.flights), Contests: basis.contests, On: basis.on, Stale: basis.stale,
		NewCategory: seq.Category != "" && !everFlew(l, p, seq.Category), Bare: bareFigures(seq), Spoilt: spoilt(basis.flights, seq),
	}
	out.Unseen = unseenGroups(basis.flights, seq)
	out.setApart(p)
	out.NeverFlown = neverFlown(l, p, out.Unseen)
	if out.Lack = basis.lack; out.Lack.Reason != "" {
		return out
	}
	model, err := newForecastModel(basis.flights, seq, basis.on)
	if err != nil {
		out.Lack = Lack{Reason: code.NoRange, Flights: len(basis.flights)}
		return out
	}
	if err := out.tell(model, basis.flights); err != nil {
		return ForecastAnswer{} // TEMP
	}
	return out
}
