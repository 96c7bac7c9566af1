package season_test

import (
	"math/big"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/data/sources"
	outside "boxbook/data/sources/testkit"
	"boxbook/season"
	"boxbook/season/internal/testkit"
)

// halfSteps is a kind that a ledger can have for the rule that is not the shipped one.
const halfSteps = `
fault-kind half-steps
  unit  deg
  at    2.5deg 0.5
  at    5deg 1
  at    7.5deg 1.5
  says  "angle, half a point for each 2.5 degrees"
`

// What sources outside say of the price of a fault, through the shipped kinds. A
// zero takes ten points too, and is told from them by what the kind says of it.
func TestOutsideDeductions(t *testing.T) {
	outside.Outside(t, "deductions", func(t *testing.T, c outside.Check) {
		want := strings.NewReplacer("HZ", "10", "PZ", "10", "0.5", "1/2", "1.5", "3/2", "2.5", "5/2").Replace(c.Want)
		fault := testkit.BookOf(t, halfSteps+testkit.FaultBook+testkit.FlightText("2026-04-18 ines known", "fault 1 "+c.Asked)).Flights[0].Faults[0]
		assert.Equal(t, want, testkit.ExactText(fault.Deduction()), c.Where)
		assert.Equal(t, c.Want == "HZ" || c.Want == "PZ", toZero(fault), c.Where)
	})
}

// toZero reports whether a fault's kind takes the whole grade for it: by its zero, or
// as its only price.
func toZero(f season.Fault) bool {
	if f.Amount.Unit == season.NoUnit {
		return f.Kind.Plain != nil && f.Kind.Plain.Rat().Cmp(big.NewRat(10, 1)) == 0
	}
	return f.Kind.Zero != nil && f.Amount.Reaches(*f.Kind.Zero)
}

// What they say is left of a grade, through what a flight's faults lead one to
// expect of its figures.
func TestOutsideGrades(t *testing.T) {
	outside.Outside(t, "grades", func(t *testing.T, c outside.Check) {
		var lines []string
		for fault := range strings.SplitSeq(c.Asked, "; ") {
			line := "fault 1 " + fault
			if rest, second := strings.CutPrefix(fault, "@2 "); second {
				line = "fault 2 " + rest
			}
			lines = append(lines, line)
		}
		want, second := strings.CutPrefix(c.Want, "=2 ")
		figure := 1
		if second {
			figure = 2
		}
		if len(lines) > 1 && c.Mark.Word == sources.Published {
			assert.Equal(t, "45 degrees", c.Mark.Cites[0].Section, "the sum of several faults stands in no source: %s", c.Where)
		}
		grades := testkit.FlightWith(t, lines...).ExpectedGrades()
		if want, all := strings.CutPrefix(c.Want, "=all "); all {
			taken := new(big.Rat)
			for _, g := range grades {
				taken.Add(taken, new(big.Rat).Sub(big.NewRat(10, 1), g.Expected))
			}
			assert.Equal(t, want, taken.FloatString(1), c.Where)
			return
		}
		at := slices.IndexFunc(grades, func(g season.ExpectedGrade) bool { return g.Figure == figure })
		require.GreaterOrEqual(t, at, 0)
		assert.Equal(t, want, grades[at].Expected.FloatString(1), c.Where)
	})
}

// What they show of which figure a catalogue number is.
func TestOutsideCodes(t *testing.T) {
	outside.Outside(t, "codes", func(t *testing.T, c outside.Check) {
		assert.Equal(t, c.Want, season.GroupOf(c.Asked), c.Where)
	})
}
