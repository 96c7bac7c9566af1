package commands

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// keyed answers a question, and counts the keys with Enter.
type keyed struct {
	*talk
	keys *int
}

func (c keyed) says(question, line string) {
	c.t.Helper()
	*c.keys += len(line) + len("\r")
	c.answer(question, line)
}

// command counts a command's own line, and begins it.
func command(t *testing.T, dir string, keys *int, args ...string) keyed {
	t.Helper()
	*keys += len("boxbook "+strings.Join(args, " ")) + len("\r")
	return keyed{startTalk(t, dir, append(args, "--asof", "2026-04-20")...), keys}
}

// tenFigures are a sequence of ten figures, as typed from the form.
var tenFigures = []string{
	`8.5.2.1:10 9.1.4.2:4`, `5.2.1.1:17 9.1.1.1:6`, `7.4.1.1:10`, `1.2.6.3:8 9.11.1.4:5`, `2.2.1.1:4`,
	`1.1.1.1:2 9.1.3.4:8`, `8.4.1.1:13`, `7.2.2.1:6 9.1.3.2:4`, `1.1.1.1:2 9.2.3.4:9`, `1.2.1.1:8`,
}

// tenFiguresK is the total K of the figures, as printed.
const tenFiguresK = "116"

// fourJudges are the marks of ten figures and positioning by four judges.
var fourJudges = []string{
	"8 75 65 7", "75 7 7 75", "8 8 75 7", "65 7 6 7", "75 8 8 8", "7 65 7 7", "8 75 85 8", "6 65 7 65", "75 7 75 8", "8 8 7 75", "75 8 8 75",
}

// walkFlight answers all of a flight's questions behind the sequence; first are rows
// in the place of the first ones.
func (c keyed) walkFlight(first ...string) {
	c.t.Helper()
	c.says("[A B C D]: ", "")
	c.says("[figure]: ", "")
	for _, row := range append(first, fourJudges[len(first):]...) {
		c.says("  K ", row)
	}
	for _, question := range []string{"a penalty", "the official", "the place", "the field", "a video", "a note"} {
		c.says(question, "")
	}
}

// written ends a conversation, whose last look fits a screen.
func (c keyed) written() {
	c.t.Helper()
	c.expect("write it?")
	*c.keys += len("y\r")
	c.key("y\r")
	require.Equal(c.t, exitDone, c.exit(), c.everything())
}

// screenLines is how many lines a flight's last look may have.
const screenLines = 30

// TestKeysOfAFlight counts the keys of a flight of ten figures and four judges
// in a ledger that has its contest and sequence, and holds its last look to a
// screen.
func TestKeysOfAFlight(t *testing.T) {
	text := "pilot ines\n\nsequence known-26\n  category intermediate\n  programme known\n"
	for i, figure := range tenFigures {
		text += fmt.Sprintf("  %d %s\n", i+1, figure)
	}
	dir, path := ledgerIn(t, text+"  positioning K 20\n\ncontest tarn-open 2026-04-18..2026-04-19\n  panel A B C D\n")
	before := textOf(t, path)
	keys := 0
	k := command(t, dir, &keys, "log", "flight")
	keys = 0 // the conversation's own
	k.says("the date", "2026-04-18")
	k.says("[ines]: ", "")
	k.says("[tarn-open]: ", "")
	k.says("the programme", "k")
	k.says("[known-26]: ", "")
	k.walkFlight()
	k.written()
	_, look, _ := strings.Cut(k.everything(), "a note, or Enter for none: ")
	look, _, _ = strings.Cut(look, "write it?")
	require.LessOrEqual(t, strings.Count(strings.TrimSpace(look), "\n")+1, screenLines, look)
	require.Contains(t, look, "8.0  7.5  6.5  7.0")
	block := addedTo(t, before, textOf(t, path))
	editor := 0
	for _, line := range strings.Split(strings.TrimSpace(block), "\n") {
		editor += len(strings.Join(strings.Fields(line), " ")) + len("\n")
		if strings.HasPrefix(line, " ") {
			editor += len("  ")
		}
	}
	t.Logf("guided entry %d keys, an editor %d", keys, editor)
	require.LessOrEqual(t, keys, 131)
	require.Less(t, keys, editor)
}

// TestAFirstContest is the transcript of a first contest from an empty folder:
// three flights, two of them of one sequence, and what was seen in the video, all
// by guided entry. At three keys a second it is less than ten minutes.
func TestAFirstContest(t *testing.T) {
	const perSecond, seconds = 3, 10 * 60
	dir, keys := t.TempDir(), 0
	k := command(t, dir, &keys, "log", "flight")
	k.says("the date", "2026-04-18")
	k.says("the pilot", "ines")
	k.says("the full name", "Ines Halloran")
	k.says("the contest", "tarn-open")
	k.says("its days", "2026-04-18..2026-04-19")
	k.says("its full name", "Tarn Valley Open")
	k.says("its rule style", "")
	k.says("its judges", "A B C D")
	k.says("the programme", "k")
	k.newSequence("known-26", tenFigures, tenFiguresK)
	k.walkFlight()
	k.written()

	k = command(t, dir, &keys, "log", "flight")
	k.says("the date", "2026-04-18")
	k.says("[ines]: ", "")
	k.says("[tarn-open]: ", "")
	k.says("the programme", "free")
	k.newSequence("free-26", append([]string{"K 11"}, tenFigures[1:]...), "113")
	k.walkFlight()
	k.written()

	k = command(t, dir, &keys, "log", "flight")
	k.says("the date", "2026-04-19")
	k.says("[ines]: ", "")
	k.says("[tarn-open]: ", "")
	k.says("the programme", "free-k")
	k.says("the sequence", "known")
	k.expect("programme \"free-known\" is not that of sequence")
	k.says("the sequence", "known")
	k.walkFlight("75 75 65 7") // not the marks of the first flight once more
	k.expect("warning: programme \"free-known\" is not that of sequence")
	k.written()

	k = command(t, dir, &keys, "log", "review")
	k.says("the flight", "2026-04-18/ines/known")
	k.says("the coach", "")
	for _, fault := range []string{"1 line-angle 10deg at 0:12", "2 radius at 0:31", "4 timing felt at 1:02", "8 radius 2x at 1:40"} {
		k.says("a fault", fault)
	}
	k.says("a fault", "")
	k.says("a video", "videos/known.mp4")
	k.says("a video", "")
	k.says("a note", "")
	k.written()
	t.Logf("a first contest: %d keys, %d seconds at %d a second", keys, keys/perSecond, perSecond)
	require.LessOrEqual(t, keys, seconds*perSecond)
	raw, err := os.ReadFile(filepath.Join(dir, "season.boxbook"))
	require.NoError(t, err)
	for kind, want := range map[string]int{"\nflight ": 3, "sequence ": 2 + 3, "\n  fault ": 4, "\ncontest ": 1} {
		require.Equal(t, want, strings.Count(string(raw), kind), "%s\n%s", kind, raw)
	}
	require.Contains(t, string(raw), "total        K 116")
	code, said := typed(t, dir, "check")
	require.Equal(t, exitDone, code, said)
}

// newSequence types a sequence that the ledger lacks, with positioning of K 20.
func (c keyed) newSequence(handle string, figures []string, total string) {
	c.t.Helper()
	c.says("the sequence", handle)
	c.says("its category", "inter")
	for i, figure := range figures {
		c.says(fmt.Sprintf("figure %d", i+1), figure)
	}
	c.says(fmt.Sprintf("figure %d", len(figures)+1), "")
	c.says("the K of positioning", "20")
	c.says("the K of harmony", "")
	c.says("the total K, as printed", total)
}
