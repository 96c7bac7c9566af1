package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report/words"
)

// The words beside a row say what the scoring decided, under every rule for half
// of the judges, and what the chief judge ruled.
func TestRulingText(t *testing.T) {
	const half = "hard zero from 2 of the 4 judges who gave a mark, exactly half"
	for _, c := range []struct{ half, marks, ruling, want string }{
		{"fill", "HZ HZ 7 8", "", half + ", which the rule style fills: filled with 7.50"},
		{"zero", "HZ HZ 7 8", "", half + ": the rule style makes it 0"},
		{"undecided", "HZ HZ 7 8", "", half + ": undecided until `resolve` records the chief judge's ruling"},
		{"undecided", "HZ HZ 7 8", "resolve 1 zero", half + "; ruled a zero"},
		{"undecided", "HZ HZ 7 8", "resolve 1 zero \"seen on video\"", half + "; ruled a zero; noted: \"seen on video\""},
		{"undecided", "HZ HZ 7 8", "resolve 1 fill", half + "; ruled to be filled, with 7.50"},
		{"undecided", "HZ HZ 0 0", "resolve 1 fill", half + "; ruled to be filled, with 0.00"},
		{"fill", "HZ AV 7 8", "", "hard zero from 1 of the 3 judges who gave a mark, a minority; not seen by 1 judge: filled with 7.50"},
		{"zero", "HZ HZ AV 8", "", "hard zero from 2 of the 3 judges who gave a mark, more than half: 0 from every judge"},
		{"fill", "AV 7 7 8", "", "not seen by 1 judge: filled with 7.33"},
		{"fill", "- 7 - 8", "", "no mark on the sheet of 2 judges: filled with 7.50"},
		{"fill", "- - - -", "", "no judge gave a mark: undecided, from 0 to full marks, until `resolve` rules it zero"},
		{"fill", "- - - -", "resolve 1 zero", "no judge gave a mark; ruled a zero"},
		{"fill", "CHZ 7 7 8", "", "confirmed hard zero: 0 from every judge"},
		{"fill", "7 7 7 8", "", ""},
	} {
		s := sheet{rules: []string{"half " + c.half}, rows: []string{"10: " + c.marks}}
		if c.ruling != "" {
			s.more = []string{c.ruling}
		}
		d := s.answer(t, "")
		assert.Equal(t, c.want, words.RulingText(*d.Style, d.Figures[0].Line), "%s %s", c.marks, c.ruling)
	}
	given := sheet{rules: []string{"hard-zero as-given"}, rows: []string{"10: HZ HZ AV 8"}}.answer(t, "")
	assert.Equal(t, "not seen by 1 judge: filled with 2.67", words.RulingText(*given.Style, given.Figures[0].Line), "hard zeros count as given")
}

// A rule style says its own settings, and whether its extremes touch the panel.
func TestRulesText(t *testing.T) {
	for _, c := range []struct {
		rules []string
		want  []string
	}{
		{nil, []string{
			"a hard zero (HZ) from more than half of the judges who gave a mark makes the figure 0 from every judge; from fewer it is filled like AV",
			"a hard zero from exactly half of them leaves the figure undecided until a `resolve` line records the chief judge's ruling",
			"a missing mark (AV or -) is filled with the mean of the other marks of the row, unrounded",
			"no mark is left out of the mean",
		}},
		{[]string{"hard-zero as-given", "fill-rounding 0.1", "drop-extremes yes"}, []string{
			"a hard zero (HZ) counts as a 0 on its own sheet, whatever the other judges saw",
			"a hard zero from exactly half of the judges is counted as given, like any other",
			"a missing mark (AV or -) is filled with the mean of the other marks of the row, rounded half up to 0.1",
			"one highest and one lowest mark of each line would be left out of the mean with 5 judges or more; this panel has 4, so none is",
		}},
		{[]string{"half zero"}, []string{"a hard zero from exactly half of them makes the figure 0"}},
		{[]string{"half fill"}, []string{"a hard zero from exactly half of them is filled"}},
	} {
		d := sheet{rules: c.rules, rows: []string{"10: 7 7 7 8"}}.answer(t, "")
		assert.Subset(t, words.RulesText(*d.Style, len(d.Panel)), c.want)
	}
}

// The sentence over the faults of a flight, by what was expected and given.
func TestExpectedSentence(t *testing.T) {
	for _, c := range []struct {
		faults []string
		want   string
	}{
		{[]string{"fault 1 other 3pt"}, "on 1 figure with noted faults A gave what the faults leave"},
		{[]string{"fault 1 other 1pt"}, "on 1 figure with noted faults A gave 2.00 less than the faults leave"},
		{[]string{"fault 1 other 4pt", "fault 2 other 2.5pt"}, "on 2 figures with noted faults A gave on average 1.25 more than the faults leave"},
		{[]string{"fault 1 drift"}, ""},
		{nil, ""},
	} {
		d := sheet{rows: []string{"10: 7", "10: 9"}, more: c.faults}.answer(t, "")
		assert.Equal(t, c.want, words.ExpectedSentence(d), c.faults)
	}
}
