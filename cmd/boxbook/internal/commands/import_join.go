package commands

import (
	"fmt"
	"math/big"
	"path/filepath"
	"slices"
	"strings"

	"boxbook/cmd/boxbook/internal/entry"
	"boxbook/season"
	"boxbook/season/ledger"
)

// This file puts a sheet's marks into a flight that the ledger has without any: its head,
// total and place were typed on the evening, and the sheet came later.

// blockOf is the block of a flight.
func blockOf(f *season.Flight) ledger.Target {
	return ledger.Target{File: f.At.File, Kind: "flight", Name: f.Name}
}

// namesPanel reports whether a flight names its judges itself.
func namesPanel(f *season.Flight) (bool, error) {
	path := filepath.FromSlash(f.At.File)
	text, err := ledger.Disk{}.Read(path)
	if err != nil {
		return false, readError(path, err)
	}
	return ledger.HasLine(text, blockOf(f), "panel")
}

// contradicting says where a flight without marks says something else than the sheet's: of
// the judges where it names them itself, since a contest's may have had another panel.
func contradicting(was, is *season.Flight, ownPanel bool) []string {
	var against []string
	say := func(what, has, here string) {
		against = append(against, fmt.Sprintf("%s %s where this import has %s", what, has, here))
	}
	if was.Contest != nil && is.Contest != nil && is.Contest.Handle != was.Contest.Handle {
		say("the contest", was.Contest.Handle, is.Contest.Handle)
	}
	if was.Sequence != nil && is.Sequence.Handle != was.Sequence.Handle {
		say("the sequence", was.Sequence.Handle, is.Sequence.Handle)
	}
	if was.Category != "" && is.Category != was.Category {
		say("the category", was.Category, is.Category)
	}
	if ownPanel && !sameNames(was.Panel, is.Panel) {
		say("the panel", entry.PanelOf(was), entry.PanelOf(is))
	}
	if has, here, _ := penaltiesApart(was.Penalties, is.Penalties); has != "" {
		say("the penalty", has, here)
	}
	if was.Official != nil && is.Official != nil && was.Official.Points.Cmp(is.Official.Points) != 0 {
		say("the official total", was.Official.Points.String(), is.Official.Points.String())
	}
	return against
}

// penaltiesApart compares a flight's penalties with the sheet's, kind by kind; other is
// what either did not know the kind of. Where they contradict has and here say them; else
// lacking are those of the sheet of which the flight has none.
func penaltiesApart(was, is []season.Penalty) (has, here string, lacking []season.Penalty) {
	const unknown = season.PenaltyKind("other")
	var left []season.Penalty // of the flight, of kinds that the sheet has none of
	for _, p := range was {
		if !slices.ContainsFunc(is, func(q season.Penalty) bool { return q.Kind == p.Kind }) {
			left = append(left, p)
		}
	}
	for _, kind := range season.PenaltyKinds {
		ofKind := func(p season.Penalty) bool { return p.Kind == kind }
		typed, printed := only(was, ofKind), only(is, ofKind)
		switch {
		case len(printed) == 0:
		case len(typed) == 0:
			lacking = append(lacking, printed...)
		case pointsOf(typed).Cmp(pointsOf(printed)) != 0:
			return penaltiesSaid(typed), penaltiesSaid(printed), nil
		}
	}
	anyUnknown := slices.ContainsFunc(slices.Concat(left, lacking), func(p season.Penalty) bool { return p.Kind == unknown })
	switch {
	case len(left) == 0 || len(lacking) == 0 || !anyUnknown:
		return "", "", lacking
	case pointsOf(left).Cmp(pointsOf(lacking)) == 0:
		return "", "", nil
	default:
		return penaltiesSaid(left), penaltiesSaid(lacking), nil
	}
}

// only are the penalties that hold.
func only(list []season.Penalty, holds func(season.Penalty) bool) []season.Penalty {
	return slices.DeleteFunc(slices.Clone(list), func(p season.Penalty) bool { return !holds(p) })
}

// pointsOf is what penalties take off together.
func pointsOf(list []season.Penalty) *big.Rat {
	sum := new(big.Rat)
	for _, p := range list {
		sum.Add(sum, p.Points.Rat())
	}
	return sum
}

// penaltiesSaid names penalties as a ledger has them: "low 20 and out 10".
func penaltiesSaid(list []season.Penalty) string {
	said := make([]string, len(list))
	for i, p := range list {
		said[i] = fmt.Sprintf("%s %s", p.Kind, p.Points)
	}
	return strings.Join(said, " and ")
}

// joining adds to a flight without marks what it lacks of the sheet: the marks, in the
// order of its judges, and what of the set-up, penalties and official total it has not.
func (a *app) joining(to destination, l *season.Ledger, flight entry.Answers, was, is *season.Flight) (entry.Addition, error) {
	block := blockOf(was)
	add := entry.Addition{Into: &block, Said: "the marks of flight " + was.Name}
	samePanel := sameNames(was.Panel, is.Panel)
	if samePanel {
		for i, row := range flight["row"] {
			flight["row"][i] = inOrderOf(was.Panel, is.Panel, row)
		}
	}
	_, _, lacking := penaltiesApart(was.Penalties, is.Penalties)
	_, body, _ := strings.Cut(entry.FlightBlock(l, flight), "\n")
	for _, line := range strings.Split(strings.TrimRight(body, "\n"), "\n") {
		line = strings.TrimSpace(line)
		there := false
		switch strings.Fields(line)[0] {
		case "contest":
			there = was.Contest != nil
		case "sequence":
			there = was.Sequence != nil
		case "category":
			there = was.Category != ""
		case "panel":
			there = samePanel
		case "official":
			there = was.Official != nil
		case "penalty":
			there = !slices.ContainsFunc(lacking, func(p season.Penalty) bool { return string(p.Kind) == strings.Fields(line)[1] })
		}
		if !there {
			add.Lines = append(add.Lines, line)
		}
	}
	return add, asLogError(to.takes(block))
}

// inOrderOf gives a row's marks, which are in the order of panel, in that of judges.
func inOrderOf(judges, panel []string, row string) string {
	flown := strings.Split(row, entry.AnotherTime)
	for n, marks := range flown {
		words := strings.Fields(marks)
		if len(words) != len(panel) {
			continue
		}
		ordered := make([]string, len(judges))
		for i, judge := range judges {
			ordered[i] = words[slices.Index(panel, judge)]
		}
		flown[n] = strings.Join(ordered, " ")
	}
	return strings.Join(flown, entry.AnotherTime)
}
