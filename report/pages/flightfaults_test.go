package pages

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report"
	"boxbook/report/answers"
)

func TestFlightFaults(t *testing.T) {
	f := faultBook(t, kestrelBook+kestrelFlight).Flights[0]
	d := answers.FlightOf(f)
	doc := report.Document{Sections: faultSections(d)}
	assert.Equal(t, flightFaultsText, textOf(t, doc))
	encoded, err := json.Marshal(map[string]any{"faults": d.Faults, "expected": d.Expected})
	require.NoError(t, err)
	assert.JSONEq(t, flightFaultsJSON, string(encoded))
}

// The page of a flight has the losses with the faults noted on them in one table:
// figures that lost most and those with a fault, the rest summed up.
func TestFlightLossesWithFaults(t *testing.T) {
	d := answers.FlightOf(faultBook(t, kestrelBook+kestrelFlight).Flights[0])
	assert.Equal(t, flightLossesText, textOf(t, report.Document{Sections: lossSection(d)}))
	d = answers.FlightOf(faultBook(t, kestrelBook+"flight 2026-04-18 ines known\n  sequence known-26\n  fault 1 radius 2x seen\n  fault - loose-article\n").Flights[0])
	text := textOf(t, report.Document{Sections: lossSection(d)})
	assert.True(t, strings.HasPrefix(text, "Faults\n"), "nothing was marked: %s", text)
	assert.Regexp(t, `(?m)^ +1 +8\.00 +radius +2x +2\.00 +seen$`, text)
	assert.Regexp(t, `(?m)^ +- +loose-article +seen$`, text)
}

// A weighted line has no fault: its name stands where figures have their numbers.
func TestLossOfAWeightedLine(t *testing.T) {
	d := answers.FlightOf(faultBook(t, kestrelBook+"flight 2026-04-18 ines practice\n  sequence known-26\n  panel A\n  4 8\n  positioning 5\n  fault 4 radius 2x seen\n").Flights[0])
	text := textOf(t, report.Document{Sections: lossSection(d)})
	assert.Regexp(t, `(?m)^positioning +50\.00$`, text)
	assert.Regexp(t, `(?m)^ +4 +20\.00 +8\.00 +8\.00 +radius +2x +2\.00 +seen$`, text)
}

func TestFlightWithoutFaults(t *testing.T) {
	f := faultBook(t, kestrelBook+"flight 2026-04-18 ines known\n  sequence known-26\n  reviewed\n").Flights[0]
	d := answers.FlightOf(f)
	assert.Empty(t, faultSections(d))
	assert.Empty(t, lossSection(d))
	encoded, err := json.Marshal(map[string]any{"faults": d.Faults, "expected": d.Expected})
	require.NoError(t, err)
	assert.JSONEq(t, `{"faults":[],"expected":[]}`, string(encoded))
}

// flightFaultsText is the section of kestrelFlight.
const flightFaultsText = `Faults

on 3 figures with noted faults the panel gave on average 0.39 more than the
faults leave

fig  fault          amount  on        costs  noted  by
─────────────────────────────────────────────────────────
  2  line-angle      10deg  9.1.1.1   2.00   seen
  1  pull-rate                               felt
  3  spin-stop       12deg  9.11.1.5  2.50   seen   marek
  3  spin-stop        8deg  9.11.1.5  1.50=  seen
  4  radius             3x            3.00   seen   marek
  4  no-line                          1.00+  seen
  2  bridging                            ?   seen
  5  other             9pt            9.00   seen
  -  loose-article                           seen

expected against given
fig  figure                       expected  given  difference
─────────────────────────────────────────────────────────────
  2  stall turn, quarter roll up     8.00?   6.75
  3  one and a quarter spin          7.50    6.50       +1.00
  4  round loop                      6.00    8.17       -2.17
  5  unlabelled                      0.00    0.00        0.00

= noted more than once: the larger counts, once
+ costs the next figure the same
? at most: a fault on it has no amount, and its kind has no deduction without
  one
- figure 2, line-angle: drawn at eighty
- figure 1, pull-rate: waits, then snatches
- figure 3, spin-stop: thought it was less
- whole flight, loose-article: canopy catch not latched
- expected: 10 minus the seen faults, at least 0.0; given: the panel's mean;
  difference: expected minus given
- a figure made 0 as a matter of fact is no grade for faults`

// flightFaultsJSON is the same for programs.
const flightFaultsJSON = `{
	"expected": [
		{"figure": 2, "label": "stall turn, quarter roll up", "expected": 8, "given": 6.75, "unpriced": true},
		{"figure": 3, "label": "one and a quarter spin", "expected": 7.5, "given": 6.5, "difference": 1},
		{"figure": 4, "label": "round loop", "expected": 6, "given": 8.166666666666666, "difference": -2.1666666666666665},
		{"figure": 5, "label": "unlabelled", "expected": 0, "given": 0, "difference": 0, "zeroed": true}],
	"faults": [
		{"figure": 2, "label": "stall turn, quarter roll up", "kind": "line-angle", "says": "line at the wrong angle", "points": 46, "amount": "10deg", "on": "9.1.1.1", "deduction": 2, "seen": true, "remark": "drawn at eighty", "counted": true, "graded": true},
		{"figure": 1, "label": "half Cuban", "kind": "pull-rate", "says": "uneven pull or push", "points": 0, "deduction": 0, "seen": false, "remark": "waits, then snatches", "counted": true, "graded": false},
		{"figure": 3, "label": "one and a quarter spin", "kind": "spin-stop", "says": "spin under- or over-rotated", "points": 35, "amount": "12deg", "on": "9.11.1.5", "deduction": 2.5, "seen": true, "by": "marek", "counted": true, "graded": true},
		{"figure": 3, "label": "one and a quarter spin", "kind": "spin-stop", "says": "spin under- or over-rotated", "points": 21, "amount": "8deg", "on": "9.11.1.5", "deduction": 1.5, "seen": true, "remark": "thought it was less", "counted": false, "graded": true},
		{"figure": 4, "label": "round loop", "kind": "radius", "says": "radius changed", "points": 30, "amount": "3x", "deduction": 3, "seen": true, "by": "marek", "counted": true, "graded": true},
		{"figure": 4, "label": "round loop", "kind": "no-line", "says": "no line shown between two figures", "points": 19, "deduction": 1, "seen": true, "counted": true, "graded": true, "next": true},
		{"figure": 2, "label": "stall turn, quarter roll up", "kind": "bridging", "says": "slid sideways at the top of the stall turn", "seen": true, "counted": true, "graded": true},
		{"figure": 5, "label": "unlabelled", "kind": "other", "says": "another fault", "points": 81, "amount": "9pt", "deduction": 9, "seen": true, "counted": true, "graded": true},
		{"kind": "loose-article", "says": "loose article in the cockpit", "points": 0, "deduction": 0, "seen": true, "remark": "canopy catch not latched", "counted": true, "graded": false}]
}`

const flightLossesText = `Where the points went, and the faults noted

   fig   lost  given  expected  fault          amount  costs  noted
───────────────────────────────────────────────────────────────────
     5  90.00   0.00     0.00   other             9pt  9.00   seen
     2  74.75   6.75     8.00?  line-angle      10deg  2.00   seen
                                bridging                  ?   seen
     3  49.00   6.50     7.50   spin-stop       12deg  2.50   marek
                                spin-stop        8deg  1.50=  seen
     1  30.33   7.83            pull-rate                     felt
     4  18.33   8.17     6.00   radius             3x  3.00   marek
                                no-line                1.00+  seen
     -                          loose-article                 seen
3 more  89.67

= noted more than once: the larger counts, once
+ costs the next figure the same
? at most: a fault on it has no amount, and its kind has no deduction without
  one
- figure 2, line-angle: drawn at eighty
- figure 1, pull-rate: waits, then snatches
- figure 3, spin-stop: thought it was less
- whole flight, loose-article: canopy catch not latched
- given: the panel's mean; expected: 10 minus the seen faults, at least 0.0
- a figure made 0 as a matter of fact is no grade for faults`
