package answers

import (
	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/analysis/code"
)

// Forecast is what a pilot would score on a sequence, in JSON; percent, low
// and high (its range, of the confidence) are absent where too little was flown.
// Why says in words what was lacking, which reason and lack give as they are.
type Forecast struct {
	Pilot       string           `json:"pilot"`
	Sequence    string           `json:"sequence"`
	Flights     int              `json:"flights"`
	Days        int              `json:"days"`
	Percent     report.Number    `json:"percent,omitzero"`
	Low         report.Number    `json:"low,omitzero"`
	High        report.Number    `json:"high,omitzero"`
	Confidence  report.Number    `json:"confidence"`
	Figures     []FigureForecast `json:"figures"`
	Unseen      []string         `json:"unseen"`
	NewCategory bool             `json:"newCategory"`
	Past        Past             `json:"past"`
	Why         string           `json:"why,omitempty"`
	Lack        *Lack            `json:"lack,omitempty"`
}

// FigureForecast is one figure's grade: mean and range; its label, or its codes
// where it has none.
type FigureForecast struct {
	Number int           `json:"number"`
	Label  string        `json:"label,omitempty"`
	Mean   report.Number `json:"mean"`
	Low    report.Number `json:"low"`
	High   report.Number `json:"high"`
}

// Past is the command's own record: past flights inside the range that was
// forecast from the flights before them.
type Past struct {
	Inside int `json:"inside"`
	Of     int `json:"of"`
}

// Lack is why nothing can be said, with the numbers of the reason: what there
// was, what is needed at the least; bare flights have an official total only.
// Percent is what every flight came to.
type Lack struct {
	Reason        code.Reason   `json:"reason"`
	Flights       int           `json:"flights,omitempty"`
	Least         int           `json:"least,omitempty"`
	Bare          int           `json:"bare,omitempty"`
	Families      int           `json:"families,omitempty"`
	LeastFamilies int           `json:"leastFamilies,omitempty"`
	Percent       report.Number `json:"percent,omitzero"`
}

// What a forecast looks at, in days, and the confidence of its ranges, for those
// who tell what the command does.
const (
	ForecastDays       = analysis.ForecastDays
	ForecastConfidence = analysis.ForecastConfidence
)

// ForecastOf answers for a pilot and a sequence, with the record of past
// forecasts. Its sentence is made by words.SayForecast.
func ForecastOf(l *season.Ledger, p *season.Pilot, seq *season.Sequence) Forecast {
	a := analysis.ForecastOf(l, p, seq)
	d := Forecast{
		Pilot: p.Handle, Sequence: seq.Handle, Flights: a.Flights, Days: ForecastDays, Confidence: report.Float(ForecastConfidence),
		Figures: []FigureForecast{}, Unseen: listOf(a.Unseen), NewCategory: a.NewCategory, Past: Past(analysis.ForecastRecord(l, p)),
	}
	if a.Told {
		d.Percent, d.Low, d.High = report.Float(a.Percent), report.Float(a.Low), report.Float(a.High)
	} else {
		d.Lack = lackOf(a.Lack)
	}
	for _, f := range a.Figures {
		figure := seq.Figures[f.Number-1]
		label := FigureLabel(Figure{Label: figure.Label, Elements: elementOf(figure)})
		d.Figures = append(d.Figures, FigureForecast{f.Number, label, report.Float(f.Mean), report.Float(f.Low), report.Float(f.High)})
	}
	return d
}

func lackOf(l analysis.Lack) *Lack {
	d := Lack{Reason: l.Reason, Flights: l.Flights, Least: l.Least, Bare: l.Bare, Families: l.Families, LeastFamilies: l.LeastFamilies}
	if l.Reason == code.SameScore {
		d.Percent = report.Float(l.Percent)
	}
	return &d
}
