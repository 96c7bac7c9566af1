package pages

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season"
	"boxbook/season/analysis"
)

const familyHead = `
pilot ines
  name "Ines Halloran"
sequence known-26
  category sportsman
  1 7.4.1.1:10           "loop"
  2 5.2.1.1:17           "stall turn"
  3 1.2.1.1:8 9.1.2.4:10 "roll on the forty-five up"
  4 2.2.1.1:4            "half turn"
  5 1.2.6.3:8 9.11.1.4:5 "one-turn spin"
  6 K 9                  "unlabelled"
`

// flownRows are flights a month apart, a row of one judge's grades each.
func flownRows(rows ...string) string {
	var b strings.Builder
	for i, row := range rows {
		fmt.Fprintf(&b, "flight 2026-%02d-18 ines known\n  sequence known-26\n  panel marek\n", i+3)
		for k, grade := range strings.Fields(row) {
			fmt.Fprintf(&b, "  %d %s\n", k+1, grade)
		}
	}
	return b.String()
}

func familiesPage(t testing.TB, book string) (string, answers.Families) {
	t.Helper()
	l := faultBook(t, book)
	doc := Families(answers.FamiliesOf(l, season.Selection{Pilot: l.Pilots[0]}), true)
	return oneLine(textOf(t, doc)), doc.Data.(answers.Families)
}

// The first sentence is about the levels: a weak family, a figure alone, neither,
// too few families.
func TestFamiliesFirstSentence(t *testing.T) {
	low := flownRows("6 7.5 8 7 4.5 7", "7 7 7.5 8 5 8", "6.5 8 7.5 7.5 5 7", "7 7.5 7 7 5.5 7.5")
	text, d := familiesPage(t, familyHead+low)
	assert.Contains(t, text, "Below the pilot's other figures: figure 5 of known-26 (about 17 percentage points beyond chance, 4 flights). 4 flights cannot tell which family is weaker than the others.")
	for _, g := range d.Groups {
		assert.False(t, g.Weak, g.Group)
		assert.Equal(t, g.Group == "spins" || g.Group == "1", g.WeakFigure == "known-26/5", g.Group)
	}

	pairs := "pilot ines\nsequence known-26\n  category sportsman\n  1 7.4.1.1:10\n  2 7.4.1.1:10\n  3 5.2.1.1:10\n  4 5.2.1.1:10\n  5 2.2.1.1:10\n  6 2.2.1.1:10\n"
	text, d = familiesPage(t, pairs+flownRows("5 5.5 7 7.5 7 7.5", "5.5 5 7.5 7 7.5 7", "5 5 7 7 7 7.5", "5.5 5 7 7.5 7.5 7"))
	assert.Contains(t, text, "Weaker than the pilot's other families in these 4 flights, ranges at 90% confidence: loops, part loops and eights (family 7), about 5")
	assert.Contains(t, text, ", on figures 1 and 2 of known-26). Below the pilot's other figures: figure 2 of known-26")
	assert.Equal(t, []string{"known-26/1", "known-26/2"}, groupNamed(t, d, "7").Of)

	chance := flownRows("6 7 8 5 6.5 7", "7.5 7 6 8 7.5 5", "5.5 7.5 7 6.5 6 7")
	text, d = familiesPage(t, familyHead+chance)
	assert.Contains(t, text, "3 flights cannot tell which family is weaker than the others; the lowest as flown is loops, part loops and eights (family 7), 63.33%.")
	assert.Contains(t, text, words.SpreadBetweenFamilies(d))
	assert.Contains(t, text, "(5 distinct figures)")

	once, d := familiesPage(t, familyHead+flownRows("7 6 8 5 7 6"))
	assert.Contains(t, once, "hardly any figure was flown twice, so none is named")
	assert.False(t, d.Pooled)

	text, d = familiesPage(t, twoFamilies+flownRows("7 6"))
	assert.Contains(t, text, "The levels of the families cannot be compared: 1 family was flown; at least three are needed.")
	assert.False(t, d.Tau2.Known())
	assert.False(t, d.Groups[0].Shrunken.Known())

	text, d = familiesPage(t, familyHead)
	assert.Contains(t, text, "No contest flight in this selection has a figure of any family; practice does not count here.")
	assert.Empty(t, d.Groups)
	assert.NotNil(t, d.Groups)
}

func groupNamed(t testing.TB, d answers.Families, name string) answers.Group {
	t.Helper()
	for _, g := range d.Groups {
		if g.Group == name {
			return g
		}
	}
	require.Fail(t, "no family "+name)
	return answers.Group{}
}

// The second is about what moves against the rest of the same flights.
func TestFamiliesSecondSentence(t *testing.T) {
	text, _ := familiesPage(t, familyHead+flownRows("6 7 8 5 6.5 7", "7.5 7 6 8 7.5 5"))
	assert.Contains(t, text, "Too few flights to tell the trend of any family.")
	assert.NotContains(t, text, "q allows for")

	rising := flownRows("5 7 7.5 6.5 7 8", "5.5 7.5 7 7 6 7", "6 6.5 7.5 7.5 7 7.5", "6.5 7.5 8 6 6.5 7", "7 7 7 7 7 8", "7.5 7.5 7.5 7 6 7")
	text, d := familiesPage(t, familyHead+rising)
	assert.Contains(t, text, "Loops, part loops and eights (family 7) rose from 53 to 73%, more than the rest: improving against the rest of the same flights, +")
	assert.Contains(t, text, words.OwnMarks)
	assert.Equal(t, 6, d.Compared)
	for _, g := range d.Groups {
		if g.Group == "7" {
			assert.Equal(t, answers.Improving, g.Trend.Word)
			assert.LessOrEqual(t, g.Q.Float64(), 0.10)
			assert.Nil(t, g.Trend.Contests)
		}
	}

	same := flownRows("6 7 8 5 6.5 7", "6 7 8 5 6.5 7", "6 7 8 5 6.5 7", "6 7 8 5 6.5 7", "6 7 8 5 6.5 7")
	text, _ = familiesPage(t, familyHead+same)
	assert.Contains(t, text, "Flat against the rest, within 3 percentage points either way: 6 families. Level")
}

// A family flown at one contest carries its judges; zeroed figures are shown
// without, too.
func TestFamiliesNotes(t *testing.T) {
	book := familyHead + "sequence loops\n  category sportsman\n  1 7.4.1.1:10\n  2 7.2.2.1:6\n  3 5.2.1.1:17\n  4 K 5\n" +
		flownRows("HZ 7 8 5 6.5 7") + "flight 2026-04-18 ines free\n  sequence loops\n  panel marek\n  1 7\n  2 6\n  3 7\n  4 8\n"
	text, d := familiesPage(t, book)
	// Of several families it is said once.
	assert.Contains(t, text, "- lines and angles (family 1); turns (family 2); slow rolls (family 9.1); spins: flown at one contest only, so each reflects that contest's judges")
	assert.Equal(t, 1, strings.Count(text, "at one contest only"))
	assert.NotContains(t, text, "eights (family 7): flown at one contest")
	// [derived]: (10 x 7 + 6 x 6)/16 of the figures that were not zeroed.
	assert.Contains(t, text, "° without the figures that were zeroed, which count in vs rest too: loops, part loops and eights (family 7) 66.25%")
	for _, g := range d.Groups {
		assert.Equal(t, g.Group == "7", g.WithoutZeros.Known(), g.Group)
	}
	text, _ = familiesPage(t, familyHead+flownRows("6 7 8 5 6.5 7"))
	assert.NotContains(t, text, "at one contest only", "where there is one contest, that goes without saying")
}

// Where all of a family's figures were zeroed, nothing remains without them.
func TestFamiliesWithNothingButZeros(t *testing.T) {
	text, d := familiesPage(t, familyHead+flownRows("HZ 7 8 5 6.5 7", "HZ 7 7 5 6.5 8"))
	assert.NotContains(t, text, "without the figures that were zeroed")
	for _, g := range d.Groups {
		assert.False(t, g.WithoutZeros.Known(), g.Group)
	}
}

// A range says how sure it is, of so few flights as the scores alone can say
// there is none, and a change across a winter is named as one.
func TestFamilyTrendRanges(t *testing.T) {
	rows := []string{"6 7 8 5 6.5 7", "7.5 7 6 8 7.5 5", "5.5 7.5 7 6.5 6 7", "6 7 7 6 6.5 7", "7 6 8 5 7 7.5"}
	text, d := familiesPage(t, familyHead+flownRows(rows[:3]...))
	for _, g := range d.Groups {
		assert.False(t, g.Trend.Season.Known() || g.Trend.Low.Known(), g.Group)
	}
	assert.Contains(t, text, "no change is shown where there are too few flights for a verdict")
	assert.NotContains(t, text, "from, to:")

	text, d = familiesPage(t, familyHead+flownRows(rows...))
	assert.True(t, d.Groups[0].Trend.Low.Known())
	assert.Contains(t, text, "from, to: the exact range of the change, at the confidence nearest above 90% that so few flights allow: 91%")
	assert.NotContains(t, text, "gap of")

	winter := "flight 2025-09-18 ines known\n  sequence known-26\n  panel marek\n  1 6\n  2 7\n  3 8\n  4 6\n  5 5\n  6 7\n"
	text, _ = familiesPage(t, familyHead+flownRows(rows[:4]...)+winter)
	assert.Contains(t, text, "every change is drawn across a gap of up to 181 days without a flight that can be compared")
}

// Where not all is asked for a family has one row, without a test and without what
// draws its level towards the others; csv has the levels either way.
func TestFamiliesInBrief(t *testing.T) {
	l := faultBook(t, familyHead+flownRows("HZ 7 7.5 6.5 7 8", "5.5 7.5 7 7 6 7", "6 6.5 7.5 7.5 7 7.5", "6.5 7.5 8 6 6.5 7", "7 7 7 7 7 8", "7.5 7.5 7.5 7 6 7"))
	d := answers.FamiliesOf(l, season.Selection{Pilot: l.Pilots[0]})
	brief, all := textOf(t, Families(d, false)), textOf(t, Families(d, true))
	assert.NotRegexp(t, `(?m)adjusted|spread| [pq]$| [pq]  |improving and declining need`, brief)
	assert.Regexp(t, `(?m)^family +percent +vs rest +lost per flight +trend$`, brief, "no level is weak")
	assert.Contains(t, strings.Join(strings.Fields(brief), " "), "without the figures that were zeroed")
	assert.Contains(t, brief, "Other numbers: boxbook families ines --all")
	assert.Contains(t, all, "adjusted")
	assert.NotContains(t, all, "--all")
	var short, whole strings.Builder
	require.NoError(t, report.WriteCSV(&short, Families(d, false)))
	require.NoError(t, report.WriteCSV(&whole, Families(d, true)))
	assert.Equal(t, whole.String(), short.String())
	assert.Contains(t, short.String(), "adjusted")
}

// One family has its latest flights, and says how many more there are; csv has
// every one.
func TestFamilyInBrief(t *testing.T) {
	rows := slices.Repeat([]string{"6 7 8 5 6.5 7"}, latestRows+1)
	l := faultBook(t, familyHead+flownRows(rows...))
	d := answers.FamilyOf(l, season.Selection{Pilot: l.Pilots[0]}, analysis.FamilyKey{Group: "7"}, "7")
	brief := textOf(t, Family(d, false))
	assert.NotRegexp(t, `(?m)^2026-03-18`, brief)
	assert.Contains(t, brief, "1 earlier flight: boxbook families ines 7 --all")
	assert.Contains(t, textOf(t, Family(d, true)), "2026-03-18")
	var rowsOf strings.Builder
	require.NoError(t, report.WriteCSV(&rowsOf, Family(d, false)))
	assert.Contains(t, rowsOf.String(), "2026-03-18")
	d.Flights = d.Flights[1:]
	assert.NotContains(t, textOf(t, Family(d, false)), "earlier flight")
}

// The comparison is without the flights with a zero, of the family or of the rest, and
// says how many these are and what it is with them; their numbers carry the sign.
func TestFamilyWithoutZeros(t *testing.T) {
	page := func(rows ...string) string {
		l := faultBook(t, familyHead+flownRows(rows...))
		return textOf(t, Family(answers.FamilyOf(l, season.Selection{Pilot: l.Pilots[0]}, analysis.FamilyKey{Group: "7"}, "7"), false))
	}
	const clean = "6 7 8 5 6.5 7"
	average := func(text string) string {
		_, text, _ = strings.Cut(oneLine(text), "Over all the flights here, on average ")
		text, _, _ = strings.Cut(text, " percentage points")
		return text
	}
	alone := page(clean, clean)
	assert.NotContains(t, alone, words.ZeroSign)
	assert.NotContains(t, alone, "a zero")
	zeroed := page(clean, "HZ 7 8 5 6.5 7", clean)
	assert.Equal(t, average(alone), average(zeroed))
	assert.Regexp(t, `below the rest of the same flights, over 2 flights in front of judges, without the 1 flight with a zero \(with it \d+\.\d below\)\.`, oneLine(zeroed))
	assert.Regexp(t, `(?m)^\S+ .* 0\.00° .*°$`, zeroed)
	assert.Contains(t, oneLine(zeroed), "° a figure was zeroed, of the family or, in vs rest alone, of the rest")
	rest := page(clean, "6 HZ 8 5 6.5 7", clean)
	assert.Equal(t, average(alone), average(rest))
	assert.Regexp(t, `(?m)^\S+ .* 60\.00 .*°$`, rest)
	assert.Contains(t, oneLine(page("HZ 7 8 5 6.5 7")), "over 1 flight in front of judges, with a zero in it.")
}

// The contest of a family's flights has room at 80 columns, whatever else goes on in
// further lines for it.
func TestFamilyKeepsTheContest(t *testing.T) {
	rows := slices.Repeat([]string{"6 7 8 5 6.5 7"}, 3)
	l := faultBook(t, familyHead+flownRows(rows...))
	d := answers.FamilyOf(l, season.Selection{Pilot: l.Pilots[0]}, analysis.FamilyKey{Group: "7"}, "7")
	for i := range d.Flights {
		d.Flights[i].ContestName = "Redbank Midsummer"
		for range 2 {
			d.Flights[i].Figures = append(d.Flights[i].Figures, d.Flights[i].Figures[0])
		}
		d.Flights[i].Faults = []answers.FamilyFault{{Kind: "radius", Times: 2}, {Kind: "line-length", Times: 1}, {Kind: "line-angle", Times: 1}}
	}
	for _, all := range []bool{false, true} {
		page := textOf(t, Family(d, all))
		assert.NotContains(t, page, "not shown at this width")
		assert.Regexp(t, `(?m)^.*date +contest +programme `, page)
	}
}

// With all on it the page leaves out no column that the brief one has, at any width.
func TestFamiliesWholeLeavesNothingOut(t *testing.T) {
	l := faultBook(t, familyHead+flownRows(sixRows...))
	all := textOf(t, Families(answers.FamiliesOf(l, season.Selection{Pilot: l.Pilots[0]}), true))
	assert.NotContains(t, all, "not shown at this width")
	for _, column := range []string{"lost per flight", "K flown", "verdict", "p"} {
		assert.Contains(t, all, column)
	}
	assert.Contains(t, oneLine(all), "figures: those flown; one with several families counts in each of them")
}

// At 80 columns a verdict of too few flights takes one line a row, its words once beneath;
// a column that says nothing of any family is left out.
func TestFamiliesWithTooFewFlightsAreCalm(t *testing.T) {
	l := faultBook(t, familyHead+flownRows("6 7.5 8 7 7.5 7", "7 7 7.5 8 8 8"))
	d := answers.FamiliesOf(l, season.Selection{Pilot: l.Pilots[0]})
	var page strings.Builder
	require.NoError(t, report.WriteText(&page, Families(d, false), report.TextOptions{Width: 80}))
	table := page.String()[strings.Index(page.String(), "\nfamily ")+1:]
	table = table[:strings.Index(table, "\n\n")]
	assert.Equal(t, len(d.Groups), strings.Count(table+"\n", "  too few\n"), table)
	assert.NotContains(t, table, words.ColumnLevel)
	assert.Contains(t, page.String(), "- too few: too few flights to tell\n")
	for _, g := range d.Groups {
		assert.Equal(t, answers.TooFew, g.Trend.Word)
	}
}

// Flights on sequences of several catalogues are counted together, unlike those of a plan.
func TestFamiliesOfSeveralCataloguesSaySo(t *testing.T) {
	book := "pilot ines\nsequence a\n  1 7.4.1.1:10\n  2 5.2.1.1:17\nsequence b\n  1 7.4.1.1:10\n  2 5.2.1.1:17\n"
	for _, seq := range []string{"a", "b"} {
		book += "flight 2026-05-01 ines " + map[string]string{"a": "known", "b": "free"}[seq] + "\n  sequence " + seq + "\n  category sportsman\n  panel A\n  1 7\n  2 8\n"
	}
	page := func(text string) string {
		l := faultBook(t, text)
		return textOf(t, Families(answers.FamiliesOf(l, season.Selection{Pilot: l.Pilots[0]}), false))
	}
	const several = "2 contest flights, on sequences of several catalogues; the plan is of one"
	assert.NotContains(t, page(book), "catalogues")
	assert.Contains(t, page(strings.Replace(book, "sequence b\n", "sequence b\n  catalogue other\n", 1)), several)
}
