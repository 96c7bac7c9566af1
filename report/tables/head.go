package tables

import (
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season"
)

// PeriodChoices are the choices of a page that is about a period: where none was
// chosen it says that it is about all seasons.
func PeriodChoices(s season.Selection) []report.Choice {
	chosen := Choices(s)
	if s.Season != 0 || s.Since != 0 || s.Until != 0 || s.Contest != nil {
		return chosen
	}
	at := 0
	if s.Pilot != nil {
		at = 1
	}
	return slices.Insert(chosen, at, report.Choice{Words: words.AllSeasons})
}

// DrillChoices are the choices of the page of drills: drills that are all of one
// pilot say whose they are, also where no pilot was asked for.
func DrillChoices(s season.Selection, d answers.Drills) []report.Choice {
	chosen := PeriodChoices(s)
	if s.Pilot == nil && len(d.Drills) > 0 && !d.SeveralPilots() {
		chosen = slices.Insert(chosen, 0, report.Choice{Words: d.Drills[0].Name})
	}
	return chosen
}

// Choices are what a selection chose, for the head of a document: pilot, season
// or span, category, contest.
func Choices(s season.Selection) []report.Choice {
	var chosen []report.Choice
	add := func(key string, value any, said string) {
		chosen = append(chosen, report.Choice{Key: key, Value: value, Words: said})
	}
	if s.Pilot != nil {
		add("pilot", s.Pilot.Handle, s.Pilot.Name)
	}
	if s.Season != 0 {
		add("season", s.Season, words.SeasonChosen(s.Season))
	}
	if s.Since != 0 {
		add("since", s.Since.String(), words.SinceChosen(s.Since))
	}
	if s.Until != 0 {
		add("until", s.Until.String(), words.UntilChosen(s.Until))
	}
	if s.Category != "" {
		add("category", s.Category, s.Category)
	}
	if s.Contest != nil {
		add("contest", s.Contest.Handle, s.Contest.Name)
	}
	return chosen
}

// Head is the head of a document made by a version of the program, as of a day,
// out of a ledger as the person named it.
func Head(version string, asOf season.Date, ledger string, chosen []report.Choice) report.Head {
	head := report.Head{Program: "boxbook", Version: version, Ledger: ledger, Chosen: chosen}
	if asOf != 0 {
		head.AsOf = asOf.String()
	}
	return head
}

// TitledChoices are the choices of a document whose title is the pilot's name,
// which people need not read twice.
func TitledChoices(s season.Selection) []report.Choice {
	chosen := PeriodChoices(s)
	for i := range chosen {
		if chosen[i].Key == "pilot" {
			chosen[i].Words = ""
		}
	}
	return chosen
}
