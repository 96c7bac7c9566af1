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

// Both pages of judges say in what order they stand.
func TestPanelNotesSayTheOrder(t *testing.T) {
	for _, notes := range [][]string{words.PanelNotes(answers.Panel{}), words.PanelNotesBrief(answers.Panel{})} {
		assert.Contains(t, notes[1], "; judges: in the order in which they first sat")
	}
}
