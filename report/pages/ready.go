package pages

import (
	"fmt"
	"strings"

	"boxbook/report"
	"boxbook/season/analysis"
)

// ReadyData is the evidence for and against moving up, in JSON.
type ReadyData struct {
	Pilot   string     `json:"pilot"`
	From    string     `json:"from,omitempty"`
	To      string     `json:"to,omitempty"`
	Ladder  string     `json:"ladder,omitempty"`
	Policy  string     `json:"policy"`
	AsOf    string     `json:"asof"`
	Gates   []GateData `json:"gates"`
	Verdict string     `json:"verdict"`
	Against []string   `json:"against"`

	last bool // From is the last of the ladder
}

// GateData is one gate: its state, what it rests on, what the policy asks and
// who set that, what would change it.
type GateData struct {
	Gate     string `json:"gate"`
	State    string `json:"state"`
	Evidence string `json:"evidence"`
	Asked    string `json:"asked"`
	Needs    string `json:"needs,omitempty"`

	title string
}

func readyData(r analysis.Readiness) ReadyData {
	d := ReadyData{
		Pilot: r.Pilot.Handle, From: r.From, To: r.To, Policy: r.Policy.Name, AsOf: r.AsOf.String(), Gates: []GateData{},
		Verdict: string(r.Verdict), Against: listOf(r.Against),
	}
	if r.Ladder != nil {
		d.Ladder = r.Ladder.Name
		_, known := r.Ladder.Category(r.From)
		d.last = known && r.To == ""
	}
	for _, g := range r.Gates {
		d.Gates = append(d.Gates, GateData{g.Name, string(g.State), g.Evidence, g.Asked, g.Needs, g.Title})
	}
	return d
}

// Ready is the page of a pilot's readiness for the next category.
func Ready(r analysis.Readiness) report.Document {
	d := readyData(r)
	title := "Readiness, " + r.Pilot.Name
	switch d.To {
	case "":
	case d.From:
		title += ", " + d.To
	default:
		title += ", " + strings.TrimPrefix(d.From+" to "+d.To, " ")
	}
	doc := report.Document{
		Title: title, Subtitle: fmt.Sprintf("as of %s, policy %s; no rule book has its values", d.AsOf, d.Policy),
		Data: d, Caution: readyCaution,
	}
	doc.Sections = append(doc.Sections,
		report.Section{Blocks: []report.Block{&report.Paragraph{Text: readySentence(d)}}},
		report.Section{Heading: "Gates", Blocks: []report.Block{gateFacts(d)}},
	)
	if len(d.Against) > 0 {
		against := &report.Notes{}
		for _, text := range d.Against {
			addNote(against, "%s", text)
		}
		doc.Sections = append(doc.Sections, report.Section{Heading: "What speaks against", Blocks: []report.Block{against}})
	}
	if needs := needNotes(d); len(needs.Items) > 0 {
		heading := "What would change it"
		if d.To == "" {
			heading = "What would change a gate"
		}
		doc.Sections = append(doc.Sections, report.Section{Heading: heading, Blocks: []report.Block{needs}})
	}
	if r.Floor.Floor > 0 {
		floor := &report.Notes{}
		addNote(floor, "floor of %s in ladder %s: %d %s; figures from published pages of various years, the rules in force decide",
			d.To, d.Ladder, r.Floor.Floor, r.Floor.Unit)
		doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{floor}})
	}
	return doc
}

// readySentence is the verdict, with what stands behind it.
func readySentence(d ReadyData) string {
	met, not, open := 0, 0, 0
	for _, g := range d.Gates {
		switch analysis.GateState(g.State) {
		case analysis.Met:
			met++
		case analysis.NotMet:
			not++
		default:
			open++
		}
	}
	counts := fmt.Sprintf("%d of %d gates met, %d not met, %d cannot be told", met, len(d.Gates), not, open)
	switch {
	case d.From == "":
		return Sentence(d.Verdict) + ": no contest flight with a category in the ledger."
	case d.last:
		return Sentence(d.Verdict) + ": " + d.From + " is the last category of ladder " + d.Ladder + ", with none above it. " + Sentence(counts) + "."
	case d.To == "":
		return Sentence(d.Verdict) + ": no category above " + d.From + " is known; name one with --to. " + Sentence(counts) + "."
	case d.Verdict == string(analysis.Ready):
		return fmt.Sprintf("By this record, ready for %s: %s.", d.To, counts)
	default:
		return fmt.Sprintf("%s: %s.", Sentence(d.Verdict), counts)
	}
}

// gateFacts lists the gates; evidence wraps, since none of it may be cut off.
func gateFacts(d ReadyData) *report.Facts {
	facts := &report.Facts{}
	for _, g := range d.Gates {
		cell := report.Text(g.State + ": " + g.Evidence + "; asked: " + g.Asked)
		if g.State == string(analysis.NotMet) {
			cell = cell.Toned(report.Bad)
		}
		addFact(facts, g.title, cell)
	}
	return facts
}

func needNotes(d ReadyData) *report.Notes {
	notes := &report.Notes{}
	for _, g := range d.Gates {
		if g.Needs != "" {
			addNote(notes, "%s: %s", g.title, g.Needs)
		}
	}
	return notes
}
