package pages

import (
	"encoding/json"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/season"
)

// lostOf is where a flight's points went.
func lostOf(f *season.Flight) *answers.Lost { return answers.FlightOf(f).Lost }

func TestWhereThePointsWent(t *testing.T) {
	f := faultBook(t, kestrelBook+kestrelFlight).Flights[0]
	doc := report.Document{Sections: lostSections(lostOf(f))}
	assert.Equal(t, lostPageText, textOf(t, doc))
}

func TestLostJSON(t *testing.T) {
	const flight = `
flight 2026-04-18 ines practice
  sequence     known-26
  panel        A B
  3            7.0  7.5
  5            8.0  9.0
  6            HZ   9.0
  positioning  8.0  8.0
`
	data := lostOf(faultBook(t, kestrelBook+flight).Flights[0])
	encoded, err := json.Marshal(data)
	require.NoError(t, err)
	// [derived]: K 14 x 2.75 = 38.5, shared 22 and 16.5; 9 x 1.5; 10 x 2; 72 in all.
	assert.JSONEq(t, `{
		"total": 72,
		"figures": [{"number": 3, "label": "one and a quarter spin", "lost": 38.5, "share": 0.5347222222222222}, {"number": 5, "label": "unlabelled", "lost": 13.5, "share": 0.1875}],
		"positioning": {"lost": 20, "share": 0.2777777777777778},
		"elements": [
			{"code": "1.2.6.3", "figures": [3], "lost": 22, "share": 0.3055555555555556},
			{"code": "9.11.1.5", "figures": [3], "lost": 16.5, "share": 0.22916666666666666},
			{"code": "", "figures": [5], "lost": 13.5, "share": 0.1875}],
		"groups": [
			{"group": "1", "lost": 22, "share": 0.3055555555555556},
			{"group": "spins", "lost": 16.5, "share": 0.22916666666666666},
			{"group": "no family", "lost": 13.5, "share": 0.1875}],
		"undecided": 1}`, string(encoded))
	page := textOf(t, report.Document{Sections: lostSections(data)})
	assert.Contains(t, page, "- 1 line is undecided and left out: the shares are of the decided ones")
	assert.Contains(t, page, "- a figure's loss is shared among its elements in proportion to K")
	assert.Contains(t, page, "72.00 points lost, penalties not included; most on figure 3, one and a quarter\nspin: 38.50; by family, most on lines and angles: 22.00")
}

func TestNothingToShare(t *testing.T) {
	const flight = "flight 2026-04-18 ines practice\n  sequence known-26\n"
	bare := faultBook(t, kestrelBook+flight+"  official 400\n").Flights[0]
	assert.Nil(t, lostOf(bare))
	assert.Empty(t, lostSections(nil))
	full := lostOf(faultBook(t, kestrelBook+flight+"  panel A\n  4 10\n").Flights[0])
	assert.Equal(t, "Where the points went\n\nno points were lost", textOf(t, report.Document{Sections: lostSections(full)}))
	encoded, err := json.Marshal(full)
	require.NoError(t, err)
	assert.JSONEq(t, `{"total":0,"figures":[{"number":4,"label":"round loop","lost":0}],"elements":[{"code":"7.4.1.1","figures":[4],"lost":0}],"groups":[{"group":"7","lost":0}]}`, string(encoded))
	familiar := lostOf(faultBook(t, kestrelBook+flight+"  panel A\n  5 2\n  4 9\n").Flights[0])
	assert.Equal(t, "82.00 points lost, penalties not included; most on figure 5, unlabelled: 72.00; of the families, most on loops, part loops and eights: 10.00", words.LostSentence(familiar))
	strange := lostOf(faultBook(t, kestrelBook+flight+"  panel A\n  5 8\n  positioning 7\n").Flights[0])
	assert.Equal(t, "48.00 points lost, penalties not included; most on positioning: 30.00", words.LostSentence(strange))
	open := lostOf(faultBook(t, kestrelBook+flight+"  panel A B\n  4 HZ 8\n").Flights[0])
	assert.Equal(t, "Where the points went\n\nnothing to share out\n\n- 1 line is undecided and left out: the shares are of the decided ones", textOf(t, report.Document{Sections: lostSections(open)}))
}

// A figure without a label is named by its codes, as on the sheet.
func TestLossesNameFiguresByCodes(t *testing.T) {
	book := strings.NewReplacer(`"round loop"`, "", `"rolling turn"`, "").Replace(kestrelBook)
	require.NotEqual(t, kestrelBook, book)
	rows := words.FigureRows(lostOf(faultBook(t, book+"flight 2026-04-18 ines practice\n  sequence known-26\n  panel A\n  4 7\n  3 8.5\n  6 9\n").Flights[0]))
	assert.Equal(t, []string{"7.4.1.1", "one and a quarter spin", "rolling turns and slow rolls"}, []string{rows[0].Name, rows[1].Name, rows[2].Name})
}

// The rows of each table sum to the loss, the summed-up rest among them.
func TestTablesSumToTheLoss(t *testing.T) {
	data := lostOf(faultBook(t, kestrelBook+kestrelFlight).Flights[0])
	for _, rows := range [][]words.LostRow{words.FigureRows(data), words.ElementRows(data), words.GroupRows(data)} {
		sum, shown := new(big.Rat), 0.0
		for i, row := range rows {
			sum.Add(sum, row.Part.Lost.Rat())
			require.True(t, i == 0 || row.Part.Lost.Rat().Cmp(rows[i-1].Part.Lost.Rat()) <= 0, "most first")
		}
		require.Zero(t, sum.Cmp(data.Total.Rat()))
		table := tables.LostTable(data, words.LostByFigure, rows)
		require.LessOrEqual(t, len(table.Rows), words.TopLosses+1)
		for _, row := range table.Rows {
			number, ok := row[2].Number()
			require.True(t, ok)
			shown += number.Float64()
		}
		require.InDelta(t, data.Total.Float64(), shown, 1e-9)
	}
}

// lostPageText is the section of kestrelFlight. Figure 2, K 23 at 6.75, lost 74.75:
// 46 are charged to 9.1.1.1, of the other 28.75 it has 6 of 23 [derived].
const lostPageText = `Where the points went

352.08 points lost, penalties not included; most on figure 5, unlabelled: 90.00
(a zero, against full marks); by family, most on slow rolls: 104.67

by figure
fig  figure                         lost  share %
─────────────────────────────────────────────────────────────
  5  unlabelled                    90.00     25.6  ██████████
     a zero
  2  stall turn, quarter roll up   74.75     21.2  ████████▎
  3  one and a quarter spin        49.00     13.9  █████▌
  6  rolling turn                  39.67     11.3  ████▍
  1  half Cuban                    30.33      8.6  ███▍
     3 more                        68.33     19.4
─────────────────────────────────────────────────────────────
     all                          352.08    100.0

by element
code      where                 lost  share %
─────────────────────────────────────────────────────────
          figure 5, no codes   90.00     25.6  ██████████
          all of it a zero in figure 5
9.1.1.1   figure 2             53.50     15.2  ██████
9.11.1.5  figure 3             41.00     11.6  ████▌
9.1.3.4   figure 7             22.67      6.4  ██▌
8.5.2.1   figure 1             21.67      6.2  ██▍
          8 more              123.25     35.0
─────────────────────────────────────────────────────────
          all                 352.08    100.0

by family
key    family                                     lost  share %
───────────────────────────────────────────────────────────────────────────
9.1    slow rolls                               104.67     29.7  ██████████
       no family                                 90.00     25.6  ████████▋
       all of it a zero in figure 5
spins  spins                                     41.00     11.6  ███▉
8      combinations of lines, angles and loops   21.67      6.2  ██▏
       positioning                               21.67      6.2  ██▏
       4 more                                    73.08     20.8
───────────────────────────────────────────────────────────────────────────
       all                                      352.08    100.0

- a fault noted on an element is charged to it first; the rest of a figure's
  loss is shared in proportion to K`

// A family that lost points by a zero, not by how it was flown, has that said beneath its
// row, in the sentence and in JSON.
func TestZerosAreSaidAmongLosses(t *testing.T) {
	const flight = `
flight 2026-04-18 ines practice
  sequence     known-26
  panel        A B
  3            HZ   HZ
  5            8.0  9.0
`
	data := lostOf(faultBook(t, kestrelBook+flight).Flights[0])
	page := flatText(t, report.Document{Sections: lostSections(data)})
	assert.Contains(t, page, "most on figure 3, one and a quarter spin: 140.00 (a zero, against full marks); by family, most on lines and angles: 80.00 (all of it a zero in figure 3)")
	assert.Regexp(t, `3 one and a quarter spin 140\.00 91\.2 █+ a zero 5`, page)
	assert.Regexp(t, `spins spins 60\.00 39\.1 █+.? all of it a zero in figure 3 `, page)
	encoded, err := json.Marshal(data.Groups)
	require.NoError(t, err)
	assert.Contains(t, string(encoded), `"group":"spins","lost":60,"share":0.39087947882736157,"zeros":[{"figure":3,"lost":60}]`)

	row := words.LostRow{Key: "9.1", Name: "slow rolls", Part: answers.LostPart{Lost: report.Float(150), Zeros: []answers.ZeroedFigure{{Figure: 4, Lost: report.Float(30)}, {Figure: 7, Lost: report.Float(12.5)}}}}
	assert.Equal(t, "30.00 of it a zero in figure 4 and 12.50 a zero in figure 7", row.Zeros())
	assert.Equal(t, "some of it zeros in figures 4, 7", words.ZerosAmong([]words.LostRow{row, {}, row}))
	assert.Empty(t, words.ZerosAmong([]words.LostRow{{}}))
}
