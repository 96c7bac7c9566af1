package ledger

import (
	"bytes"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"boxbook/data"
	"boxbook/season"
	"boxbook/season/testkit/longledger"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// plainBook has flights of every kind that is read as plain text, and what stands
// between them.
const plainBook = `pilot ines
  name "Ines Halloran"
pilot tobias
coach marek
sequence free-26
  category intermediate
  programme free
  1 7.4.1.1:10
  2 8.5.2.1:10 9.1.4.2:4
  3 5.2.1.1:17
  4 1.1.1.1:2 9.1.3.4:8
  5 2.2.1.1:4
  positioning K 5
sequence glide
  category sportsman
  1 K 14
  2 K 10
  positioning K 5
  harmony K 5
contest longmere 2026-05-16..2026-05-18
  panel A B C
contest alder 2026-06-20
  rules as-graded
  ladder us
  panel A B missing C

flight 2026-05-16 ines free
  contest longmere
  sequence free-26
  1 8 7.5 8.5
  2 7,5 10 10.0   # the wind
  3 HZ 6.5 HZ
  4 AV 7.0 -
  5 9.5 0 PZ
  positioning 8 8 8.5
  penalty low 20 "below the box"
  penalty time 3,5
  official 300.5 of 600
  place 2 of 9 # of the category
  fault 1 radius 2x seen by marek
  fault 4 line-angle 5deg 3x on 9.1.3.4 felt at 1:12
  fault - timing "to the left"
  reviewed by marek
  aircraft "Extra 200"
  video "videos/free.mp4"
  note "the wind – gusts, Böen"
  note ""

# a comment between them

flight 2026-05-16 tobias free 2 # the second
	sequence	free-26
	contest	longmere
	1	8	7	8

	2	7	7	7
  # a comment of its own
	3	6	6.5	6
	4	8	8	8.5
	5	5	5.5	6
	positioning	7	7	7
flight 2026-06-20 ines known
  contest alder
  sequence glide
  1 8.0 A
  2 7.5 CHZ
  positioning 8.0 8.0
  harmony 7.0 6.5
flight 2026-06-20 ines practice
  contest alder
  sequence free-26
  1 8.0 7.0
  2 7.0 7.5

flight 2026-06-21 ines practice 2
  sequence free-26
  panel marek
  2 8.5
  5 7.5
  reviewed
  note "two figures" "of five"
flight 2026-06-22 ines practice
  aircraft ""
  sequence glide
  panel C D
  2 8.5 HZ
  positioning 8 7.5
  fault 2 radius at 0:30 "a pinch"
flight 2026-06-20 tobias known
  contest alder
  sequence glide
  1 8.0 7
  2 7.5 8
  positioning 8.0 8.0
  harmony 7.0 6.5

flight 2026-06-23 ines practice
  sequence glide
  panel C D
  2 8.5 HZ
  fault 2 radius by marek
  # of the same figure
  fault 2 radius by marek
review 2026-06-22/ines/practice
  fault 2 radius at 0:30 "a pinch"
  fault 2 radius
  fault 2 radius
review 2026-05-16/ines/free
  fault - timing "to the left"
cost 2026-06-21 fuel 40.00 EUR by ines for club
review 2026-05-16/tobias/free/2
  note "from the tribune"
drill 2026-06-21 ines radius "ten loops"
  prompted-by 2026-05-16/ines/free
`

// reading is what one of the two readers gives, flights apart.
type reading struct {
	diagnosed string
	errors    int
	ledger    season.Ledger
	flights   []*season.Flight
	prompted  []string // the flights of the drills
}

func readAs(t testing.TB, l tidyLedger, carefully bool, workers int) reading {
	t.Helper()
	result, err := Load(Options{
		Files: l.text, Main: l.main, Builtin: data.Builtin(), AsOf: day(t, casesToday), Workers: workers, carefully: carefully,
	})
	require.NoError(t, err, l.name)
	r := reading{diagnosed: diagnosed(result), errors: result.Diagnostics.Errors(), ledger: *result.Ledger, flights: result.Ledger.Flights}
	r.ledger.Flights = nil
	for _, d := range r.ledger.Drills {
		for _, f := range d.Prompted {
			r.prompted = append(r.prompted, f.Name)
		}
		d.Prompted = nil
	}
	return r
}

// requirePlainIsCareful holds the reader of plain flights against the one of lines.
func requirePlainIsCareful(t testing.TB, l tidyLedger, workers ...int) {
	t.Helper()
	want := readAs(t, l, true, 1)
	for _, n := range workers {
		got := readAs(t, l, false, n)
		said := fmt.Sprintf("%s, %d workers", l.name, n)
		if got.diagnosed != want.diagnosed {
			require.Equal(t, want.diagnosed, got.diagnosed, "%s\n%s", said, l.text[l.main])
		}
		require.True(t, reflect.DeepEqual(want.ledger, got.ledger), said)
		require.Equal(t, want.prompted, got.prompted, said)
		require.Equal(t, len(want.flights), len(got.flights), said)
		for i, f := range got.flights {
			requireSameFlight(t, want.flights[i], f, said)
			if want.errors == 0 {
				requireSameScore(t, want.flights[i], f, said)
			}
		}
	}
}

// requireSameFlight compares all that two flights say, however their rows are kept.
func requireSameFlight(t testing.TB, want, got *season.Flight, said string) {
	t.Helper()
	a, b := reflect.ValueOf(want).Elem(), reflect.ValueOf(got).Elem()
	for i := range a.NumField() {
		if field := a.Type().Field(i); field.IsExported() && field.Name != "Rows" && !reflect.DeepEqual(a.Field(i).Interface(), b.Field(i).Interface()) {
			require.Failf(t, "flights differ", "%s, %s: %s %v, %v", said, want.Name, field.Name, a.Field(i), b.Field(i))
		}
	}
	require.Equal(t, fmt.Sprint(slices.Collect(rowsOf(want))), fmt.Sprint(slices.Collect(rowsOf(got))), "%s, %s", said, want.Name)
}

// requireSameScore compares what two flights without errors are worth.
func requireSameScore(t testing.TB, want, got *season.Flight, said string) {
	t.Helper()
	if !reflect.DeepEqual(want.Score(), got.Score()) {
		require.Failf(t, "scores differ", "%s, %s", said, want.Name)
	}
	score, total := want.Score(), got.Total()
	require.Equal(t, score.Decided(), total.Decided(), "%s, %s", said, want.Name)
	require.Equal(t, score.Maximum, total.Maximum(), "%s, %s", said, want.Name)
	if score.Decided() {
		require.Zero(t, score.Points.Cmp(total.Points()), "%s, %s", said, want.Name)
	}
}

func diagnosed(r *Result) string {
	var b strings.Builder
	for _, d := range r.Diagnostics {
		fmt.Fprintln(&b, d.Error(), d.Code, d.Width, d.Hint, d.Fixes, d.Source)
	}
	return b.String()
}

// lone is a ledger of one file.
func lone(name, text string) tidyLedger {
	return tidyLedger{name: name, main: "a.boxbook", text: Memory{"a.boxbook": text}}
}

// plainIn counts the flights that are read as plain text, and those that are not.
func plainIn(t testing.TB, text string) (plain, others int) {
	t.Helper()
	r, err := load(Options{Files: Memory{"a": text}, Main: "a", Builtin: data.Builtin()}, text, nil)
	require.NoError(t, err)
	for _, b := range r.blocks[flightWord] {
		if b.run == nil {
			others++
			continue
		}
		for i := b.run.from; i < b.run.to; i++ {
			if b.run.piece.clean[i] {
				plain++
			} else {
				others++
			}
		}
	}
	return plain, others
}

func archiveText(t testing.TB, size int64) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, longledger.Archive(&b, io.Discard, size))
	return b.String()
}

// Both readers give the same ledger, the same diagnostics in the same order, however
// many read side by side: a hundred on ten lines too.
func TestPlainIsCareful(t *testing.T) {
	plain, others := plainIn(t, plainBook)
	assert.Equal(t, 7, plain)
	assert.Equal(t, 1, others, "a fault twice is said")
	requirePlainIsCareful(t, lone("book", plainBook), 1, 2, 3, 7, 100)
	requirePlainIsCareful(t, lone("lines of Windows", strings.ReplaceAll(plainBook, "\n", "\r\n")), 1, 3, 100)
	requirePlainIsCareful(t, lone("another maximum", strings.ReplaceAll(plainBook, "300.5 of 600", "300.5 of 460")), 1, 3, 100)
	requirePlainIsCareful(t, lone("mark", byteOrderMark+plainBook[strings.Index(plainBook, "flight"):]), 1, 3, 100)
	requirePlainIsCareful(t, lone("long", longledger.Text(longledger.Size{Pilots: 2, Seasons: 2, Contest: 20, Practice: 10, Last: 2026})), 1, 2, 5)
	for _, l := range tidyLedgers(t) {
		requirePlainIsCareful(t, l, 1, 3, 100)
	}
}

// Nearly all of an archive is plain, and what is not gives the same.
func TestArchiveIsPlain(t *testing.T) {
	text := archiveText(t, 300_000)
	plain, others := plainIn(t, text)
	assert.Greater(t, plain, 25*others)
	requirePlainIsCareful(t, lone("archive", text), 1, 2, 16)
}

// scratch changes texts by chance: a character, a word, a line.
type scratch struct{ *rand.Rand }

var scratches = []string{
	" ", "\t", "\"", "#", "\r", "\n", "\u00a0", "é", "\u200b", "\x00", "/", "0", "5", "10.0", "11", "7.25", "hz", "HZ", "CHZ", "a", "-", "–", ",", ".", "8", "“",
	"flight ", "\nflight ", "pilot", "positioning", "harmony", "sequence", "contest", "closed", "panel A B", "note \"x\"", "void", "official 120", "\n  official 120\n", "\n  place 3 of 2\n", "\n  penalty out 10\n", "\n  reviewed by dana\n", "\n  fault 9 radius\n", "\n  fault 1 radius 3deg\n",
	"\n  panel A B\n", "\n  panel A A\n", "\n  video \"\"\n", "\n  note \"a\u200bb\"\n", "of 0", "by marek", "seen", "felt", "at 1.12", "2:1", "3x", "1.5pt", "on 9.1.3.4", "on 1.1.1.1", "\n<<<<<<< HEAD\n",
	"\npilot x\n", "\nsequence glide\n", "\ncontest alder 2026-06-20\n", "\ninclude \"b.boxbook\"\n", "\nnonsense\n", "\n\u00a0 2 8 8\n", "2026-05-16", "practice", "known", "free",
}

func (s scratch) change(text string) string {
	for range 1 + s.IntN(3) {
		lines := strings.SplitAfter(text, "\n")
		at, to := s.IntN(len(lines)), s.IntN(len(lines))
		switch s.IntN(8) {
		case 0:
			lines = slices.Delete(lines, at, at+1)
		case 1:
			lines = slices.Insert(lines, to, lines[at])
		case 2:
			lines[at], lines[to] = lines[to], lines[at]
		case 3:
			lines[at] = strings.TrimLeft(lines[at], " \t")
		case 4:
			lines[at] = "  " + lines[at]
		case 5:
			words := strings.Fields(lines[at])
			others := strings.Fields(lines[to])
			if len(words) > 0 && len(others) > 0 {
				lines[at] = strings.Replace(lines[at], words[s.IntN(len(words))], others[s.IntN(len(others))], 1)
			}
		default:
			from := s.IntN(len(text))
			text = text[:from] + scratches[s.IntN(len(scratches))] + text[min(len(text), from+s.IntN(3)):]
			continue
		}
		if text = strings.Join(lines, ""); text == "" {
			text = "\n"
		}
	}
	return text
}

// scratched is how many ledgers are changed by chance; scratchedTo is a folder that
// they are written to, for another revision to read.
var (
	scratched   = flag.Int("scratched", 200, "how many ledgers with plain flights are changed by chance")
	scratchedTo = flag.String("scratched-to", "", "a folder to write the changed ledgers to")
)

func TestPlainIsCarefulScratched(t *testing.T) {
	s := scratch{rand.New(rand.NewPCG(21, 2026))}
	plain := 0
	for i := range *scratched {
		text := s.change(plainBook)
		if *scratchedTo != "" {
			require.NoError(t, os.WriteFile(filepath.Join(*scratchedTo, fmt.Sprint(i, ".boxbook")), []byte(text), 0o644))
		}
		n, _ := plainIn(t, text)
		plain += n
		l := lone("scratched", text)
		l.text["b.boxbook"] = plainBook[:strings.Index(plainBook, "sequence")]
		requirePlainIsCareful(t, l, 1, 100)
	}
	assert.Greater(t, plain, 2**scratched, "most flights stay plain")
}

// A flight begins a block wherever it stands at a line's beginning: pieces are cut
// there.
func TestFlightIsNoKey(t *testing.T) {
	for kind, spec := range blockSpecs {
		assert.NotContains(t, spec.keys, flightWord, kind)
	}
}
