package ledger

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
)

// What may stand behind a keyword that is in the wrong place.
var behindKeywords = []string{"", ` "ann left the club"`, " 4", " 2026-01-01", " ann", " 2026-01-01 ann", " mara 4"}

// aboveKeywords are lines beneath which a keyword may have strayed: a block of each
// kind, and none.
func aboveKeywords() []string {
	above := []string{"", "pilot ann\nin-hand 2026-01-01 bank 1000.00 EUR\n"}
	for _, head := range []string{
		"pilot ann", "coach mara", "person rolf", "sequence known-26", "contest spring 2026-05-01..2026-05-02", "flight 2026-05-01 ann known",
		"review 2026-05-01/ann/known", "drill 2026-05-02 ann line-angle", "ladder own", "rules own", "policy house", "fault-kind own",
	} {
		above = append(above, head+"\n")
	}
	return above
}

// fixedLast reads a text and gives its last line with the edits made, and what is said
// of it.
func fixedLast(t *testing.T, text string) (string, List) {
	t.Helper()
	today, _ := season.ParseDate("2026-12-31")
	r, err := Load(Options{Files: Memory{"book.boxbook": text}, Main: "book.boxbook", AsOf: today})
	require.NoError(t, err)
	fixed, _ := ApplyFixes(text, r.Diagnostics)
	lines := strings.Split(strings.TrimSuffix(fixed, "\n"), "\n")
	return lines[len(lines)-1], r.Diagnostics
}

// A keyword of a block's body that stands at column 0 is no misspelt one: no edit makes
// another of it, and a hint says where it belongs, or it is indented there.
func TestKeysAtColumnZeroStayThemselves(t *testing.T) {
	var keys []string
	for _, spec := range blockSpecs {
		keys = append(keys, spec.keys...)
	}
	slices.Sort(keys)
	for _, key := range slices.Compact(keys) {
		for _, above := range aboveKeywords() {
			for _, behind := range behindKeywords {
				line, said := fixedLast(t, above+key+behind+"\n")
				require.Equal(t, key, strings.Fields(line)[0], "%s%s%s", above, key, behind)
				_, head := blockSpecs[key]
				for _, d := range said {
					if d.Code == unknownBlock {
						require.False(t, head)
						require.Contains(t, d.Hint, `"`+key+`" belongs under a `)
						require.Contains(t, d.Hint, ", indented")
					}
				}
			}
		}
	}
}

// Where a keyword belongs is the language's own table; the case of letters is no
// reason for another one.
func TestWhereAKeyBelongs(t *testing.T) {
	const above = "pilot ann\nin-hand 2026-01-01 bank 1000.00 EUR\n"
	hint := func(line string) string {
		_, said := fixedLast(t, above+line+"\n")
		for _, d := range said {
			if d.Code == unknownBlock {
				return d.Hint
			}
		}
		return ""
	}
	assert.Equal(t, `"note" belongs under a coach, contest, drill, fault-kind, flight, ladder, person, pilot, policy, review, rules or sequence, indented`, hint(`note "ann left the club"`))
	assert.Equal(t, `"note" belongs under a coach, contest, drill, fault-kind, flight, ladder, person, pilot, policy, review, rules or sequence, indented`, hint(`Note "ann left the club"`))
	assert.Equal(t, `"reviewed" belongs under a flight, indented`, hint("reviewed by mara"))
	line, _ := fixedLast(t, above+"Contest spring 2026-05-01..2026-05-02\n")
	assert.Equal(t, "contest spring 2026-05-01..2026-05-02", line)
}

// A keyword that begins blocks is not made another one where it is indented.
func TestIndentedHeadsStayThemselves(t *testing.T) {
	for _, head := range blockKinds {
		for _, above := range aboveKeywords() {
			for _, behind := range behindKeywords {
				line, _ := fixedLast(t, above+"  "+head+behind+"\n")
				require.Equal(t, head, strings.Fields(line)[0], "%s  %s%s", above, head, behind)
			}
		}
	}
}
