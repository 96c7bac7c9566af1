package ledger

import (
	"maps"
	"path/filepath"
	"slices"
	"testing"

	"boxbook/data"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// cleanReadings are ledgers that the reader takes: the demo, the samples, what is
// shipped, and the page that explains the language.
func cleanReadings(t *testing.T) []*Reading {
	t.Helper()
	var all []*Reading
	read := func(opts Options) {
		opts.Builtin = data.Builtin()
		rd, err := Read(opts)
		require.NoError(t, err)
		require.NoError(t, rd.Diagnostics.Err(), opts.Main)
		all = append(all, rd)
	}
	paths, err := filepath.Glob("../../testdata/ledgers/*.boxbook")
	require.NoError(t, err)
	for _, path := range append(paths, "../../data/demo/longmere.boxbook") {
		read(Options{Files: Disk{}, Main: path})
	}
	for name, text := range map[string]string{"template": data.Template, "help": data.Language, "rare": rareLines} {
		read(Options{Files: Memory{name: text}, Main: name})
	}
	return all
}

// rareLines are lines that no sample has.
const rareLines = `pilot ines
  note "a"
coach marek
  note "b"
person rolf
  note "c"
sequence s
  category intermediate
  1 K 10
  note "d"
contest c 2026-04-18
  note "e"
flight 2026-04-18 ines known
  sequence s
  note "f"
review 2026-04-18/ines/known
  by marek
drill 2026-05-01 ines radius
  note "g"
ladder l
  category intermediate
  note "h"
rules r
  note "i"
policy p
  note "j"
fault-kind k
  unit deg
  note "k"
`

// TestFormsTakeEveryLine holds the table of line forms to the reader: of every
// line that the reader takes, each word stands for something, and the line may
// end where it does.
func TestFormsTakeEveryLine(t *testing.T) {
	seen := map[string]int{}
	for _, rd := range cleanReadings(t) {
		for _, f := range rd.r.files {
			for n := range f.lines {
				if line := f.reads(int32(n)); line.Key != "" {
					seen[formKey(line)]++
					holdForm(t, f, line)
				}
			}
		}
	}
	for name := range allForms() {
		assert.Positive(t, seen[name], "no clean ledger has a line of the form %q", name)
	}
}

// formKey is the name of a line's form.
func formKey(l Line) string {
	switch {
	case l.IsHead:
		return l.Block
	case l.IsRow():
		return l.Block + "/" + rowForm
	default:
		return l.Block + "/" + l.Key
	}
}

func holdForm(t *testing.T, f *file, line Line) {
	t.Helper()
	for i, w := range line.Words {
		assert.True(t, w.known || i == 0, "%s:%d: %q fits nothing of %q", f.name, line.Number+1, w.Text, lineForms[formKey(line)])
	}
	form := formNamed(line)
	ended := slices.ContainsFunc(form.last, func(at int) bool { return slices.Contains(line.walk.taken, at) })
	assert.True(t, ended || form.empty && line.walk.taken == nil, "%s:%d: the line may not end there: %s", f.name, line.Number+1, f.lineText(int32(line.Number)))
}

// TestEveryLineHasAForm holds the table to the keywords.
func TestEveryLineHasAForm(t *testing.T) {
	var want []string
	for kind, spec := range blockSpecs {
		want = append(want, kind)
		for _, key := range spec.keys {
			want = append(want, kind+"/"+key)
		}
		if spec.rows {
			want = append(want, kind+"/"+rowForm)
		}
	}
	want = append(want, includeKey)
	assert.ElementsMatch(t, want, slices.Collect(maps.Keys(allForms())))
	for name, f := range allForms() {
		for _, item := range f.items {
			if item.slot != "" {
				assert.Contains(t, allSlots, item.slot, name)
			}
		}
	}
}

// allSlots are the slots that there are: a name in the table that is none of them
// is a slip.
var allSlots = []Slot{
	SlotPilot, SlotCoach, SlotParty, SlotSequence, SlotContest, SlotFlight, SlotLadder, SlotStyle, SlotKind, SlotSafety, SlotCategory,
	SlotJudge, SlotTarget, SlotNew, SlotDate, SlotSpan, SlotMonthDay, SlotYear, SlotProgramme, SlotProgramOf, SlotLabel, SlotText, SlotNumber,
	SlotK, SlotElement, SlotGroupCode, SlotGroup, SlotFigure, SlotOn, SlotMark, SlotPoints, SlotAmount, SlotMoment, SlotMoney, SlotCurrency,
	SlotCost, SlotIncome, SlotShare, SlotReceipt, SlotPot, SlotRole, SlotExpiry, SlotCatalogue, SlotFloor, SlotPenalty, SlotUnit,
	SlotHardZero, SlotHalf, SlotRounding, SlotYesNo,
}
