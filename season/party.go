package season

import (
	"slices"
	"strings"
	"unicode"
)

// Party is somebody who pays or is paid: a pilot, a coach, a person, or the club
// itself, which is the zero Party. A pilot and a coach of one handle are one
// party, the pilot: of the three at most one is set.
type Party struct {
	Pilot  *Pilot
	Coach  *Coach
	Person *Person
}

// PartyKind says what a party is.
type PartyKind string

// The kinds of party.
const (
	PilotParty  PartyKind = "pilot"
	CoachParty  PartyKind = "coach"
	PersonParty PartyKind = "person"
	ClubParty   PartyKind = ClubName
)

// ClubName is the word for the club itself among the names of parties.
const ClubName = "club"

// Club reports whether the party is the club itself.
func (p Party) Club() bool { return p == Party{} }

// Kind says what the party is.
func (p Party) Kind() PartyKind {
	switch {
	case p.Pilot != nil:
		return PilotParty
	case p.Coach != nil:
		return CoachParty
	case p.Person != nil:
		return PersonParty
	default:
		return ClubParty
	}
}

// Name is the party's handle, or "club".
func (p Party) Name() string {
	switch {
	case p.Pilot != nil:
		return p.Pilot.Handle
	case p.Coach != nil:
		return p.Coach.Handle
	case p.Person != nil:
		return p.Person.Handle
	default:
		return ClubName
	}
}

// FullName is the name that was given to the party, "" for the club.
func (p Party) FullName() string {
	switch {
	case p.Pilot != nil:
		return p.Pilot.Name
	case p.Coach != nil:
		return p.Coach.Name
	case p.Person != nil:
		return p.Person.Name
	default:
		return ""
	}
}

// Parties lists everybody who may pay or be paid: pilots, coaches who do not
// fly, and persons, each as defined, the club last. A coach called club is none.
func (l *Ledger) Parties() []Party {
	var all []Party
	for _, p := range l.Pilots {
		all = append(all, Party{Pilot: p})
	}
	for _, c := range l.Coaches {
		if c.Handle != ClubName && l.PilotNamed(c.Handle) == nil {
			all = append(all, Party{Coach: c})
		}
	}
	for _, p := range l.Persons {
		all = append(all, Party{Person: p})
	}
	return append(all, Party{})
}

// NamedIn lists those of the parties whom a text names, by handle as a word or by
// full name, whatever the case of letters; the club is none of them.
func NamedIn(text string, parties []Party) []Party {
	lower := strings.ToLower(text)
	words := strings.FieldsFunc(lower, func(c rune) bool {
		return !unicode.IsLetter(c) && !unicode.IsDigit(c) && c != '-' && c != '_'
	})
	var named []Party
	for _, p := range parties {
		full := strings.ToLower(p.FullName())
		if !p.Club() && (slices.Contains(words, strings.ToLower(p.Name())) || full != "" && strings.Contains(lower, full)) {
			named = append(named, p)
		}
	}
	return named
}

// PartyNamed finds a party by its name.
func (l *Ledger) PartyNamed(name string) (Party, bool) {
	for _, p := range l.Parties() {
		if p.Name() == name {
			return p, true
		}
	}
	return Party{}, false
}

// HandleCalled is the word for whoever has a full name, or for the club by the name that
// pilots give it, with dashes for spaces too and whatever the case of letters; "" for nobody.
func (l *Ledger) HandleCalled(name string) string {
	same := func(full string) bool {
		return full != "" && (strings.EqualFold(name, full) || strings.EqualFold(name, strings.Join(strings.Fields(full), "-")))
	}
	for _, p := range l.Parties() {
		if same(p.FullName()) {
			return p.Name()
		}
	}
	if same(l.ClubCalled()) {
		return ClubName
	}
	return ""
}
