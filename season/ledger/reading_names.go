package ledger

import (
	"iter"
	"slices"
	"sort"
	"strings"

	"boxbook/season"
)

// NameKind is what a name is of.
type NameKind string

// The kinds of names. A pilot, a coach and a person share their handles, and a
// judge of such a name is that one.
const (
	PersonName   NameKind = "person"
	JudgeName    NameKind = "judge"
	SequenceName NameKind = "sequence"
	ContestName  NameKind = "contest"
	FlightName   NameKind = "flight"
	LadderName   NameKind = "ladder"
	StyleName    NameKind = "rule style"
	KindName     NameKind = faultKindNoun
	PolicyName   NameKind = "policy"
	CategoryName NameKind = "category"
)

// Name is a name in a ledger. In is where it means what it does, for a judge's
// seat; "" for a name that is one everywhere.
type Name struct {
	Kind NameKind
	Name string
	In   string
}

// Use is a place where a name stands. Defines says that it is defined there.
type Use struct {
	Span
	Defines bool
}

// slotNames are the kinds of the names that stand in slots.
var slotNames = map[Slot]NameKind{
	SlotPilot: PersonName, SlotCoach: PersonName, SlotParty: PersonName, SlotSequence: SequenceName, SlotContest: ContestName,
	SlotLadder: LadderName, SlotStyle: StyleName, SlotKind: KindName, SlotSafety: KindName, SlotTarget: KindName, SlotCategory: CategoryName,
}

// newNameKinds are the kinds of the names that lines define, by block.
var newNameKinds = map[string]NameKind{
	"pilot": PersonName, "coach": PersonName, "person": PersonName, "sequence": SequenceName, "contest": ContestName,
	"ladder": LadderName, "rules": StyleName, "policy": PolicyName, "fault-kind": KindName,
}

// use is a name with its place.
type use struct {
	Name
	Use
}

// uses lists the names that stand in a line. A flight's name stands where it is
// named and in its block's first line; the pilot in it is one too.
func (rd *Reading) uses(l Line) []use {
	var all []use
	for i, w := range l.Words {
		if w.Quoted || i == 0 {
			continue
		}
		at := func(kind NameKind, defines bool) {
			all = append(all, use{Name{Kind: kind, Name: w.Text}, Use{w.Span, defines}})
		}
		kind, named := slotNames[w.Slot]
		switch {
		case w.Slot == SlotNew && l.IsHead:
			at(newNameKinds[l.Block], true)
		case w.Slot == SlotNew:
			at(CategoryName, true)
		case w.Slot == SlotJudge:
			all = append(all, rd.judgeUse(l, w))
		case w.Slot == SlotFlight:
			all = append(all, flightUse(w)...)
		case !named, kind == PersonName && w.Text == season.ClubName, w.Slot == SlotTarget && season.GroupOf(w.Text) != "":
		default:
			at(kind, false)
		}
	}
	if l.IsHead && l.Block == "flight" && len(l.Words) > 3 {
		all = append(all, flightHead(l))
	}
	return all
}

// flightHead is the flight that a block's first line defines, at its date.
func flightHead(l Line) use {
	label := 1
	if isNumber(l.word(4)) {
		label = rowNumber(l.word(4))
	}
	parts := []string{l.word(1), l.word(2), l.word(3)}
	name := strings.Join(parts, "/")
	if date, ok := season.ParseDate(parts[0]); ok {
		name = flightName(date, parts[1], parts[2], label)
	}
	span := l.Words[1].Span
	return use{Name{Kind: FlightName, Name: name}, Use{span, true}}
}

// flightUse is a flight's full name in one word, and the pilot in it.
func flightUse(w Word) []use {
	all := []use{{Name{Kind: FlightName, Name: strings.TrimSuffix(w.Text, "/1")}, Use{Span: w.Span}}}
	if parts := strings.Split(w.Text, "/"); len(parts) > 2 {
		span := w.Span
		span.Start += len(parts[0]) + 1
		span.End = span.Start + len(parts[1])
		all = append(all, use{Name{Kind: PersonName, Name: parts[1]}, Use{Span: span}})
	}
	return all
}

// judgeUse is a judge: somebody of the ledger where one has that name, else a
// judge; a seat means a person within its contest, or its flight, alone.
func (rd *Reading) judgeUse(l Line, w Word) use {
	u := use{Name{Kind: JudgeName, Name: w.Text}, Use{w.Span, l.Key == "panel"}}
	switch _, known := rd.r.partyNamed(w.Text); {
	case known && !season.IsSeat(w.Text):
		u.Kind, u.Defines = PersonName, false
	case season.IsSeat(w.Text):
		u.In = rd.panelOf(l)
	}
	return u
}

// panelOf is where the seats of a block have their meaning.
func (rd *Reading) panelOf(l Line) string {
	f := rd.files[l.File]
	head := f.reads(int32(l.Head))
	if l.Block == "contest" {
		return head.word(1)
	}
	for _, line := range rd.Body(l.File, l.Head) {
		if line.Key == "contest" {
			return line.word(1)
		}
	}
	return head.Key + " " + Block{Line: head}.Name()
}

// NamesAt gives the names at a place, the whole word's first: of a flight's name
// the flight, then the pilot where the place is in that part.
func (rd *Reading) NamesAt(file string, n, column int) []Name {
	var names []Name
	for _, u := range rd.usesAt(file, n, column) {
		names = append(names, u.Name)
	}
	return names
}

// usesAt are the names at a place with where they stand.
func (rd *Reading) usesAt(file string, n, column int) []use {
	line, ok := rd.Line(file, n)
	if !ok {
		return nil
	}
	return slices.DeleteFunc(rd.uses(line), func(u use) bool { return column < u.Start || column > u.End })
}

// Uses lists every place where a name stands, in the order of files and lines.
func (rd *Reading) Uses(name Name) []Use {
	var all []Use
	for _, f := range rd.r.files {
		if !f.shipped {
			all = slices.AppendSeq(all, rd.usesIn(f, name))
		}
	}
	return all
}

// usesIn looks where the name's letters stand, and only there at what they mean.
func (rd *Reading) usesIn(f *file, name Name) iter.Seq[Use] {
	letters := name.Name
	if name.Kind == FlightName {
		letters, _, _ = strings.Cut(letters, "/")
	}
	return func(yield func(Use) bool) {
		for n := range f.linesWith(letters) {
			for _, u := range rd.uses(f.reads(n)) {
				if u.Name == name && !yield(u.Use) {
					return
				}
			}
		}
	}
}

// linesWith are the lines in which letters stand alone, each once.
func (f *file) linesWith(letters string) iter.Seq[int32] {
	return func(yield func(int32) bool) {
		looked := -1
		for at := 0; letters != ""; {
			i := strings.Index(f.text[at:], letters)
			if i < 0 {
				return
			}
			start := at + i
			at = start + len(letters)
			if !aloneIn(f.text, start, at) {
				continue
			}
			n := sort.Search(len(f.lines), func(n int) bool { return int(f.lines[n].start) > start }) - 1
			if n < 0 || n == looked {
				continue
			}
			if looked = n; !yield(int32(n)) {
				return
			}
		}
	}
}

// defined reports whether a file defines a name.
func (rd *Reading) defined(f *file, name Name) bool {
	for u := range rd.usesIn(f, name) {
		if u.Defines {
			return true
		}
	}
	return false
}

// aloneIn reports whether what stands before and behind letters may be the edge
// of a name.
func aloneIn(text string, start, end int) bool {
	edge := func(c byte) bool { return c <= ' ' || c == '/' }
	return (start == 0 || edge(text[start-1]) || text[start-1] == 0xbf) && (end == len(text) || edge(text[end]))
}
