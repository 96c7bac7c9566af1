package season

import (
	"strings"
	"unicode"
	"unicode/utf8"
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

// NamedIn lists those of the parties whom a text names, by handle or by full name as
// words, whatever the case of letters; the club is none of them.
func NamedIn(text string, parties []Party) []Party {
	lower := strings.ToLower(text)
	var named []Party
	for _, p := range parties {
		if !p.Club() && (HasWords(lower, p.Name()) || HasWords(lower, p.FullName())) {
			named = append(named, p)
		}
	}
	return named
}

// PlainlyNamed reports whether a text names a party itself: not something that is theirs
// ("Mara's training"), nor somebody else ("Mara Held", "MARA Ltd").
func PlainlyNamed(text string, p Party) bool {
	lower, full, plain := strings.ToLower(text), strings.ToLower(p.FullName()), false
	if len(lower) != len(text) {
		text = lower
	}
	for _, name := range []string{p.Name(), full} {
		eachAsWords(lower, name, func(from, to int) bool {
			if to-from < len(full) && strings.HasPrefix(lower[from:], full) && !beginsInWord(lower[from+len(full):]) {
				return true // the whole name is looked at by itself
			}
			plain = !theirs(lower[:to], lower[to:]) && (text == strings.ToUpper(text) || !anothers(text[from:to], text[to:]))
			return !plain
		})
		if plain {
			break
		}
	}
	return plain
}

// anothers reports whether a name may be somebody else's, by its capitals or by what
// follows it.
func anothers(name, behind string) bool {
	if name == strings.ToUpper(name) && name != strings.ToLower(name) {
		return true
	}
	rest, ok := strings.CutPrefix(behind, " ")
	next, _ := utf8.DecodeRuneInString(rest)
	return ok && !strings.Contains(name, " ") && unicode.IsUpper(next)
}

// theirs reports whether what follows a name says that something is whose the name is.
func theirs(name, behind string) bool {
	for _, mark := range []string{"'", "\u2019"} {
		if rest, ok := strings.CutPrefix(behind, mark); ok {
			s, ends := strings.CutPrefix(rest, "s")
			return ends && !beginsInWord(s) || strings.HasSuffix(name, "s") && strings.HasPrefix(rest, " ")
		}
	}
	return false
}

// HasWords reports whether a text in small letters has a name as words.
func HasWords(lower, name string) bool {
	found := false
	eachAsWords(lower, name, func(int, int) bool {
		found = true
		return false
	})
	return found
}

// eachAsWords visits where a text in small letters has a name as words, until visit says no.
func eachAsWords(lower, name string, visit func(from, to int) bool) {
	name = strings.ToLower(name)
	if name == "" {
		return
	}
	for from := 0; ; {
		at := strings.Index(lower[from:], name)
		if at < 0 {
			return
		}
		at += from
		to := at + len(name)
		last, _ := utf8.DecodeLastRuneInString(lower[:at])
		if !inWord(last) && !beginsInWord(lower[to:]) && !visit(at, to) {
			return
		}
		from = to
	}
}

func beginsInWord(text string) bool {
	first, _ := utf8.DecodeRuneInString(text)
	return inWord(first)
}

func inWord(c rune) bool { return unicode.IsLetter(c) || unicode.IsDigit(c) || c == '-' || c == '_' }

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
