package entry

import (
	"fmt"
	"slices"

	"boxbook/season/ledger"
)

// sure asks whether to add what the ledger lacks, where a slip could pass for it, and
// gives what is meant: the answer, the name that it nearly is, or "" to ask again.
func (t *Talk) sure(st step, answer string) (meant string, err error) {
	known := st.known()
	switch {
	case !st.field.Sure, answer == none, slices.Contains(known, answer):
		return answer, nil
	case len(known) == 0 && !st.optional(): // the first of all
		return answer, nil
	}
	if near := ledger.Nearest(answer, known); near != "" {
		meant, err = t.sureBeside(st, answer, near)
	} else {
		meant, err = t.sureAlone(st, answer)
	}
	return meant, err
}

// sureAlone asks whether a name that the ledger lacks is new, where it is near to none.
func (t *Talk) sureAlone(st step, answer string) (meant string, err error) {
	question := fmt.Sprintf("no %s is called %q; add one? (yes, no): ", st.field.Adds, answer)
	for {
		said, err := t.besides(st, answer, question)
		if err != nil {
			return "", err
		}
		switch yes, ok := yesNo(said); {
		case ok && yes:
			return answer, nil
		case ok:
			return "", nil
		case said == "?":
			t.term.say("  yes adds %s to the ledger as a %s, no and back ask again", answer, st.field.Adds)
		default:
			t.term.say("  %s", neitherYesNorNo(said))
		}
	}
}

// sureBeside asks whether a name that the ledger lacks is new, or nearly one that it has.
func (t *Talk) sureBeside(st step, answer, near string) (meant string, err error) {
	question := fmt.Sprintf("no %s is called %q; did you mean %q? (yes, no, new): ", st.field.Adds, answer, near)
	for {
		said, err := t.besides(st, answer, question)
		switch {
		case err != nil:
			return "", err
		case isYes(said):
			return near, nil
		case isNo(said):
			return "", nil
		case said == "new":
			return answer, nil
		}
		t.term.say("  yes takes %s, no and back ask again, new adds %s to the ledger as a %s", near, answer, st.field.Adds)
	}
}

// besides asks a question about an answer that was just typed. The error is errBack where
// the person goes back: to that answer, which stands on the line again, or to one before.
func (t *Talk) besides(st step, answer, question string) (said string, err error) {
	for {
		said, err = t.term.ask(question, "", false)
		if err != nil {
			t.offerAgain(st.key, answer)
			return "", err
		}
		to, goes := t.goesBack(nil, said)
		if !goes {
			return said, nil
		}
		went := to == ""
		if !went {
			if went, err = t.goBack(&st, to); err != nil {
				return "", err
			}
		}
		if went {
			t.offerAgain(st.key, answer)
			return "", errBack
		}
	}
}
