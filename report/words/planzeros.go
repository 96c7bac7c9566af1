package words

import (
	"fmt"
	"strings"

	"boxbook/report/answers"
	"boxbook/season/analysis/code"
)

// zerosCostMost reports whether zeros, which no gain has in it, cost more than the
// largest gain would bring, over all of the plan's flights.
func zerosCostMost(d answers.Plan) bool {
	if !d.Zeros.Each.Known() || d.Zeros.Figures == 0 {
		return false
	}
	return len(d.Items) == 0 || d.Zeros.Each.Float64() > d.Items[0].Gain.Float64()
}

// zerosAlone reports whether what zeros cost is all that a plan knows: no gain was measured
// that it could be more than.
func zerosAlone(d answers.Plan) bool {
	measured := d.Lack != nil && d.Lack.Reason == code.NoGain && d.Lack.Families > 0
	return zerosCostMost(d) && len(d.Items) == 0 && !measured
}

// zerosAloneSaid is all that is said of zeros there.
func zerosAloneSaid(d answers.Plan) string {
	z := d.Zeros
	text := fmt.Sprintf("Zeros cost about %s percentage points per flight, against the mean grade of the flight's other figures: %s zeroed in %s%s, which cost about %s points%s",
		z.Each.Text(1), Counted(z.Figures, "figure was", "figures were"), ofSeveral(z.Flights, d.Flights, "flight", "flights"), zeroedOften(z), z.Cost.Text(0), inAll(z.Flights))
	switch {
	case z.Flights == d.Flights:
	case z.Flights == 1:
		text += fmt.Sprintf(", %s percentage points in that flight", z.Percent.Text(1))
	default:
		text += fmt.Sprintf(", %s percentage points in each of these flights on average", z.Percent.Text(1))
	}
	return text + "."
}

// PlanZerosSentence says what zeros cost; "" where there were none, or where all of it
// stands on top.
func PlanZerosSentence(d answers.Plan) string {
	z := d.Zeros
	if z.Figures == 0 || zerosAlone(d) {
		return ""
	}
	said := fmt.Sprintf("Zeros are a matter of their own: %s zeroed by the panel in %s",
		Counted(z.Figures, "figure was", "figures were"), ofSeveral(z.Flights, d.Flights, "flight", "flights"))
	if !zerosCostMost(d) { // else it is said on top
		said += zeroedOften(z)
	}
	if !z.Points.Known() {
		return said + "; what that cost is not known, because no other figure of a flight has a grade."
	}
	each := ""
	if z.Flights > 1 {
		each = " in each of these flights on average"
	}
	if z.Flights < d.Flights && zerosCostMost(d) { // what stands on top is of all flights
		if z.Flights == 1 {
			each = " in that flight"
		}
		each += fmt.Sprintf(" (%s over all %s)", z.Each.Text(1), NumberWord(d.Flights))
	}
	said = fmt.Sprintf("%s, which cost about %s points%s, %s percentage points%s, against the mean grade of the flight's other figures.",
		said, z.Cost.Text(0), inAll(z.Flights), z.Percent.Text(1), each)
	if len(d.Items) == 0 {
		return said
	}
	return said + " The gains above leave them out."
}

// mostZeroed is how many figures that were zeroed more than once are named.
const mostZeroed = 3

// zeroedOften names the figures that were zeroed more than once, those that were most often
// first: what practice of zeros is of.
func zeroedOften(z answers.PlanZeros) string {
	var said []string
	for _, f := range z.Of[:min(mostZeroed, len(z.Of))] {
		if f.Times > 1 {
			said = append(said, fmt.Sprintf("%s, %s times", FigureTitle(f.Figure), NumberWord(f.Times)))
		}
	}
	if len(said) == 0 {
		return ""
	}
	return " (most often " + strings.Join(said, "; ") + ")"
}

// inAll says of a sum over several flights that it is one.
func inAll(flights int) string {
	if flights > 1 {
		return " in all"
	}
	return ""
}
