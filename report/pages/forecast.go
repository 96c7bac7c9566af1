package pages

import (
	"fmt"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// ForecastData is what a pilot would score on a sequence, in JSON; percent, low
// and high (the 80 % range) are absent where too little was flown.
type ForecastData struct {
	Pilot       string           `json:"pilot"`
	Sequence    string           `json:"sequence"`
	Flights     int              `json:"flights"`
	Percent     report.Number    `json:"percent,omitzero"`
	Low         report.Number    `json:"low,omitzero"`
	High        report.Number    `json:"high,omitzero"`
	Figures     []FigureForecast `json:"figures"`
	Unseen      []string         `json:"unseen"`
	NewCategory bool             `json:"newCategory"`
	Past        PastData         `json:"past"`
	Why         string           `json:"why,omitempty"`

	labels []string
}

// FigureForecast is one figure's grade: mean and 80 % range.
type FigureForecast struct {
	Number int           `json:"number"`
	Mean   report.Number `json:"mean"`
	Low    report.Number `json:"low"`
	High   report.Number `json:"high"`
}

// PastData is the command's own record: past flights inside the range that was
// forecast from the flights before them.
type PastData struct {
	Inside int `json:"inside"`
	Of     int `json:"of"`
}

func forecastData(a analysis.ForecastAnswer, past analysis.ForecastPast) ForecastData {
	d := ForecastData{
		Pilot: a.Pilot.Handle, Sequence: a.Sequence.Handle, Flights: a.Flights, Figures: []FigureForecast{},
		Unseen: listOf(a.Unseen), NewCategory: a.NewCategory, Past: PastData(past), Why: a.Why,
	}
	if a.Told {
		d.Percent, d.Low, d.High = report.Float(a.Percent), report.Float(a.Low), report.Float(a.High)
	}
	for _, f := range a.Figures {
		d.Figures = append(d.Figures, FigureForecast{f.Number, report.Float(f.Mean), report.Float(f.Low), report.Float(f.High)})
		figure := a.Sequence.Figures[f.Number-1]
		d.labels = append(d.labels, figureLabel(FigureData{Label: figure.Label, Elements: elementData(figure)}))
	}
	return d
}

// Forecast is the page of a forecast, with the record of past ones.
func Forecast(a analysis.ForecastAnswer, past analysis.ForecastPast) report.Document {
	d := forecastData(a, past)
	doc := report.Document{Title: fmt.Sprintf("Forecast, %s on %s", a.Pilot.Name, d.Sequence), Data: d, Caution: forecastCaution}
	doc.Subtitle = fmt.Sprintf("from %s of the last two years", season.Counted(d.Flights, "contest flight", "contest flights"))
	doc.Sections = []report.Section{{Blocks: []report.Block{&report.Paragraph{Text: forecastSentence(d)}, forecastNotes(d)}}}
	if len(d.Figures) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Heading: "By figure", Blocks: []report.Block{figureForecasts(d)}})
	}
	return doc
}

func forecastSentence(d ForecastData) string {
	if !d.Percent.Known() {
		return "Cannot tell: " + d.Why + "."
	}
	return fmt.Sprintf("About %s %%; four times out of five between %s and %s %%.",
		d.Percent.Text(1), d.Low.Text(1), d.High.Text(1))
}

func forecastNotes(d ForecastData) *report.Notes {
	notes := &report.Notes{}
	if len(d.Unseen) > 0 {
		addNote(notes, "%s; the range is wide because of them", analysis.UnseenWords(d.Unseen))
	}
	if d.NewCategory {
		addNote(notes, "the category was never flown, and is judged by its own standard: this forecast does not know it")
	}
	if d.Past.Of > 0 {
		addNote(notes, "its own record: %d of %s lay inside the range forecast from the flights before", d.Past.Inside, season.Counted(d.Past.Of, "past flight", "past flights"))
	}
	addNote(notes, "percent is before penalties, positioning and harmony included")
	return notes
}

func figureForecasts(d ForecastData) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: "fig", Align: report.Right},
		{Title: "figure", Flexible: true, Min: 10},
		{Title: "grade", Align: report.Right},
		{Title: "80 % from", Align: report.Right},
		{Title: "to", Align: report.Right},
	}}
	for i, f := range d.Figures {
		t.Rows = append(t.Rows, []report.Cell{
			countCell(f.Number), report.Text(d.labels[i]), report.Num(f.Mean, 1), report.Num(f.Low, 1), report.Num(f.High, 1),
		})
	}
	return t
}
