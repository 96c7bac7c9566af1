package words

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
)

func TestFlightRemark(t *testing.T) {
	for want, f := range map[string]answers.Flight{
		"":                  {Counts: answers.CountsContest, Marked: true},
		"void: wrong panel": {Counts: answers.CountsVoid, Void: "wrong panel", Marked: true},
		"sheet missing: B C; interruption 30.0 (climbed again); low 50": {Counts: answers.CountsContest, Marked: true, Missing: []string{"B", "C"}, Penalties: []answers.Penalty{
			{Kind: "interruption", Points: report.Exact(big.NewRat(30, 1)), Decimals: 1, Remark: "climbed again"},
			{Kind: "low", Points: report.Int(50)},
		}},
		"figure 2 ruled a zero (seen on video); positioning ruled to be filled (radio)": {
			Counts: answers.CountsContest, Marked: true,
			Figures:     []answers.Figure{{Number: 2, Line: answers.Line{Decision: answers.RuledZero, DecisionRemark: "seen on video"}}},
			Positioning: &answers.Line{Decision: answers.RuledFill, DecisionRemark: "radio"}, Harmony: &answers.Line{Decision: answers.RuledZero},
		},
		"the printed total alone": {Counts: answers.CountsContest, Official: &answers.Official{Points: report.Int(700)}},
		"printed out of another maximum: compare the percents; rules by default": {
			Counts: answers.CountsContest, Marked: true, RulesDefault: true, Maximum: report.Int(1000),
			Official: &answers.Official{Points: report.Int(700), Maximum: report.Int(1100), MaximumTyped: true},
		},
	} {
		assert.Equal(t, want, FlightRemark(f))
	}
}

// The legend of a sheet and the terms of the sheet Rules say the same of what no
// formula gives.
func TestTermsNameTheSheets(t *testing.T) {
	var words []string
	for _, term := range SheetTerms() {
		words = append(words, term.Word)
	}
	assert.Contains(t, words, GradesSheet)
	assert.Contains(t, SettingTerms(7)[3].Meaning, "in panels of 7 or more")
}
