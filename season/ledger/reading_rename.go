package ledger

import (
	"fmt"
	"slices"

	"boxbook/season"
)

// RenameError says why a name cannot be changed to another.
type RenameError struct{ Reason string }

func (e *RenameError) Error() string { return e.Reason }

func cannotRename(format string, args ...any) error {
	return &RenameError{fmt.Sprintf(format, args...)}
}

// Renamable gives the name at a place that can be changed, and where it stands
// there. The error is a *RenameError that says why there is none.
func (rd *Reading) Renamable(file string, n, column int) (Name, Span, error) {
	uses := rd.usesAt(file, n, column)
	for _, u := range slices.Backward(uses) { // a part of a word before the whole
		if u.Kind != FlightName {
			return u.Name, u.Span, rd.mayChange(u.Name)
		}
	}
	if len(uses) > 0 {
		return Name{}, Span{}, cannotRename("a flight is named by its date, pilot and programme")
	}
	return Name{}, Span{}, cannotRename("no name that can be changed is here")
}

// mayChange refuses a name that the program ships, or that nothing defines.
func (rd *Reading) mayChange(name Name) error {
	for _, f := range rd.r.files {
		if f.shipped && rd.defined(f, name) {
			return cannotRename("%s %q is a name that boxbook ships", name.Kind, name.Name)
		}
	}
	if name.Kind == KindName && rd.r.names.kinds.aliases[name.Name] != "" {
		return cannotRename("%s %q is a name that boxbook ships", name.Kind, name.Name)
	}
	if !slices.ContainsFunc(rd.r.files, func(f *file) bool { return !f.shipped && rd.defined(f, name) }) {
		return cannotRename("no %s is called %q", name.Kind, name.Name)
	}
	return nil
}

// Rename gives every place of a name, for another to stand there. The error is a
// *RenameError where the other is no name, or is taken, or would be read as
// something else.
func (rd *Reading) Rename(name Name, to string) ([]Span, error) {
	if err := rd.mayChange(name); err != nil {
		return nil, err
	}
	if err := rd.mayBecome(name, to); err != nil {
		return nil, err
	}
	var all []Span
	for _, u := range rd.Uses(name) {
		all = append(all, u.Span)
	}
	return all, nil
}

// mayBecome refuses what cannot be another name of the same thing.
func (rd *Reading) mayBecome(name Name, to string) error {
	people := name.Kind == PersonName || name.Kind == JudgeName
	_, begins := blockSpecs[to]
	switch {
	case !season.IsHandle(to):
		return cannotRename("%q is not a name: a letter, then letters, digits, - or _", to)
	case to == name.Name:
		return cannotRename("it is called %q already", to)
	case to == season.ClubName && people:
		return cannotRename("%q is the club itself", to)
	case (people || name.Kind == CategoryName) && (begins || isFormWord(to)):
		return cannotRename("%q is a word of the language", to)
	case name.Kind == KindName && (season.GroupOf(to) != "" || rd.r.names.kinds.named(to) != nil):
		return cannotRename("%q is taken", to)
	case people && season.IsSeat(to) != (season.IsSeat(name.Name) && name.Kind == JudgeName) && rd.judges(name):
		return cannotRename("%q would be a seat on the panels of one contest, or no longer be one", to)
	case rd.taken(name, to):
		return cannotRename("%q is taken", to)
	default:
		return nil
	}
}

// isFormWord reports a word that stands as it is inside some line.
func isFormWord(word string) bool {
	for _, f := range allForms() {
		if slices.ContainsFunc(f.items, func(item formItem) bool { return item.word == word }) {
			return true
		}
	}
	return false
}

// judges reports whether a name stands on a panel.
func (rd *Reading) judges(name Name) bool {
	if name.Kind == JudgeName {
		return true
	}
	return slices.ContainsFunc(rd.Uses(name), func(u Use) bool {
		line, _ := rd.Line(u.File, u.Line)
		return slices.ContainsFunc(line.Words, func(w Word) bool { return w.Span == u.Span && w.Slot == SlotJudge })
	})
}

// taken reports whether something that a name could be mixed up with bears the
// other name.
func (rd *Reading) taken(name Name, to string) bool {
	n := rd.r.names
	stands := func(kind NameKind) bool { return len(rd.Uses(Name{kind, to, name.In})) > 0 }
	switch name.Kind {
	case PersonName, JudgeName:
		_, known := rd.r.partyNamed(to)
		return known && name.In == "" || stands(JudgeName) || stands(PersonName)
	case CategoryName:
		return slices.Contains(rd.Ledger.CategoryNames(), to) || stands(CategoryName)
	case SequenceName:
		return n.sequences.items[to] != nil || stands(name.Kind)
	case ContestName:
		return n.contests.items[to] != nil || stands(name.Kind)
	case LadderName:
		return n.ladders.items[to] != nil || stands(name.Kind)
	case StyleName:
		return n.styles.items[to] != nil || stands(name.Kind)
	default:
		return n.policies.items[to] != nil || stands(name.Kind)
	}
}
