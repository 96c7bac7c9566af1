package words_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// A judge who stands apart by one flight's grades is said to, once where all are.
func TestPanelSaysOneFlight(t *testing.T) {
	judge := func(name string, flights int) answers.PanelJudge {
		return answers.PanelJudge{Name: name, Part: 1, Leniency: report.Float(.3), Flights: flights, Apart: true}
	}
	d := answers.Panel{Parts: []answers.PanelPart{{}}, Judges: []answers.PanelJudge{judge("AK", 7), judge("HO", 1)}}
	assert.Equal(t, "Judges above or below the panel by more than chance: AK (+0.30), HO (+0.30, from one flight).", words.PanelThought(d))
	d.Judges = d.Judges[1:]
	assert.Equal(t, "Judges above or below the panel by more than chance, from one flight each: HO (+0.30).", words.PanelThought(d))
}

// The farthest judge stands first. Who is apart only by the mean that another draws is not
// named as if alone, however few there are.
func TestPanelSaysWhoDrawsTheMean(t *testing.T) {
	thought := func(draws, drawn string, leniencies ...float64) string {
		d := answers.Panel{Parts: []answers.PanelPart{{}}}
		for i, l := range leniencies {
			name := string(rune('A' + i))
			d.Judges = append(d.Judges, answers.PanelJudge{Name: name, Part: 1, Leniency: report.Float(l), Flights: 9, Apart: true, Draws: strings.Contains(draws, name), Drawn: strings.Contains(drawn, name)})
		}
		return words.PanelThought(d)
	}
	const named = "Judges above or below the panel by more than chance: "
	assert.Equal(t, named+"A (+0.58). A draws the mean of all: held against the others without A, B does not differ by more than chance.", thought("A", "B", .58, -.17))
	assert.Equal(t, named+"B (-0.87), D (+0.40). B draws the mean of all: held against the others without B, C and A do not differ by more than chance.",
		thought("B", "AC", .13, -.87, .2, .4))
	assert.Equal(t, named+"A (+0.60), B (+0.50). A and B draw the mean of all: held against the others without A and B, C does not differ by more than chance.",
		thought("AB", "C", .6, .5, -.3))
	assert.Equal(t, named+"B (-0.87), C (+0.20), A (+0.13).", thought("", "", .13, -.87, .2))
}

// Who is apart only once a far judge is left out is named so, with the leniency then.
func TestPanelSaysWhoIsHidden(t *testing.T) {
	d := answers.Panel{Parts: []answers.PanelPart{{}}, Judges: []answers.PanelJudge{
		{Name: "A", Part: 1, Leniency: report.Float(1.2), Flights: 9, Apart: true, Hides: true},
		{Name: "B", Part: 1, Leniency: report.Float(.04), Flights: 9, Hidden: true, Without: report.Float(.31)},
	}}
	const named = "Judges above or below the panel by more than chance: A (+1.20). Once A is left out, "
	assert.Equal(t, named+"B (+0.31) stands apart from the others too.", words.PanelThought(d))
	d.Judges = append(d.Judges, answers.PanelJudge{Name: "C", Part: 1, Leniency: report.Float(-.3), Flights: 9, Hidden: true, Without: report.Float(-.2)})
	assert.Equal(t, named+"B (+0.31) and C (-0.20) stand apart from the others too.", words.PanelThought(d))
}

// Both pages of judges say in what order they stand.
func TestPanelNotesSayTheOrder(t *testing.T) {
	for _, notes := range [][]string{words.PanelNotes(answers.Panel{}), words.PanelNotesBrief(answers.Panel{})} {
		assert.Contains(t, notes[1], "; judges: in the order in which they first sat")
	}
}

// A judge who scatters more than the others is named with how much more, and lone grades
// that are mostly one judge's are counted as that judge's.
func TestPanelNamesWhoScatters(t *testing.T) {
	d := words.SayPanel(answers.Panel{
		Judges: []answers.PanelJudge{{Judge: "A", At: "cup", Part: 1, Flagged: 3, Scatter: report.Float(1.06), TimesOthers: report.Float(2.14)}, {Judge: "BM", Part: 1, Flagged: 1, Scatter: report.Float(.51)}, {Judge: "CT", Part: 1, Scatter: report.Float(.56)}},
		Parts:  []answers.PanelPart{{}}, Flags: make([]answers.Flag, 4),
	})
	said := words.PanelSentences(d)
	assert.Len(t, said, 3)
	assert.Equal(t, "A at cup is less consistent than the others by more than chance: the grades scatter by 1.06, the others' by 0.51 to 0.56.", said[1])
	assert.Contains(t, said[2], "4 grades stand apart from the rest of the panel and the judge's own habit, 3 of them of A at cup: compare")
	d.Judges[0].Flagged, d.Judges[1].Flagged, d.Judges[1].TimesOthers = 2, 2, report.Float(1.6)
	said = words.PanelSentences(d)
	assert.Equal(t, "A at cup and BM are less consistent than the others by more than chance: their grades scatter more.", said[1])
	assert.Contains(t, said[2], "habit: compare", "of two judges")
	d.Flags = d.Flags[:2]
	assert.NotContains(t, words.PanelSentences(d)[2], " of A", "two are few")
	assert.Len(t, words.LoneNotes(make([]answers.Flag, 3)), 1, "the same words once")
	assert.Equal(t, words.FlagNotes(d.Flags[:1]), words.LoneNotes(d.Flags[:1]))
}
