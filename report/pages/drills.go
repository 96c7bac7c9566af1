package pages

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// DrillsData is what became of drills, in JSON.
type DrillsData struct {
	Drills []DrillData `json:"drills"`
}

// DrillData is one drill. P is one-sided, absent where nothing can be tested;
// undrilled is the mean number of other, undrilled faults per flight before
// and after, each absent where no flight was looked at.
type DrillData struct {
	Pilot     string         `json:"pilot"`
	Target    string         `json:"target"`
	Date      string         `json:"date"`
	Text      string         `json:"text,omitempty"`
	By        string         `json:"by,omitempty"`
	Before    DrillSideData  `json:"before"`
	After     DrillSideData  `json:"after"`
	P         report.Number  `json:"p,omitzero"`
	Undrilled *UndrilledData `json:"undrilled,omitempty"`
	Rate      *RateData      `json:"rate,omitempty"`
	Change    *ChangeData    `json:"change,omitempty"`
	Prompted  []string       `json:"prompted"`
	// Apart counts flights of the windows that are not compared, since their
	// sequence was flown on one side of the drill only; for a family group.
	Apart int    `json:"apart,omitempty"`
	Word  string `json:"word"`

	name  string // the pilot's
	group bool
	typed bool // the flights that prompted it are named in the ledger
	least float64
}

// DrillSideData counts one window: flights in which the fault was noted, seen
// or felt, of the flights looked at; for a family group the flights and their mean percent
// against the rest.
type DrillSideData struct {
	Seen    int           `json:"seen"`
	Flights int           `json:"flights"`
	Faults  int           `json:"faults"`
	Figures int           `json:"figures"`
	Mean    report.Number `json:"mean,omitzero"`
}

// UndrilledData is the mean number of other, undrilled faults per flight.
type UndrilledData struct {
	Before report.Number `json:"before,omitzero"`
	After  report.Number `json:"after,omitzero"`
}

// RateData is the ratio of faults per figure flown, after to before. P is the
// one-sided chance of so few since if the rates are equal; MidP counts the number
// seen half.
type RateData struct {
	Ratio report.Number `json:"ratio,omitzero"`
	Low   report.Number `json:"low"`
	High  report.Number `json:"high,omitzero"`
	P     report.Number `json:"p"`
	MidP  report.Number `json:"midP"`
}

// ChangeData is a change of percent points with its interval.
type ChangeData struct {
	Change     report.Number `json:"change"`
	Low        report.Number `json:"low"`
	High       report.Number `json:"high"`
	Confidence report.Number `json:"confidence"`
}

func drillsData(all []analysis.DrillAnswer) DrillsData {
	d := DrillsData{Drills: []DrillData{}}
	for _, a := range all {
		d.Drills = append(d.Drills, drillData(a))
	}
	return d
}

func drillData(a analysis.DrillAnswer) DrillData {
	d := DrillData{
		Pilot: a.Drill.Pilot.Handle, Target: a.Drill.Target, Date: a.Drill.Date.String(), Text: a.Drill.Text,
		Before: drillSide(a.Before), After: drillSide(a.After), Prompted: []string{}, Apart: a.Apart, Word: string(a.Word),
		name: a.Drill.Pilot.Name, group: season.IsGroup(a.Drill.Target), typed: len(a.Drill.Prompted) > 0, least: a.Least,
	}
	if a.Drill.By != nil {
		d.By = a.Drill.By.Handle
	}
	for _, f := range a.Prompted {
		d.Prompted = append(d.Prompted, f.Name)
	}
	if a.Before.Flights > 0 && a.After.Flights > 0 {
		d.P = report.Float(a.P)
	}
	if !d.group && a.Before.Flights+a.After.Flights > 0 {
		d.Undrilled = &UndrilledData{undrilled(a.Before), undrilled(a.After)}
	}
	if a.HasRate {
		d.Rate = &RateData{
			Ratio: report.Float(a.Rate.Ratio), Low: report.Float(a.Rate.Interval.Low), High: report.Float(a.Rate.Interval.High),
			P: report.Float(a.Rate.Less), MidP: report.Float(a.Rate.MidLess),
		}
	}
	if a.HasChange {
		d.Change = &ChangeData{report.Float(a.Change), report.Float(a.Low), report.Float(a.High), report.Float(a.Confidence)}
	}
	return d
}

// undrilled is the mean number of other faults on one side; not known where no
// flight was looked at.
func undrilled(s analysis.DrillSide) report.Number {
	if s.Flights == 0 {
		return report.Number{}
	}
	return report.Float(s.Others)
}

func drillSide(s analysis.DrillSide) DrillSideData {
	d := DrillSideData{Seen: s.Seen, Flights: s.Flights, Faults: s.Faults, Figures: s.Figures}
	if len(s.Values) > 0 {
		sum := 0.0
		for _, v := range s.Values {
			sum += v
		}
		d.Mean = report.Float(sum / float64(len(s.Values)))
	}
	return d
}

// Drills is the page of the drills: a sentence each, then the counts.
func Drills(all []analysis.DrillAnswer, title string) report.Document {
	d := drillsData(all)
	doc := report.Document{Title: title, Data: d, Caution: drillsCaution}
	if len(d.Drills) == 0 {
		doc.Sections = []report.Section{{Blocks: []report.Block{&report.Paragraph{Text: "No drill is set."}}}}
		return doc
	}
	said := report.Section{}
	for _, drill := range d.Drills {
		said.Blocks = append(said.Blocks, &report.Paragraph{Text: d.whose(drill) + drillSentence(drill)})
	}
	counts := report.Section{Heading: "Counts", Blocks: []report.Block{drillTable(d), drillNotes(d)}}
	doc.Sections = append(doc.Sections, said, counts)
	return doc
}

// severalPilots reports whether the drills are of more than one pilot.
func (d DrillsData) severalPilots() bool {
	return slices.ContainsFunc(d.Drills, func(o DrillData) bool { return o.Pilot != d.Drills[0].Pilot })
}

// whose says before a drill whose it is, where there are several pilots.
func (d DrillsData) whose(drill DrillData) string {
	if !d.severalPilots() {
		return ""
	}
	return drill.name + ": "
}

// drillSentence is one drill's verdict in plain counts.
func drillSentence(d DrillData) string {
	head := fmt.Sprintf("%s, since %s: %s: ", Sentence(season.GroupTitle(d.Target)), d.Date, d.Word)
	if d.group {
		return head + groupDrillText(d) + "."
	}
	return head + fmt.Sprintf("noted in %s, %s; %s.", sideWords(d.Before, "before"), sinceWords(d.After), drillChance(d))
}

// sideWords counts the flights of one side.
func sideWords(s DrillSideData, when string) string {
	return fmt.Sprintf("%d of %s %s", s.Seen, season.Counted(s.Flights, "flight", "flights"), when)
}

func sinceWords(s DrillSideData) string {
	if s.Flights == 0 {
		return "no flight looked at since"
	}
	return "in " + sideWords(s, "since")
}

// drillChance says what stands behind the word, or what it lacks.
func drillChance(d DrillData) string {
	switch analysis.DrillWord(d.Word) {
	case analysis.DrillTooFew:
		if min(d.Before.Flights, d.After.Flights) < analysis.DrillSideFlights {
			return fmt.Sprintf("at least %d flights looked at are needed on each side", analysis.DrillSideFlights)
		}
		return "no counts from so few flights could tell"
	case analysis.Worked, analysis.MayHaveWorked:
		return "chance alone gives this " + chanceWords(d.P.Float64(), "once")
	}
	if d.P.Float64() <= analysis.DrillChance {
		return "the other faults got rarer as well, so that the drill has not been shown to matter"
	}
	return "a drill that did nothing gives this easily"
}

func groupDrillText(d DrillData) string {
	if d.Change == nil {
		needed := "at least three of each are needed"
		if d.Apart > 0 {
			needed += ", on sequences flown on both sides"
		}
		return fmt.Sprintf("%s before, %s since; %s",
			season.Counted(d.Before.Flights, "contest flight", "contest flights"), season.Counted(d.After.Flights, "contest flight", "contest flights"), needed)
	}
	return fmt.Sprintf("%s points against the rest of the flight (%s to %s, %s sure), %d flights before, %d since; %s",
		change(d.Change.Change), change(d.Change.Low), change(d.Change.High), surety(d.Change.Confidence), d.Before.Flights, d.After.Flights, drillChance(d))
}

func drillTable(d DrillsData) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: "target", Flexible: true, Min: 8},
		{Title: "set"},
		{Title: "before", Align: report.Right},
		{Title: "since", Align: report.Right},
		{Title: "others", Align: report.Right, Drop: 1},
		{Title: "p", Align: report.Right},
		{Title: "rate ratio", Align: report.Right, Drop: 2},
		{Title: "verdict"},
	}}
	several := d.severalPilots()
	if several {
		t.Key, t.Columns = 2, slices.Insert(t.Columns, 0, report.Column{Title: "pilot"})
	}
	for _, drill := range d.Drills {
		row := drillRow(drill)
		if several {
			row = slices.Insert(row, 0, report.Text(drill.Pilot))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func drillRow(drill DrillData) []report.Cell {
	others, ratio := report.Empty(), report.Empty()
	if u := drill.Undrilled; u != nil && u.Before.Known() && u.After.Known() {
		others = report.Text(fmt.Sprintf("%s to %s", u.Before.Text(1), u.After.Text(1)))
	}
	if drill.Rate != nil && drill.Rate.Ratio.Known() {
		ratio = report.Num(drill.Rate.Ratio, 2)
	}
	return []report.Cell{
		report.Text(season.GroupTitle(drill.Target)), report.Text(drill.Date), sideCell(drill, drill.Before), sideCell(drill, drill.After),
		others, report.Num(drill.P, 3), ratio, report.Text(drill.Word),
	}
}

func sideCell(d DrillData, s DrillSideData) report.Cell {
	if !d.group {
		return report.Text(fmt.Sprintf("%d of %d", s.Seen, s.Flights))
	}
	return report.Signed(s.Mean, 1)
}

// whyLeftOut says why flights are in neither window.
func (d DrillData) whyLeftOut() string {
	if d.typed {
		return "because the drill was set on them"
	}
	return "the last before it, since no flight is named that prompted it"
}

func drillNotes(d DrillsData) *report.Notes {
	notes := &report.Notes{Items: []report.Note{
		{Text: "before, since: flights in which the fault was noted, seen or felt, of the flights looked at (with a fault line or reviewed); for a family, mean percent points against the rest of the flight, comparing flights of one sequence"},
		{Text: "others: other, undrilled faults per flight before and since; where everything got rarer, a drill has not been shown to matter"},
	}}
	for _, drill := range d.Drills {
		what := d.whose(drill) + season.GroupTitle(drill.Target)
		if len(drill.Prompted) > 0 {
			addNote(notes, "%s: left out of before, %s: %s", what, drill.whyLeftOut(), strings.Join(drill.Prompted, ", "))
		}
		if drill.Apart > 0 {
			addNote(notes, "%s: %s not compared, because the sequence was flown on one side of the drill only", what, season.Counted(drill.Apart, "flight", "flights"))
		}
		if drill.Text != "" {
			addNote(notes, "%s: %s", what, drill.Text)
		}
	}
	return notes
}
