package pages

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// FamiliesData is the trend groups of one category's contest flights, in JSON.
// Percents are K-weighted; shrunken, low and high are absent where too few
// groups were flown to tell their spread from chance. DesignEffect, absent at 1,
// is by how much the trend's variance was taken to be larger because flights of
// one contest came out alike.
type FamiliesData struct {
	Pilot    string        `json:"pilot"`
	Category string        `json:"category,omitempty"`
	Flights  int           `json:"flights"`
	Groups   []GroupData   `json:"groups"`
	Tau2     report.Number `json:"tau2,omitzero"`
	TauHigh  report.Number `json:"tauHigh,omitzero"`
	Compared int           `json:"compared"`
	// Why says what the shrunken levels lack where there are none.
	Why string `json:"why,omitempty"`
}

// GroupData is one trend group.
type GroupData struct {
	Group         string        `json:"group"`
	Figures       int           `json:"figures"`
	Flights       int           `json:"flights"`
	K             report.Number `json:"k"`
	Percent       report.Number `json:"percent"`
	WithoutZeros  report.Number `json:"withoutZeros,omitzero"`
	Shrunken      report.Number `json:"shrunken,omitzero"`
	Low           report.Number `json:"low,omitzero"`
	High          report.Number `json:"high,omitzero"`
	VersusRest    report.Number `json:"versusRest,omitzero"`
	Trend         TrendData     `json:"trend"`
	DesignEffect  report.Number `json:"designEffect,omitzero"`
	Q             report.Number `json:"q,omitzero"`
	LostPerFlight report.Number `json:"lostPerFlight"`
	Weak          bool          `json:"weak"`
	Contests      int           `json:"contests"`
}

func familiesData(f analysis.Families) FamiliesData {
	d := FamiliesData{Pilot: f.Pilot.Handle, Category: f.Category, Flights: f.Flights, Groups: []GroupData{}, Compared: f.Compared, Why: f.Why}
	if f.Shrunk {
		d.Tau2, d.TauHigh = report.Float(f.Tau2), report.Float(f.TauHigh)
	}
	for _, g := range f.Groups {
		group := GroupData{
			Group: g.Group, Figures: g.Figures, Flights: g.Flights, K: report.Exact(g.K), Percent: report.Float(g.Percent),
			Shrunken: report.Float(g.Shrunken), Low: report.Float(g.Low), High: report.Float(g.High),
			Trend: trendData(g.Trend, false), Q: report.Float(g.Q), LostPerFlight: report.Exact(g.LostPerFlight),
			Weak: g.Weak, Contests: g.Contests,
		}
		if g.Zeros > 0 && g.Zeros < g.Figures {
			group.WithoutZeros = report.Float(g.WithoutZeros)
		}
		if g.Trend.DesignEffect > 1 {
			group.DesignEffect = report.Float(g.Trend.DesignEffect)
		}
		if g.HasRest {
			group.VersusRest = report.Float(g.VersusRest)
		}
		d.Groups = append(d.Groups, group)
	}
	return d
}

// Families is the page of the trend groups.
func Families(f analysis.Families, title string) report.Document {
	d := familiesData(f)
	doc := report.Document{Title: title, Data: d}
	if d.Category != "" {
		doc.Subtitle = fmt.Sprintf("%s, %s", d.Category, season.Counted(d.Flights, "contest flight", "contest flights"))
	}
	thought := report.Section{Blocks: []report.Block{&report.Paragraph{Text: weakSentence(d)}, &report.Paragraph{Text: movingSentence(d)}}}
	doc.Sections = append(doc.Sections, thought)
	if len(d.Groups) > 0 {
		doc.Sections = append(doc.Sections,
			report.Section{Heading: "Level", Blocks: []report.Block{levelTable(d), levelNotes(d)}},
			report.Section{Heading: "Trend against the rest of the same flights", Blocks: []report.Block{groupTrendTable(d), groupTrendNotes(d)}})
	}
	return doc
}

// weakSentence names the weak families, or says that none can be named.
func weakSentence(d FamiliesData) string {
	var weak []string
	for _, g := range d.Groups {
		if g.Weak {
			weak = append(weak, fmt.Sprintf("%s (about %s %%, %s to %s)", season.GroupTitle(g.Group), g.Shrunken.Text(0), g.Low.Text(0), g.High.Text(0)))
		}
	}
	switch {
	case len(d.Groups) == 0:
		return "No figure of a family in any contest flight of this selection."
	case !d.Tau2.Known():
		return "The levels of the families cannot be compared: " + d.Why + "."
	case len(weak) > 0:
		return "Really weaker than the pilot's other families: " + strings.Join(weak, "; ") + "."
	case d.Tau2.Float64() == 0:
		return "So far the figures do not show any family to be really weaker than another: the spread is what chance gives."
	default:
		return "No family is told apart from chance as weaker than the others."
	}
}

// movingSentence names the families that move against the rest.
func movingSentence(d FamiliesData) string {
	var firm, soft []string
	tooFew, flat := 0, 0
	for _, g := range d.Groups {
		text := fmt.Sprintf("%s %s (%s points", season.GroupTitle(g.Group), g.Trend.Word, change(g.Trend.Season))
		switch analysis.Word(g.Trend.Word) {
		case analysis.Improving, analysis.Declining:
			firm = append(firm, text+")")
		case analysis.MayImprove, analysis.MayDecline:
			soft = append(soft, fmt.Sprintf("%s; chance alone gives this %s)", text, trendChance(g.Trend)))
		case analysis.TooFew:
			tooFew++
		case analysis.Flat:
			flat++
		}
	}
	var parts []string
	if len(firm) > 0 {
		parts = append(parts, "Against the rest of the same flights: "+strings.Join(firm, "; ")+".")
	}
	if len(soft) > 0 {
		parts = append(parts, "Not ruled out as chance: "+strings.Join(soft, "; ")+".")
	}
	switch {
	case len(parts) > 0:
		return strings.Join(parts, " ")
	case tooFew == len(d.Groups):
		return "Too few flights to tell a trend of any family."
	case flat == len(d.Groups)-tooFew:
		return fmt.Sprintf("Flat against the rest, within %s points either way: %s.", smallChange(), season.Counted(flat, "family", "families"))
	case flat > 0:
		return fmt.Sprintf("Flat against the rest, within %s points either way: %s. No other family's trend can be told from chance.", smallChange(), season.Counted(flat, "family", "families"))
	default:
		return "No family's trend can be told from chance."
	}
}

// smallChange writes the change that is worth a coach's time.
func smallChange() string { return report.Float(analysis.SmallChange).Text(0) }

func levelTable(d FamiliesData) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: "family", Flexible: true, Min: 16},
		{Title: "figures", Align: report.Right},
		{Title: "K flown", Align: report.Right, Drop: 2},
		{Title: "percent", Align: report.Right},
		{Title: "shrunken", Align: report.Right},
		{Title: "90 % from", Align: report.Right},
		{Title: "to", Align: report.Right},
		{Title: "lost a flight", Align: report.Right},
		{Title: "verdict", Drop: 1},
	}}
	for _, g := range d.Groups {
		verdict := report.Text("not told apart").Toned(report.Faint)
		if g.Weak {
			verdict = report.Text("weak").Toned(report.Bad)
		}
		if !g.Shrunken.Known() {
			verdict = report.Empty()
		}
		percent := report.Num(g.Percent, percentDecimals)
		if g.WithoutZeros.Known() {
			percent = percent.Marked(zeroSign)
		}
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(season.GroupTitle(g.Group)), countCell(g.Figures), report.Num(g.K, 0), percent,
			report.Num(g.Shrunken, 1), report.Num(g.Low, 1), report.Num(g.High, 1), report.Num(g.LostPerFlight, 1), verdict,
		})
	}
	return t
}

// zeroSign stands behind a percent that a zeroed figure is in.
const zeroSign = "°"

func levelNotes(d FamiliesData) *report.Notes {
	notes := &report.Notes{}
	for _, g := range d.Groups {
		if g.WithoutZeros.Known() {
			notes.Items = append(notes.Items, report.Note{Mark: zeroSign, Text: fmt.Sprintf(
				"%s: %s %% without the figures that were zeroed", season.GroupTitle(g.Group), g.WithoutZeros.Text(percentDecimals))})
		}
		if g.Contests == 1 && d.Flights > 1 {
			addNote(notes, "%s: flown in one contest only, and carries that contest's judges", season.GroupTitle(g.Group))
		}
	}
	addNote(notes, "shrunken: drawn towards the pilot's other families by how much of the spread is chance; the interval is rough where few families were flown")
	if d.TauHigh.Known() {
		addNote(notes, "spread between families beyond chance: about %s points; up to %s is not excluded", rootText(d.Tau2), d.TauHigh.Text(1))
	}
	return notes
}

func groupTrendTable(d FamiliesData) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: "family", Flexible: true, Min: 16},
		{Title: "vs rest", Align: report.Right},
		{Title: "compared", Align: report.Right},
		{Title: "change", Align: report.Right},
		{Title: "from", Align: report.Right},
		{Title: "to", Align: report.Right},
		{Title: "sure %", Align: report.Right, Drop: 3},
		{Title: "p", Align: report.Right, Drop: 2},
		{Title: "q", Align: report.Right, Drop: 1},
		{Title: "verdict"},
	}}
	for _, g := range d.Groups {
		sure := report.Empty()
		if g.Trend.Confidence.Known() {
			sure = report.Num(wholeSurety(g.Trend.Confidence), 0)
		}
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(season.GroupTitle(g.Group)), report.Signed(g.VersusRest, 1), countCell(g.Trend.N),
			report.Signed(g.Trend.Season, 1), report.Signed(g.Trend.Low, 1), report.Signed(g.Trend.High, 1),
			sure, report.Num(g.Trend.P, 3), report.Num(g.Q, 3), wordCell(g.Trend.Word),
		})
	}
	return t
}

// wordCell shows a verdict; a firm one stands out.
func wordCell(word string) report.Cell {
	switch analysis.Word(word) {
	case analysis.Improving:
		return report.Text(word).Toned(report.Good)
	case analysis.Declining:
		return report.Text(word).Toned(report.Bad)
	case analysis.TooFew:
		return report.Text("too few flights").Toned(report.Faint)
	default:
		return report.Text(word)
	}
}

func groupTrendNotes(d FamiliesData) *report.Notes {
	notes := &report.Notes{Items: []report.Note{
		{Text: "vs rest, change: percent points of the family against the rest of the same flight, so that a contest's judges and weather fall out; change over the flights compared: only flights of one sequence with each other, or unknowns"},
	}}
	if text := suretyNote(d); text != "" {
		addNote(notes, "%s", text)
	}
	addNote(notes, "a firm word needs p and q of at most 0.10 and a change beyond %s points; q allows for %s looked at", smallChange(), season.Counted(d.Compared, "family", "families"))
	if slices.ContainsFunc(d.Groups, func(g GroupData) bool { return g.DesignEffect.Known() }) {
		addNote(notes, "flights of one contest came out alike within a family: p, q and the ranges count them as fewer flights")
	}
	if text := gapNote(d); text != "" {
		addNote(notes, "%s", text)
	}
	return notes
}

// suretyNote says how sure the ranges of the changes are, which so few flights
// choose; "" where there is no range.
func suretyNote(d FamiliesData) string {
	var sure []report.Number
	for _, g := range d.Groups {
		if g.Trend.Confidence.Known() {
			sure = append(sure, g.Trend.Confidence)
		}
	}
	if len(sure) == 0 {
		return "no change is shown where the flights are too few for a verdict: any direction would be as good as another"
	}
	byValue := func(a, b report.Number) int { return cmp.Compare(a.Float64(), b.Float64()) }
	low, high := surety(slices.MinFunc(sure, byValue)), surety(slices.MaxFunc(sure, byValue))
	text := "from, to: the range of the change, " + low + " sure"
	if low != high {
		text = fmt.Sprintf("from, to: the range of the change, between %s and %s sure", low, high)
	}
	return text
}

// gapNote says which changes are drawn across a winter; "" where none is.
func gapNote(d FamiliesData) string {
	var names []string
	drawn, longest := 0, 0.0
	for _, g := range d.Groups {
		if !g.Trend.Season.Known() {
			continue
		}
		drawn++
		if g.Trend.gap > analysis.LongGap {
			names = append(names, season.GroupTitle(g.Group))
			longest = max(longest, g.Trend.gap)
		}
	}
	if len(names) == 0 {
		return ""
	}
	whose := "every change"
	if len(names) < drawn {
		whose = strings.Join(names, "; ") + ": the change"
	}
	return fmt.Sprintf("%s is drawn across a gap of up to %s days without a flight that can be compared", whose, report.Float(longest).Text(0))
}
