package commands

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/stretchr/testify/require"
)

// asCommand makes the test binary be boxbook.
const asCommand = "BOXBOOK_TEST_AS_COMMAND"

// talk is boxbook at a pseudo-terminal, and what it has said.
type talk struct {
	t    *testing.T
	cmd  *exec.Cmd
	tty  *os.File
	mu   sync.Mutex
	said bytes.Buffer
	read int // how much of what was said, plain, was waited for
	// silent is closed when nothing more will be said.
	silent chan struct{}
}

// startTalk runs boxbook in a folder at a pseudo-terminal of 80 columns.
func startTalk(t *testing.T, dir string, args ...string) *talk {
	t.Helper()
	exe, err := os.Executable()
	require.NoError(t, err)
	cmd := exec.Command(exe, args...)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), asCommand+"=1", "NO_COLOR=1", "BOXBOOK_LEDGER=")
	tty, err := pty.StartWithSize(cmd, &pty.Winsize{Rows: 40, Cols: 80})
	require.NoError(t, err)
	k := &talk{t: t, cmd: cmd, tty: tty, silent: make(chan struct{})}
	go k.listen()
	t.Cleanup(func() { _ = tty.Close(); _ = cmd.Process.Kill() })
	return k
}

func (k *talk) listen() {
	defer close(k.silent)
	b := make([]byte, 4096)
	for {
		n, err := k.tty.Read(b)
		k.mu.Lock()
		k.said.Write(b[:n])
		k.mu.Unlock()
		if err != nil {
			return
		}
	}
}

// expect waits until boxbook says a text that it has not said before; it may
// stand on several lines.
func (k *talk) expect(text string) {
	k.t.Helper()
	wanted := regexp.MustCompile(strings.ReplaceAll(regexp.QuoteMeta(text), " ", `\s+`))
	for deadline := time.Now().Add(30 * time.Second); time.Now().Before(deadline); time.Sleep(5 * time.Millisecond) {
		k.mu.Lock()
		fresh := plainScreen(k.said.String())[k.read:]
		if at := wanted.FindStringIndex(fresh); at != nil {
			k.read += at[1]
			k.mu.Unlock()
			return
		}
		k.mu.Unlock()
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	require.FailNow(k.t, "not said", "%q\nsaid since:\n%s", text, plainScreen(k.said.String())[k.read:])
}

// plainScreen takes the terminal's own controls and line wraps out.
func plainScreen(text string) string {
	var b strings.Builder
	for i := 0; i < len(text); i++ {
		if text[i] == 0x1b {
			for i++; i < len(text) && (text[i] < '@' || text[i] == '['); i++ {
			}
			continue
		}
		if text[i] != '\r' {
			b.WriteByte(text[i])
		}
	}
	return b.String()
}

func (k *talk) key(keys string) {
	k.t.Helper()
	_, err := k.tty.WriteString(keys)
	require.NoError(k.t, err)
}

// answer waits for a question and types a line.
func (k *talk) answer(question, line string) {
	k.t.Helper()
	k.expect(question)
	k.key(line + "\r")
}

// nothingMore leaves out whatever is asked of a flight behind its marks.
func (k *talk) nothingMore() {
	k.t.Helper()
	for _, question := range []string{"a penalty", "the official", "the place", "the field", "a video", "a note"} {
		k.answer(question, "")
	}
}

// asked waits until the screen ends with a question that was not there before.
func (k *talk) asked() {
	k.t.Helper()
	for deadline := time.Now().Add(30 * time.Second); time.Now().Before(deadline); time.Sleep(5 * time.Millisecond) {
		k.mu.Lock()
		screen := plainScreen(k.said.String())
		if len(screen) > k.read && strings.HasSuffix(screen, ": ") {
			k.read = len(screen)
			k.mu.Unlock()
			return
		}
		k.mu.Unlock()
	}
	require.FailNow(k.t, "nothing is asked", "%s", k.all())
}

// all is what was said since the beginning, as on the screen.
func (k *talk) all() string {
	k.mu.Lock()
	defer k.mu.Unlock()
	return plainScreen(k.said.String())
}

// exit waits for the end, and until all that was said is heard: what a process
// wrote last may still be on its way when it has gone.
func (k *talk) exit() int {
	k.t.Helper()
	done := make(chan error, 1)
	go func() {
		err := k.cmd.Wait()
		<-k.silent
		done <- err
	}()
	select {
	case <-done:
		return k.cmd.ProcessState.ExitCode()
	case <-time.After(30 * time.Second):
		require.FailNow(k.t, "boxbook does not end")
		return -1
	}
}

// elevenFigures is a sequence as a pilot types it from the form.
var elevenFigures = []string{
	`8.5.2.1:10 9.1.4.2:4 "half Cuban"`, `5.2.1.1:17 9.1.1.1:6 "stall turn"`, `K 14 2-rolling "rolling turn"`,
	`7.4.1.1:10 "loop"`, `1.2.6.3:8 9.11.1.4:5 "spin"`, `K 9`, `1.1.1.1:2 9.1.3.4:8 "slow roll"`, `2.2.1.1:4 "turn"`,
	`8.4.1.1:13 "humpty"`, `7.2.2.1:6 9.1.3.2:4 "half loop"`, `1.1.1.1:2 9.2.3.4:9 "two-point roll"`, `1.2.1.1:8 "forty-five"`,
}

// typeSequence types a sequence that is new, with slips on the way.
func (k *talk) typeSequence() {
	k.t.Helper()
	k.answer("its category", "intermediate")
	k.answer("figure 1: ", "8.5.2.1 9.1.4.2:4")
	k.expect("has no K")
	for i, figure := range elevenFigures {
		if i == 0 {
			k.answer("figure 1: ", figure)
			continue
		}
		k.answer("or Enter for none: ", figure)
	}
	k.answer("figure 13, or Enter for none: ", "")
	k.answer("the K of positioning", "20")
	k.answer("the K of harmony", "")
	k.answer("the total K, as printed", "170")
	k.expect("total K 170 is neither")
	k.answer("the total K, as printed", "-")
}

// TestGuidedFlight walks a whole evening from an empty folder: pilot, contest
// and sequence are new, twelve figures and five judges, a wrong mark, a row
// taken back, the score, the write.
func TestGuidedFlight(t *testing.T) {
	dir := t.TempDir()
	k := startTalk(t, dir, "log", "flight", "--asof", "2026-04-20")
	k.answer("date [2026-04-20]: ", "4.5.2026")
	k.expect(`"4.5.2026" is not a date`)
	k.answer("date [2026-04-20]: ", "18.04.2026") // can mean one day alone
	k.answer("pilot: ", "ines")
	k.answer("full name", "Ines Halloran")
	k.answer("contest", "Tarn Open")
	k.expect(`"Tarn Open" is not one word; a short name is meant, such as tarn-open`)
	k.answer("contest", "tarn-open")
	k.answer("its days", "2026-04-18..2026-04-19")
	k.answer("its full name", "Tarn Valley Open")
	k.answer("its rule style", "")
	k.answer("its judges", "A B C D E")
	k.answer("programme (", "Kno")
	k.answer("sequence", "known-26")
	k.typeSequence()
	k.answer("[A B C D E]: ", "")
	k.answer("marks by figure or by sheet [figure]: ", "")
	k.expect("judges: A B C D E; marks: 7.5 or 75, HZ, CHZ, PZ, AV not seen, - none")
	k.answer(" 1  K 14  half Cuban: ", "8 7.5 8 8.5")
	k.expect("4 marks, the panel has 5 judges")
	k.answer(" 1  K 14  half Cuban: ", "8 7.5 8.7 8.5 8")
	k.expect("grade 8.7 is not a half point (0, 0.5 ... 10)")
	k.answer(" 1  K 14  half Cuban: ", "8 7.5 8 8.5 8")
	k.answer(" 2  K 23  stall turn: ", "back")
	k.answer(" 1  K 14  half Cuban: ", "") // the row before stands on the line, to be accepted
	for i := 2; i <= 12; i++ {
		k.answer("  K ", "7 7,5 hz av 8")
	}
	k.answer("    K 20  positioning: ", "8 HZ 8 8 8")
	k.expect("HZ is not allowed in the positioning line")
	k.answer("    K 20  positioning: ", "8 7.5 8 8 8")
	k.answer("a penalty", "lo 20")
	k.expect(`"lo" is not a penalty`)
	k.answer("a penalty", "low 20")
	k.answer("a penalty", "none")
	k.answer("the official total", "1209.55")
	k.answer("the judges' totals", "")
	k.answer("the place", "3 of 9")
	k.answer("the field's totals", "")
	k.answer("a video", "")
	k.answer("a note", "18 kt across the box")
	k.answer("a note", "")
	k.expect("Ines Halloran, known programme, 2026-04-18")
	k.expect("Is the official total right?")
	k.answer("write it? (yes, no): ", "y")
	k.expect("added flight 2026-04-18/ines/known")
	require.Equal(t, exitDone, k.exit())
	text, err := os.ReadFile(filepath.Join(dir, "season.boxbook"))
	require.NoError(t, err)
	require.Contains(t, string(text), `  2            7    7.5  HZ   AV   8`)
	require.Contains(t, string(text), `  note         "18 kt across the box"`)
	require.NotContains(t, string(text), "panel        A B C D E\n  1", "the contest's panel is typed once")
	require.NoFileExists(t, filepath.Join(dir, ".season.boxbook.draft"))
	t.Chdir(dir)
	require.Equal(t, exitDone, run([]string{"check", "--strict", "--asof", "2026-04-20"}, readmeStreams(new(bytes.Buffer))))
}

// TestGuidedFlightInterrupted stops in the middle of a row, twice, and goes on:
// nothing typed is lost, not even the line under the cursor.
func TestGuidedFlightInterrupted(t *testing.T) {
	dir := t.TempDir()
	ledger := "pilot ines\n\nsequence s\n  category sportsman\n  programme known\n  1 K 10 \"loop\"\n  2 K 12 \"roll\"\n\n" +
		"contest spring 2026-04-18..2026-04-19\n  panel A B\n"
	path := filepath.Join(dir, "book.boxbook")
	require.NoError(t, os.WriteFile(path, []byte(ledger), 0o644))
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-18", "--programme", "known")
	k.answer("[ines]: ", "")
	k.answer("[spring]: ", "")
	k.answer("[s]: ", "")
	k.answer("[A B]: ", "")
	k.answer("[figure]: ", "")
	k.answer(" 1  K 10  loop: ", "8 7.5")
	k.expect(" 2  K 12  roll: ")
	k.key("6.5 7")
	k.expect("6.5 7")
	k.key("\x03")
	k.expect("the draft is kept")
	require.Equal(t, exitInterrupted, k.exit())
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, ledger, string(after))

	k = startTalk(t, dir, "log", "flight")
	k.answer("continue with it? (yes, no) [yes]: ", "")
	k.expect(" 2  K 12  roll: 6.5 7")
	k.key("\r")
	k.answer("a penalty", "")
	k.expect("the official total")
	k.key("\x04") // end of input stops, too
	k.expect("the draft is kept")
	require.Equal(t, exitInterrupted, k.exit())

	k = startTalk(t, dir, "log", "flight")
	k.answer("continue with it?", "yes")
	k.answer("the official total", "")
	k.answer("the place", "")
	k.answer("the field", "")
	k.answer("a video", "")
	k.answer("a note", "")
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	after, err = os.ReadFile(path)
	require.NoError(t, err)
	require.True(t, strings.HasPrefix(string(after), ledger), "every earlier byte stays")
	require.Contains(t, string(after), "2            6.5  7")
}

// TestGuidedFlightBySheet takes the marks judge by judge.
func TestGuidedFlightBySheet(t *testing.T) {
	dir := t.TempDir()
	ledger := "pilot ines\n\nsequence s\n  category sportsman\n  programme free\n  1 K 10\n  2 K 12\n  positioning K 5\n"
	path := filepath.Join(dir, "book.boxbook")
	require.NoError(t, os.WriteFile(path, []byte(ledger), 0o644))
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-18", "--programme", "free", "--contest", "-")
	k.answer("[ines]: ", "")
	k.answer("[s]: ", "")
	k.answer("judges", "A B missing C")
	k.answer("[figure]: ", "sheet")
	k.answer("sheet A, figures 1 to 2, positioning: ", "8 7")
	k.expect("sheet A has 2 marks, the sequence has 2 figures and positioning")
	k.answer("sheet A, figures 1 to 2, positioning: ", "A 8 7 8")
	k.expect("this is the sheet of judge A: its marks are meant, without the name")
	k.answer("sheet A, figures 1 to 2, positioning: ", "b")
	k.expect("this is the sheet of judge A: its marks are meant; the sheet of B is asked for behind it")
	k.answer("sheet A, figures 1 to 2, positioning: ", "A 7 8")
	k.answer("sheet B, figures 1 to 2, positioning: ", "A 8 7 8")
	k.expect("this is the sheet of judge B: its marks are meant; `back A` goes to the sheet of A")
	k.answer("sheet B, figures 1 to 2, positioning: ", "back A")
	k.answer("sheet A, figures 1 to 2, positioning: ", "8 7 8")
	k.answer("sheet B, figures 1 to 2, positioning: ", "7 7")
	k.expect("sheet B has 2 marks")
	k.answer("sheet B, figures 1 to 2, positioning: 7 7", " 7.5") // what was typed stands there, to be changed
	k.nothingMore()
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Contains(t, string(after), "missing C")
	require.Contains(t, string(after), "sheet")
}

// TestGuidedMaximum completes a total that stands without its maximum, after showing
// what it stands in place of, and asks for nothing that the flight has.
func TestGuidedMaximum(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "book.boxbook")
	text := "pilot ines\n\nflight 2025-09-01 ines free\n  category intermediate\n  official 1890.25 # by post\n  field 1 2 1890.25\n"
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	k := startTalk(t, dir, "log", "official")
	k.answer("the flight", "last")
	k.answer("the official total", "1890.35 of 2450")
	k.expect("has an official total already, 1890.25, in the flight at book.boxbook:3; `1890.25 of MAXIMUM` completes it")
	k.key("\x15")
	k.answer("the official total", "1890.25 of 2450")
	k.answer("the place", "")
	k.expect("official 1890.25 of 2450")
	k.expect("in place of official 1890.25")
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit(), k.all())
	require.Equal(t, strings.Replace(text, "1890.25 #", "1890.25 of 2450 #", 1), textOf(t, path))
	require.NotContains(t, k.all(), "the field's totals")
}

// TestGuidedAmount takes a currency in small letters, and asks for none behind a day.
func TestGuidedAmount(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "book.boxbook")
	text := "pilot ines\n\ncost 2026-01-16 entry 95.00 EUR for ines\ncost 2026-02-16 entry 95.00 CHF for ines\n"
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	k := startTalk(t, dir, "log", "cost", "--date", "2026-03-01", "--kind", "fuel", "--for", "ines")
	k.answer("the amount with its currency", "18.2.2026")
	k.expect("is not an amount")
	k.answer("the amount with its currency", "12,50 eur")
	k.expect("taken as 12,50 EUR")
	require.NotContains(t, k.all(), "its currency (")
}

// TestAskedForm asks for what a form's flags left out.
func TestAskedForm(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "book.boxbook")
	require.NoError(t, os.WriteFile(path, []byte("pilot ines\npilot tobias\n"), 0o644))
	k := startTalk(t, dir, "log", "settle", "--date", "2026-12-01")
	k.answer("who paid (ines, tobias, club): ", "")
	k.expect("this is needed")
	k.answer("who paid", "ines")
	k.answer("who was paid", "club")
	k.answer("the amount", "95.00 EUR")
	k.answer("the receipt", "")
	k.answer("a remark", "")
	k.expect("settle 2026-12-01 ines club 95.00 EUR")
	k.answer("write it?", "y")
	k.expect("added the settle line")
	require.Equal(t, exitDone, k.exit())
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Contains(t, string(after), "settle 2026-12-01 ines club 95.00 EUR\n")
}

// TestDraftSurvivesAKill ends boxbook without warning in the middle of the
// conversation and at the last question: the draft is there, whole, and the
// ledger is as it was.
func TestDraftSurvivesAKill(t *testing.T) {
	dir := t.TempDir()
	ledger := "pilot ines\n\nsequence s\n  category sportsman\n  programme free\n  1 K 10\n  2 K 12\n"
	path := filepath.Join(dir, "book.boxbook")
	require.NoError(t, os.WriteFile(path, []byte(ledger), 0o644))
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-18", "--programme", "free", "--contest", "-", "--panel", "A B")
	k.answer("[ines]: ", "")
	k.answer("[s]: ", "")
	k.answer("[figure]: ", "")
	k.answer(" 1  K 10", "8 7.5")
	k.expect(" 2  K 12")
	require.NoError(t, k.cmd.Process.Kill())
	k.exit()

	k = startTalk(t, dir, "log", "flight")
	k.expect("there is a draft: 2026-04-18 ines free, 1 row")
	k.answer("continue with it?", "")
	k.answer(" 2  K 12", "7 6.5")
	k.nothingMore()
	k.expect("write it?")
	require.NoError(t, k.cmd.Process.Kill())
	k.exit()
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, ledger, string(after))

	k = startTalk(t, dir, "log", "flight")
	k.expect("2 rows")
	k.answer("continue with it?", "")
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit())
}
