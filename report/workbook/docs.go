package workbook

import (
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/words"
	"boxbook/season"
)

// documents are the program's pages on this pilot, whose sentences and tables
// the workbook takes over.
type documents struct {
	season, families, faults, drills, panel, plan, ready report.Document
}

// newDocuments asks what the commands of the same names ask: drills and
// readiness look at all seasons.
func newDocuments(l *season.Ledger, c *content) documents {
	s := c.options
	d := documents{
		season:   pages.Season(answers.SeasonOf(l, s)),
		families: pages.Families(answers.FamiliesOf(l, s)),
		faults:   pages.Faults(answers.FaultsOf(l, s)),
		drills:   pages.Drills(answers.DrillsOf(l, s)),
		panel:    pages.Panel(answers.PanelOf(l, s)),
		plan:     pages.Plan(answers.PlanOf(l, s)),
	}
	if policy := l.PolicyNamed(season.HousePolicy); policy != nil {
		d.ready = pages.Ready(answers.ReadyOf(l.KnownTo(s), s.Pilot, policy, nil, ""))
	}
	d.families.Title, d.panel.Title = c.titleOf(d.families.Title), c.titleOf(d.panel.Title)
	d.ready.Title += ", " + c.pilot.Name
	return d
}

// titleOf says what a sheet is about: it has no head line under its title.
func (c *content) titleOf(what string) string { return what + ", " + c.pilot.Name + ", " + c.period }

// verdict is one line of the page to read first.
type verdict struct{ label, words string }

// verdicts are the season in words, a line a question.
func (c *content) verdicts() []verdict {
	d := c.docs
	return []verdict{
		{"Trend", orElse(strings.TrimSpace(sentences(d.season, "")+"\n"+sentences(d.season, "Trend")), "No flight of this selection has a percent.")},
		{"Families", sentences(d.families, "")},
		{"Next points", sentences(d.plan, "")},
		{"Faults", recurring(d.faults)},
		{"Drills", sentences(d.drills, "")},
		{"Readiness", orElse(sentences(d.ready, ""), "The ledger has no policy to ask.")},
		{"Caution", words.SeasonCaution},
	}
}

func orElse(words, otherwise string) string {
	if words == "" {
		return otherwise
	}
	return words
}

// sentences are the paragraphs of a document's section, a line each; of several
// sections with the heading the first.
func sentences(doc report.Document, heading string) string {
	var said []string
	for _, section := range doc.Sections {
		if section.Heading != heading {
			continue
		}
		for _, block := range section.Blocks {
			if p, ok := block.(*report.Paragraph); ok {
				said = append(said, p.Text)
			}
		}
		break
	}
	return strings.Join(said, "\n")
}

// recurring is the faults that cost most, each with its drill, after what is
// open and comes first.
func recurring(doc report.Document) string {
	said := []string{}
	for _, section := range doc.Sections {
		for _, block := range section.Blocks {
			notes, ok := block.(*report.Notes)
			if !ok || (section.Heading != "What comes back" && section.Heading != "Open, before anything else") {
				continue
			}
			for _, n := range notes.Items {
				words := n.Text
				if n.Mark != "" {
					words = n.Mark + ". " + words
				} else if section.Heading != "What comes back" {
					words = "Open: " + words
				}
				said = append(said, words)
			}
		}
	}
	if len(said) == 0 {
		return words.Sentence(doc.Subtitle) + "."
	}
	return strings.Join(said, "\n")
}
