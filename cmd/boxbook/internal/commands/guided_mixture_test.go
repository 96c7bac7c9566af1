package commands

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// twoFigures is a ledger with all that a flight of two figures needs.
const twoFigures = "pilot ines\n\nsequence s\n  category sportsman\n  programme known\n  1 K 10 \"loop\"\n  2 K 12 \"roll\"\n\n" +
	"contest spring 2026-04-18..2026-04-19\n  panel A B\n"

// ledgerIn writes a ledger into a new folder, and says where.
func ledgerIn(t *testing.T, text string) (dir, path string) {
	t.Helper()
	dir = t.TempDir()
	path = filepath.Join(dir, "book.boxbook")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	return dir, path
}

func textOf(t *testing.T, path string) string {
	t.Helper()
	raw, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(raw)
}

// everything is all that boxbook has said, as it stands on the screen.
func (k *talk) everything() string {
	k.mu.Lock()
	defer k.mu.Unlock()
	return plainScreen(k.said.String())
}

// draftsIn are the drafts that stand in a folder, those set aside too.
func draftsIn(t *testing.T, dir string) []string {
	t.Helper()
	found, err := filepath.Glob(filepath.Join(dir, ".*draft*"))
	require.NoError(t, err)
	return found
}

// TestGuidedFlightKeepsWhatFlagsGave mixes flags and answers: what a flag gave
// is in the ledger and was not asked for.
func TestGuidedFlightKeepsWhatFlagsGave(t *testing.T) {
	dir, path := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-18", "--programme", "kno", "--row", "8 hz", "--penalty", "low 20",
		"--penalty", "other 5", "--resolve", "1 fill", "--judge-totals", "131 124.5", "--note", "windy", "--note", "two breaks", "--number", "3")
	k.answer("[ines]: ", "")
	k.answer("[spring]: ", "")
	k.answer("[s]: ", "")
	k.answer("[A B]: ", "")
	k.answer(" 2  K 12  roll: ", "6.5 7")
	k.answer("the official total", "100.5")
	k.answer("the place", "3 of 9")
	k.answer("the field", "")
	k.answer("a video", "")
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	said := k.everything()
	for _, asked := range []string{"a penalty", "a note", " 1  K 10", "judges' totals", "a ruling"} {
		require.NotContains(t, said, asked+",", "a flag's value is not asked again")
		require.NotContains(t, said, asked+":", "a flag's value is not asked again")
	}
	require.Equal(t, twoFigures+`
flight 2026-04-18 ines known 3
  contest      spring
  sequence     s
  1            8    HZ
  2            6.5  7
  penalty      low 20
  penalty      other 5
  resolve      1 fill
  official     100.5
  judge-totals 131 124.5
  place        3 of 9
  note         "windy"
  note         "two breaks"
`, textOf(t, path))
}

// TestGuidedFlightBySheetKeepsFlags takes one sheet by a flag and asks for the
// other; a draft that was interrupted still knows the flags.
func TestGuidedFlightBySheetKeepsFlags(t *testing.T) {
	dir, path := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-18", "--programme", "known", "--sheet", "B 7 7.5", "--note", "windy")
	k.answer("[ines]: ", "")
	k.answer("[spring]: ", "")
	k.answer("[s]: ", "")
	k.answer("[A B]: ", "")
	k.expect("sheet A, figures 1 to 2: ")
	k.key("\x03")
	k.expect("the draft is kept")
	k.exit()
	k = startTalk(t, dir, "log", "flight", "--place", "2 of 9")
	k.answer("continue with it?", "")
	k.answer("sheet A, figures 1 to 2: ", "8 6.5")
	for _, question := range []string{"a penalty", "the official", "the field", "a video"} {
		k.answer(question, "")
	}
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	text := textOf(t, path)
	for _, line := range []string{"  sheet A      8    6.5\n", "  sheet B      7    7.5\n", "  place        2 of 9\n", "  note         \"windy\"\n"} {
		require.Contains(t, text, line)
	}
}

// TestGuidedFlightSaysWhatIsWrongWithAFlag asks again for a flag's value that
// does not hold, with what was given on the line.
func TestGuidedFlightSaysWhatIsWrongWithAFlag(t *testing.T) {
	dir, path := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "flight", "--date", "31.04.2026", "--programme", "known", "--row", "8 8.7", "--row", "7 7")
	k.expect(`"31.04.2026" is not a date`)
	k.expect("date")
	k.key("\x15" + "2026-04-18\r")
	k.answer("[ines]: ", "")
	k.answer("[spring]: ", "")
	k.answer("[s]: ", "")
	k.answer("[A B]: ", "")
	k.expect("grade 8.7 is not a half point")
	k.expect(" 1  K 10  loop: 8 8.7")
	k.key("\x7f5\r")
	k.nothingMore()
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	require.Contains(t, textOf(t, path), "  1            8    8.5\n  2            7    7\n")
}

// TestGuidedFlightRefusesNamesThatCannotBe checks a name when it is given: no
// ledger could have it.
func TestGuidedFlightRefusesNamesThatCannotBe(t *testing.T) {
	dir, path := ledgerIn(t, "")
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-18")
	k.answer("pilot: ", "9abc")
	k.expect(`"9abc" is not a name`)
	k.answer("pilot: ", "2026-04-18")
	k.expect(`"2026-04-18" is not a name`)
	k.answer("pilot: ", "club")
	k.expect(`"club"`)
	k.answer("pilot: ", "ines")
	k.answer("full name", "")
	k.answer("contest", "4tarn")
	k.expect(`"4tarn" is not a name`)
	k.answer("contest", "-")
	k.answer("programme (", "known")
	k.answer("sequence", "26-known")
	k.expect(`"26-known" is not a name`)
	k.answer("sequence", "-")
	k.answer("category", "3")
	k.expect(`"3" is not a name`)
	k.answer("category", "spots")
	k.expect(`no category is called "spots"; did you mean "sports"?`)
	k.answer("category", "sportsman")
	for _, question := range []string{"a penalty", "the official"} {
		k.answer(question, "")
	}
	k.answer("the place", "3 of 9")
	k.answer("the field", "")
	k.answer("a video", "")
	k.answer("a note", "")
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	require.Contains(t, textOf(t, path), "flight 2026-04-18 ines known\n")
}

// TestDraftWithAnAnswerThatDoesNotHold goes on with drafts whose answers no
// ledger takes, or that the ledger has taken in meanwhile: what does not hold is
// asked again.
func TestDraftWithAnAnswerThatDoesNotHold(t *testing.T) {
	dir, path := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-18")
	k.answer("[ines]: ", "yuki")
	k.answer(`no pilot is called "yuki"; add one? (yes, no): `, "yes")
	k.answer("full name", "Yuki Lindqvist")
	k.expect("[spring]: ")
	k.key("\x03")
	k.exit()
	drafts := draftsIn(t, dir)
	require.Len(t, drafts, 1)
	kept := textOf(t, drafts[0])

	require.NoError(t, os.WriteFile(drafts[0], []byte(strings.ReplaceAll(kept, "yuki", "9abc")), 0o600))
	k = startTalk(t, dir, "log", "flight")
	k.answer("continue with it?", "")
	k.expect(`"9abc" is not a name`)
	k.expect("pilot")
	k.key("\x03")
	k.expect("the draft is kept")
	require.Equal(t, exitInterrupted, k.exit())

	require.NoError(t, os.WriteFile(drafts[0], []byte(kept), 0o600))
	require.NoError(t, os.WriteFile(path, []byte("pilot yuki\n\n"+twoFigures), 0o644))
	k = startTalk(t, dir, "log", "flight")
	k.answer("continue with it?", "")
	k.expect("[spring]: ")
	k.key("\x03")
	k.expect("the draft is kept")
	require.Equal(t, exitInterrupted, k.exit())
}

// TestDraftIsSetAsideByNoAlone asks again where the answer is unclear, and
// keeps what a clear no sets aside.
func TestDraftIsSetAsideByNoAlone(t *testing.T) {
	dir, _ := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-18", "--number", "7")
	k.expect("[ines]: ")
	k.key("\x03")
	k.exit()
	kept := textOf(t, draftsIn(t, dir)[0])

	k = startTalk(t, dir, "log", "practice") // another kind of entry has another draft
	k.expect("date")
	k.key("\x03")
	k.exit()

	for _, yes := range []string{"y", "YE", "ok", "o"} {
		k = startTalk(t, dir, "log", "flight")
		k.answer("continue with it? (yes, no) [yes]: ", "yea")
		k.answer("continue with it? (yes, no) [yes]: ", "nope")
		k.answer("continue with it? (yes, no) [yes]: ", yes)
		k.expect("[ines]: ")
		k.key("\x03")
		k.exit()
	}
	k = startTalk(t, dir, "log", "flight")
	k.answer("continue with it? (yes, no) [yes]: ", "No")
	k.expect("the draft is set aside as ")
	k.expect("date [")
	k.key("\x03")
	k.exit()
	var aside []string
	for _, path := range draftsIn(t, dir) {
		if textOf(t, path) == kept {
			aside = append(aside, path)
			require.Contains(t, k.everything(), filepath.Base(path))
		}
	}
	require.Len(t, aside, 1)
}

// TestYesAndNoAreReadOneWay holds the flag and the answer of a yes/no field to
// one reading; what is unclear is refused and asked again.
func TestYesAndNoAreReadOneWay(t *testing.T) {
	for answer, toClub := range map[string]bool{"No": false, "n": false, "N": false, "false": false, "0": false, "Yes": true, "y": true, "true": true, "1": true, "ok": true} {
		dir, path := ledgerIn(t, twoFigures)
		k := startTalk(t, dir, "log", "cost", "--date", "2026-01-10", "--kind", "membership", "--amount", "120 EUR", "--for", "ines", "--to-club", answer)
		require.Equal(t, exitDone, k.exit())
		require.Equal(t, toClub, strings.Contains(textOf(t, path), "to club"), answer)
	}
	dir, path := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "cost", "--date", "2026-01-10", "--kind", "membership", "--amount", "120 EUR", "--for", "ines", "--to-club", "perhaps")
	k.expect(`"perhaps" is neither yes nor no`)
	k.exit()
	require.NotContains(t, textOf(t, path), "to club")

	k = startTalk(t, dir, "log", "cost", "--date", "2026-01-10", "--kind", "membership", "--amount", "120 EUR")
	k.answer("the contest", "")
	k.answer("who it was for", "ines")
	k.answer("who paid", "")
	k.answer("the club received it", "perhaps")
	k.expect(`"perhaps" is neither yes nor no`)
	k.answer("the club received it", "N")
	k.answer("the receipt", "")
	k.answer("a remark", "")
	k.expect("each one's share: ines 120.00 EUR")
	k.answer("write it?", "ok")
	require.Equal(t, exitDone, k.exit())
	require.NotContains(t, textOf(t, path), "to club")
	require.Contains(t, textOf(t, path), "cost 2026-01-10 membership 120 EUR for ines\n")
}

// TestGuidedFlightInALedgerThatChanges asks again for what would now read
// otherwise: a K, and a panel, that somebody changed on the way.
func TestGuidedFlightInALedgerThatChanges(t *testing.T) {
	dir, path := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-18", "--programme", "known", "--pilot", "ines", "--row", "8 7.5")
	k.answer("[spring]: ", "")
	k.answer("[s]: ", "")
	k.answer("[A B]: ", "")
	k.answer(" 2  K 12  roll: ", "7 6.5")
	for _, question := range []string{"a penalty", "the official", "the place", "the field", "a video"} {
		k.answer(question, "")
	}
	k.expect("a note")
	changed := strings.Replace(twoFigures, "2 K 12", "2 K 21", 1)
	require.NoError(t, os.WriteFile(path, []byte(changed), 0o644))
	k.key("\r")
	k.expect("the ledger has changed")
	k.expect(" 2  K 21  roll: 7 6.5")
	k.key("\r")
	k.expect("write it?")
	changed = strings.Replace(changed, "panel A B", "panel A B C", 1)
	require.NoError(t, os.WriteFile(path, []byte(changed), 0o644))
	k.key("yes\r")
	k.expect("the ledger has changed")
	k.expect("[A B C]: A B")
	k.key(" C\r")
	k.expect("2 marks, the panel has 3 judges")
	k.expect(" 1  K 10  loop: 8 7.5")
	k.key(" 9\r")
	k.expect(" 2  K 21  roll: 7 6.5")
	k.key(" 9\r")
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	require.Contains(t, textOf(t, path), "  1            8    7.5  9\n  2            7    6.5  9\n")
}

// Codes are explained with what they are called in words.
func TestAQuestionNamesItsCodes(t *testing.T) {
	dir, _ := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "drill", "--date", "2026-05-02", "--pilot", "ines")
	k.answer("a kind of fault, or a family", "?")
	k.expect("line-angle    line at the wrong angle")
	k.expect("spins         spins")
	k.key("\x03")
	require.Equal(t, exitInterrupted, k.exit())
}

// TestAQuestionExplainsItself answers `?` and takes what is nearly a name that
// is known for a slip, once.
func TestAQuestionExplainsItself(t *testing.T) {
	dir, path := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "practice", "--date", "2026-05-02", "--sequence", "s", "--panel", "marek")
	k.answer("[ines]: ", "inse")
	k.answer(`no pilot is called "inse"; did you mean "ines"? (yes, no, new): `, "no")
	k.answer("[ines]: ", "back")
	k.expect("there is no answer before this one")
	k.answer("[ines]: ", "?")
	k.expect("there are: ines")
	k.answer("[ines]: ", "inse")
	k.answer("(yes, no, new): ", "new")
	k.answer("the full name", "")
	k.answer("[figure]: ", "box")
	k.expect(`"box" is not one of figure, sheet`)
	k.answer("[figure]: ", "")
	k.answer(" 1  K 10  loop, or Enter for none: ", "?")
	k.expect("a mark a judge: 8, 7.5 or 75, hz, pz, av")
	k.expect("for example: 8")
	k.answer(" 1  K 10  loop, or Enter for none: ", "")
	k.answer(" 2  K 12  roll, or Enter for none: ", "7.5")
	for _, question := range []string{"a video", "a note"} { // a printed result is a contest's
		k.answer(question, "")
	}
	k.answer("write it?", "perhaps")
	k.expect("yes writes it, no keeps the draft")
	k.answer("write it?", "n")
	k.expect("not written; the draft is kept")
	require.Equal(t, exitDone, k.exit())
	require.Equal(t, twoFigures, textOf(t, path))
	k = startTalk(t, dir, "log", "practice")
	k.answer("2026-05-02 inse, 2 rows", "")
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit())
	require.Contains(t, textOf(t, path), "pilot inse\n\nflight 2026-05-02 inse practice\n  sequence     s\n  panel        marek\n  2            7.5\n")
}

// TestBackBehindAnOfferedAnswer goes back from a question whose earlier answer
// stands on the line, and explains it, as from any other.
func TestBackBehindAnOfferedAnswer(t *testing.T) {
	dir, path := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "pilot")
	k.answer("a short name", "zoe")
	k.answer("the full name", "Zoe")
	k.answer("the club", "back")
	k.answer("the full name", "?")
	k.answer("the full name", "back")
	k.answer("a short name", "")
	k.answer("the full name", "")
	k.answer("the club", "")
	k.answer("the aircraft", "")
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit())
	require.Contains(t, textOf(t, path), "pilot zoe\n  name      \"Zoe\"\n")
}

// TestAFlagThatHasNoPlaceIsRefused drops nothing without a word, and the draft
// that is left can be gone on with.
func TestAFlagThatHasNoPlaceIsRefused(t *testing.T) {
	for _, flags := range [][]string{
		{"--row", "8 7", "--row", "7 7", "--row", "6 6"},
		{"--sheet", "Z 8 7"},
		{"--sheet", "A 8 7", "--sheet", "A 7 7"},
	} {
		dir, _ := ledgerIn(t, twoFigures)
		k := startTalk(t, dir, append([]string{"log", "flight", "--date", "2026-04-18", "--programme", "known", "--pilot", "ines"}, flags...)...)
		k.answer("[spring]: ", "")
		k.answer("[s]: ", "")
		k.answer("[A B]: ", "")
		k.expect("boxbook: " + flags[0])
		require.Equal(t, exitUsage, k.exit())
		k = startTalk(t, dir, "log", "flight")
		k.answer("continue with it?", "")
		k.expect("[figure]: ")
	}
}

// TestATextIsOneLine refuses a flag's value that would be several.
func TestATextIsOneLine(t *testing.T) {
	dir, path := ledgerIn(t, twoFigures)
	t.Chdir(dir)
	var said bytes.Buffer
	s := readmeStreams(&said)
	s.err = &said
	require.Equal(t, exitUsage, run([]string{"log", "flight", "--date", "2026-05-09", "--pilot", "ines", "--programme", "free", "--note", "a\nflight"}, s))
	require.Contains(t, said.String(), "is not one line of text")
	require.Equal(t, twoFigures, textOf(t, path))
}

// TestADraftThatCannotBeReadIsKept sets a draft aside that is no draft, and
// begins anew.
func TestADraftThatCannotBeReadIsKept(t *testing.T) {
	for _, text := range []string{"half of it", `{"kind":"flight","given":null,"answers":{},"under":{},"offered":{}}`, `{"kind":"cost","given":{},"answers":{},"under":{},"offered":{}}`} {
		dir, _ := ledgerIn(t, twoFigures)
		path := filepath.Join(dir, ".book.boxbook.flight.draft")
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		k := startTalk(t, dir, "log", "flight")
		k.expect("there is a draft that cannot be read")
		k.expect("the draft is set aside as .book.boxbook.flight.draft.1")
		k.answer("date [", "2026-04-18")
		k.expect("[ines]: ")
		k.key("\x03")
		k.exit()
		require.Equal(t, text, textOf(t, path+".1"))
		require.Contains(t, textOf(t, path), "2026-04-18")
	}
}
