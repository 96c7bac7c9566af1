package entry

import (
	"fmt"
	"maps"
	"slices"

	"boxbook/season"
)

// step is one question of an entry, asked or not.
type step struct {
	field *Field
	line  *Line  // which of the field's lines; nil where it has none
	index int    // among the values of a repeated field, from 0
	key   string // of the answer
	group string // the key that all values of the field begin with
	scene Scene  // as the question finds it
}

// optional reports whether Enter takes none.
func (st step) optional() bool {
	switch {
	case st.line != nil:
		return st.line.Optional
	case st.field.Repeat && st.index > 0:
		return true
	default:
		return !st.field.needed(st.scene)
	}
}

// known is what the ledger proposes.
func (st step) known() []string {
	if st.field.Propose == nil {
		return nil
	}
	known := st.field.Propose(st.scene.Ledger)
	if st.field.First != nil {
		first := func(name string) bool { return st.field.First(st.scene, name) }
		later := slices.DeleteFunc(slices.Clone(known), first)
		known = append(slices.DeleteFunc(slices.Clone(known), func(name string) bool { return !first(name) }), later...)
	}
	if st.field.Fits == nil {
		return known
	}
	return slices.DeleteFunc(slices.Clone(known), func(name string) bool { return !st.field.Fits(st.scene, name) })
}

// otherwise is what Enter takes, "" where it takes nothing.
func (st step) otherwise() string {
	if st.field.Default != nil {
		return st.field.Default(st.scene)
	}
	if known := st.known(); len(known) == 1 && !st.optional() {
		return known[0]
	}
	return ""
}

// under is what the answer leans on, as far as it can change.
func (st step) under() string {
	under := ""
	if st.line != nil {
		under = st.line.Asks + "\n" + st.intro()
	}
	if st.field.Under != nil {
		under += st.field.Under(st.scene)
	}
	return under
}

func (st step) intro() string {
	if st.field.Intro == nil {
		return ""
	}
	return st.field.Intro(st.scene)
}

// given is what a flag gave for this very step; ok is false where it gave
// nothing.
func (st step) given() (value string, ok bool) {
	values := st.scene.Given[st.field.Name]
	switch {
	case len(values) == 0:
		return "", false
	case st.field.Keyed:
		return keyedValue(values, st.line.Key)
	case st.index < len(values):
		return values[st.index], true
	default:
		return "", st.field.Repeat && st.line == nil // there are no more
	}
}

// walk goes through an entry from its first field to its last, and through
// those that are added on its way.
type walk struct {
	host   Host
	ledger *season.Ledger
	read   func(...Addition) (*season.Ledger, error)
	given  Answers
	// filling says that visit stands in for questions that are still to be asked.
	filling bool
	// visit gives the answer of a step; ok is false where the walk ends there.
	visit func(step) (answer string, ok bool)
	adds  []Addition
	err   error
}

// through walks one kind; whole is false where it ended before the last field.
func (w *walk) through(k *Kind, prefix string, preset Answers, outer *Scene) (s Scene, whole bool) {
	s = Scene{Answers: Answers{}, Ledger: w.ledger, Outer: outer, host: w.host}
	maps.Copy(s.Answers, k.Fixed)
	maps.Copy(s.Answers, preset)
	if outer == nil {
		s.Given = w.given
	}
	for i := range k.Fields {
		f := &k.Fields[i]
		if !w.asks(f, s) {
			continue
		}
		if !w.field(f, prefix, &s) || !w.onTheWay(f, &s) {
			return s, false
		}
	}
	return s, true
}

// asks reports whether a field has a part in the walk, and takes what the entry
// around it says.
func (w *walk) asks(f *Field, s Scene) bool {
	if s.Outer == nil {
		return f.arises(s) || len(s.Given[f.Name]) > 0
	}
	if f.Outer != nil {
		if answer := f.Outer(*s.Outer); answer != "" {
			s.Answers[f.Name] = []string{answer}
		}
		return false
	}
	return f.Brief && !s.Has(f.Name)
}

// field gathers the values of one field.
func (w *walk) field(f *Field, prefix string, s *Scene) bool {
	st := step{field: f, key: prefix + f.Name, group: prefix + f.Name, scene: *s}
	var values []string
	ok := true
	switch {
	case f.Lines != nil:
		values, ok = w.lines(st)
	case f.Repeat:
		values, ok = w.repeated(st)
	default:
		var answer string
		if answer, ok = w.visit(st); answer != none && answer != "" || !st.optional() {
			values = []string{answer}
		}
	}
	if len(values) > 0 {
		s.Answers[f.Name] = values
	}
	return ok
}

// repeated takes one value after the other until there is no more.
func (w *walk) repeated(st step) (values []string, ok bool) {
	key := st.key
	for ; ; st.index++ {
		st.key = fmt.Sprintf("%s %d", key, st.index+1)
		answer, ok := w.visit(st)
		if !ok || answer == none {
			return values, ok
		}
		values = append(values, answer)
	}
}

// lines takes a value for each of the field's lines; one that was left out is
// empty.
func (w *walk) lines(st step) (values []string, ok bool) {
	key, lines := st.key, st.field.lines(st.scene)
	if !w.filling {
		if w.err = unplaced(st, lines); w.err != nil {
			return nil, false
		}
	}
	for i := range lines {
		st.index, st.line, st.key = i, &lines[i], key+" "+lines[i].Key
		answer, ok := w.visit(st)
		if !ok {
			return values, false
		}
		switch {
		case answer == none && lines[i].Optional:
			answer = ""
		case st.field.Keyed:
			answer = lines[i].Key + " " + answer
		}
		values = append(values, answer)
	}
	if !slices.ContainsFunc(values, func(v string) bool { return v != "" }) {
		return nil, true
	}
	return values, true
}

// onTheWay walks the entry that a new name asks for, and has it in the ledger.
func (w *walk) onTheWay(f *Field, s *Scene) bool {
	handle := s.One(f.Name)
	if f.Adds == "" || handle == "" || slices.Contains(f.Propose(w.ledger), handle) {
		return true
	}
	k := Named(f.Adds)
	inner, whole := w.through(k, "new "+f.Adds+" "+handle+" ", Answers{"handle": {handle}}, s)
	if !whole {
		return false
	}
	add, err := k.Write(inner)
	if err != nil {
		w.err = err
		return false
	}
	w.adds = append(w.adds, add)
	w.ledger, w.err = w.read(w.adds...)
	s.Ledger = w.ledger
	return w.err == nil
}
