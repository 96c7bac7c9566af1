package commands

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// openFlight has a figure that waits for a ruling, and nothing of its printed result.
var openFlight = strings.Replace(springFlown, "2 7 6.5", "2 HZ 6.5", 1)

// TestARulingCompletesAFlight adds the chief judge's ruling to a flight that is there, by
// a flag and at a terminal; undo takes it back.
func TestARulingCompletesAFlight(t *testing.T) {
	dir, path := ledgerIn(t, openFlight)
	_, out, _ := said(t, dir, nil, "flight", "-f", filepath.Base(path))
	require.Contains(t, strings.Join(strings.Fields(out), " "), "until a ruling is recorded with `boxbook log official --flight 2026-04-18/ines/known -f book.boxbook`")

	code, _, err := said(t, dir, nil, "log", "official", "--flight", "last")
	require.Equal(t, exitUsage, code)
	require.Contains(t, err, "nothing is given to add; 2026-04-18/ines/known lacks: --resolve, --official, --judge-totals, --place, --field")
	code, _, err = said(t, dir, nil, "log", "official", "--flight", "last", "--resolve", "1 zero")
	require.Equal(t, exitUsage, code)
	require.Contains(t, err, "nothing is undecided on figure 1 of 2026-04-18/ines/known, but on figure 2")
	code, out, err = said(t, dir, nil, "log", "official", "--flight", "last", "--official", "158 of 220", "-f", filepath.Base(path))
	require.Equal(t, exitDone, code, err)
	require.Contains(t, strings.Join(strings.Fields(out), " "), "`boxbook log official --flight 2026-04-18/ines/known -f book.boxbook`")
	code, _, err = said(t, dir, nil, "undo", "--yes")
	require.Equal(t, exitDone, code, err)
	code, out, err = said(t, dir, nil, "log", "official", "--flight", "last", "--resolve", "2 zero")
	require.Equal(t, exitDone, code, err)
	require.Contains(t, out, "a ruling of 2026-04-18/ines/known")
	require.Contains(t, out, "80.00 of 220 points")
	require.Contains(t, textOf(t, path), "  resolve      2 zero\n")
	code, _, err = said(t, dir, nil, "log", "official", "--flight", "last", "--resolve", "2 fill")
	require.Equal(t, exitUsage, code)
	require.Contains(t, err, "2026-04-18/ines/known has a ruling on figure 2 already, zero, at book.boxbook:19")
	require.Contains(t, err, "change it there with an editor")
	code, _, err = said(t, dir, nil, "undo", "--yes")
	require.Equal(t, exitDone, code, err)
	require.Equal(t, openFlight, textOf(t, path))

	k := startTalk(t, dir, "log", "official")
	k.answer("the flight", "last")
	k.expect("undecided: figure 2")
	k.answer("a ruling of the chief judge, such as 2 zero,", "1 zero")
	k.expect("nothing is undecided on figure 1 of 2026-04-18/ines/known, but on figure 2")
	k.answer("a ruling", "\x152 fill")
	k.answer("a ruling of the chief judge, or Enter for no more: ", "")
	k.answer("the official total, as printed", "158 of 220")
	for _, question := range []string{"the judges' totals", "the place", "the field"} {
		k.answer(question, "")
	}
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), "  resolve      2 fill\n  official     158 of 220\n")
}

// TestARulingIsAskedForAlone asks for the ruling where it is all that a flight lacks.
func TestARulingIsAskedForAlone(t *testing.T) {
	dir, path := ledgerIn(t, openFlight+"  official 158 of 220\n  judge-totals 80 158\n  place 2 of 3\n  field 158 100\n")
	k := startTalk(t, dir, "log", "official", "--flight", "last")
	k.answer("a ruling of the chief judge, such as 2 zero: ", "")
	k.expect("this is needed")
	k.answer("a ruling of the chief judge, such as 2 zero: ", "2 fill")
	k.answer("a ruling of the chief judge, or Enter for no more: ", "")
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), "  resolve      2 fill\n")
}

// TestARulingThatHardZerosDecide names what is typed instead where a minority or a
// majority of the judges gave a hard zero.
func TestARulingThatHardZerosDecide(t *testing.T) {
	five := strings.NewReplacer("panel A B", "panel A B C D E", "1 8 8", "1 6 HZ 6.5 5.5 6", "2 7 6.5", "2 HZ HZ 7 HZ 7").Replace(springFlown)
	dir, _ := ledgerIn(t, five)
	for ruling, want := range map[string]string{
		"1 zero": "figure 1 of 2026-04-18/ines/known is filled: 1 of the 5 judges who gave a mark gave a hard zero",
		"2 fill": "figure 2 of 2026-04-18/ines/known is 0: 3 of the 5 judges who gave a mark gave a hard zero",
	} {
		code, _, err := said(t, dir, nil, "log", "official", "--flight", "last", "--resolve", ruling)
		require.Equal(t, exitUsage, code)
		require.Contains(t, err, want)
		hint := map[string]string{"1 zero": "change HZ to CHZ in its row", "2 fill": "change each HZ to AV in its row"}[ruling]
		require.Contains(t, err, hint)
	}
	dir, _ = ledgerIn(t, strings.Replace(five, "6 HZ 6.5", "6 CHZ 6.5", 1))
	_, _, err := said(t, dir, nil, "log", "official", "--flight", "last", "--resolve", "1 zero")
	require.Contains(t, err, "is 0 already: the jury confirmed a hard zero, CHZ")
}

// TestARulingIsAskedOfTheFigure names the figure that waits for the ruling, in the example
// too, and says no line of a text that is not written yet.
func TestARulingIsAskedOfTheFigure(t *testing.T) {
	dir, _ := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-18", "--pilot", "ines", "--contest", "spring", "--sequence", "s", "--programme", "known",
		"--row", "8 8", "--row", "7 hz", "--penalty", "low 20")
	k.answer("[A B]: ", "")
	k.expect("undecided: figure 2")
	k.answer("a ruling of the chief judge, such as 2 zero,", "2 zero")
	k.answer("a ruling of the chief judge, or Enter for no more: ", "2 fill")
	k.expect("figure 2 has a second ruling")
	require.NotContains(t, k.everything(), "the first is on line")
}
