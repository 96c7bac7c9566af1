package answers

import (
	"sync"

	"boxbook/season"
	"boxbook/season/analysis"
)

// Book is everything that a coach's workbook shows of a pilot: the answers of
// the commands that ask about the selection, side by side. Drills and readiness
// look at all seasons.
type Book struct {
	Pilot    BookPilot `json:"pilot"`
	Season   Season    `json:"season"`
	Families Families  `json:"families"`
	Faults   Faults    `json:"faults"`
	Drills   Drills    `json:"drills"`
	Panel    Panel     `json:"panel"`
	Plan     Plan      `json:"plan"`
	// Ready is absent where the ledger has no policy of the house.
	Ready *Ready `json:"ready,omitempty"`
	// Year is the treasurer's, where it was asked for.
	Year *Year `json:"year,omitempty"`
}

// BookPilot is whom a workbook is about.
type BookPilot struct {
	Name     string `json:"name"`
	Club     string `json:"club,omitempty"`
	Aircraft string `json:"aircraft,omitempty"`
}

// BookOf asks all that a workbook shows, side by side; the selection names a
// pilot.
func BookOf(l *season.Ledger, s season.Selection) Book {
	d := Book{Pilot: BookPilot{s.Pilot.Name, s.Pilot.Club, s.Pilot.Aircraft}}
	var asked sync.WaitGroup
	for _, question := range []func(){
		func() { d.Season = SeasonOf(l, s) },
		func() {
			families := analysis.FamiliesOf(l, s)
			d.Families, d.Plan = FamiliesOf(l, s), PlanOf(analysis.PlanFrom(l, s, families))
		},
		func() { d.Faults = FaultsOf(l, s) },
		func() { d.Drills = DrillsOf(l, s) },
		func() { d.Panel = PanelOf(l, s) },
		func() { d.Ready = bookReady(l, s) },
	} {
		asked.Go(question)
	}
	asked.Wait()
	return d
}

func bookReady(l *season.Ledger, s season.Selection) *Ready {
	policy := l.PolicyNamed(season.HousePolicy)
	if policy == nil {
		return nil
	}
	ready := ReadyOf(analysis.ReadinessOf(l.KnownTo(s), s.Pilot, policy, nil, ""))
	return &ready
}
