package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func written(t *testing.T, d Document, options TextOptions) string {
	t.Helper()
	var out strings.Builder
	require.NoError(t, WriteText(&out, d, options))
	return out.String()
}

// blocks makes a document of one section without a heading.
func blocks(blocks ...Block) Document {
	return Document{Sections: []Section{{Blocks: blocks}}}
}

// season is a report with one of everything, and names in several scripts.
func season() Document {
	flights := &Table{
		Key: 1,
		Columns: []Column{
			{Title: "Date"},
			{Title: "Contest", Flexible: true, Min: 10},
			{Title: "Pilot", Flexible: true, Min: 8},
			{Title: "Percent", Align: Right},
			{Title: "Change", Align: Right, Drop: 2},
			{Title: "Noise", Align: Right, Drop: 1},
			{Title: "Prog", Align: Centre},
		},
		Rows: [][]Cell{
			{
				Text("2026-05-16"), Text("Longmere Spring Trophy of the Kestrel Aero Club"), Text("山田 花子"),
				Num(Float(67.565), 2).Marked("*"), Signed(Float(1.2), 1).Toned(Good), Num(Float(0.8), 1), Text("Q"),
			},
			{
				Text("2026-06-20"), Text("Coupe Re\u0301mi"), Text("👩‍✈️ Ana"),
				Num(Float(7.5), 2), Signed(Float(-12), 1).Toned(Bad), Num(Number{}, 1), Text("1"),
			},
			{Text("2026-07-04"), Text("Longmere"), Text("Łukasz"), Num(Int(100), 2).Marked("ab")},
		},
		Footer: [][]Cell{{Text("mean"), Empty(), Empty(), Num(Float(58.355), 2)}},
	}
	return Document{
		Title: "Season 2026", Subtitle: "Kestrel Aero Club",
		Sections: []Section{
			{Heading: "Flights", Blocks: []Block{flights, &Notes{Items: []Note{
				{Mark: "*", Text: "a mark was filled with the mean of the other judges, as the rules in force ask for"},
				{Mark: "ab", Text: "computed"},
				{Text: "percent of the maximum"},
			}}}},
			{Heading: "Trend", Blocks: []Block{
				&Series{Name: "Percent", Decimals: 1, Points: []Point{
					{"2026-05-16", Float(61.2)}, {"2026-05-17", Number{}}, {"2026-06-20", Float(67)}, {"2026-07-04", Float(65)},
				}},
				&Series{Name: "Noise", Decimals: 1, Points: []Point{{Value: Float(1)}, {Value: Float(1)}}},
				&Series{Name: "Places"},
				&Paragraph{Text: "Rising, though the season is short: need 6 flights for an interval that says more than this."},
				&Facts{Items: []Fact{
					{"Best", Num(Float(67.565), 2).Marked("*").Toned(Strong)},
					{"Worst", Num(Float(7.5), 2)},
					{"Mean", Empty()},
				}},
			}},
		},
	}
}

// composed writes the document with the accent of Rémi in one rune, as the
// expected texts below have it.
func composed(t *testing.T, d Document, width int) string {
	t.Helper()
	return strings.ReplaceAll(written(t, d, TextOptions{Width: width}), "e\u0301", "é")
}

func TestWriteTextAt140(t *testing.T) {
	assert.Equal(t, `Season 2026
Kestrel Aero Club

Flights

Date        Contest                                          Pilot      Percent   Change  Noise  Prog
─────────────────────────────────────────────────────────────────────────────────────────────────────
2026-05-16  Longmere Spring Trophy of the Kestrel Aero Club  山田 花子   67.57*     +1.2    0.8    Q
2026-06-20  Coupe Rémi                                       👩‍✈️ Ana       7.50     -12.0           1
2026-07-04  Longmere                                         Łukasz     100.00ab
─────────────────────────────────────────────────────────────────────────────────────────────────────
mean                                                                     58.36

*  a mark was filled with the mean of the other judges, as the rules in force ask for
ab computed
-  percent of the maximum

Trend

Percent  ▁·█▆  first 61.2 (2026-05-16), last 65.0 (2026-07-04)
Noise    ▄▄  1.0
Places   no values

Rising, though the season is short: need 6 flights for an interval that says more than this.

Best   67.57*
Worst   7.50
Mean
`, composed(t, season(), 140))
}

func TestWriteTextAt80(t *testing.T) {
	assert.Equal(t, `Season 2026
Kestrel Aero Club

Flights

Date        Contest                     Pilot      Percent   Change  Noise  Prog
────────────────────────────────────────────────────────────────────────────────
2026-05-16  Longmere Spring Trophy of…  山田 花子   67.57*     +1.2    0.8    Q
2026-06-20  Coupe Rémi                  👩‍✈️ Ana       7.50     -12.0           1
2026-07-04  Longmere                    Łukasz     100.00ab
────────────────────────────────────────────────────────────────────────────────
mean                                                58.36

*  a mark was filled with the mean of the other judges, as the rules in force
   ask for
ab computed
-  percent of the maximum

Trend

Percent  ▁·█▆  first 61.2 (2026-05-16), last 65.0 (2026-07-04)
Noise    ▄▄  1.0
Places   no values

Rising, though the season is short: need 6 flights for an interval that says
more than this.

Best   67.57*
Worst   7.50
Mean
`, composed(t, season(), 80))
}

func TestWriteTextAt40(t *testing.T) {
	assert.Equal(t, `Season 2026
Kestrel Aero Club

Flights

Date        Contest            Pilot
────────────────────────────────────────
2026-05-16  Longmere Spring…   山田 花子
2026-06-20  Coupe Rémi         👩‍✈️ Ana
2026-07-04  Longmere           Łukasz
────────────────────────────────────────
mean

Date        Percent   Prog
──────────────────────────
2026-05-16   67.57*     Q
2026-06-20    7.50      1
2026-07-04  100.00ab
──────────────────────────
mean         58.36
not shown at this width: Change, Noise

*  a mark was filled with the mean of
   the other judges, as the rules in
   force ask for
ab computed
-  percent of the maximum

Trend

Percent  ▁·█▆
         first 61.2 (2026-05-16), last
         65.0 (2026-07-04)
Noise    ▄▄  1.0
Places   no values

Rising, though the season is short: need
6 flights for an interval that says more
than this.

Best   67.57*
Worst   7.50
Mean
`, composed(t, season(), 40))
}

func TestWriteTextWidthDefaultsAndBounds(t *testing.T) {
	assert.Equal(t, written(t, season(), TextOptions{Width: 80}), written(t, season(), TextOptions{}))
	assert.Equal(t, written(t, season(), TextOptions{Width: 40}), written(t, season(), TextOptions{Width: 7}))
}

func TestWriteTextWithoutColour(t *testing.T) {
	t.Setenv("CLICOLOR_FORCE", "1")
	t.Setenv("FORCE_COLOR", "1")
	assert.NotContains(t, written(t, season(), TextOptions{}), "\x1b")
}

func TestWriteTextWithColour(t *testing.T) {
	t.Setenv("NO_COLOR", "1") // is for the caller to heed
	colored := written(t, season(), TextOptions{Color: true})
	for _, want := range []string{
		"\x1b[1mSeason 2026\x1b[0m\n", "\x1b[1mFlights\x1b[0m\n", "\x1b[32m+1.2\x1b[0m  ", " \x1b[31m-12.0\x1b[0m  ", "Best   \x1b[1m67.57*\x1b[0m\n",
	} {
		assert.Contains(t, colored, want)
	}
	without := strings.NewReplacer("\x1b[1m", "", "\x1b[31m", "", "\x1b[32m", "", "\x1b[0m", "").Replace(colored)
	assert.Equal(t, written(t, season(), TextOptions{}), without, "colour moves nothing")
}

func TestFaintTone(t *testing.T) {
	document := blocks(&Facts{Items: []Fact{{"noise", Text("not told apart from chance").Toned(Faint)}}})
	assert.Equal(t, "noise  \x1b[2mnot told apart from chance\x1b[0m\n", written(t, document, TextOptions{Color: true}))
}

func TestWriteTextOfLittle(t *testing.T) {
	for _, test := range []struct {
		name     string
		document Document
		want     string
	}{
		{"nothing", Document{}, ""},
		{"a title", Document{Title: "Season"}, "Season\n"},
		{"a subtitle", Document{Subtitle: "Longmere"}, "Longmere\n"},
		{"empty blocks", blocks(&Table{}, &Facts{}, &Notes{}), ""},
		{"a heading alone", Document{Sections: []Section{{Heading: "Faults"}}}, "Faults\n"},
		{"paragraphs", blocks(&Paragraph{Text: "one"}, &Paragraph{Text: "two\nthree"}), "one\n\ntwo\nthree\n"},
	} {
		t.Run(test.name, func(t *testing.T) {
			assert.Equal(t, test.want, written(t, test.document, TextOptions{}))
		})
	}
}

func TestFacts(t *testing.T) {
	document := blocks(&Facts{Items: []Fact{
		{"rules", Text("a hard zero counts where most of the judges gave one")},
		{"what the organiser printed on the sheet", Num(Float(1520.25), 2)},
		{"", Text("without a label")},
		{"see", Text("https://longmere.example/2026/spring/sheets")},
	}})
	assert.Equal(t, `rules  a hard zero counts where most of
       the judges gave one
what the organiser printed on the sheet
       1520.25
       without a label
see
  https://longmere.example/2026/spring/sheets
`, written(t, document, TextOptions{Width: 40}))
}

func TestSeriesTooLongShowsTheLatest(t *testing.T) {
	points := make([]Point, 100)
	for i := range points {
		points[i].Value = Int(int64(i))
	}
	document := blocks(&Series{Name: "Percent", Points: points})
	assert.Equal(t, "Percent  …▁▁▁▂▂▂▂▃▃▃▃▄▄▄▄▅▅▅▅▆▆▆▆▇▇▇▇███\n         first 70, last 99\n", written(t, document, TextOptions{Width: 40}))
}

func TestProseIsNotWrappedWiderThanTablesAre(t *testing.T) {
	long := strings.TrimSpace(strings.Repeat("word ", 60))
	lines := strings.Split(written(t, blocks(&Paragraph{Text: long}), TextOptions{Width: 200}), "\n")
	assert.Len(t, []rune(lines[0]), 99, "20 words of 4 letters and the spaces between")
}
