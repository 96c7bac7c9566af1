package entry

import (
	"errors"
	"fmt"
	"slices"

	"boxbook/season/ledger"
)

// The ledger is read with an entry that is not whole yet: stand-ins are in the place of
// what is still to be asked, so that it can say what it thinks of the answers so far.

// warnings are what the ledger would warn of with the entry whatever is still
// to be asked, and does not without; known is false where no stand-ins do.
func (t *Talk) warnings(fixed func(step) (string, bool), leftOut ...string) (all ledger.List, known bool, err error) {
	for n := range standIns {
		list, fits, err := t.readStandIns(fixed, n, leftOut, false)
		if err == nil && !fits {
			list, fits, err = t.readStandIns(fixed, n, leftOut, true)
		}
		switch {
		case err != nil:
			return nil, false, err
		case !fits:
			continue // these stand-ins do not do
		}
		fresh := ledger.Fresh(t.known, list)
		if !known {
			all, known = fresh, true
		}
		all = slices.DeleteFunc(all, func(d ledger.Diagnostic) bool {
			return !slices.ContainsFunc(fresh, func(o ledger.Diagnostic) bool { return o.Code == d.Code })
		})
		if len(all) == 0 {
			return nil, true, nil
		}
	}
	return all, known, nil
}

// readStandIns reads the entry with the n-th set of stand-ins. noted puts a note into it, so
// that an entry is whole without what else can be left out; a note may say that a warning is
// none. fits is false where the ledger would not take it.
func (t *Talk) readStandIns(fixed func(step) (string, bool), n int, leftOut []string, noted bool) (list ledger.List, fits bool, err error) {
	list, err = t.readFilled(t.filled(func(st step) (string, bool) {
		if answer, ok := fixed(st); ok || t.answered(st, leftOut) {
			return answer, ok
		}
		if f := st.field; st.index == 0 && st.optional() && f.Repeat && f.Shape == Text && f.Read == nil {
			return f.Example, noted
		}
		return t.maybe(st, n)
	}, n, leftOut))
	var unfit *unfitError
	if errors.As(err, &unfit) {
		return nil, false, nil
	}
	return list, err == nil && list.Errors() == 0, err
}

// maybe stands in for an answer that can be left out, and is in some sets of
// stand-ins: neighbours in the table are not left out together in all of them.
// ok is false where it is left out.
func (t *Talk) maybe(st step, n int) (answer string, ok bool) {
	known := st.known()
	if st.line != nil || st.index > 0 || !st.optional() || len(known) == 0 {
		return "", false
	}
	at := max(0, slices.IndexFunc(t.kind.Fields, func(f Field) bool { return f.Name == st.field.Name }))
	return known[n%len(known)], n>>(at%2)&1 == 1
}

// answered reports whether the draft has an answer that is not left out.
func (t *Talk) answered(st step, leftOut []string) bool {
	_, ok := t.draft.holds(st)
	return ok && !slices.Contains(leftOut, st.key)
}

// standIns is how many answers are tried for each question that is still to be
// asked, before an answer is refused.
const standIns = 4

// refused says why the ledger would not take an answer, "" where it would: the
// entry is read as it would be, with what was answered so far and with
// stand-ins for what is still to be asked. What is wrong with a stand-in in
// the answer's place, too, is not the answer's fault.
func (t *Talk) refused(st step, answer string) (problem string, err error) {
	least, err := t.leastErrors(func(other step) (string, bool) { return answer, other.key == st.key })
	if err != nil || len(least) == 0 {
		return "", err
	}
	if err := t.intact(); err != nil {
		return "", err
	}
	without, err := t.leastErrors(func(other step) (string, bool) { return "", false }, st.key)
	if err != nil {
		return "", err
	}
	for _, message := range least {
		if !slices.Contains(without, message) {
			return message, nil
		}
	}
	return "", nil
}

// leastErrors reads the entry with several sets of stand-ins and gives the
// fewest errors. fixed gives the answer of a step before the draft does; those
// of the keys left out are as if they were still to be asked.
func (t *Talk) leastErrors(fixed func(step) (string, bool), leftOut ...string) (least []string, err error) {
	for n := range standIns {
		messages, err := t.errorsWith(t.filled(fixed, n, leftOut))
		if err != nil || len(messages) == 0 {
			return nil, err
		}
		if n == 0 || len(messages) < len(least) {
			least = messages
		}
	}
	return least, nil
}

// filled answers every step: as fixed says, else as the draft does, else by the
// n-th stand-in.
func (t *Talk) filled(fixed func(step) (string, bool), n int, leftOut []string) func(step) (string, bool) {
	return func(st step) (string, bool) {
		if answer, ok := fixed(st); ok {
			return answer, true
		}
		if answer, ok := t.draft.holds(st); ok && !slices.Contains(leftOut, st.key) {
			return answer, true
		}
		return standIn(st, n), true
	}
}

// standIn is an answer to a question that is still to be asked: none where
// that may be, else the n-th that the ledger is likely to take. What is asked for
// on the way, a new contest's days, keeps to the entry that it is for; a number that
// tells flights apart is the one that is free.
func standIn(st step, n int) string {
	known := st.known()
	switch {
	case st.line != nil:
		return st.line.Example
	case st.optional():
		return none
	case st.field.Free != nil:
		return st.field.Free(st.scene)
	case (n == 0 || st.scene.Outer != nil) && st.field.Default != nil && st.otherwise() != "":
		return st.otherwise()
	case n > 0 && n <= len(st.field.Others):
		return st.field.Others[n-1]
	case st.field.Open:
		return newName(st.field.Example, n)
	case len(known) > 0:
		return known[n%len(known)]
	case st.field.New:
		return newName(st.field.Example, n)
	default:
		return st.field.Example
	}
}

// newName is the n-th of names that begin with one, from 0.
func newName(name string, n int) string {
	if n == 0 {
		return name
	}
	return fmt.Sprintf("%s-%d", name, n)
}

// errorsWith are the errors of the ledger with the entry as the answers of
// visit make it.
func (t *Talk) errorsWith(visit func(step) (string, bool)) ([]string, error) {
	list, err := t.readFilled(visit)
	var unfit *unfitError
	if errors.As(err, &unfit) {
		return []string{unfit.said()}, nil
	}
	return errorTexts(list), err
}

// unfitError says that answers make no entry that could be read.
type unfitError struct{ error }

// said is the reason, and on a line of its own what else can be done.
func (e *unfitError) said() string {
	var refusal *Refusal
	if errors.As(e.error, &refusal) && refusal.Hint != "" {
		return refusal.Text + "\n  " + refusal.Hint
	}
	return e.Error()
}

// readFilled reads the ledger with the entry as the answers of visit make it. The
// error is an *unfitError where they make none.
func (t *Talk) readFilled(visit func(step) (string, bool)) (ledger.List, error) {
	w := t.walk(visit)
	w.filling = true
	s, whole := w.through(t.kind, "", nil, nil)
	if w.err != nil || !whole {
		return nil, &unfitError{w.err}
	}
	add, err := t.kind.Write(s)
	if err != nil {
		return nil, &unfitError{err}
	}
	result, err := t.host.Read(append(w.adds, add)...)
	if err != nil {
		return nil, err
	}
	return result.Diagnostics, nil
}
