package pages

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
)

// The look at an entry before it is written has the lone grades.
func TestBriefFlightHasLoneGrades(t *testing.T) {
	d := answers.Flight{
		Marked: true, Style: &answers.RuleStyle{},
		Flags: []answers.Flag{{Figure: 8, Judge: "LB", Mark: "4.0", Fitted: report.Float(6.7)}},
	}
	assert.Contains(t, oneLine(textOf(t, Flight(d, FlightOptions{Brief: true}))), "judge LB gave 4.0 on figure 8; the rest of the panel")
}
