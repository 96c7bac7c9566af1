package words

import (
	"fmt"
	"strings"

	"boxbook/report/answers"
	"boxbook/season/analysis/code"
)

// lack is why nothing can be said.
type lack answers.Lack

// forecast says why there is no forecast from the flights of the last days.
func (l lack) forecast(days int) string {
	switch l.Reason {
	case code.FewFlights:
		text := orNo(l.Flights, Counted(l.Flights, "contest flight with graded figures and codes", "contest flights with graded figures and codes"))
		if l.Uncoded > 0 {
			text += fmt.Sprintf(" (%d more without codes)", l.Uncoded)
		}
		return text + " in " + lastDays(days) + "; at least " + NumberWord(l.Least) + " are needed"
	case code.FewContests:
		return "the flights are of " + Counted(l.Contests, "contest", "contests") + "; at least " + NumberWord(l.Least) + " are needed"
	default:
		return "the grades flown do not allow a range"
	}
}

// orNo says how many there are of something, of which "no" stands for none.
func orNo(n int, counted string) string {
	if n > 0 {
		return counted
	}
	return "no " + strings.TrimPrefix(counted, "0 ")
}

// plan says why there is no plan from the flights of so many days.
func (l lack) plan(in string) string {
	switch l.Reason {
	case code.FewFlights:
		text := orNo(l.Flights, marked(l.Flights))
		switch {
		case l.Bare > 0 && l.Flights > 0:
			text += fmt.Sprintf(" (%d more with an official total only)", l.Bare)
		case l.Bare > 0:
			text += fmt.Sprintf(" (%d with an official total only)", l.Bare)
		}
		return text + " in " + in + "; at least " + NumberWord(l.Least) + " are needed"
	case code.NoGain:
		return "no family that was flown offers a gain on that sequence"
	default:
		return levelsLack(l.Families, l.LeastFamilies)
	}
}

// marked counts contest flights that have marks.
func marked(n int) string {
	return Counted(n, "contest flight with marks", "contest flights with marks")
}
