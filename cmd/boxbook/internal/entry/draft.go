package entry

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"boxbook/report/display"
	"boxbook/season/ledger"

	"github.com/google/renameio/v2/maybe"
)

// draft is a conversation under way: what was answered so far, kept in a file
// beside the ledger after every answer, so that an interruption loses nothing.
type draft struct {
	Kind string `json:"kind"`
	// Given are the values of flags.
	Given Answers `json:"given"`
	// Answers by question; a question that is here is not asked again.
	Answers map[string]string `json:"answers"`
	// Asked are the questions that a person answered, in that order.
	Asked []string `json:"asked,omitempty"`
	// Under is what answers leaned on, by question.
	Under map[string]string `json:"under"`
	// Offered is what stands on the line when a question is asked: an answer that
	// was taken back or does not hold, or the line under the cursor when the
	// conversation stopped.
	Offered map[string]string `json:"offered"`
	// Sure are doubted answers that were given all the same, each behind its question.
	Sure []string `json:"sure,omitempty"`
	// Cut is the question whose line was being typed when the conversation
	// stopped: it goes on where it stopped.
	Cut string `json:"cut,omitempty"`

	path string
}

// draftSuffix is how the name of a draft ends.
const draftSuffix = ".draft"

// draftPath is where a ledger's draft of one kind of entry is kept.
func draftPath(ledgerPath, kind string) string {
	return ledger.Beside(ledgerPath, "."+kind+draftSuffix)
}

func newDraft(ledgerPath, kind string) *draft {
	return &draft{
		Kind: kind, Given: Answers{}, Answers: map[string]string{}, Under: map[string]string{}, Offered: map[string]string{},
		path: draftPath(ledgerPath, kind),
	}
}

// readDraft reads the draft of a ledger; nil where there is none. It is not ok
// where there is one that cannot be understood.
func readDraft(ledgerPath, kind string) (d *draft, ok bool, err error) {
	d = newDraft(ledgerPath, kind)
	d.sweep(time.Now())
	raw, err := ledger.Disk{}.Read(d.path)
	if errors.Is(err, os.ErrNotExist) {
		return nil, true, nil
	}
	if err != nil {
		return nil, false, &FileError{"read the draft " + d.path, err}
	}
	whole := json.Unmarshal([]byte(raw), d) == nil && d.Kind == kind
	ok = whole && d.Given != nil && d.Answers != nil && d.Under != nil && d.Offered != nil
	return d, ok, nil
}

// draftAside reads a draft that was set aside. The error is a *Refusal where the file is
// no draft of the kind.
func draftAside(path, kind string) (*draft, error) {
	d := &draft{path: path}
	raw, err := ledger.Disk{}.Read(path)
	switch {
	case err != nil:
		return nil, &FileError{"read the draft " + path, err}
	case json.Unmarshal([]byte(raw), d) != nil || d.Given == nil || d.Answers == nil || d.Under == nil || d.Offered == nil:
		return nil, &Refusal{Text: fmt.Sprintf("%s is no draft", display.OneLine(path))}
	case d.Kind != kind:
		return nil, &Refusal{fmt.Sprintf("%s is a draft of another kind of entry", display.OneLine(path)), fmt.Sprintf("boxbook log %s --draft %s", display.OneLine(d.Kind), display.ShellWord(path))}
	}
	return d, nil
}

// empty reports a draft that holds nothing that was typed.
func (d *draft) empty() bool { return len(d.Asked)+len(d.Given)+len(d.Offered) == 0 }

// holds is the answer of a step; ok is false where there is none, or where what
// it leaned on has changed since.
func (d *draft) holds(st step) (answer string, ok bool) {
	answer, ok = d.Answers[st.key]
	return answer, ok && d.Under[st.key] == st.under()
}

// rows counts a field's rows: those that were answered or are offered again, or those
// that flags gave.
func (d *draft) rows(field string) int {
	keys := map[string]bool{}
	for _, typed := range []map[string]string{d.Answers, d.Offered} {
		for key, text := range typed {
			if strings.HasPrefix(key, field+" ") && text != "" {
				keys[key] = true
			}
		}
	}
	return max(len(keys), len(d.Given[field]))
}

// save keeps the draft.
func (d *draft) save() error {
	raw, err := json.MarshalIndent(d, "", "  ")
	if err != nil {
		return err
	}
	if err := maybe.WriteFile(d.path, append(raw, '\n'), 0o600); err != nil {
		return &FileError{"keep the draft " + d.path, err}
	}
	return nil
}

// saveTakes is longer than any save of a draft takes.
const saveTakes = time.Minute

// sweep removes what a save that was killed has left: a draft is written under a hidden
// name with a number behind, beside it or where the system keeps what is temporary, and
// then gets its own. What cannot be removed does no harm.
func (d *draft) sweep(now time.Time) {
	prefix := "." + filepath.Base(d.path)
	for _, dir := range []string{filepath.Dir(d.path), os.TempDir()} {
		files, err := os.ReadDir(dir)
		if err != nil {
			continue
		}
		for _, file := range files {
			number, is := strings.CutPrefix(file.Name(), prefix)
			if _, err := strconv.ParseUint(number, 10, 64); !is || err != nil {
				continue
			}
			if info, err := file.Info(); err == nil && info.Mode().IsRegular() && now.Sub(info.ModTime()) > saveTakes {
				_ = os.Remove(filepath.Join(dir, file.Name()))
			}
		}
	}
}

// setAside keeps the draft under a name that no conversation uses, and gives
// that name.
func (d *draft) setAside() (string, error) {
	path, letGo := freeBehind(d.path)
	defer letGo()
	if err := os.Rename(d.path, path); err != nil {
		return "", &FileError{"set the draft aside as " + path, err}
	}
	return path, nil
}

// asides are the drafts that were set aside behind a draft's name and that no
// conversation uses, by their numbers.
func asides(draft string) []string {
	files, err := os.ReadDir(filepath.Dir(draft))
	if err != nil {
		return nil
	}
	return slices.DeleteFunc(behind(draft, files), func(path string) bool { return !isFree(path) })
}

// freeBehind is the first name with a number behind a draft's that has no file and that
// no conversation uses; it is this one's until it is let go.
func freeBehind(draft string) (path string, letGo func()) {
	for n := 1; ; n++ {
		path := fmt.Sprintf("%s.%d", draft, n)
		letGo, free := claim(path)
		if !free {
			continue
		}
		if _, err := os.Lstat(path); err != nil {
			return path, letGo
		}
		letGo()
	}
}

// claim has a draft's name for this conversation alone; free is false where another one
// has it. Where nothing can be locked, nothing could be written into the ledger either.
func claim(path string) (letGo func(), free bool) {
	letGo, err := ledger.Claim(path)
	switch {
	case errors.Is(err, ledger.ErrBusy):
		return nil, false
	case err != nil:
		return func() {}, true
	default:
		return letGo, true
	}
}

// remove forgets the draft.
func (d *draft) remove() error {
	if err := os.Remove(d.path); err != nil && !errors.Is(err, os.ErrNotExist) {
		return &FileError{"remove the draft " + d.path, err}
	}
	return nil
}
