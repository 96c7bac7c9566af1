package ledger

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// The names in the model's folder.
const (
	modelBook = "/f/book.boxbook"
	modelPart = "/f/part.boxbook"
	modelUndo = "/f/.book.boxbook.undo"
)

// cutCase is one writing command: the files before, what it does, what each file
// may hold after a power cut in its midst, and what it must hold afterwards.
type cutCase struct {
	files  map[string]string
	run    func(d *modelDisk) error
	after  map[string]string
	syncs  int  // how many times it brings something to the disk
	undoes bool // it takes a change back
	// ownSyncs are those of them whose lack a cut of this case can show, 0 for all.
	ownSyncs int
}

func cutCases() map[string]cutCase {
	const was, is = "pilot ines\n", "pilot ines\npilot yuki\n"
	change := func(d disk, path, text string) error {
		j, err := startJournal(d, modelBook, time.Second, keptChange{Command: "log", At: noon()}, Watch{})
		if err != nil {
			return err
		}
		defer j.Close()
		return changer{disk: d, shown: path, wait: time.Second, journal: j}.change(func(string) (string, error) { return text, nil }, agree)
	}
	changed := newModelDisk(map[string]string{modelBook: was})
	if err := change(changed, modelBook, is); err != nil {
		panic(err)
	}
	journal := changed.now[modelUndo].text()
	return map[string]cutCase{
		"one file": {
			files: map[string]string{modelBook: was}, after: map[string]string{modelBook: is}, syncs: 4,
			run: func(d *modelDisk) error { return change(d, modelBook, is) },
		},
		"a file with a journal of changes before": {
			files: map[string]string{modelBook: is, modelUndo: journal}, after: map[string]string{modelBook: is + "coach m\n"}, syncs: 4,
			run: func(d *modelDisk) error { return change(d, modelBook, is+"coach m\n") },
		},
		"two files as one change": {
			files: map[string]string{modelBook: was, modelPart: "coach m\n"}, syncs: 8,
			after: map[string]string{modelBook: is, modelPart: "coach m\ncoach n\n"},
			run: func(d *modelDisk) error {
				j, err := startJournal(d, modelBook, time.Second, keptChange{Command: "tidy --write", At: noon()}, Watch{})
				if err != nil {
					return err
				}
				defer j.Close()
				for _, f := range [][2]string{{modelPart, "coach m\ncoach n\n"}, {modelBook, is}} {
					c := changer{disk: d, shown: f[0], wait: time.Second, journal: j}
					if err := c.change(func(string) (string, error) { return f[1], nil }, agree); err != nil {
						return err
					}
					d.said[f[0]] = true
				}
				return nil
			},
		},
		"a change without a journal": {
			files: map[string]string{modelBook: was}, after: map[string]string{modelBook: is}, syncs: 2,
			run: func(d *modelDisk) error {
				return changer{disk: d, shown: modelBook, wait: time.Second}.change(func(string) (string, error) { return is, nil }, agree)
			},
		},
		"an undo": {
			files: map[string]string{modelBook: is, modelUndo: journal}, after: map[string]string{modelBook: was}, syncs: 6, undoes: true,
			run: func(d *modelDisk) error {
				opts := Options{Files: modelFiles{d}, Main: modelBook}
				u, err := planUndo(d, opts)
				if err == nil {
					_, err = u.takeBack(d, opts)
				}
				return err
			},
			ownSyncs: 5, // without the last, the journal's, the entry stays, and the ledger's bytes say that it is taken back
		},
		"a new ledger": {
			files: map[string]string{}, after: map[string]string{modelBook: was}, syncs: 2,
			run: func(d *modelDisk) error { return changer{disk: d, shown: modelBook}.begin(was) },
		},
	}
}

// breach says what is wrong with a state that a power cut left, "" where all is
// well: a file has neither its text before nor the one after, or has the one
// after and no journal takes it back.
func (c cutCase) breach(s state, said map[string]bool) string {
	for path, is := range c.after {
		was, hadOne := c.files[path]
		text, there := s[path]
		switch {
		case text == is && there:
		case said[path]:
			return fmt.Sprintf("%s does not have its new text although that was said: %q", path, text)
		case there != hadOne || text != was:
			return fmt.Sprintf("%s is neither old nor new: %q", path, text)
		}
	}
	raw, journalled := s[modelUndo]
	var kept journalFile
	if journalled {
		if err := json.Unmarshal([]byte(raw), &kept); err != nil {
			return fmt.Sprintf("the journal is torn: %q", raw)
		}
	}
	if c.undoes {
		text := s[modelBook]
		knows := func(changes []keptChange) bool {
			return slices.ContainsFunc(changes, func(k keptChange) bool { return k.Files[0].After == sumOf(text) })
		}
		switch {
		case text == c.files[modelBook] && !knows(kept.Changes):
			return "nothing is taken back, and the journal has forgotten the change"
		case text == c.after[modelBook] && !knows(kept.Undone):
			return "a change is taken back, and the journal cannot put it back"
		}
		return ""
	}
	if c.syncs%4 != 0 {
		return "" // it keeps no journal
	}
	for path, is := range c.after {
		if s[path] == is && !strings.Contains(raw, sumOf(is)) {
			return path + " has its new text, and the journal does not know of it"
		}
	}
	return ""
}

// cut runs a case and cuts the power after every step, in every way. It gives the
// first breach, and how many states there were.
func (c cutCase) cut(deaf int, renames bool, each func(state)) (breach string, states int, err error) {
	d := newModelDisk(c.files)
	d.deaf, d.renames = deaf, renames
	seen := map[string]bool{}
	d.watch = func(d *modelDisk) {
		d.afterCut(func(s state) {
			if states++; breach == "" {
				breach = c.breach(s, d.said)
			}
			if key := fmt.Sprint(s); !seen[key] {
				seen[key] = true
				each(s)
			}
		})
	}
	err = c.run(d)
	for path := range c.after {
		d.said[path] = true
	}
	d.step()
	return breach, states, err
}

// TestPowerLoss cuts the power in every writing command after every step, with
// every choice of what had reached the disk: each write or not, the last torn or
// its length alone, each change of a name or not. The ledger is whole, what was
// said to be done is done, and the next change goes through. A case has up to
// eight changes of names and eight writes; nothing is left out by chance.
func TestPowerLoss(t *testing.T) {
	for name, c := range cutCases() {
		t.Run(name, func(t *testing.T) {
			var left []state
			states := 0
			for _, renames := range []bool{false, true} {
				breach, n, err := c.cut(0, renames, func(s state) { left = append(left, s) })
				require.NoError(t, err)
				require.Empty(t, breach)
				states += n
			}
			for _, s := range left {
				if _, there := s[modelBook]; !there {
					continue // a new ledger that did not come about
				}
				d := newModelDisk(s)
				require.NoError(t, changer{disk: d, shown: modelBook, wait: time.Second}.change(appendLine("next"), agree), "%q", s)
				require.Equal(t, s[modelBook]+"next\n", d.now[modelBook].text())
				for path := range d.now {
					require.NotContains(t, path, ".book.boxbook"+tempSuffix, "cleared away")
				}
			}
			t.Logf("%d states after a cut, %d of them different", states, len(left))
		})
	}
}

// TestEverySyncIsNeeded holds that without any one of the syncs a power cut can do
// harm: none is there for nothing, and the test above would see that one is gone.
func TestEverySyncIsNeeded(t *testing.T) {
	for name, c := range cutCases() {
		for n := 1; n <= cmp.Or(c.ownSyncs, c.syncs); n++ {
			t.Run(fmt.Sprintf("%s, %d", name, n), func(t *testing.T) {
				breach, _, err := c.cut(n, n%2 == 0, func(state) {})
				require.NoError(t, err)
				require.NotEmpty(t, breach)
				t.Log(breach)
			})
		}
		d := newModelDisk(c.files)
		require.NoError(t, c.run(d))
		require.Equal(t, c.syncs, d.syncs, name)
	}
}
