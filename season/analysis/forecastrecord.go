package analysis

import (
	"boxbook/season"
	"boxbook/season/stats"
)

// ForecastPast counts past forecasts: of Of flights, Inside lay in the range
// forecast from the flights before them, Above and Below lay outside it.
type ForecastPast struct{ Inside, Above, Below, Of int }

// The record of past forecasts: how many of the latest flights it is made of, and
// how many misses on one side, with none on the other, say that the forecasts lean.
const (
	recordFlights  = 20
	OneSidedMisses = 3
)

// Leaning says on which side the flights missed the ranges, where they did so on
// one side alone and too often for chance: 1 above, -1 below, else 0.
func (p ForecastPast) Leaning() int {
	switch {
	case p.Below == 0 && p.Above >= OneSidedMisses:
		return 1
	case p.Above == 0 && p.Below >= OneSidedMisses:
		return -1
	default:
		return 0
	}
}

// PastChance is the chance, one-sided, at which more flights came out below their ranges
// than chance gives.
const PastChance = 0.05

// belowRange is the chance of a flight below a range that holds as often as it should.
const belowRange = (1 - LevelConfidence) / 2

// OftenBelow reports whether more of the flights came out below the ranges than chance
// gives (binomial); one above is no evidence against a pilot.
func (p ForecastPast) OftenBelow() bool {
	return p.Below > 0 && stats.BinomialAtLeast(p.Below, p.Of, belowRange) <= PastChance
}

// BelowExpected is how many flights come out below by chance.
func (p ForecastPast) BelowExpected() float64 { return belowRange * float64(p.Of) }

// ForecastRecord forecasts the latest flights that a forecast for a category and a
// catalogue rests on, that of the latest flight for nil, each from the flights before its day, and counts how many lay in the range:
// what a forecast is worth for this pilot. The flights are taken side by side.
func ForecastRecord(l *season.Ledger, p *season.Pilot, category string, catalogue *string) ForecastPast {
	flights := last(forecastBasisOf(l, p, PresentCategory(l, p), category, catalogue, l.AsOf).flights, recordFlights)
	pasts := make([]ForecastPast, len(flights))
	season.SideBySide(len(flights), func(i int) { pasts[i] = forecastInHindsight(l, flights[i]) })
	var sum ForecastPast
	for _, past := range pasts {
		sum.Inside += past.Inside
		sum.Above += past.Above
		sum.Below += past.Below
		sum.Of += past.Of
	}
	return sum
}

// forecastInHindsight forecasts a flight from those before its day: the figures of
// it that were decided and not zeroed, which is what a forecast speaks of.
func forecastInHindsight(l *season.Ledger, f *season.Flight) ForecastPast {
	known := l.KnownTo(season.Selection{Until: f.Date - 1})
	before := forecastBasisOf(known, f.Pilot, PresentCategory(known, f.Pilot), f.Category, &f.Sequence.Catalogue, f.Date)
	if before.lack.Reason != "" {
		return ForecastPast{}
	}
	figures, percent := cleanFigures(f)
	model, err := newForecastModel(before.flights, f.Sequence, figures, before.on, false)
	if err != nil {
		return ForecastPast{}
	}
	switch atMost := model.next().AtMost(percent); {
	case atMost < (1-ForecastConfidence)/2:
		return ForecastPast{Below: 1, Of: 1}
	case atMost > (1+ForecastConfidence)/2:
		return ForecastPast{Above: 1, Of: 1}
	default:
		return ForecastPast{Inside: 1, Of: 1}
	}
}

// cleanFigures are the indexes of the figures of a flight that were decided and not
// zeroed, and their percent, weighed by K.
func cleanFigures(f *season.Flight) (figures []int, percent float64) {
	var mean weightedMean
	for _, figure := range decidedFigures(f) {
		if !figure.zeroed {
			figures = append(figures, figure.number-1)
			mean.add(figure.percent, float64(figure.figure.K))
		}
	}
	return figures, mean.mean()
}
