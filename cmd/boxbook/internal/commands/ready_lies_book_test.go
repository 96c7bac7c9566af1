package commands

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// readyCases is where the ledgers that ask for a move up lie, and the books that
// they depart from.
const readyCases = "../../../../testdata/ready"

// noContest stands for a contest in the line of a practice flight.
const noContest = "-"

// lieBook is a ledger as its blocks: a head at column 0 and its indented lines.
type lieBook [][]string

// blocksIn reads blocks; comments and blank lines fall away.
func blocksIn(lines []string) (book lieBook) {
	for _, line := range lines {
		switch text := strings.TrimSpace(line); {
		case text == "" || strings.HasPrefix(text, "#"):
		case !strings.HasPrefix(line, " "):
			book = append(book, []string{line})
		default:
			book[len(book)-1] = append(book[len(book)-1], line)
		}
	}
	return book
}

// baseBook is one of the books of testdata/ready, by its name: what a `like`
// line names comes first.
func baseBook(t *testing.T, name string) lieBook {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join(readyCases, name+".book"))
	require.NoError(t, err)
	book := blocksIn(strings.Split(string(raw), "\n"))
	if like, found := strings.CutPrefix(book[0][0], "like "); found {
		return append(baseBook(t, like), book[1:]...)
	}
	return book
}

// find gives the places of the blocks whose head begins with these words.
func (b lieBook) find(head string) (places []int) {
	want := strings.Fields(head)
	for i, block := range b {
		have := strings.Fields(block[0])
		if len(have) >= len(want) && slices.Equal(have[:len(want)], want) {
			places = append(places, i)
		}
	}
	return places
}

// without is the book less the blocks with this head, of which there must be one.
func (b lieBook) without(t *testing.T, head string) lieBook {
	t.Helper()
	places := b.find(head)
	require.NotEmpty(t, places, "no block begins with %q", head)
	var rest lieBook
	for i, block := range b {
		if !slices.Contains(places, i) {
			rest = append(rest, block)
		}
	}
	return rest
}

// into is the book with these lines added to the one block with this head.
func (b lieBook) into(t *testing.T, head string, lines []string) lieBook {
	t.Helper()
	places := b.find(head)
	require.Len(t, places, 1, "one block must begin with %q", head)
	book := slices.Clone(b)
	book[places[0]] = slices.Concat(b[places[0]], lines)
	return book
}

// text is the book as a ledger: every `flown` line written out as a flight.
func (b lieBook) text(t *testing.T) string {
	t.Helper()
	var out strings.Builder
	for _, block := range b {
		if strings.HasPrefix(block[0], "flown ") {
			block = b.flown(t, block)
		}
		out.WriteString(strings.Join(block, "\n") + "\n")
	}
	return out.String()
}

// flown writes out `flown DATE PILOT PROGRAMME[/N] CONTEST SEQUENCE GRADES`: a
// contest flight with the same grade of every judge for a figure, the grades
// taken in turn. Lines of its body stand, and rows there go before the grades.
func (b lieBook) flown(t *testing.T, block []string) []string {
	t.Helper()
	words := strings.Fields(block[0])
	require.Len(t, words, 7, block[0])
	date, pilot, contest, sequence := words[1], words[2], words[4], words[5]
	out := []string{
		"flight " + date + " " + pilot + " " + strings.ReplaceAll(words[3], "/", " "), "  sequence " + sequence,
	}
	if contest != noContest {
		out = append(out, "  contest "+contest)
	}
	out = append(out, block[1:]...)
	judges, grades := b.judges(t, contest, block), strings.Split(words[6], "/")
	for i, row := range b.rowsOf(t, sequence) {
		if valueIn(block, row) == nil {
			out = append(out, "  "+row+strings.Repeat(" "+grades[i%len(grades)], judges))
		}
	}
	return out
}

// valueIn is the words behind a key in a block's body, nil if it is not there.
func valueIn(block []string, key string) []string {
	for _, line := range block[1:] {
		if words := strings.Fields(line); words[0] == key {
			return words[1:]
		}
	}
	return nil
}

// judges counts the panel of a flight: its own, else its contest's.
func (b lieBook) judges(t *testing.T, contest string, flight []string) int {
	t.Helper()
	panel := valueIn(flight, "panel")
	if panel == nil {
		places := b.find("contest " + contest)
		require.Len(t, places, 1, contest)
		panel = valueIn(b[places[0]], "panel")
	}
	if missing := slices.Index(panel, "missing"); missing >= 0 {
		panel = panel[:missing]
	}
	require.NotEmpty(t, panel, "%v", flight)
	return len(panel)
}

// rowsOf names the rows that a flight of a sequence must have.
func (b lieBook) rowsOf(t *testing.T, sequence string) (rows []string) {
	t.Helper()
	places := b.find("sequence " + sequence)
	require.Len(t, places, 1, sequence)
	for _, line := range b[places[0]][1:] {
		word := strings.Fields(line)[0]
		if _, err := strconv.Atoi(word); err == nil || word == "positioning" || word == "harmony" {
			rows = append(rows, word)
		}
	}
	return rows
}

// lieCase is one ledger and what the contract makes of it.
type lieCase struct {
	name, verdict string
	book          lieBook
	ask, want     []string
}

// readCases reads a file of cases. A case is "=== name" and, each at column 0
// with its own lines indented beneath:
//
//	# why, by the contract
//	from BOOK        the book that it departs from
//	ask ARGUMENT...  what is asked; "ready ines --asof 2026-09-20" if left out
//	without HEAD     a block (or several) taken out
//	into HEAD        lines added to a block
//	add              blocks added
//	want VERDICT     and beneath it what else must hold: see lieAnswer.hold
func readCases(t *testing.T, file string) (cases []lieCase) {
	t.Helper()
	raw, err := os.ReadFile(file)
	require.NoError(t, err)
	for _, text := range strings.Split("\n"+string(raw), "\n=== ")[1:] {
		name, rest, _ := strings.Cut(text, "\n")
		c := lieCase{name: name, ask: strings.Fields("ready ines --asof 2026-09-20")}
		for _, block := range blocksIn(strings.Split(rest, "\n")) {
			c.step(t, block)
		}
		require.NotEmpty(t, c.verdict, "%s wants nothing", name)
		cases = append(cases, c)
	}
	return cases
}

// step is one directive of a case.
func (c *lieCase) step(t *testing.T, block []string) {
	t.Helper()
	word, rest, _ := strings.Cut(block[0], " ")
	var body []string
	for _, line := range block[1:] {
		body = append(body, strings.TrimPrefix(line, "  "))
	}
	switch word {
	case "from":
		c.book = baseBook(t, rest)
	case "ask":
		c.ask = strings.Fields(rest)
	case "without":
		c.book = c.book.without(t, rest)
	case "into":
		c.book = c.book.into(t, rest, block[1:])
	case "add":
		c.book = append(c.book, blocksIn(body)...)
	case "want":
		c.verdict, c.want = rest, body
	default:
		require.Fail(t, fmt.Sprintf("%s: no directive is called %q", c.name, word))
	}
}
