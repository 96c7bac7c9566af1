package sheetimport_test

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boxbook/season/sheetimport"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sound is the sheet whose parts are replaced by something odd.
var sound = [][]string{
	{"fig", "K", "A", "B", "C", "mean"},
	{"1", "14", "7.5", "8", "hz", "7.75"},
	{"2", "23", "av", "7", "6.5", "6.75"},
	{"3", "9", "8", "8", "-", "8"},
	{"positioning", "20", "8", "7.5", "8", "7.83"},
}

// layouts lay the sound sheet out in each way that is read, with the columns
// given or left to the headings.
var layouts = map[string]struct {
	columns string
	lay     func([][]string) [][]string
}{
	"wide": {"", func(cells [][]string) [][]string { return cells }},
	"wide, beneath a title": {"", func(cells [][]string) [][]string {
		return append([][]string{{"Tarn Valley Open", "", "Judges"}}, cells...)
	}},
	"wide, two columns given": {"figure=A,judges=C-D", func(cells [][]string) [][]string { return cells }},
	"wide, with a total": {"", func(cells [][]string) [][]string {
		return append(slices.Clone(cells), []string{"Total", "", "30", "36", "21", "29"})
	}},
	"long":                              {"", long},
	"long, the columns given":           {"figure=A,judge=B,mark=C", long},
	"long, beside a flight":             {"", func(cells [][]string) [][]string { return besideFlight(long(cells)) }},
	"turned round, a row each":          {"", turned},
	"wide, in another language":         {"", func(cells [][]string) [][]string { return abroad(cells) }},
	"turned round, in another language": {"", func(cells [][]string) [][]string { return turned(abroad(cells)) }},
	"wide, with the points of each":     {"", withPoints},
	"wide, judges in words":             {"", func(cells [][]string) [][]string { return inWords(cells) }},
}

func long(cells [][]string) [][]string {
	rows := [][]string{{"figure", "judge", "mark"}}
	for _, row := range cells[1:] {
		for column := 2; column < 5; column++ {
			rows = append(rows, []string{row[0], cells[0][column], row[column]})
		}
	}
	return rows
}

func besideFlight(rows [][]string) [][]string {
	for i := range rows {
		flight := "2026-04-18/ines/known"
		if i == 0 {
			flight = "flight"
		}
		rows[i] = append(rows[i], flight)
	}
	return append(rows, []string{"1", "A", "3", "2026-04-17/ines/known"})
}

// abroad has headings that nobody knows, and a total.
func abroad(cells [][]string) [][]string {
	cells = append(copied(cells), []string{"Celkem", "66", "", "", "", ""})
	cells[0][0], cells[0][1], cells[0][5] = "Číslo", "Koef", "Průměr"
	return cells
}

// withPoints has K x mark beside each judge's marks.
func withPoints(cells [][]string) [][]string {
	rows := make([][]string, len(cells))
	for i, row := range cells {
		rows[i] = append(rows[i], row[:2]...)
		for column := 2; column < 5; column++ {
			points := ""
			if i == 0 {
				points = "pts"
			} else if mark, err := strconv.ParseFloat(row[column], 64); err == nil {
				k, _ := strconv.Atoi(row[1])
				points = fmt.Sprint(float64(k) * mark)
			}
			rows[i] = append(rows[i], row[column], points)
		}
	}
	return rows
}

// inWords has the judges' names behind a word.
func inWords(cells [][]string) [][]string {
	cells = copied(cells)
	for column := 2; column < 5; column++ {
		cells[0][column] = "Juge " + cells[0][column]
	}
	return cells
}

func turned(cells [][]string) [][]string {
	rows := make([][]string, len(cells[0]))
	for _, row := range cells {
		for column, text := range row {
			rows[column] = append(rows[column], text)
		}
	}
	return rows
}

// oddHeadings and oddMarks stand where a judge's name and marks are looked for.
var (
	oddHeadings = []string{
		"Page", "Kind", "Pos", "Net", "Note", "Title", "", "B.", "Judge B.", "Judge 3 (chief)", "(chief)", "B / chief", "B, chief", "Chief judge", "1.5", "7", "*", "B*", "?", "Anna Berg", "Judge", "mark", "Nr.", "no", "#",
		"@2026-05-08", "=3", "=", "!#N/A", "?TRUE", "A", "a", "C", "Strip", "HZ", "½", "１", "\u00a0", "Zoë", "Bérénice", "B\u200b", "Richter 2", "裁判", "-",
	}
	oddMarks = []string{
		"", "7½", "7 ½", "½", "７．５", "８", "NS", "ns", "n/s", "?", "x", "85", "7,5", "7.3", "100", "@2026-05-08", "=", "!#N/A", "?TRUE", "HZ", "-", "–", "8*", "8 (HZ)",
		"DNF", "9.75", "7.5.", "08.05.2026", "A", "AV", "late", "\u00a0",
	}
)

func gridWith(rows [][]string) sheetimport.Grid {
	lines := make([]string, len(rows))
	for i, row := range rows {
		lines[i] = strings.Join(row, "|")
	}
	return gridOf(strings.Join(lines, "\n"))
}

func copied(cells [][]string) [][]string {
	out := make([][]string, len(cells))
	for i, row := range cells {
		out[i] = slices.Clone(row)
	}
	return out
}

// eachOdd gives the sound sheet with one judge's heading, one of his marks or
// all of them replaced.
func eachOdd(each func(what string, cells [][]string)) {
	for column := 2; column < 5; column++ {
		for _, heading := range oddHeadings {
			cells := copied(sound)
			cells[0][column] = heading
			each(fmt.Sprintf("heading %q for %s", heading, sound[0][column]), cells)
		}
		for _, mark := range oddMarks {
			all := copied(sound)
			for row := 1; row < len(sound); row++ {
				one := copied(sound)
				one[row][column], all[row][column] = mark, mark
				each(fmt.Sprintf("mark %q of %s in row %d", mark, sound[0][column], row), one)
			}
			each(fmt.Sprintf("marks %q of %s", mark, sound[0][column]), all)
			for row := 1; row < len(sound)-1; row++ {
				all = copied(all)
				all[row][column] = sound[row][column]
				each(fmt.Sprintf("marks %q of %s but %d", mark, sound[0][column], row), all)
			}
		}
	}
}

// Whatever stands in a judge's place, his marks are read or something is said
// to be wrong: no sheet comes out whole with fewer judges than it has.
func TestNoJudgeIsPassedOver(t *testing.T) {
	for name, layout := range layouts {
		for _, panel := range [][]string{nil, {"A", "B", "C"}} {
			t.Run(fmt.Sprint(name, panel), func(t *testing.T) {
				o := expected(panel...)
				o.Columns, _ = sheetimport.ParseColumns(layout.columns)
				eachOdd(func(what string, cells [][]string) {
					r := sheetimport.Recognise(gridWith(layout.lay(copied(cells))), o)
					if len(r.Problems) > 0 {
						return
					}
					require.Len(t, r.Panel, 3, what)
					for i, row := range r.Rows {
						require.Len(t, row, 3, what)
						for j, entry := range row {
							require.Equal(t, entryOf(t, cells[i+1][j+2]), entry, what)
						}
					}
				})
			})
		}
	}
}

// plainly are the odd marks that have one plain reading.
var plainly = map[string]string{"7½": "7.5", "7 ½": "7.5", "½": "0.5", "７．５": "7.5", "８": "8"}

// entryOf is the mark that a text means.
func entryOf(t *testing.T, text string) sheetimport.Entry {
	if plain, odd := plainly[text]; odd {
		text = plain
	}
	mark, problem, _ := readMark(text)
	require.Empty(t, problem, text)
	return sheetimport.Entry{Mark: mark, Read: true}
}

// What has one plain reading is read.
func TestPlainReadings(t *testing.T) {
	o := expected()
	r := sheetimport.Recognise(gridOf("fig|A.|Judge B.|３|mean\n1|7½|８|hz\n2|av|７．０|6 ½\n3|８|8|-\npositioning|8|7,5|8"), o)
	assert.Equal(t, "A B J3\n1 7.5 8.0 HZ\n2 AV 7.0 6.5\n3 8.0 8.0 -\npositioning 8.0 7.5 8.0", rowsOf(r, o))
	assert.Empty(t, r.Problems)
}

// A column that nobody reads is named with its place, and read past where it is
// said to be left out.
func TestColumnsLeftOut(t *testing.T) {
	const strip = "fig|A|B|Strip|C|mean\n1|7.5|8||hz\n2|av|7|x|6.5\n3|8|8||-\npositioning|8|7.5||8"
	for _, c := range []struct{ name, sheet, columns, said string }{
		{"a heading", strip, "", `D1 error: column D, "Strip", is neither a judge's column nor a known one, and no column is skipped
hint: put the judge's name at the head of a judge's column; leave out any other with --columns leave=D`},
		{"no heading", strings.Replace(strip, "Strip", "", 1), "", `D3 error: column D, with "x", is neither a judge's column nor a known one, and no column is skipped
hint: put the judge's name at the head of a judge's column; leave out any other with --columns leave=D`},
		{"columns given", strip, "figure=A,judges=B-C+E", `D1 error: column D, "Strip", is neither a judge's column nor a known one, and no column is skipped
hint: put the judge's name at the head of a judge's column; leave out any other with --columns figure=A,judges=B-C+E,leave=D`},
		{"left out by letters", strip, "leave=D", `note: not read: columns D "Strip", F "mean"`},
		{"left out by its heading", strip, "leave=strip", `note: not read: columns D "Strip", F "mean"`},
		{"left out of columns given", strip, "figure=A,judges=B-E,leave=D", `note: not read: columns D "Strip", F "mean"`},
		{"left out, but not there", strip, "leave=D+Stripe", `error: no column "Stripe": it is neither a heading nor letters from A to F`},
	} {
		t.Run(c.name, func(t *testing.T) {
			o := expected("A", "B", "C")
			var err error
			o.Columns, err = sheetimport.ParseColumns(c.columns)
			require.NoError(t, err)
			r := sheetimport.Recognise(gridOf(c.sheet), o)
			said := strings.ReplaceAll(saidOf(r), "note: not read: column F \"mean\"\n", "")
			assert.Equal(t, c.said, said)
			if len(r.Problems) == 0 {
				assert.Equal(t, whole, rowsOf(r, o))
			}
		})
	}
}

// The place of a judge may be merged in any way: what is hidden by it is an
// error, or nothing.
func TestMergedJudges(t *testing.T) {
	for _, panel := range [][]string{nil, {"A", "B", "C"}} {
		for left := 1; left <= 6; left++ {
			for right := left; right <= 6; right++ {
				for top := 1; top <= len(sound); top++ {
					for bottom := top; bottom <= len(sound); bottom++ {
						area := sheetimport.Area{Left: left, Top: top, Right: right, Bottom: bottom}
						checkMerged(t, expected(panel...), area)
					}
				}
			}
		}
	}
}

// checkMerged merges an area of the sound sheet, as programs do: only its first
// cell holds anything.
func checkMerged(t *testing.T, o sheetimport.Options, area sheetimport.Area) {
	cells := copied(sound)
	lost := 0
	for row := area.Top; row <= area.Bottom; row++ {
		for column := area.Left; column <= area.Right; column++ {
			if column == area.Left && row == area.Top {
				continue
			}
			cells[row-1][column-1] = ""
			if column >= 3 && column <= 5 && row > 1 {
				lost++
			}
		}
	}
	g := gridWith(cells)
	g.Merged = []sheetimport.Area{area}
	r := sheetimport.Recognise(g, o)
	if lost > 0 {
		require.NotEmpty(t, r.Problems, area)
	} else if len(r.Problems) == 0 {
		require.Len(t, r.Panel, 3, area)
	}
}
