package analysis

import (
	"math"

	"boxbook/season/analysis/code"
)

// windowKey is the policy's key for the days that count; off, all do.
const windowKey = "window"

// gateRow is one gate: the policy's key that asks for it, its name, the keys
// whose numbers it goes by, and its function, which reports false where there is
// nothing to ask. One that is bare is asked without a number, unless the key says
// that it is off.
type gateRow struct {
	key, name string
	numbers   []string
	ask       func(*readinessState, *Gate) bool
	bare      bool
}

// gateRows are the gates in their order. Their numbers are the policy's, and the
// shipped policy's where a ledger leaves them out; what they say is put into
// words in report/words. A gate is named after its key, one apart: the key
// "safety" says which matters must not be open, and the gate no more than that
// none is.
var gateRows = []gateRow{
	{key: "flights", name: "flights", numbers: []string{"flights", windowKey}, ask: (*readinessState).flightsGate},
	{key: "steps", name: "steps", ask: (*readinessState).stepsGate, bare: true},
	{key: "threshold", name: "threshold", numbers: []string{"threshold", "share"}, ask: (*readinessState).thresholdGate},
	{key: "figure-floor", name: "figure-floor", numbers: []string{"figure-floor", "floor-share", "floor-flights"}, ask: (*readinessState).floorGate},
	{key: "zeros", name: "zeros", numbers: []string{"zeros"}, ask: (*readinessState).zerosGate},
	{key: "lows", name: "lows", numbers: []string{"lows"}, ask: (*readinessState).lowsGate},
	{key: "unknowns", name: "unknowns", numbers: []string{"unknowns", windowKey}, ask: (*readinessState).unknownsGate},
	{key: "new-families", name: "new-families", numbers: []string{"new-families"}, ask: (*readinessState).newFamiliesGate},
	{key: "forecast", name: "forecast", numbers: []string{"forecast"}, ask: (*readinessState).forecastGate},
	{key: "signoff", name: "signoff", ask: (*readinessState).signoffGate},
	{key: "safety", name: "open-matters", numbers: []string{"safety"}, ask: (*readinessState).openMattersGate},
	{key: "current", name: "current", numbers: []string{"current"}, ask: (*readinessState).currentGate},
}

// gate asks one gate; false where the policy or the ladder does not ask for it. A
// policy without one of its numbers leaves it open: there is none but the policy's.
func (s *readinessState) gate(row gateRow) (Gate, bool) {
	if key, ok := s.r.Policy.Key(row.key); key.Off || !ok && !row.bare {
		return Gate{}, false
	}
	g := Gate{Name: row.name, Settings: s.settings(row), Counts: true}
	for _, key := range row.numbers {
		if key != windowKey && math.IsNaN(s.number(key, 0)) {
			g.open(code.Unset)
			return g, true
		}
	}
	asked := row.ask(s, &g)
	return g, asked
}

// off reports whether the policy says that a gate is not asked for.
func (s *readinessState) off(row gateRow) bool {
	key, _ := s.r.Policy.Key(row.key)
	return key.Off
}

// settings are what a gate goes by: its numbers, or its key alone.
func (s *readinessState) settings(row gateRow) []Setting {
	var settings []Setting
	for _, name := range row.numbers {
		key, ok := s.r.Policy.Key(name)
		setting := Setting{Key: name, Values: key.Values, House: !ok || key.Off || key.House}
		if name == windowKey && key.Off {
			setting.Values, setting.House = nil, false
		}
		settings = append(settings, setting)
	}
	if len(settings) == 0 {
		key, ok := s.r.Policy.Key(row.key)
		settings = append(settings, Setting{Key: row.key, House: !ok || key.House})
	}
	return settings
}

// number is a setting's number at a place, NaN where the policy has none.
func (s *readinessState) number(name string, at int) float64 {
	key, _ := s.r.Policy.Key(name)
	if at >= len(key.Values) {
		return math.NaN()
	}
	value, _ := key.Values[at].Rat().Float64()
	return value
}

// whole is number of a key that counts things; 0 where the policy has none.
func (s *readinessState) whole(name string, at int) int {
	if n := s.number(name, at); !math.IsNaN(n) {
		return int(n)
	}
	return 0
}

// windowDays are the policy's window; without one every day counts.
func (s *readinessState) windowDays() float64 {
	if key, ok := s.r.Policy.Key(windowKey); ok && !key.Off {
		return s.number(windowKey, 0)
	}
	return math.Inf(1)
}
