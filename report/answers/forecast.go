package answers

import (
	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/analysis/code"
)

// Forecast is what a pilot would score on a sequence, in JSON; percent, low
// and high (its range, of the confidence) are absent where too little was flown.
// They are of the whole sequence, with nothing zeroed and before penalties. Why
// says in words what was lacking, which reason and lack give as they are.
type Forecast struct {
	Pilot      string        `json:"pilot"`
	Sequence   string        `json:"sequence"`
	Category   string        `json:"category,omitempty"` // of the sequence
	Flights    int           `json:"flights"`
	Contests   int           `json:"contests"`
	Days       int           `json:"days"`
	On         string        `json:"on,omitempty"` // the day it is made for
	Stale      bool          `json:"stale"`        // that is the last flight's: today is too far off
	Percent    report.Number `json:"percent,omitzero"`
	Low        report.Number `json:"low,omitzero"`
	High       report.Number `json:"high,omitzero"`
	Confidence report.Number `json:"confidence"`
	// Level is where the pilot stands in the present category: the same as of a
	// season, on the same day.
	Level Level `json:"level"`
	// Same says that every flight scored the same; SteadyOnly that the contests are
	// too few to show a drift.
	Same       bool             `json:"same"`
	SteadyOnly bool             `json:"steadyOnly"`
	Figures    []FigureForecast `json:"figures"`
	// Lines are the weighted lines, at their mean.
	Lines []ForecastLine `json:"lines"`
	// Unseen are the groups that no graded figure had, NeverFlown those of them that
	// were never flown at all, Uncoded the numbers of the figures without a family.
	Unseen     []string `json:"unseen"`
	NeverFlown []string `json:"neverFlown"`
	Uncoded    []int    `json:"uncoded"`
	// LeftOut are the flights with marks and no family in any figure: they count for
	// zeros and penalties alone.
	LeftOut []string `json:"leftOut"`
	NotFlown
	NewCategory bool              `json:"newCategory"`
	Zeros       ForecastZeros     `json:"zeros"`
	Penalties   ForecastPenalties `json:"penalties"`
	Past        Past              `json:"past"`
	Reach       *Reach            `json:"reach,omitempty"`
	Why         string            `json:"why,omitempty"`
	Lack        *Lack             `json:"lack,omitempty"`
}

// ForecastLine is a weighted line of the sequence: its K, of all; its mean percent
// over so many flights, absent where none had it.
type ForecastLine struct {
	Line    string        `json:"line"`
	K       int           `json:"k"`
	Percent report.Number `json:"percent,omitzero"`
	Flights int           `json:"flights"`
}

// ForecastZeros counts figures zeroed, of those flown; Chance is that of one
// or more in a flight of the sequence. Partly counts figures with a zero in a mean
// that is not 0, which the forecast includes.
type ForecastZeros struct {
	Figures int           `json:"figures"`
	Of      int           `json:"of"`
	Chance  report.Number `json:"chance,omitzero"`
	Partly  int           `json:"partly,omitempty"`
}

// ForecastPenalties counts flights with penalties, of those with marks; Points is
// their mean.
type ForecastPenalties struct {
	Flights int           `json:"flights"`
	Points  report.Number `json:"points,omitzero"`
	Of      int           `json:"of"`
}

// Reach is how a percent stands to a forecast: the chance that a flight comes to it,
// absent where there is no forecast, and the mean grade of the figures that it
// takes, absent there too and where no grade does; both of flights in which nothing is
// zeroed.
type Reach struct {
	Percent report.Number `json:"percent"`
	Mean    report.Number `json:"mean,omitzero"`
	Chance  report.Number `json:"chance,omitzero"`
	// AsFlown is there where there is a chance.
	AsFlown *ReachFlown `json:"asFlown,omitempty"`
}

// ReachFlown is how many of the flights of a forecast came to a percent as they were
// flown, zeros and penalties counted; Of is how many have a percent.
type ReachFlown struct {
	Flights int `json:"flights"`
	Of      int `json:"of"`
}

// FigureForecast is one figure's grade: mean and range; its label, or its codes
// where it has none. Wide says that the range is, because something in the figure
// was never graded.
type FigureForecast struct {
	Number int           `json:"number"`
	Label  string        `json:"label,omitempty"`
	Mean   report.Number `json:"mean"`
	Low    report.Number `json:"low"`
	High   report.Number `json:"high"`
	Wide   bool          `json:"wide,omitempty"`
}

// Past is the command's own record: past flights inside the range that was
// forecast from the flights before them, above it and below it. Leaning says on
// which side they missed, where they did so on one side alone and too often.
type Past struct {
	Inside  int    `json:"inside"`
	Above   int    `json:"above"`
	Below   int    `json:"below"`
	Of      int    `json:"of"`
	Leaning string `json:"leaning,omitempty"`
	// OftenBelow says that more came out below the range than chance gives in one record
	// of twenty; BelowExpected is how many chance gives.
	OftenBelow    bool          `json:"oftenBelow,omitempty"`
	BelowExpected report.Number `json:"belowExpected,omitzero"`
}

// Sides of a range, in JSON.
const (
	Above = "above"
	Below = "below"
)

// Lack is why nothing can be said, with the numbers of the reason: what there
// was, what is needed at the least; bare flights have an official total only,
// uncoded ones have marks and no family in any figure.
type Lack struct {
	Reason        code.Reason `json:"reason"`
	Flights       int         `json:"flights,omitempty"`
	Contests      int         `json:"contests,omitempty"`
	Least         int         `json:"least,omitempty"`
	Bare          int         `json:"bare,omitempty"`
	Uncoded       int         `json:"uncoded,omitempty"`
	Families      int         `json:"families,omitempty"`
	LeastFamilies int         `json:"leastFamilies,omitempty"`
}

// What a forecast looks at, in days, and the confidence of its ranges, for those
// who tell what the command does.
const (
	ForecastDays       = analysis.ForecastDays
	ForecastConfidence = analysis.ForecastConfidence
)

// ForecastOf answers for a pilot and a sequence, with the record of past
// forecasts; reach is a percent asked about, nil for none. Its sentence is made by
// words.SayForecast.
func ForecastOf(l *season.Ledger, p *season.Pilot, seq *season.Sequence, reach *float64) Forecast {
	var a analysis.ForecastAnswer
	var past analysis.ForecastPast
	season.Together(
		func() { past = analysis.ForecastRecord(l, p, seq.Category, &seq.Catalogue) },
		func() { a = analysis.ForecastOf(l, p, seq) },
	)
	d := Forecast{
		Pilot: p.Handle, Sequence: seq.Handle, Category: seq.Category, Flights: a.Flights, Contests: a.Contests, Days: ForecastDays,
		Confidence: report.Float(ForecastConfidence), Same: a.Same, SteadyOnly: a.Told && a.SteadyOnly,
		Figures: figureForecasts(a), Lines: forecastLines(a), Unseen: listOf(a.Unseen), NeverFlown: listOf(a.NeverFlown), Uncoded: listOf(a.Bare), LeftOut: flightNames(a.Uncoded),
		NotFlown: notFlownOf(a.NotFlown), NewCategory: a.NewCategory,
		Zeros:     ForecastZeros{a.Spoilt.Zeros, a.Spoilt.Figures, report.Float(a.Spoilt.ZeroChance), a.Spoilt.Partly},
		Penalties: ForecastPenalties{a.Spoilt.Penalised, report.Float(a.Spoilt.Penalty), a.Spoilt.Flights},
		Level:     levelOf(analysis.PresentFor(l, p, seq), l.AsOf),
		Past:      pastOf(past),
	}
	if !a.Told {
		d.Lack = lackOf(a.Lack)
		if reach != nil {
			d.Reach = &Reach{Percent: report.Float(*reach)}
		}
		return d
	}
	d.On, d.Stale = a.On.String(), a.Stale
	d.Percent, d.Low, d.High = report.Float(a.Percent), report.Float(a.Low), report.Float(a.High)
	if reach != nil {
		r := a.Reach(*reach)
		d.Reach = &Reach{report.Float(r.Percent), report.Float(r.Mean), report.Float(r.Chance), &ReachFlown{r.Came, r.Of}}
	}
	return d
}

func figureForecasts(a analysis.ForecastAnswer) []FigureForecast {
	list := []FigureForecast{}
	for _, f := range a.Figures {
		figure := a.Sequence.Figures[f.Number-1]
		label := FigureLabel(Figure{Label: figure.Label, Elements: elementOf(figure)})
		list = append(list, FigureForecast{f.Number, label, report.Float(f.Mean), report.Float(f.Low), report.Float(f.High), f.Wide})
	}
	return list
}

func forecastLines(a analysis.ForecastAnswer) []ForecastLine {
	list := []ForecastLine{}
	for _, line := range a.Lines {
		list = append(list, ForecastLine{line.Line.String(), line.K, report.Float(line.Percent), line.Flights})
	}
	return list
}

func flightNames(flights []*season.Flight) []string {
	names := make([]string, 0, len(flights))
	for _, f := range flights {
		names = append(names, f.Name)
	}
	return names
}

func pastOf(p analysis.ForecastPast) Past {
	past := Past{Inside: p.Inside, Above: p.Above, Below: p.Below, Of: p.Of}
	if p.OftenBelow() {
		past.OftenBelow, past.BelowExpected = true, report.Float(p.BelowExpected())
	}
	switch p.Leaning() {
	case 1:
		past.Leaning = Above
	case -1:
		past.Leaning = Below
	}
	return past
}

func lackOf(l analysis.Lack) *Lack {
	d := Lack(l)
	return &d
}
