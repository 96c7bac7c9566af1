package longledger

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"strconv"
)

// The shape of a federation's archive: seasons of five contests in which every
// pilot flies four programmes, one a day, before the same panel.
const (
	archivePilots   = 250
	archiveContests = 5
	archiveFirst    = 1900 // the first season
)

// Archive writes an archive of so many bytes at least, about 1.7 million rows of
// figures in 50 MB: grades as people type them, 8 and 7.5, a blank between them.
// Two rows in a hundred have a comment, as many a hard zero, as many an average;
// one in a thousand a remark in quotes, and one flight in a hundred a penalty. The
// same size gives the same text. The rows of figures go to table too, as csv with
// the columns of ArchiveColumns.
func Archive(w, table io.Writer, size int64) error {
	a := &archive{
		dice: rand.New(rand.NewPCG(uint64(size), archivePilots)), out: bufio.NewWriterSize(w, 1<<16),
		table: bufio.NewWriterSize(table, 1<<16), k: map[string][]int{},
	}
	fmt.Fprintln(a.table, ArchiveColumns)
	a.text("# An invented archive, made to be long.\n")
	for p := range archivePilots {
		a.text(fmt.Sprintf("\npilot p%d\n  name      \"Pilot the %dth\"\n  club      \"Kestrel Aero Club\"\n", p+1, p+1))
	}
	for year := archiveFirst; a.written < size; year++ {
		a.season(year, size)
	}
	return errors.Join(a.out.Flush(), a.table.Flush())
}

// ArchiveColumns are those of the rows of figures: the flight's number from 1, the
// figure's, its K, and what the five judges gave, as typed.
const ArchiveColumns = "flight,figure,k,m1,m2,m3,m4,m5"

// archive is an archive as it is written.
type archive struct {
	dice    *rand.Rand
	out     *bufio.Writer
	table   *bufio.Writer
	k       map[string][]int // of each sequence's figures
	flights int
	written int64
	line    []byte // the marks of a row, room for the next
}

// text writes a piece of text; an error stays in the writer until the end.
func (a *archive) text(s string) {
	n, _ := a.out.WriteString(s)
	a.written += int64(n)
}

func (a *archive) season(year int, size int64) {
	for _, programme := range programmes[:4] {
		a.k[programme] = a.k[programme][:0]
		a.text(fmt.Sprintf("\nsequence %s-%d\n  category     advanced\n  programme    %s\n", programme, year, programme))
		order := a.dice.Perm(len(figures))
		for n := range Figures {
			a.text(fmt.Sprintf("  %-12d %s\n", n+1, figures[order[n]]))
			a.k[programme] = append(a.k[programme], kOf(figures[order[n]]))
		}
		a.text("  positioning  K 10\n")
	}
	for c := range archiveContests {
		month := 4 + c
		a.text(fmt.Sprintf("\ncontest c%d-%d %d-%02d-10..%d-%02d-14\n  name      \"Contest %d of %d\"\n  panel     AK BM CT DW RS\n", year, c, year, month, year, month, c+1, year))
		for day, programme := range programmes[:4] {
			for p := range archivePilots {
				if a.written >= size {
					return
				}
				a.flight(fmt.Sprintf("%d-%02d-%d", year, month, 10+day), p, programme, year, c)
			}
		}
	}
}

func (a *archive) flight(date string, p int, programme string, year, c int) {
	a.text(fmt.Sprintf("\nflight %s p%d %s\n  contest c%d-%d\n  sequence %s-%d\n", date, p+1, programme, year, c, programme, year))
	a.flights++
	level := 10 + a.dice.IntN(5)
	for figure := range Figures {
		a.row(strconv.Itoa(figure+1), level, true)
		fmt.Fprintf(a.table, "%d,%d,%d", a.flights, figure+1, a.k[programme][figure])
		for _, mark := range bytes.Fields(a.line) {
			a.table.WriteByte(',')
			a.table.Write(mark)
		}
		a.table.WriteByte('\n')
	}
	a.row("positioning", level, false)
	if a.dice.IntN(100) == 0 {
		a.text("  penalty low 20\n")
	}
}

// row writes a row of marks of the whole panel about a level in half points.
func (a *archive) row(name string, level int, zeros bool) {
	line, odd := a.line[:0], -1 // the judge with a mark that is no grade
	chance := a.dice.IntN(1000)
	if zeros && chance < 40 {
		odd = a.dice.IntN(judges)
	}
	for j := range judges {
		switch half := level + a.dice.IntN(6); {
		case j == odd && chance < 20:
			line = append(line, " HZ"...)
		case j == odd:
			line = append(line, " AV"...)
		case half%2 == 1:
			line = append(line, ' ', byte('0'+half/2), '.', '5')
		default:
			line = append(line, ' ', byte('0'+half/2))
		}
	}
	a.line = line
	a.text("  " + name + string(line))
	switch {
	case chance >= 980:
		a.text("   # as on the form")
	case chance == 979:
		a.text(` "low in the corner"`)
	}
	a.text("\n")
}
