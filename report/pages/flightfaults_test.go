package pages

import (
	"encoding/json"
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

func TestFlightWithoutFaults(t *testing.T) {
	f := faultBook(t, kestrelBook+"flight 2026-04-18 ines known\n  sequence known-26\n  reviewed\n").Flights[0]
	d := answers.FlightOf(f)
	assert.Empty(t, faultSections(d))
	encoded, err := json.Marshal(map[string]any{"faults": d.Faults, "expected": d.Expected})
	require.NoError(t, err)
	assert.JSONEq(t, `{"faults":[],"expected":[]}`, string(encoded))
}

// flightFaultsText is the section of kestrelFlight.
const flightFaultsText = `Faults

on 3 figures with faults the expected grade is 0.39 below the panel's on average

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

= noted by another observer too: the larger counts, once
+ costs the following figure the same
? at the most: a fault on it has no amount, and its kind no price without one
- figure 2, line-angle: drawn at eighty
- figure 1, pull-rate: waits, then snatches
- figure 3, spin-stop: thought it was less
- whole flight, loose-article: canopy catch not latched
- expected: 10 less the seen faults, 0.0 at the least; given: the panel's mean;
  difference: expected less given
- a figure made 0 as a matter of fact is no grade for faults`

// flightFaultsJSON is the same for programs.
const flightFaultsJSON = `{
	"expected": [
		{"figure": 2, "label": "stall turn, quarter roll up", "expected": 8, "given": 6.75, "unpriced": true},
		{"figure": 3, "label": "one and a quarter spin", "expected": 7.5, "given": 6.5, "difference": 1},
		{"figure": 4, "label": "round loop", "expected": 6, "given": 8.166666666666666, "difference": -2.1666666666666665},
		{"figure": 5, "label": "unlabelled", "expected": 0, "given": 0, "difference": 0, "zeroed": true}],
	"faults": [
		{"figure": 2, "kind": "line-angle", "amount": "10deg", "on": "9.1.1.1", "deduction": 2, "seen": true, "remark": "drawn at eighty", "counted": true, "graded": true},
		{"figure": 1, "kind": "pull-rate", "deduction": 0, "seen": false, "remark": "waits, then snatches", "counted": true, "graded": false},
		{"figure": 3, "kind": "spin-stop", "amount": "12deg", "on": "9.11.1.5", "deduction": 2.5, "seen": true, "by": "marek", "counted": true, "graded": true},
		{"figure": 3, "kind": "spin-stop", "amount": "8deg", "on": "9.11.1.5", "deduction": 1.5, "seen": true, "remark": "thought it was less", "counted": false, "graded": true},
		{"figure": 4, "kind": "radius", "amount": "3x", "deduction": 3, "seen": true, "by": "marek", "counted": true, "graded": true},
		{"figure": 4, "kind": "no-line", "deduction": 1, "seen": true, "counted": true, "graded": true, "next": true},
		{"figure": 2, "kind": "bridging", "seen": true, "counted": true, "graded": true},
		{"figure": 5, "kind": "other", "amount": "9pt", "deduction": 9, "seen": true, "counted": true, "graded": true},
		{"kind": "loose-article", "deduction": 0, "seen": true, "remark": "canopy catch not latched", "counted": true, "graded": false}]
}`
