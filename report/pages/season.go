package pages

import (
	"fmt"
	"slices"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// SeasonData is a pilot's season in JSON.
type SeasonData struct {
	Pilot   string       `json:"pilot"`
	Season  int          `json:"season,omitempty"`
	Flights []SeasonLine `json:"flights"`
	// Trend is of the category flown last; Trends are of each category flown.
	Trend    *TrendData      `json:"trend,omitempty"`
	Trends   []CategoryTrend `json:"trends,omitempty"`
	Moves    []MoveData      `json:"moves,omitempty"`
	Contests []ContestData   `json:"contests"`
}

// CategoryTrend is the trend of one category.
type CategoryTrend struct {
	Category string `json:"category"`
	TrendData
}

// MoveData is what a change of category did to the percent, in percent points
// between contest means; absent where too few contests can tell.
type MoveData struct {
	From       string        `json:"from"`
	To         string        `json:"to"`
	Before     int           `json:"before"`
	After      int           `json:"after"`
	Change     report.Number `json:"change,omitzero"`
	Low        report.Number `json:"low,omitzero"`
	High       report.Number `json:"high,omitzero"`
	Confidence report.Number `json:"confidence,omitzero"`
}

// SeasonLine is one flight of a season. ToWinner and ToMedian are points, own
// less the field's.
type SeasonLine struct {
	Flight    string        `json:"flight"`
	Date      string        `json:"date"`
	Contest   string        `json:"contest,omitempty"`
	Category  string        `json:"category,omitempty"`
	Programme string        `json:"programme"`
	Points    report.Number `json:"points,omitzero"`
	Maximum   report.Number `json:"maximum,omitzero"`
	Percent   report.Number `json:"percent,omitzero"`
	Source    string        `json:"source,omitempty"`
	Place     int           `json:"place,omitempty"`
	Of        int           `json:"of,omitempty"`
	ToWinner  report.Number `json:"toWinner,omitzero"`
	ToMedian  report.Number `json:"toMedian,omitzero"`
	Noise     report.Number `json:"noise,omitzero"`
	// Difference is official less own points where they disagree.
	Difference report.Number `json:"difference,omitzero"`
	Undecided  bool          `json:"undecided,omitempty"`
	Void       string        `json:"void,omitempty"`

	contestName string
	enters      bool
}

// ContestData is one contest: the result as printed where it was typed, and
// the sum of the flights beside it.
type ContestData struct {
	Contest  string        `json:"contest"`
	Date     string        `json:"date"`
	Category string        `json:"category,omitempty"`
	Points   report.Number `json:"points,omitzero"`
	Maximum  report.Number `json:"maximum,omitzero"`
	Percent  report.Number `json:"percent,omitzero"`
	Source   string        `json:"source,omitempty"`
	Place    int           `json:"place,omitempty"`
	Of       int           `json:"of,omitempty"`
	Flights  int           `json:"flights"`
	Sum      RecordData    `json:"sum"`

	name string
}

// officialSign stands behind a percent that is the official one.
const officialSign = "*"

// seasonData collects the season's numbers.
func seasonData(s analysis.Flights) SeasonData {
	d := SeasonData{Pilot: s.Pilot.Handle, Season: s.Season, Flights: []SeasonLine{}, Contests: []ContestData{}}
	for _, line := range s.Lines {
		d.Flights = append(d.Flights, seasonLine(line))
	}
	d.addTrends(s)
	for _, c := range s.Contests {
		d.Contests = append(d.Contests, ContestData{
			Contest: c.Contest.Handle, Date: c.Contest.First.String(), Category: c.Category,
			Points: report.Exact(c.Result.Points), Maximum: report.Exact(c.Result.Maximum),
			Percent: report.Exact(c.Result.Percent), Source: string(c.Result.Source),
			Place: c.Rank, Of: c.Of, Flights: c.Flights, Sum: recordData(c.Sum), name: c.Contest.Name,
		})
	}
	return d
}

// addTrends adds the trend of each category and the step between them.
func (d *SeasonData) addTrends(s analysis.Flights) {
	for _, t := range s.Trends() {
		d.Trends = append(d.Trends, CategoryTrend{t.Category, trendData(t.Trend, true)})
	}
	for _, line := range s.Lines {
		i := slices.IndexFunc(d.Trends, func(t CategoryTrend) bool { return line.Enters() && t.Category == line.Flight.Category })
		if i >= 0 {
			d.Trend = &d.Trends[i].TrendData
		}
	}
	for _, m := range s.Moves() {
		move := MoveData{From: m.From, To: m.To, Before: m.Before, After: m.After}
		if m.Known {
			move.Change, move.Low, move.High = report.Float(m.Change), report.Float(m.Low), report.Float(m.High)
			move.Confidence = report.Float(m.Confidence)
		}
		d.Moves = append(d.Moves, move)
	}
}

func seasonLine(line analysis.FlightLine) SeasonLine {
	f := line.Flight
	out := SeasonLine{
		Flight: f.Name, Date: f.Date.String(), Category: f.Category, Programme: string(f.Programme),
		Points: report.Exact(line.Record.Points), Maximum: report.Exact(line.Record.Maximum),
		Percent: report.Exact(line.Record.Percent), Source: string(line.Record.Source),
		Place: f.Rank, Of: f.Of, ToWinner: report.Exact(line.ToWinner), ToMedian: report.Exact(line.ToMedian),
		Undecided: f.HasMarks() && !f.Score().Decided(), enters: line.Enters(),
	}
	if gap := f.Disputed(); gap != nil {
		out.Difference = report.Exact(gap)
	}
	if noise := line.PanelNoise(); noise != nil {
		out.Noise = report.Float(*noise)
	}
	if f.Contest != nil {
		out.Contest, out.contestName = f.Contest.Handle, f.Contest.Name
	}
	if f.Void != nil {
		out.Void = *f.Void
	}
	return out
}

// Season is the page of a pilot's season.
func Season(s analysis.Flights) report.Document {
	d := seasonData(s)
	title := s.Pilot.Name
	if s.Season != 0 {
		title += fmt.Sprintf(", season %d", s.Season)
	}
	doc := report.Document{Title: title, Subtitle: seasonSubtitle(d), Data: d}
	if len(d.Trends) > 0 {
		doc.Sections = append(doc.Sections, verdictSection(d))
	}
	if len(d.Flights) > 0 {
		doc.Sections = append(doc.Sections, report.Section{
			Heading: "Flights", Blocks: []report.Block{seasonTable(d), seasonNotes(d), percentSeries(d), seasonFacts(s, d)},
		})
	}
	if section := trendSection(d); len(section.Blocks) > 0 {
		doc.Sections = append(doc.Sections, section)
	}
	if len(d.Contests) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Heading: "Contests", Blocks: []report.Block{contestTable(d), contestNotes(d)}})
	}
	return doc
}

// verdictSection is each category's trend in a sentence, and what must be known
// beside it.
func verdictSection(d SeasonData) report.Section {
	section, notes := report.Section{}, &report.Notes{}
	for _, t := range d.Trends {
		whose := ""
		if len(d.Trends) > 1 {
			whose = categoryWord(t.Category) + ": "
		}
		section.Blocks = append(section.Blocks, &report.Paragraph{Text: whose + trendSentence(t.TrendData)})
		for _, note := range trendNotes(t.TrendData) {
			addNote(notes, "%s%s", whose, note.Text)
		}
	}
	if len(notes.Items) > 0 {
		section.Blocks = append(section.Blocks, notes)
	}
	return section
}

// trendSection is what the verdicts rest on, then what a change of category
// did.
func trendSection(d SeasonData) report.Section {
	section := report.Section{Heading: "Trend"}
	for _, t := range d.Trends {
		facts := trendFigures(t.TrendData)
		if len(facts.Items) == 0 {
			continue
		}
		if len(d.Trends) > 1 {
			facts.Items = slices.Insert(facts.Items, 0, report.Fact{Label: "category", Value: report.Text(categoryWord(t.Category))})
		}
		section.Blocks = append(section.Blocks, facts)
	}
	for _, m := range d.Moves {
		section.Blocks = append(section.Blocks, &report.Paragraph{Text: moveSentence(m)})
	}
	return section
}

// categoryWord names a category, also where a flight has none.
func categoryWord(category string) string {
	if category == "" {
		return "without a category"
	}
	return category
}

func moveSentence(m MoveData) string {
	head := fmt.Sprintf("From %s to %s: ", categoryWord(m.From), categoryWord(m.To))
	if !m.Change.Known() {
		return head + fmt.Sprintf("too few contests to tell what the move cost (%d before, %d after; at least two of each).", m.Before, m.After)
	}
	return head + fmt.Sprintf("%s points between contest means (%s to %s, %s sure; %d contests before, %d after).",
		change(m.Change), change(m.Low), change(m.High), surety(m.Confidence), m.Before, m.After)
}

// seasonSubtitle counts what the season's figures rest on.
func seasonSubtitle(d SeasonData) string {
	counted, practice, void := 0, 0, 0
	for _, f := range d.Flights {
		switch {
		case f.Void != "":
			void++
		case f.Programme == string(season.Practice):
			practice++
		case f.enters:
			counted++
		}
	}
	text := season.Counted(counted, "contest flight with a record", "contest flights with a record")
	if practice > 0 {
		text += fmt.Sprintf(", %d practice", practice)
	}
	if void > 0 {
		text += fmt.Sprintf(", %d void", void)
	}
	return text
}

func seasonTable(d SeasonData) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: "date"},
		{Title: "contest", Flexible: true, Min: 16},
		{Title: "programme"},
		{Title: "category", Drop: 3},
		{Title: "points", Align: report.Right, Drop: 2},
		{Title: "maximum", Align: report.Right, Drop: 4},
		{Title: "percent", Align: report.Right},
		{Title: "noise", Align: report.Right},
		{Title: "place", Align: report.Right},
		{Title: "to winner", Align: report.Right},
		{Title: "to median", Align: report.Right, Drop: 1},
	}}
	for _, f := range d.Flights {
		percent := report.Num(f.Percent, percentDecimals)
		switch {
		case f.Void != "":
			percent = report.Text("void")
		case f.Undecided && !f.Percent.Known():
			percent = report.Text("open")
		case f.Source == string(season.Printed):
			percent = percent.Marked(officialSign)
		}
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(f.Date), report.Text(f.contestName), report.Text(f.Programme), report.Text(f.Category),
			num(f.Points), report.Num(f.Maximum, 0), percent, report.Num(f.Noise, 1), placeCell(f.Place, f.Of),
			report.Signed(f.ToWinner, pointDecimals), report.Signed(f.ToMedian, pointDecimals),
		})
	}
	return t
}

// placeCell writes "3 of 9", "3", or nothing.
func placeCell(place, of int) report.Cell {
	switch {
	case place == 0:
		return report.Empty()
	case of == 0:
		return report.Text(fmt.Sprint(place))
	default:
		return report.Text(fmt.Sprintf("%d of %d", place, of))
	}
}

// seasonNotes explain what the table shows by signs.
func seasonNotes(d SeasonData) *report.Notes {
	notes := &report.Notes{}
	official, distances, noise := false, false, false
	for _, f := range d.Flights {
		official = official || f.Source == string(season.Printed)
		distances = distances || f.ToWinner.Known()
		noise = noise || f.Noise.Known()
		if f.Void != "" {
			addNote(notes, "%s: void: %s", f.Flight, f.Void)
		}
		if f.Difference.Known() {
			addNote(notes, "%s: the official total differs from the marks by %s; `boxbook flight` says what would explain it", f.Flight, report.Signed(f.Difference, pointDecimals).String())
		}
		if f.Undecided && !f.Percent.Known() {
			addNote(notes, "%s: undecided, enters no figure until a ruling is recorded", f.Flight)
		}
	}
	var first []report.Note
	if official {
		first = append(first, report.Note{Mark: officialSign, Text: "the official total, as typed; the others are worked out from the marks"})
	}
	if noise {
		first = append(first, report.Note{Text: noiseExplained})
	}
	if distances {
		first = append(first, report.Note{Text: "to winner, to median: own points less the winner's and less the field's median, where the field is known"})
	}
	notes.Items = append(first, notes.Items...)
	return notes
}

// percentSeries draws the percents of the flights that enter figures.
func percentSeries(d SeasonData) *report.Series {
	series := &report.Series{Name: "percent", Decimals: percentDecimals}
	for _, f := range d.Flights {
		if f.enters {
			series.Points = append(series.Points, report.Point{Label: f.Date, Value: f.Percent})
		}
	}
	return series
}

func seasonFacts(s analysis.Flights, d SeasonData) *report.Facts {
	facts := &report.Facts{}
	add := func(label string, index int) {
		if index >= 0 {
			f := d.Flights[index]
			addFact(facts, label, report.Text(fmt.Sprintf("%s %%  %s", f.Percent.Text(percentDecimals), f.Flight)))
		}
	}
	add("best", s.Best)
	if s.Worst != s.Best {
		add("worst", s.Worst)
	}
	return facts
}

func contestTable(d SeasonData) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: "date"},
		{Title: "contest", Flexible: true, Min: 16},
		{Title: "category", Drop: 1},
		{Title: "flights", Align: report.Right},
		{Title: "printed", Align: report.Right},
		{Title: "sum", Align: report.Right},
		{Title: "maximum", Align: report.Right, Drop: 2},
		{Title: "percent", Align: report.Right},
		{Title: "place", Align: report.Right},
	}}
	for _, c := range d.Contests {
		printed := report.Empty()
		if c.Source == string(season.Printed) {
			printed = num(c.Points)
		}
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(c.Date), report.Text(c.name), report.Text(c.Category), countCell(c.Flights),
			printed, num(c.Sum.Points), report.Num(c.Maximum, 0), report.Num(c.Percent, percentDecimals), placeCell(c.Place, c.Of),
		})
	}
	return t
}

func contestNotes(d SeasonData) *report.Notes {
	notes := &report.Notes{}
	for _, c := range d.Contests {
		if c.Source == string(season.Printed) {
			addNote(notes, "percent is of the printed result where there is one, else of the flights' sum")
			break
		}
	}
	return notes
}
