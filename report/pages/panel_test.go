package pages

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report/answers"
	"boxbook/season"
)

const panelHead = `
pilot ines
  name "Ines Halloran"
sequence six
  category sportsman
  1 K 10
  2 K 10
  3 K 10
  4 K 10
  5 K 10
  6 K 10
`

// panelFlight is the reference table with a wild 4.0 of the third judge.
func panelFlight(head, panel string) string {
	return "flight " + head + "\n  sequence six\n  panel " + panel + `
  1 7.5 7.0 8.0 6.5 7.5
  2 6.5 6.0 7.0 AV  6.5
  3 8.0 7.5 8.5 7.5 8.0
  4 7.0 6.5 4.0 6.0 7.0
  5 5.5 5.0 6.5 5.0 AV
  6 9.0 AV  9.0 8.0 8.5
`
}

func panelPage(t testing.TB, book string) (string, answers.Panel) {
	t.Helper()
	doc := Panel(answers.PanelOf(faultBook(t, book), season.Selection{}), true)
	return textOf(t, doc), doc.Data.(answers.Panel)
}

// A lone grade is named with what the rest says; what to do about it is to ask.
// Computed by R rstudent: t -16.4142804, p 5.303306e-10.
func TestPanelPage(t *testing.T) {
	text, d := panelPage(t, panelHead+panelFlight("2026-04-18 ines known", "AK BM CT DW EV"))
	assert.Contains(t, oneLine(text), "judge CT gave 4.0 on figure 4; the rest of the panel and CT's own habit suggest about 7.5: compare with the paper sheet first, then ask through the chief judge")
	assert.Contains(t, oneLine(text), "Judges above or below the panel by more than chance, from one flight each: ")
	require.Len(t, d.Flags, 1)
	assert.Equal(t, "2026-04-18/ines/known", d.Flags[0].Flight)
	assert.InDelta(t, -16.4142804, d.Flags[0].T.Float64(), 1e-6)
	assert.InDelta(t, 5.303306e-10, d.Flags[0].P.Float64(), 1e-15)
	assert.Contains(t, text, "leniency: grades above (+) or below (-)")
	assert.NotContains(t, text, "part 1", "one part needs no number")

	raw, err := json.Marshal(d)
	require.NoError(t, err)
	var fields map[string]any
	require.NoError(t, json.Unmarshal(raw, &fields))
	assert.EqualValues(t, 2, fields["judgesNeeded"])
	assert.EqualValues(t, 4, fields["figuresNeeded"])
	for list, keys := range map[string][]string{
		"judges": {"name", "judge", "part", "leniency", "se", "scatter", "n"}, "flags": {"flight", "figure", "judge", "mark", "fitted", "t", "p"},
		"flights": {"flight", "noise", "scatter"}, "parts": {"between", "scatter"},
	} {
		require.NotEmpty(t, fields[list])
		for _, key := range keys {
			assert.Contains(t, fields[list].([]any)[0], key, list)
		}
	}
}

// On the score sheet the same flag, and that leniency is worked out without it.
func TestPanelOnTheScoreSheet(t *testing.T) {
	f := faultBook(t, panelHead+panelFlight("2026-04-18 ines known", "AK BM CT DW EV")).Flights[0]
	doc := Flight(answers.FlightOf(f), FlightOptions{All: true})
	text := oneLine(textOf(t, Flight(answers.FlightOf(f), FlightOptions{})))
	assert.Contains(t, text, "judge CT gave 4.0 on figure 4")
	assert.NotContains(t, text, "leniency", "how a judge grades is for --all")
	text = oneLine(textOf(t, doc))
	assert.Contains(t, text, "judge CT gave 4.0 on figure 4")
	assert.Contains(t, text, "leniency and scatter leave the flagged grades out; the score is not changed")
	d := doc.Data.(answers.Flight)
	require.Len(t, d.Flags, 1)
	assert.Empty(t, d.Flags[0].Flight, "it is this flight's")
	assert.Less(t, d.Scatter.Float64(), 0.5)
	// The score counts the 4.0 [derived].
	assert.InDelta(t, 10*(7.0+6.5+4.0+6.0+7.0)/5, d.Figures[3].Points.Float64(), 1e-9)

	quiet := Flight(answers.FlightOf(faultBook(t, panelHead+"flight 2026-04-18 ines known\n  sequence six\n  panel A\n  1 7\n  2 7\n  3 6\n  4 7\n  5 8\n  6 7\n").Flights[0]), FlightOptions{})
	assert.NotContains(t, textOf(t, quiet), "leniency")
	assert.False(t, quiet.Data.(answers.Flight).Noise.Known())
}

// Seats of two contests and judges who never met are in parts that are not
// compared; nothing to compare is said as well.
func TestPanelPageParts(t *testing.T) {
	text, d := panelPage(t, panelHead+"contest cup 2026-04-18\ncontest show 2026-05-16\n"+
		strings.Replace(panelFlight("2026-04-18 ines known", "A B C D E"), "\n", "\n  contest cup\n", 1)+
		strings.Replace(panelFlight("2026-05-16 ines known", "A B C D E"), "\n", "\n  contest show\n", 1))
	assert.Contains(t, text, "Judges who can be compared, part 2 of 2")
	assert.Contains(t, text, "C at cup")
	assert.Contains(t, oneLine(text), "judges in different parts never sat on one panel, directly or through others, and are not compared")
	assert.Contains(t, oneLine(text), "and are not compared; a seat, A say, is a person within its contest alone")
	assert.Len(t, d.Judges, 10)

	text, d = panelPage(t, panelHead)
	assert.Contains(t, oneLine(text), "Too few judges or figures to say anything about a panel: at least two judges and four figures are needed.")
	assert.NotNil(t, d.Judges)
	assert.NotNil(t, d.Flags)

	text, _ = panelPage(t, panelHead+"flight 2026-04-18 ines known\n  sequence six\n  panel AK BM CT\n  1 7 6 6.5\n  2 6 7 6.5\n  3 6.5 6.5 8\n  4 7 7.5 5.5\n  5 6.5 6 6.5\n  6 7 7 7\n")
	assert.Contains(t, text, "No judge differs from the panel by more than chance.")
}

// Without --all there is no word of how leniency was drawn, and no flight's noise.
func TestPanelInBrief(t *testing.T) {
	d := answers.PanelOf(faultBook(t, panelHead+panelFlight("2026-04-18 ines known", "AK BM CT DW EV")), season.Selection{})
	brief, all := oneLine(textOf(t, Panel(d, false))), oneLine(textOf(t, Panel(d, true)))
	assert.Contains(t, brief, "1 grade stands apart from the rest of the panel and the judge's own habit: compare with the paper sheet first, then ask through the chief judge.")
	assert.Contains(t, brief, "judge leniency scatter grades flights")
	assert.Contains(t, brief, "flight figure judge mark expected")
	assert.Contains(t, brief, "2026-04-18/ines/known 4 CT 4.0 7.47")
	assert.Contains(t, brief, "adjusted for chance, positioning left out;")
	for _, method := range []string{"give or take", "noise", "moved towards"} {
		assert.NotContains(t, brief, method)
		assert.Contains(t, all, method)
	}
	assert.Contains(t, brief, "Other numbers: boxbook panel --all")
}

// A 0.0 beside hard zeros may be one of them: it is not said to stand alone, nor
// what grade was expected.
func TestAZeroBesideHardZerosMayBeOne(t *testing.T) {
	l := faultBook(t, `pilot ines
sequence s
  1 6.2.1.1:15
  2 7.4.1.1:10
  3 5.2.1.1:17
  4 8.5.2.1:10
  5 2.2.1.1:4
  6 7.2.2.1:6
flight 2026-05-03 ines known
  sequence s
  panel A B C D E
  1 hz 5 hz 6 0
  2 7 7 6.5 7 7.5
  3 7 7.5 6.5 7 7
  4 7 7 6.5 7 7.5
  5 7 7 7 7 7.5
  6 7.5 8 7 7.5 8
`)
	flight := answers.FlightOf(l.Flights[0])
	require.Len(t, flight.Flags, 1)
	assert.Equal(t, 2, flight.Flags[0].HardZeros)
	text := flowing(t, Flight(flight, FlightOptions{}))
	assert.Contains(t, text, "judge E gave 0.0 on figure 1, where 2 judges gave a hard zero: one more may be meant, which is typed HZ;")
	assert.NotContains(t, text, "habit")
}
