package entry

import (
	"cmp"
	"errors"
	"slices"
	"strings"

	"boxbook/report/display"
	"boxbook/season/ledger"
)

// errAgain says that there is something to ask again.
var errAgain = errors.New("again")

// lastLook shows what would be written and what follows from it, and asks
// before it is.
func (t *Talk) lastLook() ([]Addition, error) {
	adds, err := t.anew()
	if err != nil {
		return nil, err
	}
	if err := t.show(adds); err != nil {
		return nil, err
	}
	for {
		answer, err := t.term.read("write it? (yes, no): ", "", false)
		if err != nil {
			return nil, err
		}
		switch yes, ok := saidYesNo(answer); {
		case ok && yes:
			return t.anew()
		case ok:
			if err := t.draft.save(); err != nil {
				return nil, err
			}
			t.term.say("not written; the draft is kept")
			if kept := t.KeptAs(); kept != "" {
				t.term.whole("  boxbook log " + t.kind.Name + " --draft " + display.ShellWord(kept))
			}
			return nil, nil
		}
		if to, goes := t.goesBack(nil, answer); goes && to == "" {
			return nil, errBack
		} else if goes {
			if went, err := t.goBack(nil, to); err != nil || went {
				return nil, cmp.Or(err, errAgain)
			}
			continue
		}
		t.term.say("  yes writes it, no keeps the draft, back goes to the answer before")
	}
}

// anew makes the additions from the ledger as it is now: it may have changed
// since the questions were asked, and then some are asked again.
func (t *Talk) anew() ([]Addition, error) {
	result, err := t.host.Read()
	if err != nil {
		return nil, err
	}
	if err := brokenBy(result.Diagnostics); err != nil {
		return nil, err
	}
	t.base, t.known = result.Ledger, result.Diagnostics
	st, adds, err := t.next()
	if err == nil && st != nil {
		err = errAgain
	}
	return adds, err
}

// show shows the entry in the ledger that has it. Where the ledger would not
// take it, it says why and finds the answer to ask again.
func (t *Talk) show(adds []Addition) error {
	result, err := t.host.Read(adds...)
	if err != nil {
		return err
	}
	if err := result.Diagnostics.Err(); err != nil {
		return t.again(errorTexts(result.Diagnostics), err)
	}
	for _, add := range adds {
		t.term.say("\n%s", add.Show())
		if add.Means != "" {
			t.term.say("  (%s)", add.Means)
		}
	}
	w := t.walk(func(st step) (string, bool) { return t.draft.Answers[st.key], true })
	s, _ := w.through(t.kind, "", nil, nil)
	follows, err := t.host.Follows(t.kind.Name, result.Ledger, s.Answers)
	if err == nil && follows != "" {
		t.term.say("\n%s", strings.TrimRight(follows, "\n"))
	}
	for _, d := range ledger.Fresh(t.known, result.Diagnostics) {
		t.term.say("  %s: %s", d.Severity, t.saidHere(d))
	}
	return err
}

// again takes back the answer that the ledger refuses. Where it is no single
// one, the last is taken back; where none was typed, the error stands.
func (t *Talk) again(messages []string, err error) error {
	before := len(t.draft.Answers)
	if err := t.verify(); err != nil {
		return err
	}
	switch {
	case len(t.draft.Answers) < before:
		return errAgain
	case len(t.draft.Asked) == 0:
		return err
	}
	for _, message := range slices.Compact(messages) {
		t.term.say("  %s", message)
	}
	return errBack
}
