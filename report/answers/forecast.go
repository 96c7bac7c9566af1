package answers

import (
	"boxbook/report"
	"boxbook/season/analysis"
)

// Forecast is what a pilot would score on a sequence, in JSON; percent, low
// and high (the 80 % range) are absent where too little was flown.
type Forecast struct {
	Pilot       string           `json:"pilot"`
	Sequence    string           `json:"sequence"`
	Flights     int              `json:"flights"`
	Percent     report.Number    `json:"percent,omitzero"`
	Low         report.Number    `json:"low,omitzero"`
	High        report.Number    `json:"high,omitzero"`
	Figures     []FigureForecast `json:"figures"`
	Unseen      []string         `json:"unseen"`
	NewCategory bool             `json:"newCategory"`
	Past        Past             `json:"past"`
	Why         string           `json:"why,omitempty"`

	Labels []string
}

// FigureForecast is one figure's grade: mean and 80 % range.
type FigureForecast struct {
	Number int           `json:"number"`
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

func ForecastOf(a analysis.ForecastAnswer, past analysis.ForecastPast) Forecast {
	d := Forecast{
		Pilot: a.Pilot.Handle, Sequence: a.Sequence.Handle, Flights: a.Flights, Figures: []FigureForecast{},
		Unseen: listOf(a.Unseen), NewCategory: a.NewCategory, Past: Past(past), Why: a.Why,
	}
	if a.Told {
		d.Percent, d.Low, d.High = report.Float(a.Percent), report.Float(a.Low), report.Float(a.High)
	}
	for _, f := range a.Figures {
		d.Figures = append(d.Figures, FigureForecast{f.Number, report.Float(f.Mean), report.Float(f.Low), report.Float(f.High)})
		figure := a.Sequence.Figures[f.Number-1]
		d.Labels = append(d.Labels, FigureLabel(Figure{Label: figure.Label, Elements: elementOf(figure)}))
	}
	return d
}
