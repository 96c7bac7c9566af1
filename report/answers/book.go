package answers

import (
	"slices"
	"strings"
	"sync"

	"boxbook/season"
)

// Book is everything that a coach's workbook shows of a pilot: the answers of
// the commands that ask about the selection, side by side. Drills and readiness
// look at all seasons.
type Book struct {
	Pilot  BookPilot `json:"pilot"`
	Season Season    `json:"season"`
	// Flights are the sheets of the season's flights, in its order, without what
	// would explain a printed total.
	Flights []Flight `json:"flights"`
	// Styles are all rule styles, the default one among them.
	Styles   []RuleStyle `json:"styles"`
	Families Families    `json:"families"`
	Faults   Faults      `json:"faults"`
	Drills   Drills      `json:"drills"`
	Panel    Panel       `json:"panel"`
	Plan     Plan        `json:"plan"`
	// Ready is absent where the ledger has no policy of the house.
	Ready *Ready `json:"ready,omitempty"`
}

// BookPilot is whom a workbook is about.
type BookPilot struct {
	Name     string `json:"name"`
	Club     string `json:"club,omitempty"`
	Aircraft string `json:"aircraft,omitempty"`
}

// BookOf asks all that a workbook shows, side by side; the selection names a
// pilot. It tells how many of the flights are through, unless tell is nil.
func BookOf(l *season.Ledger, s season.Selection, tell func(done, total int)) Book {
	d := Book{Pilot: BookPilot{s.Pilot.Name, s.Pilot.Club, s.Pilot.Aircraft}, Styles: bookStyles(l)}
	var asked sync.WaitGroup
	for _, question := range []func(){
		func() { d.Season = bookSeason(l, s) },
		func() { d.Flights = bookFlights(l, s, tell) },
		func() { d.Families = FamiliesOf(l, s) },
		func() { d.Plan = PlanOf(l, s, nil) },
		func() { d.Faults = FaultsOf(l, s) },
		func() { d.Drills = DrillsOf(l.KnownTo(s), season.Selection{Pilot: s.Pilot}) },
		func() { d.Panel = PanelOf(l, s) },
		func() { d.Ready = bookReady(l, s) },
	} {
		asked.Go(question)
	}
	asked.Wait()
	return d
}

// bookSeason is the season with the one before beside it, as on its own page.
func bookSeason(l *season.Ledger, s season.Selection) Season {
	if OneWholeSeason(s) {
		return SeasonBeside(l, s, s.Season-1)
	}
	return SeasonOf(l, s)
}

// bookFlights are the sheets of the flights that a season of the selection has.
func bookFlights(l *season.Ledger, s season.Selection, tell func(done, total int)) []Flight {
	l = l.KnownTo(s)
	flights := l.Select(s)
	sheets := make([]Flight, len(flights))
	for i, f := range flights {
		sheets[i] = sheetOf(f)
		sheets[i].addMatters(l, f)
		if tell != nil {
			tell(i+1, len(flights))
		}
	}
	return sheets
}

// bookStyles are the ledger's rule styles, and the default one where it has none
// of that name.
func bookStyles(l *season.Ledger) []RuleStyle {
	styles, standard := StylesOf(l), StyleOf(nil)
	named := func(s RuleStyle) bool { return strings.EqualFold(s.Name, standard.Name) }
	if !slices.ContainsFunc(styles, named) {
		styles = append(styles, standard)
	}
	return styles
}

func bookReady(l *season.Ledger, s season.Selection) *Ready {
	policy := l.PolicyNamed(season.HousePolicy)
	if policy == nil {
		return nil
	}
	ready := ReadyOf(l.KnownTo(s), s.Pilot, policy, nil, "")
	return &ready
}
