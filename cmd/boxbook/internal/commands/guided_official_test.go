package commands

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestTheFlightOfAResultIsNotDoubted blames no warning of an example on the flight that
// the flag names: what is said and asked first is the ruling.
func TestTheFlightOfAResultIsNotDoubted(t *testing.T) {
	four := strings.NewReplacer("panel A B", "panel A B C D", "1 8 8", "1 8 8 8 8", "2 HZ 6.5", "2 HZ 6.5 HZ 7").Replace(openFlight)
	for _, printed := range []string{"  official 158\n", "  official 158 of 220\n  place 2 of 3\n  field 158 100\n"} {
		dir, path := ledgerIn(t, four+printed+"\nflight 2026-04-19 ines free\n  contest spring\n  category sportsman\n  void \"rain\"\n")
		k := startTalk(t, dir, "log", "official", "--flight", "2026-04-18/ines/known")
		k.answer("a ruling of the chief judge, such as 2 zero", "2 fill")
		require.NotContains(t, k.everything(), "the flight (", k.everything())
		require.NotContains(t, k.everything(), "type it again")
		k.answer("a ruling of the chief judge, or Enter for no more: ", "")
		k.answer("the judges' totals", "")
		if !strings.Contains(printed, "field") {
			k.answer("the place", "")
			k.answer("the field", "")
		}
		k.answer("write it?", "y")
		require.Equal(t, exitDone, k.exit(), k.everything())
		require.NotContains(t, k.everything(), "the official total, as printed", "it stands there, and the sequence has its maximum")
		require.Contains(t, textOf(t, path), "  resolve      2 fill\n")
	}
}

// TestWhatAResultHasIsSaid says which total or place a question completes.
func TestWhatAResultHasIsSaid(t *testing.T) {
	dir, path := ledgerIn(t, "pilot ines\n\nflight 2025-09-01 ines free\n  category intermediate\n  official 1890.25\n  place 3\n")
	k := startTalk(t, dir, "log", "official", "--flight", "last")
	k.expect("official 1890.25 stands there; `1890.25 of MAXIMUM` completes it")
	k.answer("the official total, as printed, such as 1890.25 of MAXIMUM,", "")
	k.expect("place 3 stands there; `3 of PILOTS` completes it")
	k.answer("the place, such as 3 of PILOTS, or Enter for none: ", "3 of 12")
	k.answer("the field", "")
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), "  official 1890.25\n  place 3 of 12\n")
	require.NotContains(t, k.everything(), "judges' totals", "no panel is known")
}

// TestAPlaceAloneIsAsked takes a place where the total is not to hand; nothing at all does
// not do.
func TestAPlaceAloneIsAsked(t *testing.T) {
	dir, path := ledgerIn(t, springFlown)
	code, _, err := said(t, dir, nil, "log", "official", "--flight", "last")
	require.Equal(t, exitUsage, code)
	require.Contains(t, err, "nothing is given to add; 2026-04-18/ines/known lacks: --official, --judge-totals, --place, --field")
	k := startTalk(t, dir, "log", "official", "--flight", "last")
	k.answer("the official total, as printed, such as 540.49 of 800,", "3 of 9")
	k.expect("3 of 9 is a place, which is a question of its own")
	k.answer("the official total", "\x15")
	k.answer("the judges' totals", "")
	k.answer("the place", "")
	k.answer("the field's totals, such as 612.25 577.00 540.49: ", "")
	k.expect("nothing is said yet: one of them is needed; `back official` goes to the first")
	k.answer("the field's totals", "back")
	k.answer("the place", "3 of 9")
	k.answer("the field's totals, such as 612.25 577.00 540.49, or Enter for none: ", "")
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), "  place        3 of 9\n")
}
