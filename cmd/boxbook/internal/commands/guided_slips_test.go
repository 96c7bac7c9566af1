package commands

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// typed runs a command of flags alone in a folder, without a terminal.
func typed(t *testing.T, dir string, args ...string) (code int, said string) {
	t.Helper()
	t.Chdir(dir)
	var out bytes.Buffer
	s := readmeStreams(&out)
	s.err = &out
	return run(append(args, "--asof", "2026-05-01"), s), out.String()
}

// TestADateThatIsASlipIsSaid says at once that a date is ahead or outside the
// contest's days; typed again it is taken.
func TestADateThatIsASlipIsSaid(t *testing.T) {
	dir, path := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "flight", "--programme", "known", "--asof", "2026-05-01")
	k.answer("the date [2026-05-01]: ", "2062-04-18")
	k.expect("2062-04-18 is later than 2026-05-01, the day that counts as today (type it again if it is right)")
	k.answer("the date [2026-05-01]: ", "20.4.2026") // a day that can be no month
	k.answer("the pilot [ines]: ", "")
	k.answer("the contest", "spring")
	k.expect(`2026-04-20 is outside contest "spring" (2026-04-18..2026-04-19)`)
	k.answer("the contest", "spring")
	k.answer("[s]: ", "")
	k.answer("[A B]: ", "")
	k.answer("[figure]: ", "")
	k.answer(" 1  K 10  loop: ", "8 7")
	k.answer(" 2  K 12  roll: ", "8 7.5")
	k.nothingMore()
	k.expect(`warning: 2026-04-20 is outside contest "spring"`)
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	require.Contains(t, textOf(t, path), "flight 2026-04-20 ines known\n")

	code, said := typed(t, dir, "log", "flight", "--date", "2062-04-18", "--pilot", "ines", "--programme", "known", "--sequence", "s", "--note", "x")
	require.Equal(t, exitDone, code, said)
	require.Contains(t, said, "warning: 2062-04-18 is later than 2026-05-01")
	require.Equal(t, 1, strings.Count(said, "warning: "), "what was warned of before is not said again")
}

// TestANewContestHasTheFlightsDays takes the name of a contest whose days are still
// to be asked for without holding the flight against the days of an example.
func TestANewContestHasTheFlightsDays(t *testing.T) {
	dir, _ := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "flight", "--programme", "known", "--asof", "2026-05-09")
	k.answer("the date", "2026-05-02")
	k.answer("the pilot [ines]: ", "")
	k.answer("the contest (spring)", "tarn")
	k.answer("its days [2026-05-02]: ", "")
	k.expect("its full name")
	require.NotContains(t, k.everything(), "is outside contest")
}

// TestDatesAreReadOneWay takes a date with one reading at a question and of any flag, and
// proposes what can be meant by another.
func TestDatesAreReadOneWay(t *testing.T) {
	dir, path := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "flight", "--programme", "known", "--asof", "2026-05-09")
	for text, proposed := range map[string]string{
		"3.5.2026": "write 2026-05-03, or 2026-03-05 where the month comes first", "3.5.": "write 2026-05-03, or 2026-03-05 where the month comes first",
		"26.4.26": "write 2026-04-26", "3/5/26": "write 2026-05-03, or 2026-03-05 where the month comes first",
		"26.4.": "write 2026-04-26", "4/26/2026": "write 2026-04-26", "26/4": "write 2026-04-26",
	} {
		k.answer("the date", text)
		k.expect(`"` + text + `" is not a date (YYYY-MM-DD); ` + proposed)
	}
	k.answer("the date", "26.4.2026")
	k.expect("taken as 2026-04-26")
	k.key("\x03")
	k.exit()

	code, said := typed(t, dir, "season", "--since", "4.5.2026")
	require.Equal(t, exitUsage, code)
	require.Contains(t, said, `--since "4.5.2026" is not a date (YYYY-MM-DD)`)
	require.Contains(t, said, "write 2026-05-04, or 2026-04-05 where the month comes first")
	code, said = typed(t, dir, "log", "flight", "--date", "18.4.2026", "--pilot", "ines", "--contest", "spring", "--sequence", "s", "--row", "8 7", "--row", "7 7")
	require.Equal(t, exitDone, code, said)
	require.Contains(t, textOf(t, path), "flight 2026-04-18 ines known\n")
	for _, args := range [][]string{{"season", "--since", "18.4.2026"}, {"season", "--since", "2026/4/18"}, {"season", "--until", "18/4/2026"}, {"season", "--until", "2026-4-18"}} {
		code, said = typed(t, dir, args...)
		require.Equal(t, exitDone, code, said)
		require.Contains(t, said, "2026-04-18")
	}
}

// TestASpanOfDaysIsTakenInPeoplesForms reads two days with one reading, and proposes
// where there are two.
func TestASpanOfDaysIsTakenInPeoplesForms(t *testing.T) {
	for _, text := range []string{
		"26.9.2026-27.9.2026", "26.9.-27.9.2026", "26.-27.9.2026", "26.9. - 27.9.2026", "26-27.9.2026", "26/9/2026 to 27/9/2026", "26.9.2026 – 27.9.2026",
		"2026-09-26 2026-09-27", "2026-09-26-2026-09-27", "26.9.2026..27.9.2026",
	} {
		dir, path := ledgerIn(t, "")
		code, said := typed(t, dir, "log", "contest", "--handle", "autumn", "--dates", text)
		require.Equal(t, exitDone, code, said)
		require.Contains(t, textOf(t, path), "contest autumn 2026-09-26..2026-09-27\n", text)
	}
	dir, path := ledgerIn(t, "")
	code, said := typed(t, dir, "log", "contest", "--handle", "autumn", "--dates", "28.8.2026-1.9.2026")
	require.Equal(t, exitDone, code, said)
	require.Contains(t, textOf(t, path), "contest autumn 2026-08-28..2026-09-01\n", "one day says which number is the month")

	k := startTalk(t, dir, "log", "contest", "--handle", "late")
	for text, answer := range map[string]string{
		"5.9.-6.9.2026": `"5.9.-6.9.2026" can be read in two ways; write 2026-09-05..2026-09-06, if the day comes first`,
		"the autumn":    `"the autumn" is not a span of days, such as 2026-06-20..2026-06-21`,
		"soon":          `"soon" is not a date (YYYY-MM-DD)`,
	} {
		k.answer("its days", text)
		k.expect(answer)
	}
	k.answer("its days", "26.9.")
	k.expect("write 2026-09-26")
	k.key("\x03")
	k.exit()
	require.NotContains(t, k.everything(), "begins no block")
}

// TestASecondFlightOfADayHasANumber names the flag where flags gave the flight.
func TestASecondFlightOfADayHasANumber(t *testing.T) {
	dir, _ := ledgerIn(t, twoFigures)
	flight := []string{"log", "flight", "--date", "2026-04-18", "--pilot", "ines", "--contest", "spring", "--sequence", "s", "--note", "x"}
	code, said := typed(t, dir, flight...)
	require.Equal(t, exitDone, code, said)
	code, said = typed(t, dir, flight...)
	require.Equal(t, exitInvalid, code, said)
	require.Contains(t, said, "another flight of that day has a number: --number 2; to correct the first")
	code, said = typed(t, dir, append(flight, "--number", "2")...)
	require.Equal(t, exitDone, code, said)
}

// TestAFigureIsNamedByItsLabel takes a figure's label for its number where one has it.
func TestAFigureIsNamedByItsLabel(t *testing.T) {
	book := strings.Replace(twoFigures, `"roll"`, `"P loop"`, 1) + "\nflight 2026-04-18 ines known\n  contest spring\n  sequence s\n  1 8 7\n  2 7 7\n"
	dir, path := ledgerIn(t, book)
	code, said := typed(t, dir, "log", "fault", "--flight", "last", "--figure", "p loop", "--kind", "radius")
	require.Equal(t, exitDone, code, said)
	require.Contains(t, textOf(t, path), "fault        2 radius\n")
	code, said = typed(t, dir, "log", "fault", "--flight", "last", "--figure", "Q loop", "--kind", "radius")
	require.Equal(t, exitUsage, code, said)
	require.Contains(t, said, `no figure of 2026-04-18/ines/known is called "Q loop"`)
	require.Contains(t, said, "figures: 1 loop, 2 P loop")
	k := startTalk(t, dir, "log", "fault", "--flight", "last", "--kind", "timing")
	k.answer("the figure's number", "the loop")
	k.expect("is called \"the loop\"")
	k.answer("the figure's number", "Loop")
	k.expect("taken as 1")
	k.key("\x03")
	k.exit()

	dir, _ = ledgerIn(t, strings.ReplaceAll(book, `"P loop"`, `"loop"`))
	code, said = typed(t, dir, "log", "fault", "--flight", "last", "--figure", "loop", "--kind", "radius")
	require.Equal(t, exitUsage, code, said)
	require.Contains(t, said, `figures 1 and 2 are called "loop": which number is meant?`)
}

// TestTheAircraftIsAskedWhereItIsAnother asks for the aircraft only where the pilot's
// latest flight was in another one than the pilot's own; the flag takes it in any case.
func TestTheAircraftIsAskedWhereItIsAnother(t *testing.T) {
	dir, path := ledgerIn(t, strings.Replace(twoFigures, "pilot ines\n", "pilot ines\n  aircraft \"Acro\"\n", 1))
	flight := []string{"log", "flight", "--pilot", "ines", "--contest", "spring", "--sequence", "s", "--note", "x"}
	code, said := typed(t, dir, append(flight, "--date", "2026-04-18", "--aircraft", "Twin, 200 hp")...)
	require.Equal(t, exitDone, code, said)
	require.Contains(t, textOf(t, path), "  aircraft     \"Twin, 200 hp\"\n")
	k := startTalk(t, dir, append(flight, "--date", "2026-04-19")...)
	k.answer("the programme", "known")
	k.answer("the aircraft, - for none [Twin, 200 hp]: ", "-")
	k.expect("the judges")
	k.key("\x03")
	k.exit()
	code, said = typed(t, dir, append(flight, "--date", "2026-04-19")...)
	require.Equal(t, exitDone, code, said)
	k = startTalk(t, dir, append(flight, "--date", "2026-04-19", "--number", "2")...)
	k.answer("continue with it?", "no")
	k.answer("the programme", "known")
	k.expect("the judges")
	require.NotContains(t, k.everything(), "the aircraft")
	k.key("\x03")
	k.exit()
}

// autumnFlown is a day with two contests in the ledger, and a flight of it; its sequences
// are of two programmes.
const autumnFlown = `pilot klara

sequence k26
  category sportsman
  programme known
  1 K 10

sequence f26
  category sportsman
  programme free-known
  1 K 12

contest spring 2026-05-10..2026-05-11
  panel A B

contest autumn 2026-11-28..2026-11-29
  panel A B

flight 2026-11-29 klara free-known
  contest autumn
  sequence f26
  1 7 7
`

// TestOnlyWhatWasAnsweredIsComplainedOf takes a date, a pilot and a programme without a
// word about a contest, a sequence or a programme that nobody has typed yet.
func TestOnlyWhatWasAnsweredIsComplainedOf(t *testing.T) {
	spring := "contest spring 2026-05-10..2026-05-11\n  panel A B\n\n"
	free := "sequence f26\n  category sportsman\n  programme free-known\n  1 K 12\n\n"
	flown := autumnFlown[strings.Index(autumnFlown, "flight"):]
	for _, book := range []string{
		autumnFlown, strings.Replace(autumnFlown, spring, "", 1), strings.ReplaceAll(autumnFlown, "free-known", "unknown"),
		strings.NewReplacer(spring, "", free, "", flown, strings.ReplaceAll(strings.ReplaceAll(flown, "f26", "k26"), "free-known", "known")).Replace(autumnFlown),
	} {
		for _, programme := range []string{"known", "free-known", "unknown"} {
			dir, _ := ledgerIn(t, book)
			k := startTalk(t, dir, "log", "flight", "--asof", "2026-11-29")
			k.answer("the date [2026-11-29]: ", "")
			k.answer("the pilot [klara]: ", "")
			k.answer("the contest", "-")
			k.answer("the programme", programme)
			if strings.Contains(book, "klara "+programme+"\n") {
				k.expect("is there already; 2 makes this another flight of that day")
				k.answer("a number, to tell flights", "")
				k.expect("this is needed")
				k.answer("a number, to tell flights", "2")
			}
			k.expect("the sequence")
			for _, said := range []string{"is outside", "is not that", "type it again"} {
				require.NotContains(t, k.everything(), said, "%s\n%s", programme, book)
			}
			k.key("\x03")
			require.Equal(t, exitInterrupted, k.exit())
		}
	}
}

// TestAWrongAnswerIsAnsweredInTheQuestionsOwnWords says of a date that it is none, and
// of a choice what there is to choose from.
func TestAWrongAnswerIsAnsweredInTheQuestionsOwnWords(t *testing.T) {
	dir, _ := ledgerIn(t, autumnFlown)
	k := startTalk(t, dir, "log", "cost", "--contest", "spring", "--kind", "fuel", "--amount", "9 EUR", "--asof", "2026-11-29")
	k.answer("the date, such as 2026-04-18", "fuel")
	k.expect(`"fuel" is not a date (YYYY-MM-DD)`)
	k.answer("the date, such as 2026-04-18", "4.5.2026")
	k.expect(`"4.5.2026" is not a date (YYYY-MM-DD); write 2026-05-04`)
	k.answer("the date, such as 2026-04-18", "2026-04-31")
	k.expect("there is no day 2026-04-31")
	k.key("\x03")
	k.exit()

	k = startTalk(t, dir, "log", "fault", "--flight", "last", "--figure", "1", "--asof", "2026-11-29")
	k.answer("the kind of fault", "radius")
	k.answer("how much", "")
	k.answer("the code", "")
	for _, wrong := range []string{"1.12", "petra", "at"} {
		k.answer("seen by a judge's eye", wrong)
		k.expect(`"` + wrong + `" is neither: seen or felt, or Enter for none`)
	}
	k.answer("seen by a judge's eye", "f")
	k.expect("taken as felt")
	require.NotContains(t, k.everything(), "too late")
	k.key("\x03")
	k.exit()
}

// TestFlagsTakeWhatPromptsTake takes a date in the European order and an amount with a
// space before its unit, and says what they were taken for.
func TestFlagsTakeWhatPromptsTake(t *testing.T) {
	dir, path := ledgerIn(t, springFlown)
	code, said := typed(t, dir, "log", "cost", "--date", "29.04.2026", "--kind", "fuel", "--amount", "95 EUR", "--for", "ines")
	require.Equal(t, exitDone, code, said)
	require.Contains(t, said, "--date 29.04.2026: taken as 2026-04-29\n")
	for _, amount := range []string{"10 deg", "10°"} {
		code, said = typed(t, dir, "log", "fault", "--flight", "last", "--figure", "1", "--kind", "line-angle", "--amount", amount)
		require.Equal(t, exitDone, code, said)
		require.Contains(t, said, "--amount "+amount+": taken as 10deg\n")
	}
	require.Contains(t, textOf(t, path), "cost 2026-04-29 fuel 95 EUR for ines\n")
	require.Contains(t, textOf(t, path), "fault        1 line-angle 10deg\n")

	code, said = typed(t, dir, "log", "cost", "--date", "4.5.2026", "--kind", "fuel", "--amount", "95 EUR", "--for", "ines")
	require.Equal(t, exitInvalid, code, said) // the fourth of May, or the fifth of April
	require.NotContains(t, said, "taken as")

	k := startTalk(t, dir, "log", "fault", "--flight", "last", "--figure", "1", "--asof", "2026-11-29")
	k.answer("the kind of fault", "line-angle")
	k.answer("how much", "15 deg")
	k.expect("taken as 15deg")
	k.key("\x03")
	k.exit()
}

// TestANewPilotIsAskedAbout asks before a pilot is added on the way, where the ledger
// has others.
func TestANewPilotIsAskedAbout(t *testing.T) {
	dir, _ := ledgerIn(t, autumnFlown)
	k := startTalk(t, dir, "log", "flight", "--date", "2026-11-29", "--asof", "2026-11-29")
	k.answer("the pilot [klara]: ", "unknown")
	k.answer(`no pilot is called "unknown"; add one? (yes, no): `, "no")
	k.answer("the pilot [klara]: ", "")
	k.expect("the contest")
	k.key("\x03")
	k.exit()
}

// TestMarksWithoutAPoint takes a row as tired fingers type it.
func TestMarksWithoutAPoint(t *testing.T) {
	dir, path := ledgerIn(t, strings.Replace(twoFigures, "panel A B", "panel A B C D", 1))
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-18", "--programme", "known", "--contest", "spring", "--sequence", "s")
	k.answer("[ines]: ", "")
	k.answer("[A B C D]: ", "")
	k.answer("[figure]: ", "")
	k.answer(" 1  K 10  loop: ", "8 75 65 72")
	k.expect("grade 72 is above 10")
	k.answer(" 1  K 10  loop: ", "05 75 65 7")
	k.answer(" 2  K 12  roll: ", "10.0 100 15 00")
	k.nothingMore()
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	require.Contains(t, textOf(t, path), "  1            0.5   7.5  6.5  7\n  2            10.0  10   1.5  0\n")
}

// TestAPastedTabIsASpace takes what is copied out of a spreadsheet: cells with tabs
// between them, in the terminal's marks around a paste or not, lines with either end.
func TestAPastedTabIsASpace(t *testing.T) {
	dir, path := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-18", "--programme", "known", "--contest", "spring")
	k.answer("[ines]: ", "")
	k.expect("[s]: ")
	k.key("f26\r\n")
	k.answer("its category", "sportsman")
	k.expect("figure 1: ")
	k.key("8.5.2.1:10\t9.1.4.2:4\t\r\nK\t12\r\n")
	k.answer("figure 3", "")
	for _, question := range []string{"the K of positioning", "the K of harmony", "the total K"} {
		k.answer(question, "")
	}
	k.answer("[A B]: ", "A\tB")
	k.answer("[figure]: ", "")
	k.answer(" 1  K 14", "7,5\t8")
	k.answer(" 2  K 12", "\x1b[200~6.5\thz\x1b[201~")
	k.answer("a penalty", "low\t20")
	for _, question := range []string{"a penalty", "a ruling", "the official", "the place", "the field", "a video", "a note"} {
		k.answer(question, "")
	}
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	require.Contains(t, textOf(t, path), "  1            8.5.2.1:10 9.1.4.2:4\n  2            K 12\n")
	require.Contains(t, textOf(t, path), "  1            7.5  8\n  2            6.5  HZ\n  penalty      low 20\n")

	code, said := typed(t, dir, "log", "flight", "--date", "2026-04-19", "--pilot", "ines", "--contest", "spring", "--sequence", "s", "--panel", "A\tB", "--row", "8\t7", "--row", "6\t\t7")
	require.Equal(t, exitDone, code, said)
	require.Contains(t, textOf(t, path), "  1            8    7\n  2            6    7\n")
}

// TestTypingReplacesWhatIsOffered types a new answer where a refused one stands:
// the two are not run together.
func TestTypingReplacesWhatIsOffered(t *testing.T) {
	dir, _ := ledgerIn(t, "")
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-18", "--pilot", "9abc")
	k.expect(`"9abc" is not a name`)
	k.expect("typing replaces it")
	k.expect(": 9abc")
	k.key("ines\r")
	k.answer("the full name", "Ines Halloran")
	k.answer("the contest", "back")
	k.expect("Ines Halloran")
	k.key(" de Vries\r")
	k.expect("the contest")
	k.key("tarn")
	k.expect("tarn")
	k.key("\x03")
	require.Equal(t, exitInterrupted, k.exit())
	require.Contains(t, textOf(t, draftsIn(t, dir)[0]), `"Ines Halloran de Vries"`)
	k = startTalk(t, dir, "log", "flight")
	k.answer("continue with it?", "")
	k.expect("tarn")
	k.key("-open\r") // a line that was cut short goes on where it stopped
	k.answer("its days", "2026-04-18")
	k.expect("its full name")
	k.key("\x03")
	require.Equal(t, exitInterrupted, k.exit())
	require.Contains(t, textOf(t, draftsIn(t, dir)[0]), `"tarn-open"`)
}

// TestASheetInALedgerThatChanges asks again for sheets and judges' totals where
// the sequence or the panel is another one meanwhile.
func TestASheetInALedgerThatChanges(t *testing.T) {
	dir, path := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-18", "--programme", "known", "--contest", "spring", "--sequence", "s", "--pilot", "ines")
	k.answer("[A B]: ", "")
	k.answer("[figure]: ", "sheet")
	k.answer("sheet A", "8 7")
	k.answer("sheet B", "7 7")
	k.answer("a penalty", "")
	k.answer("the official", "120")
	k.answer("judges' totals", "130 110")
	k.expect("the place")
	changed := strings.Replace(twoFigures, "1 K 10 \"loop\"\n  2 K 12 \"roll\"", "1 K 12 \"roll\"\n  2 K 10 \"loop\"", 1)
	require.NoError(t, os.WriteFile(path, []byte(changed), 0o644))
	k.key("\r")
	for _, question := range []string{"the field", "a video", "a note"} {
		k.answer(question, "")
	}
	k.expect("the ledger has changed here")
	k.expect("sheet A, figures 1 to 2: 8 7")
	k.key("7 8\r")
	k.expect("sheet B, figures 1 to 2: 7 7")
	k.key("\r")
	k.expect("write it?")
	require.NoError(t, os.WriteFile(path, []byte(strings.Replace(changed, "panel A B", "panel B A", 1)), 0o644))
	k.key("yes\r")
	k.expect("[B A]: A B")
	k.key("B A\r")
	k.expect("judges' totals, as printed")
	k.expect("130 110")
	k.key("110 130\r")
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	text := textOf(t, path)
	require.Contains(t, text, "sheet A      7    8\n")
	require.Contains(t, text, "judge-totals 110 130\n")
}

// TestAFaultOfAFigureWithoutARow is taken as an editor's is: asked about once at the
// question, and said of flags.
func TestAFaultOfAFigureWithoutARow(t *testing.T) {
	const practice = twoFigures + "\nflight 2026-04-20 ines practice\n  sequence s\n  panel A\n  2 8\n"
	for _, args := range [][]string{
		{"log", "fault", "--figure", "1", "--kind", "radius"}, {"log", "review", "--fault", "2 radius", "--fault", "1 radius seen", "--fault", "1 pitch"},
	} {
		dir, path := ledgerIn(t, practice)
		code, said := typed(t, dir, append(args, "--flight", "last")...)
		require.Equal(t, exitDone, code, said)
		require.Equal(t, 1, strings.Count(said, "figure 1 has no row in 2026-04-20/ines/practice\n"), said)
		require.NotContains(t, said, "figure 2 has no row")
		require.Contains(t, textOf(t, path), "fault        1 radius")
	}
	dir, path := ledgerIn(t, practice)
	k := startTalk(t, dir, "log", "fault", "--flight", "last", "--kind", "radius")
	k.answer("the figure's number", "1")
	k.expect("figure 1 has no row in 2026-04-20/ines/practice (type it again if it is right)")
	k.answer("the figure's number", "1")
	for _, question := range []string{"how much", "the code", "seen by", "where it is", "the coach", "a remark"} {
		k.answer(question, "")
	}
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	require.Contains(t, textOf(t, path), "fault        1 radius\n")
	k = startTalk(t, dir, "log", "review")
	k.answer("the flight", "last")
	k.answer("the coach", "")
	k.answer("a fault", "1 pitch")
	k.expect("figure 1 has no row in 2026-04-20/ines/practice (type it again if it is right)")
	k.key("\x03")
	k.exit()
}

// TestListsAreTaken takes a list by several flags, by commas and by spaces.
func TestListsAreTaken(t *testing.T) {
	for _, flags := range [][]string{{"--for", "ines", "--for", "tobias"}, {"--for", "ines,tobias"}, {"--for", "ines, tobias"}, {"--for", "ines tobias"}} {
		dir, path := ledgerIn(t, "pilot ines\n\npilot tobias\n")
		code, said := typed(t, dir, append([]string{"log", "cost", "--date", "2026-01-10", "--kind", "fuel", "--amount", "30 EUR", "--by", "tobias"}, flags...)...)
		require.Equal(t, exitDone, code, said)
		require.Contains(t, textOf(t, path), "cost 2026-01-10 fuel 30 EUR for ines tobias by tobias\n")
	}
	dir, path := ledgerIn(t, "")
	k := startTalk(t, dir, "log", "contest", "--dates", "2026-06-20")
	k.answer("a short name", "redbank")
	for _, question := range []string{"its full name", "its site", "the last day", "its ladder", "its rule style"} {
		k.answer(question, "")
	}
	k.answer("its judges", "A, B,C")
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	require.Contains(t, textOf(t, path), "panel     A B C\n")
}

// TestABudgetOfIncomeIsOffered takes Enter for income where a kind was only ever that.
func TestABudgetOfIncomeIsOffered(t *testing.T) {
	dir, path := ledgerIn(t, "pilot ines\ncost 2026-01-10 membership 120.00 EUR for ines by club to club\n")
	k := startTalk(t, dir, "log", "budget", "-f", "book.boxbook", "--asof", "2026-05-01")
	k.answer("the year", "2026")
	k.answer("what it is for", "membership")
	k.answer("the amount", "240 EUR")
	k.answer("whether it is income (yes, no), - for none [yes]: ", "")
	k.answer("a remark", "")
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	require.Contains(t, textOf(t, path), "budget 2026 membership 240 EUR income\n")
}
