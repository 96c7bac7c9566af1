package ledger

import (
	"cmp"
	"fmt"
	"slices"

	"boxbook/scoring"
	"boxbook/season"
)

// registry holds what one kind of block defines, by handle, in order.
type registry[T any] struct {
	kind  string // for messages: "sequence"
	items map[string]*entry[T]
	order []string
	// aliases are other names of what is there.
	aliases map[string]string
	// nameless says that a block of this kind has no name: an unknown one may
	// be its.
	nameless bool
}

type entry[T any] struct {
	value   T
	at      season.Place
	shipped bool
}

func newRegistry[T any](kind string) *registry[T] {
	return &registry[T]{kind: kind, items: map[string]*entry[T]{}, aliases: map[string]string{}}
}

// names is everything that has a handle.
type names struct {
	pilots    *registry[*season.Pilot]
	coaches   *registry[*season.Coach]
	persons   *registry[*season.Person]
	sequences *registry[*season.Sequence]
	contests  *registry[*season.Contest]
	flights   *flights
	ladders   *registry[*season.Ladder]
	styles    *registry[*styleNode]
	shipped   map[string]*styleNode // rule styles as shipped, for `like`
	kinds     *registry[*season.FaultKind]
	policies  *registry[*season.Policy]
}

// faultKindNoun is what a fault kind is called in messages.
const faultKindNoun = "fault kind"

func newNames() names {
	return names{
		pilots:    newRegistry[*season.Pilot]("pilot"),
		coaches:   newRegistry[*season.Coach]("coach"),
		persons:   newRegistry[*season.Person]("person"),
		sequences: newRegistry[*season.Sequence]("sequence"),
		contests:  newRegistry[*season.Contest]("contest"),
		flights:   &flights{pilots: map[*season.Pilot]int{}},
		ladders:   newRegistry[*season.Ladder]("ladder"),
		styles:    newRegistry[*styleNode]("rule style"),
		shipped:   map[string]*styleNode{},
		kinds:     newRegistry[*season.FaultKind](faultKindNoun),
		policies:  newRegistry[*season.Policy]("policy"),
	}
}

// loseKind takes for lost a name of each kind of block that may have stood where
// lines could not be told.
func (n *names) loseKind(may func(kind string) bool) {
	for kind, lost := range map[string]*bool{
		"pilot": &n.pilots.nameless, "coach": &n.coaches.nameless, "person": &n.persons.nameless, "sequence": &n.sequences.nameless,
		"contest": &n.contests.nameless, "flight": &n.flights.nameless, "ladder": &n.ladders.nameless, "rules": &n.styles.nameless,
		"fault-kind": &n.kinds.nameless, "policy": &n.policies.nameless,
	} {
		*lost = *lost || may(kind)
	}
}

// define enters a handle. A second definition of what a ledger defined is an
// error that names the first place; what the program ships is replaced.
func define[T any](r *reader, reg *registry[T], f *file, tok token, name string, value T) bool {
	old := reg.items[name]
	if old != nil && (!old.shipped || f.shipped) {
		r.broken[old.value] = true // which of the two is meant cannot be told
		r.at(f, tok, definedTwice, reg.kind, name, placeText(old.at))
		return false
	}
	if old == nil {
		reg.order = append(reg.order, name)
	}
	reg.items[name] = &entry[T]{value: value, at: place(f, tok.line), shipped: f.shipped}
	return true
}

// excuse silences later complaints about the name that a header with an error
// would have defined.
func excuse[T any](r *reader, reg *registry[T], b *block) {
	switch l := b.f.lines[b.head]; {
	case l.broken:
		r.excuseWords(plainWords(b.f.text[l.start:l.end]))
	case l.first+1 < l.last && !b.headToken(1).quoted:
		r.excused[b.f.word(b.headToken(1))] = true
	default:
		reg.nameless = true
	}
}

// excuseWords silences complaints about whatever a line that could not be read
// may have defined: its first word is a keyword, the next a name, or more of
// them a flight's.
func (r *reader) excuseWords(words []string) {
	if len(words) > 1 {
		r.excused[words[1]] = true
	}
	if len(words) > 3 {
		r.excuseFlight(words[1:])
	}
}

// excuseFlight silences complaints about the flight of a head's words, date,
// pilot, programme, one of which may be wrong.
func (r *reader) excuseFlight(parts []string) {
	if len(parts) < 3 {
		r.names.flights.nameless = true
		return
	}
	for _, like := range flightLike(parts) {
		r.excused[like] = true
	}
}

// flightLike are the ways in which a flight's name can have one piece wrong.
func flightLike(parts []string) [3]string {
	return [3]string{"*/" + parts[1] + "/" + parts[2], parts[0] + "/*/" + parts[2], parts[0] + "/" + parts[1] + "/*"}
}

// sort is what a name is of: people who may pay or be paid share their handles.
func (reg *registry[T]) sort() string {
	switch reg.kind {
	case "pilot", "coach", "person":
		return anyParty
	default:
		return reg.kind
	}
}

// find looks a handle up and reports an unknown one, with the nearest known
// name; it is silent where the name may be lost to an error already reported.
func find[T any](w *words, reg *registry[T], want string) (T, token, bool) {
	var none T
	before := len(w.r.list)
	tok, ok := w.word(want)
	if !ok {
		if said := w.r.list[before:]; len(said) == 1 && said[0].Code == unexpected {
			said[0].hinted("the short name stands here, without quotes")
		}
		return none, tok, false
	}
	value, ok := lookUp(w, reg, tok, w.text(tok))
	return value, tok, ok
}

// named gives what bears a name, nil where nothing does.
func (reg *registry[T]) named(name string) *entry[T] {
	if other, ok := reg.aliases[name]; ok {
		name = other
	}
	return reg.items[name]
}

func lookUp[T any](w *words, reg *registry[T], tok token, name string) (T, bool) {
	if e := reg.named(name); e != nil {
		return e.value, true
	}
	var none T
	w.failed = true
	if !w.r.lostFile && !reg.nameless && !w.r.excused[name] {
		d := w.r.at(w.f, tok, unknownName, reg.kind, name)
		d.didYouMean(name, reg.order)
		if hint := howNamed(reg); hint != "" && w.f.guesses.allow(len(reg.order)) && Nearest(name, reg.order) == "" {
			d.hinted("%s", cmp.Or(w.kindsMeant(reg.kind, name), hint))
		}
		if _, number := scoring.ParseDecimal(name); number || reg.kind == "pilot" && slices.Contains(programmeWords(true), name) {
			d.hinted(wordBefore)
		}
		d.rooted(reg.sort(), name)
	}
	return none, false
}

// howNamed says how a name of this kind is found or becomes known, "" where there is
// nothing to say.
func howNamed[T any](reg *registry[T]) string {
	switch reg.kind {
	case faultKindNoun:
		return "`boxbook help kinds` lists those that the program ships"
	case "coach":
		return "`boxbook log coach` adds a coach"
	default:
		return ""
	}
}

// dearer is how many names are as dear to compare as one description.
const dearer = 20

// kindsMeant asks whether kinds of fault were meant that say what was typed.
func (w *words) kindsMeant(kind, typed string) string {
	kinds := w.r.names.kinds
	if kind != faultKindNoun || !w.f.guesses.allow(dearer*len(kinds.order)) {
		return ""
	}
	return KindsMeant(typed, kinds.list())
}

// list gives the values in the order of their first definition.
func (reg *registry[T]) list() []T {
	values := make([]T, 0, len(reg.order))
	for _, name := range reg.order {
		values = append(values, reg.items[name].value)
	}
	return slices.Clip(values)
}

// party takes the handle of somebody who may pay or be paid, or the word club.
func (w *words) party(want string) (season.Party, token, bool) {
	tok, ok := w.word(want)
	if !ok {
		return season.Party{}, tok, false
	}
	name := w.text(tok)
	if p, ok := w.r.partyNamed(name); ok {
		return p, tok, true
	}
	w.failed = true
	n := w.r.names
	if nameless := n.pilots.nameless || n.coaches.nameless || n.persons.nameless; !w.r.lostFile && !nameless && !w.r.excused[name] {
		d := w.r.at(w.f, tok, unknownName, anyParty, name)
		if !slices.Contains(joiners, name) {
			d.didYouMean(name, slices.Concat(n.pilots.order, n.coaches.order, n.persons.order, w.also))
		}
		w.r.dropListed(w.all()) // somebody else is meant than who stands there already
		a := partyAdvice(name, len(w.also) > 0)
		if (name == "from" || name == "paid") && w.text(w.nth(0)) == "cost" {
			a = hint("who paid stands behind by: by WHO")
		}
		if a.hint == "" && w.r.isClub(name) {
			a = instead(clubIsCalled, season.ClubName)
		}
		if a.hint != "" {
			d.advise(a.unless(len(d.Fixes) > 0))
			return season.Party{}, tok, false
		}
		if Nearest(name, slices.Concat(n.pilots.order, n.coaches.order, n.persons.order, w.also)) == "" && season.IsHandle(name) {
			d.hinted(addParty)
			if Nearest(name, []string{receiptWord}) != "" && w.i < w.last {
				d.hinted("did you mean receipt, with the slip's number behind it?")
			}
		}
		d.rooted(anyParty, name)
	}
	return season.Party{}, tok, false
}

// anyParty says who may pay, be paid or do a duty.
const anyParty = "pilot, coach or person"

// clubIsCalled answers the club's own name.
const clubIsCalled = "the club is called %s here"

// CalledHere says by which word whoever has a full name, or the club, is known.
func CalledHere(name, word string) string {
	if word == season.ClubName {
		return fmt.Sprintf(clubIsCalled, word)
	}
	return fmt.Sprintf("%s is %s here", name, word)
}

// isClub reports whether a name is the club's own, as pilots have it.
func (r *reader) isClub(name string) bool {
	l := season.Ledger{Pilots: r.names.pilots.list()}
	return l.HandleCalled(name) == season.ClubName
}

// addParty says how somebody becomes known.
const addParty = "`boxbook log pilot` adds a pilot, `boxbook log person` whoever does not fly"

// shareNotAmount says what a number behind a name is.
const shareNotAmount = "a number after a name is a share, not an amount: for ines 2 tobias 1"

// joiners are words that people write between names.
var joiners = []string{"and", "&", "+", "to"}

// partyAdvice names the slip where a word of the language is taken for a name.
func partyAdvice(name string, inContest bool) advice {
	switch {
	case slices.Contains(joiners, name):
		return hint("put only white space between names")
	case name == allWord && !inContest:
		return hint("`for all` belongs inside a contest")
	case name == allWord:
		return hint("`for all` stands alone")
	case name == eachWord:
		return hint("`each` comes before `for`")
	case name == receiptWord:
		return hint("the slip's number follows: receipt 17")
	case isCurrency(name):
		return hint(shareNotAmount)
	case Nearest(name, []string{season.ClubName}) != "":
		return instead("the club itself is `%s`", season.ClubName)
	default:
		return advice{}
	}
}

// partyNamed finds a party; a pilot and a coach of one handle are one, and a
// coach called club is none.
func (r *reader) partyNamed(name string) (season.Party, bool) {
	if name == season.ClubName {
		return season.Party{}, true
	}
	if e := r.names.pilots.items[name]; e != nil {
		return season.Party{Pilot: e.value}, true
	}
	if e := r.names.coaches.items[name]; e != nil {
		return season.Party{Coach: e.value}, true
	}
	if e := r.names.persons.items[name]; e != nil {
		return season.Party{Person: e.value}, true
	}
	return season.Party{}, false
}
