package analysis

import (
	"errors"
	"math"
	"slices"
	"sync"

	"gonum.org/v1/gonum/floats"

	"boxbook/season"
	"boxbook/season/analysis/code"
	"boxbook/season/stats"
)

// ForecastAnswer is what a pilot would score on a sequence, from what the
// elements of the figures flown in the last two seasons cost. Percents are of
// the whole sequence, weighted lines included, penalties apart.
type ForecastAnswer struct {
	Pilot    *season.Pilot
	Sequence *season.Sequence
	// Told says that there was enough to forecast from; Lack says what was not.
	Told               bool
	Lack               Lack
	Flights            int
	Percent, Low, High float64
	DF                 float64
	Figures            []FigureForecast
	// Unseen are the groups of the sequence that no figure graded in these days
	// had: the range is wide because of them.
	Unseen []string
	// NewCategory says that the pilot never flew the sequence's category.
	NewCategory bool
}

// Lack is why nothing can be said, with the numbers of the reason.
type Lack struct {
	Reason  code.Reason
	Flights int     // with marks
	Least   int     // of those, that are needed
	Bare    int     // flights with an official total only
	Percent float64 // that every flight came to
	// Families were flown, LeastFamilies are needed.
	Families, LeastFamilies int
}

// ForecastPast counts past forecasts: Inside of Of lay in the range forecast.
type ForecastPast struct{ Inside, Of int }

// FigureForecast is one figure's grade: mean and range.
type FigureForecast struct {
	Number          int
	Mean, Low, High float64
}

// The rules of a forecast.
const (
	ForecastConfidence = 0.80 // of every range of a score or a grade to come
	ForecastDays       = 730  // that are looked at, two seasons
	ForecastLeast      = 4    // flights to forecast from

	recordFlights = 20 // the latest past flights that the record is made of
	fullMarks     = 10.0
)

// Groups of a forecast beside the trend groups: the weighted lines, which are
// graded and have no elements.
const (
	positioningGroup = "positioning"
	harmonyGroup     = "harmony"
)

// forecastGroups are the slopes of the model, in order.
var forecastGroups = slices.Concat(season.Groups, []string{positioningGroup, harmonyGroup})

// ForecastOf answers for a pilot and a sequence.
func ForecastOf(l *season.Ledger, p *season.Pilot, seq *season.Sequence) ForecastAnswer {
	flights := forecastFlights(l, p, l.AsOf)
	out, model := forecastFrom(flights, seq)
	if out.Told {
		out.figures(model)
	}
	out.Pilot, out.NewCategory = p, seq.Category != "" && !everFlew(l, p, seq.Category)
	return out
}

func everFlew(l *season.Ledger, p *season.Pilot, category string) bool {
	return slices.ContainsFunc(l.Select(season.Selection{Pilot: p}), func(f *season.Flight) bool {
		return f.Counts() && f.Contested() && f.Category == category
	})
}

// forecastFlights are the contest flights of the ForecastDays before a day.
func forecastFlights(l *season.Ledger, p *season.Pilot, day season.Date) []*season.Flight {
	recent := slices.DeleteFunc(l.Select(season.Selection{Pilot: p}), func(f *season.Flight) bool {
		return f.Date > day || day-f.Date > ForecastDays
	})
	return gradedFlights(recent)
}

// ForecastRecord forecasts each past flight from those before it, and counts
// how many lay in the range: what the forecast is worth for this pilot. The
// flights are taken side by side.
func ForecastRecord(l *season.Ledger, p *season.Pilot) ForecastPast {
	flights := last(forecastFlights(l, p, l.AsOf), recordFlights)
	pasts := make([]ForecastPast, len(flights))
	var all sync.WaitGroup
	for i, f := range flights {
		all.Go(func() { pasts[i] = forecastInHindsight(l, f) })
	}
	all.Wait()
	var sum ForecastPast
	for _, past := range pasts {
		sum.Of += past.Of
		sum.Inside += past.Inside
	}
	return sum
}

// forecastInHindsight forecasts a flight from those before its day.
func forecastInHindsight(l *season.Ledger, f *season.Flight) ForecastPast {
	answer, _ := forecastFrom(forecastFlights(l, f.Pilot, f.Date-1), f.Sequence)
	percent := flownPercent(f)
	switch {
	case !answer.Told || math.IsNaN(percent):
		return ForecastPast{}
	case percent >= answer.Low && percent <= answer.High:
		return ForecastPast{Inside: 1, Of: 1}
	default:
		return ForecastPast{Of: 1}
	}
}

// flownPercent is the flight's own percent before penalties, which is what a
// forecast speaks of; NaN where a figure is undecided.
func flownPercent(f *season.Flight) float64 {
	score := f.Score()
	if score.Raw == nil || score.Maximum == 0 {
		return math.NaN()
	}
	raw, _ := score.Raw.Float64()
	return 100 * raw / float64(score.Maximum)
}

// outlook is a model fitted to flights, the lines of a sequence that it is
// applied to, and the least degrees of freedom that it has.
type outlook struct {
	model *stats.Mixed
	lines []sequenceLine
	least float64
}

// forecastFrom fits the model to flights and applies it to a sequence, as a
// whole.
func forecastFrom(flights []*season.Flight, seq *season.Sequence) (ForecastAnswer, outlook) {
	out := ForecastAnswer{Sequence: seq, Flights: len(flights)}
	lack := func(why code.Reason, percent float64) (ForecastAnswer, outlook) {
		out.Lack = Lack{Reason: why, Flights: len(flights), Least: ForecastLeast, Percent: percent}
		return out, outlook{}
	}
	if len(flights) < ForecastLeast {
		return lack(code.FewFlights, math.NaN())
	}
	if percent, same := samePercent(flights); same {
		return lack(code.SameScore, percent)
	}
	data, least := forecastData(flights)
	model, err := stats.FitMixed(data)
	if err != nil {
		return lack(whyNoModel(err), math.NaN())
	}
	out.Unseen = unseenGroups(flights, seq)
	o := outlook{model, sequenceLines(seq), least}
	forecast, interval, err := o.predict(newSequence(o.lines))
	if err != nil {
		return lack(code.NoRange, math.NaN())
	}
	out.Told, out.DF = true, forecast.DF
	clipped := stats.Interval{Low: 100 - fullMarks*interval.High, High: 100 - fullMarks*interval.Low}.Clip(0, 100)
	out.Percent, out.Low, out.High = clip(100-fullMarks*forecast.Mean, 0, 100), clipped.Low, clipped.High
	return out, o
}

// samePercent gives the percent that all flights came to, where it is one.
func samePercent(flights []*season.Flight) (float64, bool) {
	first := flownPercent(flights[0])
	return first, !slices.ContainsFunc(flights, func(f *season.Flight) bool { return !(math.Abs(flownPercent(f)-first) < 1e-9) })
}

// predict is the deduction of what is yet to be flown, and its range.
func (o outlook) predict(v stats.NewValue) (stats.MixedForecast, stats.Interval, error) {
	forecast, err := o.model.Forecast(v, o.least)
	if err != nil {
		return forecast, stats.Interval{}, err
	}
	interval, err := forecast.Range(ForecastConfidence)
	return forecast, interval, err
}

// whyNoModel is why nothing could be fitted.
func whyNoModel(err error) code.Reason {
	if errors.Is(err, stats.ErrTooFew) {
		return code.OneContest
	}
	return code.NoSpread
}

func clip(x, low, high float64) float64 { return math.Min(high, math.Max(low, x)) }

// figures forecasts each figure's grade alone.
func (o *ForecastAnswer) figures(from outlook) {
	for _, line := range from.lines {
		if line.number == 0 {
			continue
		}
		forecast, interval, err := from.predict(newFigure(line))
		if err != nil {
			continue
		}
		o.Figures = append(o.Figures, FigureForecast{
			Number: line.number, Mean: clip(fullMarks-forecast.Mean, 0, fullMarks),
			Low: clip(fullMarks-interval.High, 0, fullMarks), High: clip(fullMarks-interval.Low, 0, fullMarks),
		})
	}
}

// sequenceLine is one line of a sequence as the model sees it: its K and the
// share of each group in it.
type sequenceLine struct {
	number int // of the figure, 0 for a weighted line
	k      float64
	shares []float64
}

// sequenceLines lists the figures and the weighted lines.
func sequenceLines(seq *season.Sequence) []sequenceLine {
	var lines []sequenceLine
	for i, figure := range seq.Figures {
		lines = append(lines, sequenceLine{i + 1, float64(figure.K), figureShares(figure)})
	}
	if seq.Positioning > 0 {
		lines = append(lines, sequenceLine{0, float64(seq.Positioning), groupShare(positioningGroup)})
	}
	if seq.Harmony > 0 {
		lines = append(lines, sequenceLine{0, float64(seq.Harmony), groupShare(harmonyGroup)})
	}
	return lines
}

func groupShare(group string) []float64 {
	shares := make([]float64, len(forecastGroups))
	shares[slices.Index(forecastGroups, group)] = 1
	return shares
}

// figureShares gives each group's part of the figure's K; all are 0 for a figure
// without codes, which is taken to cost what figures cost on average.
func figureShares(figure season.Figure) []float64 {
	shares := make([]float64, len(forecastGroups))
	for _, e := range figure.Elements {
		if j := slices.Index(forecastGroups, e.Group); j >= 0 && e.Group != "" {
			shares[j] += float64(e.K) / float64(max(e.Parts, 1)) / float64(figure.K)
		}
	}
	return shares
}

// meanK is the K that has a weight of 1: figures weigh by their K, on a scale
// that keeps the error variance that of a common figure.
const meanK = 15.0

// newSequence is the K-weighted mean deduction of lines as a new value.
func newSequence(lines []sequenceLine) stats.NewValue {
	total := 0.0
	for _, line := range lines {
		total += line.k
	}
	v := stats.NewValue{Shares: make([]float64, len(forecastGroups))}
	for _, line := range lines {
		part := line.k / total
		for j, share := range line.shares {
			v.Shares[j] += part * share
		}
		v.ErrorWeight += part * part / (line.k / meanK)
	}
	return v
}

// newFigure is the deduction of one line as a new value. Many figures without
// codes cost together what figures do; one of them hangs on groups that are not
// known.
func newFigure(line sequenceLine) stats.NewValue {
	v := newSequence([]sequenceLine{line})
	if floats.Sum(line.shares) == 0 {
		v.Unknown = 1
	}
	return v
}

// forecastData turns flights into the model's data: a value a figure, its
// deduction from full marks; contests as outer clusters only where one holds
// several flights. The errors are at the least what half points leave of a panel's
// mean. least is the fewest degrees of freedom a forecast may have.
func forecastData(flights []*season.Flight) (data stats.MixedData, least float64) {
	var contests []string
	rounding := 0.0
	for i, f := range flights {
		contest := slices.Index(contests, ContestKey(f))
		if contest < 0 {
			contest = len(contests)
			contests = append(contests, ContestKey(f))
		}
		for _, line := range flownLines(f) {
			rounding += line.k / meanK * gradeRounding / float64(len(f.Panel))
			data.Y = append(data.Y, line.deduction)
			data.Weights = append(data.Weights, line.k/meanK)
			data.Shares = append(data.Shares, line.shares)
			data.Inner = append(data.Inner, i)
			data.Outer = append(data.Outer, contest)
		}
	}
	if len(contests) == len(flights) {
		data.Outer = nil
	}
	data.LeastError = rounding / math.Max(1, float64(len(data.Y)))
	return data, math.Max(1, float64(len(contests)-1))
}

// gradeRounding is the variance that rounding to half points leaves in a grade,
// a twelfth of a half point squared.
const gradeRounding = 0.5 * 0.5 / 12

// flownLine is one line of a flight with its deduction from full marks.
type flownLine struct {
	sequenceLine
	deduction float64
}

func flownLines(f *season.Flight) []flownLine {
	var lines []flownLine
	score := f.Score()
	all := sequenceLines(f.Sequence)
	var kept []sequenceLine
	for _, i := range f.Flown() {
		kept = append(kept, all[i])
	}
	kept = append(kept, weightedLines(f, all)...)
	for i, line := range kept {
		if mean := score.Lines[i].Mean; mean != nil {
			value, _ := mean.Float64()
			lines = append(lines, flownLine{line, fullMarks - value})
		}
	}
	return lines
}

// weightedLines are the positioning and harmony lines that have marks.
func weightedLines(f *season.Flight, all []sequenceLine) []sequenceLine {
	var kept []sequenceLine
	at := len(f.Sequence.Figures)
	if f.Sequence.Positioning > 0 {
		if f.Positioning != nil {
			kept = append(kept, all[at])
		}
		at++
	}
	if f.Sequence.Harmony > 0 && f.Harmony != nil {
		kept = append(kept, all[at])
	}
	return kept
}

// unseenGroups lists the sequence's groups that no graded figure had.
func unseenGroups(flights []*season.Flight, seq *season.Sequence) []string {
	var unseen []string
	for _, group := range season.Groups {
		graded := func(f *season.Flight) bool {
			return slices.ContainsFunc(decidedFigures(f), func(fig flownFigure) bool { return figureHas(fig.figure, group) })
		}
		if sequenceHas(seq, group) && !slices.ContainsFunc(flights, graded) {
			unseen = append(unseen, group)
		}
	}
	return unseen
}
