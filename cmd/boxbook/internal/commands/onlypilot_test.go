package commands

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestTheOnlyPilotIsTakenByFlagsToo needs no --pilot where only one can be meant.
func TestTheOnlyPilotIsTakenByFlagsToo(t *testing.T) {
	dir, path := ledgerIn(t, twoFigures)
	code, said := typed(t, dir, "log", "flight", "--date", "2026-04-18", "--contest", "spring", "--sequence", "s", "--row", "8 7", "--row", "7 7", "--place", "4of10")
	require.Equal(t, exitDone, code, said)
	code, said = typed(t, dir, "log", "pilot", "--handle", "yuki")
	require.Equal(t, exitDone, code, said)
	code, said = typed(t, dir, "log", "practice", "--date", "2026-04-25", "--note", "three loops")
	require.Equal(t, exitDone, code, said)
	code, said = typed(t, dir, "log", "drill", "--date", "2026-04-25", "--target", "radius")
	require.Equal(t, exitDone, code, said)
	book := textOf(t, path)
	require.Contains(t, book, "flight 2026-04-18 ines known\n")
	require.Contains(t, book, "place        4 of 10\n")
	require.Contains(t, book, "flight 2026-04-25 ines practice\n")
	require.Contains(t, book, "drill 2026-04-25 ines radius\n")
	code, said = typed(t, dir, "log", "expiry", "--what", "medical", "--date", "2027-01-01")
	require.Equal(t, exitUsage, code, "of two pilots either may be meant")
	require.Contains(t, said, "missing: --pilot")
}

// TestAFigureIsNamedByItsFamily hints at the family that a word is, and lists them by `?`.
func TestAFigureIsNamedByItsFamily(t *testing.T) {
	dir, _ := ledgerIn(t, "")
	k := startTalk(t, dir, "log", "sequence", "--handle", "s")
	k.answer("its category", "")
	k.answer("its programme", "")
	k.answer("the catalogue word", "")
	k.answer("figure 1: ", "K 12 loops")
	k.expect(`"loops" is family 7; as a label it stands in quotes: "loops"`)
	k.answer("figure 1: ", "?")
	k.expect("2-rolling   rolling turns")
	k.answer("figure 1: ", "K 12 7")
	k.answer("figure 2", "K 12 rolls")
	k.expect(`"rolls" is 9.1 (slow), hesitation, 9.9 or 9.10 (flick)`)
}

// TestASequenceOnTheWayIsOfTheCategoryFlown proposes the category of the pilot's flight
// before: without one a flight is in no question of a category.
func TestASequenceOnTheWayIsOfTheCategoryFlown(t *testing.T) {
	dir, path := ledgerIn(t, "pilot ines\nsequence known-26\n  category intermediate\n  programme known\n  1 K 10\nflight 2026-04-18 ines known\n  sequence known-26\n  panel A B\n  1 7 7\n")
	k := startTalk(t, dir, "log", "flight", "--asof", "2026-04-19")
	k.answer("the date", "2026-04-19")
	k.answer("the pilot", "")
	k.answer("the contest", "")
	k.answer("programme", "free")
	k.answer("the sequence", "free-26")
	k.answer("[intermediate]: ", "")
	k.answer("figure 1", "K 10")
	k.answer("figure 2", "")
	k.answer("the K of positioning", "")
	k.answer("the K of harmony", "")
	k.answer("the total K", "")
	k.answer("the judges", "A B")
	k.answer("marks by figure or by sheet", "")
	k.answer(" 1  K 10: ", "8 8")
	k.nothingMore()
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), "sequence free-26\n  category     intermediate\n")
}
