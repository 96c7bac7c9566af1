package pages

import (
	"fmt"
	"math/big"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// FaultsData is a pilot's faults over a selection of flights, in JSON.
type FaultsData struct {
	Pilot  string `json:"pilot"`
	Season int    `json:"season,omitempty"`
	// Reviewed counts the flights looked at: with a fault line or a review.
	Reviewed int             `json:"reviewed"`
	Kinds    []FaultKindData `json:"kinds"`
	// Recurring are the three kinds that cost most, over all groups.
	Recurring   []FaultKindData `json:"recurring"`
	Open        []OpenData      `json:"open"`
	Calibration CalibrationData `json:"calibration"`
}

// FaultKindData is one kind of fault in one trend group, or all of a kind, in
// the group that all of it was in. Points are at stake,
// deduction x K as noted, absent where none are known; Unknown counts the seen
// faults without. Since is the date of the first flight with it, Drill that of
// the latest drill set.
type FaultKindData struct {
	Kind    string        `json:"kind"`
	Group   string        `json:"group,omitempty"`
	Flights int           `json:"flights"`
	Count   int           `json:"count"`
	Points  report.Number `json:"points,omitzero"`
	Seen    int           `json:"seen"`
	Felt    int           `json:"felt"`
	Since   string        `json:"since"`
	Drill   string        `json:"drill,omitempty"`
	Unknown int           `json:"unknown,omitempty"`

	says      string
	drillText string
	// perFlight is points a flight watched.
	perFlight report.Number
}

// OpenData is a matter that stays open until it is closed.
type OpenData struct {
	Flight string `json:"flight"`
	Kind   string `json:"kind"`
	Remark string `json:"remark,omitempty"`

	says string
}

// CalibrationData is expected less given in grades over all figures with seen
// faults: mean, standard deviation and number of figures.
type CalibrationData struct {
	Bias   report.Number `json:"bias,omitzero"`
	Spread report.Number `json:"spread,omitzero"`
	N      int           `json:"n"`
	Zeroed int           `json:"zeroed,omitempty"`
}

// faultsData collects the numbers of the page.
func faultsData(t analysis.Recurring) FaultsData {
	d := FaultsData{
		Pilot: t.Pilot.Handle, Season: t.Season, Reviewed: t.Watched, Open: []OpenData{},
		Kinds: kindsData(t.Rows, t.Watched), Recurring: kindsData(t.Named(), t.Watched),
		Calibration: CalibrationData{report.Exact(t.Calibration.Bias), report.Float(t.Calibration.Spread), t.Calibration.N, t.Calibration.Zeroed},
	}
	for _, m := range t.Open {
		d.Open = append(d.Open, OpenData{m.Flight.Name, m.Fault.Kind.Name, m.Fault.Remark, m.Fault.Kind.Says})
	}
	return d
}

func kindsData(rows []analysis.RecurringKind, watched int) []FaultKindData {
	kinds := []FaultKindData{}
	for _, row := range rows {
		data := FaultKindData{
			Kind: row.Kind.Name, Group: row.Group, Flights: row.Flights, Count: row.Count, Seen: row.Seen, Felt: row.Felt,
			Since: row.Since.String(), Unknown: row.Unknown, says: row.Kind.Says,
		}
		if row.Unknown == 0 || row.Points.Sign() > 0 {
			data.Points = report.Exact(row.Points)
			data.perFlight = report.Exact(new(big.Rat).Quo(row.Points, whole(watched)))
		}
		if row.Drill != nil {
			data.Drill, data.drillText = row.Drill.Date.String(), row.Drill.Text
		}
		kinds = append(kinds, data)
	}
	return kinds
}

// Faults is the page of a pilot's faults: what is open, what comes back, every
// kind, the coach against the panels.
func Faults(t analysis.Recurring) report.Document {
	d := faultsData(t)
	title := t.Pilot.Name + ", faults"
	if t.Season != 0 {
		title += fmt.Sprintf(", season %d", t.Season)
	}
	doc := report.Document{Title: title, Subtitle: faultsSentence(d), Data: d, Caution: faultsCaution}
	if len(d.Open) > 0 {
		doc.Sections = append(doc.Sections, openSection(d))
	}
	if len(d.Kinds) > 0 {
		doc.Sections = append(doc.Sections,
			report.Section{Heading: "What comes back", Blocks: []report.Block{recurringNotes(d)}},
			report.Section{Heading: "Faults by kind and family", Blocks: []report.Block{kindTable(d), kindNotes(d)}},
		)
	}
	if d.Calibration.N > 0 {
		doc.Sections = append(doc.Sections, calibrationSection(d.Calibration))
	}
	return doc
}

// faultsSentence says in words what costs most.
func faultsSentence(d FaultsData) string {
	text := ""
	if len(d.Open) > 0 {
		text = season.Counted(len(d.Open), "matter is open and comes", "matters are open and come") + " before any grade; "
	}
	watched := season.Counted(d.Reviewed, "flight watched", "flights watched")
	if len(d.Recurring) > 0 {
		verb := "comes up most: "
		if d.Recurring[0].Points.Float64() > 0 {
			verb = "costs most: "
		}
		return text + verb + d.Recurring[0].words(d.Reviewed)
	}
	if d.Reviewed == 0 {
		return text + "no flight of this selection has a fault line or a `reviewed` line"
	}
	if len(d.Kinds) > 0 {
		return text + watched + ", no fault of flying noted"
	}
	return text + watched + ", no fault noted"
}

// name says a row in words: "radius changed, loops, part loops and eights".
func (k FaultKindData) name() string {
	name := k.says
	if name == "" {
		name = k.Kind
	}
	if k.Group != "" {
		name += " (" + season.GroupName(k.Group) + ")"
	}
	return name
}

// words say a row with what it rests on and what it costs.
func (k FaultKindData) words(watched int) string {
	text := fmt.Sprintf("%s, in %d of %s", k.name(), k.Flights, season.Counted(watched, "flight watched", "flights watched"))
	if k.Points.Float64() > 0 {
		text += ", " + k.atLeast("about") + " " + aboutText(k.perFlight) + " points a flight"
	}
	return text
}

// atLeast is the word before a number of points: some may not be known.
func (k FaultKindData) atLeast(word string) string {
	if k.Unknown > 0 {
		return "at least"
	}
	return word
}

// aboutText is a number to be read as about so many: whole, one decimal below
// ten.
func aboutText(n report.Number) string {
	if n.Float64() < 9.5 {
		return n.Text(1)
	}
	return n.Text(0)
}

// openSection lists what must be put right before anything else.
func openSection(d FaultsData) report.Section {
	notes := &report.Notes{}
	for _, o := range d.Open {
		text := o.says
		if text == "" {
			text = o.Kind
		}
		text += ", " + o.Flight
		if o.Remark != "" {
			text += ": " + o.Remark
		}
		addNote(notes, "%s", text)
	}
	explained := &report.Paragraph{Text: "No matter of grades. Each stays open until `closed KIND` stands in a later flight, or a later sign-off."}
	return report.Section{Heading: "Open, before anything else", Blocks: []report.Block{notes, explained}}
}

// recurringNotes name what comes back, each with its drill.
func recurringNotes(d FaultsData) *report.Notes {
	notes := &report.Notes{}
	for _, k := range d.Recurring {
		drill := "no drill set"
		if k.Drill != "" {
			drill = "drill set " + k.Drill
			if k.drillText != "" {
				drill += ": " + k.drillText
			}
		}
		notes.Items = append(notes.Items, report.Note{Mark: fmt.Sprint(len(notes.Items) + 1), Text: k.words(d.Reviewed) + "; " + drill})
	}
	if d.Reviewed < analysis.DrillSideFlights { // a drill asks for as many on each side
		addNote(notes, "only %s: too few to tell a fault that comes back from one that came once", season.Counted(d.Reviewed, "flight watched", "flights watched"))
	}
	return notes
}

// kindTable has a row a kind and group.
func kindTable(d FaultsData) *report.Table {
	t := &report.Table{Key: 2, Columns: []report.Column{
		{Title: "kind", Flexible: true, Min: 10},
		{Title: "family"},
		{Title: "flights", Align: report.Right},
		{Title: "seen", Align: report.Right},
		{Title: "felt", Align: report.Right},
		{Title: "points", Align: report.Right, Bars: true},
		{Title: "since", Drop: 1},
		{Title: "drill"},
	}}
	for _, k := range d.Kinds {
		points := num(k.Points)
		if !k.Points.Known() {
			points = report.Text(unknownSign)
		} else if k.Unknown > 0 {
			points = points.Marked(unknownSign)
		}
		drill := report.Text(k.Drill)
		if k.Drill == "" {
			drill = report.Text("none").Toned(report.Faint)
		}
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(k.Kind), report.Text(k.Group), report.Text(fmt.Sprintf("%d of %d", k.Flights, d.Reviewed)),
			countCell(k.Seen), countCell(k.Felt), points, report.Text(k.Since), drill,
		})
	}
	return t
}

// kindNotes explain the columns.
func kindNotes(d FaultsData) *report.Notes {
	notes := &report.Notes{}
	unknown := 0
	for _, k := range d.Kinds {
		unknown += k.Unknown
	}
	if unknown > 0 {
		notes.Items = append(notes.Items, report.Note{Mark: unknownSign, Text: fmt.Sprintf(
			"not known, or at the least: for %s the K or the amount is not in the ledger", season.Counted(unknown, "fault", "faults"))})
	}
	addNote(notes, "flights: those it was noted in, of those with a fault line or a `reviewed` line; practice counts")
	addNote(notes, "points: at stake, deduction x K as noted, not what the panels took")
	addNote(notes, "felt: a cause, for which no judge takes points; the same fault noted by two counts once, the larger")
	return notes
}

// calibrationSection shows how far the noted faults explain the grades given.
func calibrationSection(c CalibrationData) report.Section {
	facts := &report.Facts{Items: []report.Fact{
		{Label: "expected less given, mean", Value: report.Signed(c.Bias, meanDecimals)},
	}}
	if c.Spread.Known() {
		addFact(facts, "spread (standard deviation)", report.Num(c.Spread, meanDecimals))
	}
	addFact(facts, "figures", countCell(c.N))
	notes := &report.Notes{Items: []report.Note{
		{Text: "expected: 10 less the seen faults; given: the panel's mean. Above 0 the panels took more than the faults noted account for, below 0 less"},
	}}
	if c.Zeroed > 0 {
		addNote(notes, "%s made 0 as a matter of fact, which no sum of faults explains", season.Counted(c.Zeroed, "of the figures was", "of the figures were"))
	}
	return report.Section{Heading: "Coach against panel", Blocks: []report.Block{facts, notes}}
}
