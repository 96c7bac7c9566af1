package commands

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestATenAmongMarksWithoutTheirPoint asks what an imported sheet is asked, at the row's
// question and for a flag alike.
func TestATenAmongMarksWithoutTheirPoint(t *testing.T) {
	dir, path := ledgerIn(t, strings.Replace(twoFigures, "panel A B", "panel A B C", 1))
	flags := []string{"log", "flight", "--date", "2026-04-18", "--pilot", "ines", "--contest", "spring", "--sequence", "s", "--programme", "known", "--panel", "A B C"}
	code, _, err := said(t, dir, nil, append(flags, "--row", "75 70 10", "--row", "8 8 8")...)
	require.Equal(t, exitUsage, code)
	require.Contains(t, err, "--row: 10 among marks without their point: 1.0 or 10.0? type it so")

	k := startTalk(t, dir, flags...)
	k.answer("marks by figure or by sheet [figure]", "")
	k.answer(" 1  K 10  loop", "75 70 10")
	k.expect("10 among marks without their point: 1.0 or 10.0?")
	k.answer(" 1  K 10  loop", "\x1575 70 10.0")
	k.answer(" 2  K 12  roll", "75 8 10")
	for _, question := range []string{"a penalty", "the official total", "the place", "the field", "a video", "a note"} {
		k.answer(question, "")
	}
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), "  1            7.5  7    10.0\n  2            7.5  8    10\n")
}

// TestAnswersToAnotherQuestion doubts a total at the place's question, a place at the
// video's, and a programme's word among the judges.
func TestAnswersToAnotherQuestion(t *testing.T) {
	dir, _ := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-18", "--pilot", "ines", "--contest", "spring", "--sequence", "s", "--programme", "known",
		"--panel", "A B", "--row", "8 8", "--row", "7 7", "--penalty", "low 20")
	k.answer("the official total", "")
	k.answer("the place, such as 3 of 9", "164 of 220")
	k.expect("220 is the maximum of s: 164 of 220 would be the total")
	k.answer("the place", "\x15151")
	k.expect("151 is a place among hundreds")
	k.answer("the place", "\x15150 of 150")
	k.answer("the field", "")
	k.answer("a video's path", "4 of 3")
	k.expect("has neither a folder nor an ending such as .mp4")
	k.answer("a video's path", "\x15812.25 900.00 700")
	k.expect("has neither a folder nor an ending such as .mp4")
	k.answer("a video's path", "\x15known.mp4")
	k.answer("a video's path, or Enter for no more", "")
	k.answer("a note", "")
	k.expect("150 of 150")

	k = startTalk(t, dir, "log", "contest", "--handle", "may")
	k.answer("its days", "2026-05-02")
	for _, question := range []string{"full name", "its site", "last day to enter", "its ladder", "its rule style"} {
		k.answer(question, "")
	}
	k.answer("its judges", "known")
	k.expect("known is a programme's word: the judges' names are meant")
	k.answer("its judges", "\x151 2 3")
	k.expect("a judge's name begins with a letter; write J1 J2 J3")
}

// TestAPercentWherePointsAreAsked asks about a total that is likelier a percent, and has
// the percent as it is written on the line.
func TestAPercentWherePointsAreAsked(t *testing.T) {
	dir, path := ledgerIn(t, twoFigures) // 80 and 84 of 220: 74.55%
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-18", "--pilot", "ines", "--contest", "spring", "--sequence", "s", "--programme", "known",
		"--panel", "A B", "--row", "8 8", "--row", "7 7", "--penalty", "-")
	k.answer("the official total", "74.55")
	k.expect("74.55 of 220 points is 33.89%, and the marks make 74.55%: a percent, typed as")
	k.expect("write 74.55 of 100 (type it again if it is right)")
	k.answer("the official total", "") // as it stands on the line
	for _, question := range []string{"the judges' totals", "the place", "the field", "a video", "a note"} {
		k.answer(question, "")
	}
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), "  official     74.55 of 100\n")

	dir, path = ledgerIn(t, springFlown)
	k = startTalk(t, dir, "log", "official", "--flight", "last")
	k.answer("the official total", "73.64")
	k.expect("a percent, typed as")
	k.answer("the official total", "\x1573.64") // it is points
	k.answer("the judges' totals", "")
	k.answer("the place", "")
	k.answer("the field", "")
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), "  official     73.64\n")
	_, _, err := said(t, dir, nil, "check")
	require.Contains(t, err, "a percent, typed as points?")

	dir, path = ledgerIn(t, springFlown)
	code, _, err := said(t, dir, nil, "log", "official", "--flight", "last", "--official", "73.64")
	require.Equal(t, exitDone, code)
	require.Contains(t, err, "a percent, typed as points?")
	require.Contains(t, err, "write 73.64 of 100")
	require.Contains(t, textOf(t, path), "73.64")
}

// TestAFaultThatIsThereAlready asks about a fault that would count twice.
func TestAFaultThatIsThereAlready(t *testing.T) {
	dir, path := ledgerIn(t, springFlown+"  fault 2 roll-angle 10deg seen \"late\"\n")
	k := startTalk(t, dir, "log", "fault", "--flight", "last", "--figure", "2")
	k.answer("the kind of fault", "roll-angle")
	k.answer("how much", "10deg")
	k.expect("roll-angle 10deg of 2026-04-18/ines/known on figure 2 is already there")
	k.expect("(type it again if it is right)")
	k.answer("how much", "5deg")
	k.expect("the code it was on")
	require.NotContains(t, textOf(t, path), "5deg")
}

// TestADoubtedAmountIsNotLost has an amount that is only doubted stand on the line: Enter
// takes it, where no answer would write the fault without its amount.
func TestADoubtedAmountIsNotLost(t *testing.T) {
	const fault = "  fault 1 line-angle 5deg\n"
	dir, path := ledgerIn(t, springFlown+fault)
	k := startTalk(t, dir, "log", "fault", "--flight", "last", "--figure", "1")
	k.answer("the kind of fault", "line-angle")
	k.answer("how much", "5deg")
	k.expect("(type it again if it is right)")
	k.answer("5deg", "") // Enter takes what stands on the line
	k.answer("the code it was on", "")
	k.answer("seen by a judge's eye", "")
	k.answer("where it is in the video", "")
	k.answer("the coach", "")
	k.answer("a remark", "")
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Equal(t, 2, strings.Count(textOf(t, path), "1 line-angle 5deg\n"), "both have their amount")

	dir, _ = ledgerIn(t, springFlown+fault)
	k = startTalk(t, dir, "log", "fault", "--flight", "last", "--figure", "1")
	k.answer("the kind of fault", "line-angle")
	k.answer("how much", "5deg")
	k.expect("(type it again if it is right)")
	k.answer("5deg", "\x1510deg")
	k.answer("the code it was on", "back")
	k.expect("how much, such as 10deg, or Enter for none: 10deg")
}

// TestAPaymentTheOtherWay names the answer to change where a payment's amount shows that
// its payer is the one who owed it, and prints no line that nobody could type there.
func TestAPaymentTheOtherWay(t *testing.T) {
	dir, path := ledgerIn(t, "pilot ines\n\ncost 2026-01-10 membership 120.00 EUR for ines by club to club\n")
	k := startTalk(t, dir, "log", "settle", "--date", "2026-02-01")
	k.answer("who paid", "club")
	k.answer("who was paid", "ines")
	k.answer("the amount", "120.00 EUR")
	k.expect("club pays ines, but ines owed club 120.00 EUR on that day; `back from` changes who paid; where it is right, a remark says why (type it again if it is right)")
	k.answer("the amount", "back from")
	k.answer("who paid", "\x15ines")
	k.answer("who was paid", "\x15club")
	k.answer("the amount", "") // as it was
	k.answer("the receipt", "")
	k.answer("a remark", "")
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), "settle 2026-02-01 ines club 120.00 EUR\n")
	require.NotContains(t, k.everything(), "`settle")

	dir, _ = ledgerIn(t, "pilot ines\n\ncost 2026-01-10 membership 120.00 EUR for ines by club to club\n")
	k = startTalk(t, dir, "log", "settle", "--date", "2026-02-01", "--from", "club", "--to", "ines")
	k.answer("the amount", "120.00 EUR")
	k.expect("on that day; --from said who paid; where it is right, a remark says why (type it again if it is right)")
	k.answer("the amount", "120.00 EUR")
	k.answer("the receipt", "")
	k.answer("a remark", "")
	k.expect("warning: club pays ines")
	k.expect("write it?")
	require.NotContains(t, k.everything(), "`settle")
}

// TestASheetTypedAgain asks at the last row of a flight that has nearly all the marks of
// one before.
func TestASheetTypedAgain(t *testing.T) {
	const judges = "A B C D E F G H I J"
	rows := []string{"7 7.5 8 6 6.5 7 7.5 8 8.5 7", "6 6.5 7 7 8 7.5 6 6.5 7 8", "8 8 7.5 7 8.5 8 9 7.5 8 8", "5.5 6 6.5 7 6 5.5 6 6 6.5 7"}
	book := "pilot ines\n\nsequence s\n  category sportsman\n  1 K 10\n  2 K 12\n  3 K 14\n  4 K 9\n\nflight 2026-04-18 ines known\n  sequence s\n  panel " + judges + "\n"
	for i, row := range rows {
		book += "  " + string(rune('1'+i)) + " " + row + "\n"
	}
	dir, _ := ledgerIn(t, book)
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-19", "--pilot", "ines", "--contest", "-", "--sequence", "s", "--programme", "known",
		"--panel", judges, "--row", rows[0], "--row", rows[1], "--row", rows[2])
	k.answer(" 4  K 9", strings.Replace(rows[3], "5.5", "6", 1))
	k.expect("all but 1 of the 40 marks are those of 2026-04-18/ines/known")
	k.expect("one sheet, typed again?")
}

// TestAJudgeNearlyOfThePanel asks about names that no judge had before and that are nearly
// those of the contest's judges; a new judge and a seat are none.
func TestAJudgeNearlyOfThePanel(t *testing.T) {
	book := strings.Replace(twoFigures, "panel A B", "panel PL HV SM OK TR", 1)
	for typed, meant := range map[string]string{
		"PL HV SM KO TR": "PL HV SM OK TR", "pl hv sm ok tr": "PL HV SM OK TR", "PL HV SN OK TR": "PL HV SM OK TR",
	} {
		dir, _ := ledgerIn(t, book)
		k := startTalk(t, dir, "log", "flight", "--date", "2026-04-18", "--pilot", "ines", "--contest", "spring", "--sequence", "s", "--programme", "known")
		k.answer("the judges", typed)
		k.expect("no judge was called so before; write")
		k.answer("the judges", "") // as it stands on the line
		k.answer("marks by figure or by sheet [figure]", "")
		k.expect("judges: " + meant)
	}
	for _, typed := range []string{"PL HV SM OK ZZ", "PL HV SM OK A"} {
		dir, _ := ledgerIn(t, book)
		k := startTalk(t, dir, "log", "flight", "--date", "2026-04-18", "--pilot", "ines", "--contest", "spring", "--sequence", "s", "--programme", "known")
		k.answer("the judges", typed)
		k.answer("marks by figure or by sheet [figure]", "")
		k.expect("judges: " + typed)
	}
}
