//go:build speed

package workbook

import (
	"archive/zip"
	"bytes"
	"fmt"
	"html"
	"io"
	"math/rand"
	"regexp"
	"runtime/debug"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"boxbook/season"
)

// The bound on writing ten thousand rows of marks, against the library alone
// writing the same cells.
const mostTimes = 1.5

// A bare program that writes the same cells, formulas, styles (by ranges) and
// as many charts, and thinks of nothing, is the measure. Processor time is
// compared, the best of three, so that a busy machine does not decide.
func TestWritingCostsLittleMoreThanTheLibrary(t *testing.T) {
	defer debug.SetGCPercent(debug.SetGCPercent(400)) // for both, as the command does
	l := parse(t, manyFlights(770))
	since, _ := season.ParseDate("1990-01-01")
	start := processor()
	c := contentOf(l, season.Selection{Pilot: l.Pilots[0], Since: since})
	t.Logf("%d rows of marks, %d elements; answers and statistics: %s", len(c.grades), len(c.elements), processor()-start)
	require.Greater(t, len(c.grades), 10_000)

	var ours bytes.Buffer
	require.NoError(t, c.write(&ours))
	plain := readBare(t, ours.Bytes())
	cells := 0
	for _, s := range plain.sheets {
		cells += len(s.cells)
	}
	own := best(func() { require.NoError(t, c.write(io.Discard)) })
	bare := best(func() { require.NoError(t, plain.write(io.Discard)) })
	ratio := own.Seconds() / bare.Seconds()
	t.Logf("%d cells, %d bytes: ours %s, the library alone %s, ratio %.2f", cells, ours.Len(), own, bare, ratio)
	require.Less(t, ratio, mostTimes)
}

func BenchmarkSeasonOf25Flights(b *testing.B) {
	l := parse(b, manyFlights(25))
	since, _ := season.ParseDate("1990-01-01")
	for b.Loop() {
		book, o := writing(l, season.Selection{Pilot: l.Pilots[0], Since: since}, asked{})
		require.NoError(b, Write(io.Discard, book, o))
	}
}

// processor is the time that this process has had from the processor.
func processor() time.Duration {
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err != nil {
		panic(err)
	}
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}

func best(work func()) time.Duration {
	shortest := time.Duration(1 << 62)
	for range 3 {
		start := processor()
		work()
		shortest = min(shortest, processor()-start)
	}
	return shortest
}

// manyFlights is a ledger of so many flights of thirteen rows of marks.
func manyFlights(flights int) string {
	var b strings.Builder
	dice := rand.New(rand.NewSource(1))
	b.WriteString("pilot gen\n  name \"Gen Erated\"\n\nsequence round\n  category intermediate\n  programme known\n")
	for i, figure := range []string{
		"1.2.6.3:8 9.11.1.5:6", "7.2.2.1:6 9.1.3.2:4", "8.5.2.1:10 9.4.4.2:5", "5.2.1.1:17 9.1.1.1:6 9.1.5.1:2", "7.4.1.1:10", "2.3.1.1:5",
		"8.4.1.1:13 9.1.1.2:8", "1.1.1.1:2 9.9.3.4:11", "7.4.3.1:14", "1.2.1.1:8 9.1.2.4:10", "1.1.1.1:2 9.2.3.4:9", "2.2.3.1:22",
	} {
		fmt.Fprintf(&b, "  %d %s\n", i+1, figure)
	}
	b.WriteString("  positioning K 10\n")
	first, _ := season.ParseDate("2026-11-01")
	for n := range flights {
		day := first - season.Date(7*(flights-n))
		fmt.Fprintf(&b, "\ncontest c%d %s\n  name \"Contest %d\"\n  ladder us\n  panel AK BM CT DW\n", n, day, n)
		fmt.Fprintf(&b, "flight %s gen known\n  contest c%d\n  sequence round\n", day, n)
		for row := 1; row <= 13; row++ {
			name := strconv.Itoa(row)
			if row == 13 {
				name = "positioning"
			}
			b.WriteString("  " + name)
			for range 4 {
				fmt.Fprintf(&b, " %.1f", float64(8+dice.Intn(12))/2)
			}
			b.WriteString("\n")
		}
	}
	return b.String()
}

// bareBook is what a workbook comes to for a program that just writes it.
type bareBook struct {
	sheets []bareSheet
	styles []*excelize.Style
	charts int
}

type bareSheet struct {
	name  string
	cells []bareCell
	// ranges are runs of one style down a column.
	ranges []styleRange
}

type bareCell struct {
	name, formula, text string
	number              float64
	numeric             bool
}

type styleRange struct {
	from, to string
	style    int
}

func (p bareBook) write(w io.Writer) error {
	f := excelize.NewFile()
	defer f.Close()
	ids := make([]int, len(p.styles))
	for i, s := range p.styles {
		id, err := f.NewStyle(s)
		if err != nil {
			return err
		}
		ids[i] = id
	}
	for _, s := range p.sheets {
		if _, err := f.NewSheet(s.name); err != nil {
			return err
		}
		for _, c := range s.cells {
			var err error
			switch {
			case c.formula != "":
				err = f.SetCellFormula(s.name, c.name, c.formula)
			case c.numeric:
				err = f.SetCellFloat(s.name, c.name, c.number, -1, 64)
			case c.text != "":
				err = f.SetCellStr(s.name, c.name, c.text)
			}
			if err != nil {
				return err
			}
		}
		for _, r := range s.ranges {
			if err := f.SetCellStyle(s.name, r.from, r.to, ids[r.style]); err != nil {
				return err
			}
		}
	}
	for i := range p.charts {
		err := f.AddChart(p.sheets[0].name, fmt.Sprintf("T%d", 1+20*i), &excelize.Chart{
			Type:   excelize.Scatter,
			Series: []excelize.ChartSeries{{Name: "Season!$A$1", Categories: "Season!$B$40:$B$99", Values: "Season!$C$40:$C$99"}},
		})
		if err != nil {
			return err
		}
	}
	return f.Write(w)
}

var (
	anyCell  = regexp.MustCompile(`<c r="([A-Z]+)([0-9]+)"(?: s="([0-9]+)")?(?: t="([a-zA-Z]+)")?(?:></c>|/>|>(?:<f>([^<]*)</f>)?(?:<v>([^<]*)</v>)?(?:<is><t[^>]*>([^<]*)</t></is>)?</c>)`)
	anySheet = regexp.MustCompile(`<sheet name="([^"]*)"`)
)

// readBare takes a workbook apart into what it is made of.
func readBare(t *testing.T, raw []byte) bareBook {
	t.Helper()
	book := bareBook{}
	archive, err := zip.NewReader(bytes.NewReader(raw), int64(len(raw)))
	require.NoError(t, err)
	for _, f := range archive.File {
		if strings.HasPrefix(f.Name, "xl/charts/chart") {
			book.charts++
		}
	}
	f, err := excelize.OpenReader(bytes.NewReader(raw))
	require.NoError(t, err)
	defer f.Close()
	styles := map[int]int{}
	for i, m := range anySheet.FindAllStringSubmatch(part(t, raw, "xl/workbook.xml"), -1) {
		sheet := bareSheet{name: m[1]}
		runs := map[string]*styleRange{}
		ends := map[string]int{}
		for _, c := range anyCell.FindAllStringSubmatch(part(t, raw, fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1)), -1) {
			column, row, style, kind := c[1], c[2], c[3], c[4]
			cell := bareCell{name: column + row, formula: html.UnescapeString(c[5]), text: html.UnescapeString(c[7])}
			require.Contains(t, []string{"", "str", "inlineStr"}, kind)
			if cell.formula == "" && c[6] != "" {
				cell.number, err = strconv.ParseFloat(c[6], 64)
				require.NoError(t, err)
				cell.numeric = true
			}
			sheet.cells = append(sheet.cells, cell)
			if style == "" {
				continue
			}
			id, err := strconv.Atoi(style)
			require.NoError(t, err)
			at, known := styles[id]
			if !known {
				made, err := f.GetStyle(id)
				require.NoError(t, err)
				at = len(book.styles)
				styles[id] = at
				book.styles = append(book.styles, made)
			}
			number, _ := strconv.Atoi(row)
			if run := runs[column]; run != nil && run.style == at && ends[column] == number-1 {
				run.to, ends[column] = cell.name, number
				continue
			}
			if run := runs[column]; run != nil {
				sheet.ranges = append(sheet.ranges, *run)
			}
			runs[column], ends[column] = &styleRange{cell.name, cell.name, at}, number
		}
		for _, run := range runs {
			sheet.ranges = append(sheet.ranges, *run)
		}
		book.sheets = append(book.sheets, sheet)
	}
	return book
}
