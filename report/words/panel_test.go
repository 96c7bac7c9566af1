package words_test

import (
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

// The farthest judge stands first. One far from the others draws the mean of all, so
// that they seem to lie on its other side: that is said, where they all do.
func TestPanelSaysWhoDrawsTheMean(t *testing.T) {
	thought := func(leniencies ...float64) string {
		d := answers.Panel{Parts: []answers.PanelPart{{}}}
		for i, l := range leniencies {
			d.Judges = append(d.Judges, answers.PanelJudge{Name: string(rune('A' + i)), Part: 1, Leniency: report.Float(l), Flights: 9, Apart: true})
		}
		return words.PanelThought(d)
	}
	const draws = "draws it"
	assert.Equal(t, "Judges above or below the panel by more than chance: B (-0.87), C (+0.20), A (+0.13). "+
		"B is farthest from the mean of all and draws it: that the others lie above it may be no more than this.", thought(.13, -.87, .2))
	assert.Contains(t, thought(.9, -.2, -.3), "others lie below it")
	for _, apart := range [][]float64{{.13, -.87}, {.13, -.87, -.2}, {.13, -.87, .5}, {.3, .3, .3}} {
		assert.NotContains(t, thought(apart...), draws)
	}
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
