package entry

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strings"

	"boxbook/season"
	"boxbook/season/ledger"
)

// Talk is the conversation about one entry.
type Talk struct {
	kind  *Kind
	host  Host
	term  *Terminal
	path  string // of the ledger
	draft *draft
	base  *season.Ledger
	near  map[string]bool // answers that were taken for slips, by question
	known ledger.List     // what was warned of before the entry
	hint  bool            // how an answer that is offered is changed has been said
	wrong map[string]bool // flags' values that did not hold, by question
	last  string          // the group of the question that was asked
	heard map[string]bool // lists whose values so far were typed or said here, by group
	from  string          // the draft set aside that is gone on with, "" for none
	apart bool            // another conversation has the draft that is offered
	letGo func()          // gives the draft's name up
}

// errBack is said by a person who goes back to the answer before.
var errBack = errors.New("back")

// Wanted reports whether a person at a terminal is to be asked: whatever the
// flags left out of an entry that is walked, else where something needed is
// missing.
func Wanted(k *Kind, given Answers, l *season.Ledger) bool {
	s := k.sceneOf(given, l, nil)
	return k.Walks || slices.ContainsFunc(k.Fields, func(f Field) bool { return f.needed(s) && !given.Has(f.Name) })
}

// NewTalk begins a conversation beside a ledger.
func NewTalk(k *Kind, host Host, term *Terminal, ledgerPath string) *Talk {
	return &Talk{
		kind: k, host: host, term: term, path: ledgerPath, draft: newDraft(ledgerPath, k.Name),
		near: map[string]bool{}, wrong: map[string]bool{}, heard: map[string]bool{}, letGo: func() {},
	}
}

// GoOnWith takes up a draft that was set aside, in its file, instead of offering the
// one that is under way.
func (t *Talk) GoOnWith(file string) { t.from = file }

// Run asks what the flags left out, in order, and at the end whether the entry
// is to be written: it gives nothing where it is not. The error is ErrStopped
// where the person stopped; the draft is kept in any case until Done.
func (t *Talk) Run(given Answers) ([]Addition, error) {
	if err := t.begin(given); err != nil {
		return nil, t.stopped(err)
	}
	for {
		adds, err := t.once()
		if !errors.Is(err, errAgain) {
			return adds, t.stopped(err)
		}
	}
}

// once asks what is left to ask, and takes the last look.
func (t *Talk) once() ([]Addition, error) {
	if err := t.askAll(); err != nil {
		return nil, err
	}
	adds, err := t.lastLook()
	if !errors.Is(err, errBack) {
		return adds, err
	}
	if _, err := t.back(); err != nil {
		return nil, err
	}
	return nil, errAgain
}

// Kept reports whether there is a draft that holds what was typed.
func (t *Talk) Kept() bool { return !t.draft.empty() }

// KeptAs is the draft's file where it has to be named to be gone on with, "" for the
// one that is offered.
func (t *Talk) KeptAs() string {
	if t.from != "" || t.apart {
		return filepath.ToSlash(t.draft.path)
	}
	return ""
}

// Leave gives the draft up to other conversations.
func (t *Talk) Leave() { t.letGo() }

// Done forgets the draft: the entry is in the ledger.
func (t *Talk) Done() error { return t.draft.remove() }

// stopped keeps the draft, and passes the reason on.
func (t *Talk) stopped(err error) error {
	if err == nil || t.draft.empty() {
		return err
	}
	if saveErr := t.draft.save(); saveErr != nil {
		return saveErr
	}
	return err
}

// begin offers a draft that is there, and takes what the flags gave.
func (t *Talk) begin(given Answers) error {
	result, err := t.host.Read()
	if err != nil {
		return err
	}
	t.base, t.known = result.Ledger, result.Diagnostics
	if err := t.takeUp(given); err != nil {
		return err
	}
	for name, values := range given {
		t.forget(name)
		t.draft.Given[name] = values
	}
	if err := t.verify(); err != nil || t.draft.empty() {
		return err
	}
	return t.draft.save() // what flags gave outlives a terminal that hangs up
}

// forget drops the answers of a field, for a flag that says it anew.
func (t *Talk) forget(name string) {
	for key := range t.draft.Answers {
		if key == name || strings.HasPrefix(key, name+" ") {
			delete(t.draft.Answers, key)
			delete(t.draft.Offered, key)
			t.draft.Asked = slices.DeleteFunc(t.draft.Asked, func(asked string) bool { return asked == key })
		}
	}
}

// walk is a walk through the conversation's entry.
func (t *Talk) walk(visit func(step) (string, bool)) *walk {
	return &walk{host: t.host, ledger: t.base, read: t.readWith, given: t.draft.Given, visit: visit}
}

func (t *Talk) readWith(adds ...Addition) (*season.Ledger, error) {
	result, err := t.host.Read(adds...)
	if err != nil {
		return nil, err
	}
	return result.Ledger, nil
}

// next walks to the first step without an answer; st is nil where there is
// none, and the additions are then whole.
func (t *Talk) next() (st *step, adds []Addition, err error) {
	w := t.walk(func(at step) (string, bool) {
		if answer, ok := t.draft.holds(at); ok {
			return answer, true
		}
		st = &at
		return "", false
	})
	s, whole := w.through(t.kind, "", nil, nil)
	if w.err != nil || !whole {
		return st, nil, w.err
	}
	add, err := t.kind.Write(s)
	return nil, append(w.adds, add), err
}

// askAll goes on until every step has an answer.
func (t *Talk) askAll() error {
	for {
		st, _, err := t.next()
		var refusal *Refusal
		if errors.As(err, &refusal) {
			t.dropUnplaced()
		}
		if err != nil {
			return cmp.Or(t.intact(), err)
		}
		if st == nil {
			return nil
		}
		if err := t.settle(*st); err != nil && !errors.Is(err, errBack) {
			return err
		}
	}
}

// dropUnplaced takes a flag's values that have no place out of the draft: they
// are refused, and the draft is to be gone on with.
func (t *Talk) dropUnplaced() {
	for _, f := range t.kind.Fields {
		if f.Lines != nil {
			delete(t.draft.Given, f.Name)
		}
	}
}

// settle gets the answer of one step, from a flag or from the person.
func (t *Talk) settle(st step) error {
	if old, ok := t.draft.Answers[st.key]; ok {
		t.term.say("  %s changed here since this was answered", cmp.Or(st.field.Leans, "the ledger has"))
		t.take(st.key, old)
	}
	if value, ok := st.given(); ok && !t.wrong[st.key] {
		answer, problem, sure, err := t.try(st, strings.TrimSpace(value))
		switch {
		case errors.Is(err, errBack):
			t.wrong[st.key] = true
			return err
		case err != nil:
			return err
		case sure:
			return t.keep(st, answer, false)
		}
		t.wrong[st.key] = true
		t.draft.Offered[st.key] = value
		if problem != "" {
			t.term.say("  %s", problem)
		}
	}
	return t.ask(st)
}

// ask asks until there is an answer that holds.
func (t *Talk) ask(st step) error {
	if intro := st.intro(); intro != "" && t.last != st.group {
		t.term.say("%s", intro)
	}
	t.last = st.group
	t.saySoFar(st)
	offered := t.quotedBack(st, t.draft.Offered[st.key])
	typed, meant, kept := offered, "", offered
	refused, times := "", 0 // what stands on the line and does not hold, and how often Enter sent it
	doubted := ""           // what was doubted last: the answer before may be the slip, and it is not lost then
	for {
		stood := typed
		text, err := t.read(st, typed)
		if err != nil {
			return err
		}
		if meant != "" && isNo(text) {
			typed, meant = "", ""
			maps.DeleteFunc(t.near, func(slip string, _ bool) bool { return strings.HasPrefix(slip, st.key+" ") })
			continue
		}
		if meant != "" && isYes(text) {
			text, typed = meant, ""
			t.term.say("  taken as %s", meant)
		}
		if behind, move := t.moves(st, text, typed); move { // behind what stood on the line
			text = behind
		} else if text != "?" {
			typed = ""
		}
		if to, goes := t.goesBack(&st, text); goes {
			if behind := cmp.Or(typed, doubted); behind != "" {
				t.offerAgain(st.key, st.plain(behind))
			}
			if went, err := t.goBack(&st, to); err != nil || went {
				return err
			}
			typed = stood
			continue
		}
		switch text {
		case "?":
			t.explain(st)
			continue
		case "":
			text = st.otherwise()
		}
		text = st.plain(text)
		inserted, inserting := st.inserts(text)
		if word, rest, moves := st.movesLines(text); moves && !inserting {
			if st.field.Keyed {
				line, err := t.moveMarks(st, cmp.Or(stood, kept), word, rest)
				if err != nil {
					return err
				}
				typed = cmp.Or(line, stood, kept)
				kept = typed
			} else if moved, err := t.moveRows(st, word, rest); err != nil || moved {
				return err
			} else {
				typed = stood
			}
			continue
		}
		switch {
		case inserting && offered == "":
			t.term.say("  nothing stands here to insert it before; type it alone")
			typed = strings.TrimSpace(inserted)
			continue
		case inserting && st.givenByFlag() != "":
			t.term.say("  %s", st.givenByFlag())
			typed = stood
			continue
		case (text == "" || text == none || strings.EqualFold(text, "none")) && t.hasBehind(st):
			t.term.say("  others stand behind it: type this %s, or %s takes its place out", st.field.Each, removeWord)
			typed = stood
			continue
		}
		if inserting {
			text = inserted
		}
		answer, problem, sure, err := t.try(st, text)
		switch {
		case err != nil:
			return err
		case sure:
			if inserting {
				t.moveDown(st, offered)
			}
			return t.keep(st, answer, true)
		case problem != "":
			t.term.say("  %s", problem)
			t.mends(st, text)
			if doubted = ""; strings.HasSuffix(problem, rightAgain) {
				doubted = text
			}
			if text == stood && text == refused {
				times++
			} else {
				refused, times = text, 0
			}
			plainly := times >= st.enoughEnters() && st.entersNone() && !t.hasBehind(st)
			if text == stood && st.optional() && !strings.HasSuffix(problem, rightAgain) {
				t.term.say("  (%s)", st.leftOutBy(t.hasBehind(st), plainly))
			}
			if plainly { // Enter leaves it out then
				typed, kept, meant, refused = "", "", "", ""
				continue
			}
		}
		if inserting { // what stood there is not lost
			typed = offered
			continue
		}
		if text == st.plain(kept) { // it does not hold itself
			kept = ""
		}
		switch {
		case kept == "" && problem != "" && st.staysOnTheLine(text, problem):
			typed = text
		default: // a slip in changing it does not lose it
			typed = kept
		}
		if meant = meantBy(problem, text); isDate(meant) || meant != "" && meant == cmp.Or(percentMeant(problem), panelMeant(problem)) || text == offered && meant == text { // doubted, and not lost
			typed = meant
		}
	}
}

// staysOnTheLine reports whether an answer that did not hold is put on the line to be
// changed: a slip in it does not lose it, and Enter does not leave it out. One word where
// Enter takes what the question names, and an answer that is only doubted, no part of
// a list and needed, are typed again.
func (st step) staysOnTheLine(text, problem string) bool {
	switch {
	case text == "" || text == none:
		return false
	case st.line != nil || st.field.Repeat || st.entersNone():
		return true
	default:
		return !strings.HasSuffix(problem, rightAgain) && (st.field.Shape != Word || st.otherwise() == "")
	}
}

// entersNone reports whether Enter takes none, or no more, where nothing stands on the line.
func (st step) entersNone() bool { return st.optional() && st.otherwise() == "" }

// enoughEnters is how often Enter sends an answer again, as it was refused, until the
// question is asked without it: it ends a list then, which is meant more seldom.
func (st step) enoughEnters() int {
	if st.line != nil || st.field.Repeat {
		return 2
	}
	return 1
}

// leftOutBy says what leaves out an answer that was refused; behind says that others of its
// list are, plainly that the question is asked without it.
func (st step) leftOutBy(behind, plainly bool) string {
	switch {
	case behind:
		return removeWord + " takes it out"
	case plainly:
		return "it is not taken; Enter leaves it out"
	default:
		return none + " in its place leaves it out"
	}
}

// saySoFar says what a list has already where it is gone on with and nobody typed that
// here: a draft's values, or a flag's.
func (t *Talk) saySoFar(st step) {
	if !st.field.Repeat || st.line != nil || t.heard[st.group] {
		return
	}
	t.heard[st.group] = true
	var values []string
	for n := range st.index {
		values = append(values, t.draft.Answers[fmt.Sprintf("%s %d", st.group, n+1)])
	}
	if len(values) > 0 {
		t.term.say("  so far: %s", strings.Join(values, "; "))
	}
}

// try checks an answer and says what it was taken for. sure is false where it is to be
// asked again.
func (t *Talk) try(st step, text string) (answer, problem string, sure bool, err error) {
	if text, err = t.rest(st, text); err != nil {
		return "", "", false, err
	}
	answer, problem, err = t.check(st, text)
	if err != nil || problem != "" {
		return "", problem, false, err
	}
	t.echo(st, text, answer)
	meant, err := t.sure(st, answer)
	if err == nil && meant != answer && meant != "" {
		return t.try(st, meant)
	}
	return answer, "", meant == answer, err
}

// rest asks for what an answer lacks, an amount's currency.
func (t *Talk) rest(st step, text string) (string, error) {
	if st.field.Rest == nil {
		return text, nil
	}
	asks := st.field.Rest(st.scene, text)
	if asks == "" {
		return text, nil
	}
	more, err := t.besides(st, text, asks+": ")
	return joined(text, more), err
}

// mends says what else would mend an answer that was refused.
func (t *Talk) mends(st step, answer string) {
	if st.field.Mends == nil {
		return
	}
	if said := st.field.Mends(st.scene, answer); said != "" {
		t.term.say("  %s", said)
	}
}

// echo says what an answer was taken for, where it was typed otherwise: the beginning
// of a name, the full name of somebody, a flight by a part of its name.
func (t *Talk) echo(st step, text, answer string) {
	if (st.field.Shape == Word || st.field.Meant != nil || st.field.Full != nil) && answer != none && answer != strings.TrimSpace(text) {
		t.term.say("  taken as %s", answer)
	}
}

// read asks once, with what is offered on the line. What was being typed when the
// person stops is offered again.
func (t *Talk) read(st step, typed string) (string, error) {
	if typed != "" && !t.hint {
		t.hint = true
		t.term.say("  (Enter takes what stands on the line, typing replaces it, space or backspace changes it)")
	}
	asks := prompt(st, t.term.width)
	if typed == "" && t.hasBehind(st) { // a place that was made: no end of the list
		asks = st.asks() + ": "
	}
	text, err := t.term.ask(asks, typed, st.key != t.draft.Cut)
	if err != nil {
		t.offerAgain(st.key, text)
		if text != typed {
			t.draft.Cut = st.key
		}
	}
	return text, err
}

// keep saves an answer in the draft.
func (t *Talk) keep(st step, answer string, asked bool) error {
	t.draft.Answers[st.key] = answer
	delete(t.draft.Under, st.key)
	if under := st.under(); under != "" {
		t.draft.Under[st.key] = under
	}
	if asked {
		t.draft.Asked = append(t.draft.Asked, st.key)
	}
	delete(t.draft.Offered, st.key)
	if t.draft.Cut == st.key { // the line that was cut off is whole
		t.draft.Cut = ""
	}
	return t.draft.save()
}

// offerAgain has a text stand on the line when the question is asked again.
func (t *Talk) offerAgain(key, text string) {
	delete(t.draft.Offered, key)
	if text != "" {
		t.draft.Offered[key] = text
	}
}

// take takes an answer back; it is offered when the question is asked again.
func (t *Talk) take(key, answer string) {
	if answer == none {
		answer = ""
	}
	t.offerAgain(key, answer)
	delete(t.draft.Answers, key)
	t.draft.Asked = slices.DeleteFunc(t.draft.Asked, func(asked string) bool { return asked == key })
}

// back goes to the answer before, where there is one.
func (t *Talk) back() (went bool, err error) {
	if len(t.draft.Asked) == 0 {
		t.term.say("  there is no answer before this one")
		return false, nil
	}
	key := t.draft.Asked[len(t.draft.Asked)-1]
	t.take(key, t.draft.Answers[key])
	if !strings.HasPrefix(key, t.last+" ") { // else its heading stands above
		t.last = ""
	}
	return true, t.draft.save()
}

// verify asks again for answers of a draft that do not hold any more, or never
// did.
func (t *Talk) verify() error {
	var steps []step
	messages, err := t.leastErrors(func(st step) (string, bool) {
		if _, ok := t.draft.Answers[st.key]; ok && !slices.ContainsFunc(steps, func(s step) bool { return s.key == st.key }) {
			steps = append(steps, st)
		}
		return "", false
	})
	if err != nil || len(messages) == 0 {
		return err
	}
	for _, st := range steps {
		answer := t.draft.Answers[st.key]
		problem, err := t.refused(st, answer)
		if err != nil {
			return err
		}
		if problem != "" {
			t.term.say("  %s", problem)
			t.take(st.key, answer)
			return t.verify()
		}
	}
	return nil
}
