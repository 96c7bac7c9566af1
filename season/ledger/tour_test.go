package ledger

import (
	"testing"

	"boxbook/data"
	"boxbook/scoring"
	"boxbook/season"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const ledgersFolder = "../../testdata/ledgers/"

// readDisk reads a ledger from the disk as of the day of the cases.
func readDisk(t testing.TB, path string) *Result {
	t.Helper()
	result, err := Load(Options{Files: Disk{}, Main: path, Shown: "book", Builtin: data.Builtin(), AsOf: day(t, casesToday)})
	require.NoError(t, err)
	return result
}

// tour is the ledger that has every kind of block and every key once.
func tour(t testing.TB) *season.Ledger {
	t.Helper()
	result := readDisk(t, ledgersFolder+"language-tour.boxbook")
	require.NoError(t, result.Diagnostics.Err(), rendered(t, result.Diagnostics))
	return result.Ledger
}

func day(t testing.TB, text string) season.Date {
	t.Helper()
	date, ok := season.ParseDate(text)
	require.True(t, ok, text)
	return date
}

// decimal is a number as typed.
func decimal(t testing.TB, text string) scoring.Decimal {
	t.Helper()
	d, ok := scoring.ParseDecimal(text)
	require.True(t, ok, text)
	return d
}

// flightOf is the flight of that name.
func flightOf(t testing.TB, l *season.Ledger, name string) *season.Flight {
	t.Helper()
	for _, f := range l.Flights {
		if f.Name == name {
			return f
		}
	}
	require.Fail(t, "no flight "+name)
	return nil
}

// row is a row of marks as a ledger writes them.
func row(marks []scoring.Mark) []string {
	words := make([]string, len(marks))
	for i, m := range marks {
		words[i] = m.String()
	}
	return words
}

// named lists what a list of things is called, in its order.
func named[T any](things []T, name func(T) string) []string {
	names := make([]string, len(things))
	for i, thing := range things {
		names[i] = name(thing)
	}
	return names
}

func TestTourIsRead(t *testing.T) {
	result := readDisk(t, ledgersFolder+"language-tour.boxbook")
	assert.Empty(t, rendered(t, result.Diagnostics))
	assert.Equal(t, []string{"book", "coach/marek.boxbook"}, result.Paths)
	l := result.Ledger
	assert.Equal(t, season.MonthDay{Month: 1, Day: 1}, l.SeasonStart)
	assert.Equal(t, "2026-11-25", l.AsOf.String())
}

func TestTourPeople(t *testing.T) {
	l := tour(t)
	assert.Equal(t, []string{"ines", "tobias", "yuki", "mara"}, named(l.Pilots, func(p *season.Pilot) string { return p.Handle }))
	ines, yuki := l.PilotNamed("ines"), l.PilotNamed("yuki")
	assert.Equal(t, season.Pilot{
		Handle: "ines", Name: "Ines Halloran", Club: "Kestrel Aero Club", Aircraft: "two-seat biplane, 200 hp",
		At: season.Place{File: "book", Line: 11},
	}, *ines)
	assert.Equal(t, `single-seat biplane, 260 hp, "the red one"`, yuki.Aircraft)
	assert.Empty(t, yuki.Club)
	require.Len(t, l.Coaches, 1)
	assert.Equal(t, "marek", l.Coaches[0].Handle)
	assert.Equal(t, "Marek Oduya", l.Coaches[0].Name)
}

func TestTourSequences(t *testing.T) {
	l := tour(t)
	assert.Equal(t, []string{"known-26", "unknown-26", "sportsman-free-26", "advanced-free-26", "silver-glider"},
		named(l.Sequences, func(s *season.Sequence) string { return s.Handle }))
	known := l.Sequences[0]
	assert.Equal(t, "intermediate", known.Category)
	assert.Equal(t, season.Known, known.Programme)
	assert.Empty(t, known.Catalogue)
	assert.Equal(t, 60, known.K())
	assert.Equal(t, 20, known.Positioning)
	assert.Zero(t, known.Harmony)
	assert.Equal(t, []season.Figure{
		{K: 14, Label: "half Cuban", Elements: []season.Element{{Code: "8.5.2.1", Group: "8", K: 10, Parts: 1}, {Code: "9.1.4.2", Group: "9.1", K: 4, Parts: 1}}},
		{K: 23, Label: "stall turn, quarter roll up", Elements: []season.Element{{Code: "5.2.1.1", Group: "5", K: 17, Parts: 1}, {Code: "9.1.1.1", Group: "9.1", K: 6, Parts: 1}}},
		{K: 14, Hinted: true, Label: "rolling turn", Elements: []season.Element{{Code: "2-rolling", Group: "2-rolling", K: 14, Parts: 1}}},
		{K: 9, Label: "unlabelled"},
	}, known.Figures)

	// Hints share the figure's K: K 20 over two is 10 each.
	assert.Equal(t, []season.Element{{Code: "9.4", Group: "hesitation", K: 20, Parts: 2}, {Code: "9.9", Group: "9.9", K: 20, Parts: 2}},
		l.Sequences[1].Figures[3].Elements)
	// Derived: 10+13+17+20 = 60, 10+14+17 = 41, 22+15+23 = 60, 7+10+14 = 31.
	assert.Equal(t, []int{60, 60, 41, 60, 31}, []int{l.Sequences[0].K(), l.Sequences[1].K(), l.Sequences[2].K(), l.Sequences[3].K(), l.Sequences[4].K()})
	glider := l.Sequences[4]
	assert.Equal(t, "glider", glider.Catalogue)
	assert.Equal(t, "silver", glider.Category)
	assert.Equal(t, 10, glider.Positioning)
	assert.Equal(t, 10, glider.Harmony)
	assert.Empty(t, glider.Figures[0].Label)
}

func TestTourLadders(t *testing.T) {
	l := tour(t)
	assert.Equal(t, []string{"us", "uk", "fai", "lakes", "lakes-gliders"}, named(l.Ladders, func(x *season.Ladder) string { return x.Name }))
	assert.True(t, l.Ladders[0].Shipped)
	lakes := l.Ladders[3]
	assert.False(t, lakes.Shipped)
	assert.Equal(t, []season.Category{
		{Name: "sportsman", Floor: 1500, Unit: "ft"},
		{Name: "intermediate", Floor: 1200, Unit: "ft", Unknowns: true, New: []string{"9.9", "2-rolling"}},
		{Name: "advanced", Floor: 800, Unit: "ft", Unknowns: true, New: []string{"9.10", "6"}},
	}, lakes.Categories)
	assert.Equal(t, []season.Category{{Name: "silver", Floor: 400, Unit: "m"}}, l.Ladders[4].Categories)
	step, ok := lakes.Category("advanced")
	assert.True(t, ok)
	assert.Equal(t, 800, step.Floor)
	_, ok = lakes.Category("unlimited")
	assert.False(t, ok)
}

func TestTourRules(t *testing.T) {
	l := tour(t)
	assert.Equal(t, []season.RuleStyle{
		{Shipped: true, Style: scoring.Style{Name: "panel-mean"}},
		{Shipped: true, Style: scoring.Style{Name: "drop-extremes", DropExtremes: true}},
		{Shipped: true, Style: scoring.Style{Name: "as-graded", HardZero: scoring.AsGiven}},
		{Style: scoring.Style{Name: "lakes-rules", FillRounding: scoring.ToTenth}},
		{Style: scoring.Style{Name: "lakes-extremes", FillRounding: scoring.ToTenth, DropExtremes: true}}, // like lakes-rules
	}, values(l.Styles))
}

// values are what pointers point to.
func values[T any](pointers []*T) []T {
	var found []T
	for _, p := range pointers {
		found = append(found, *p)
	}
	return found
}

// A policy lays what it sets over the house's; the other keys keep its values.
func TestTourPolicies(t *testing.T) {
	l := tour(t)
	assert.Equal(t, []string{"move-up", "gentle"}, named(l.Policies, func(p *season.Policy) string { return p.Name }))
	assert.Equal(t, []string{
		"flights 6", "window 730", "threshold 65", "share 0.5", "figure-floor 5.0", "floor-share 0.95", "floor-flights 4",
		"zeros 1 4", "lows 0 6", "unknowns 2", "new-families off", "forecast 50", "signoff yes", "safety 0", "current 60",
	}, named(l.Policies[0].Keys, setting))
	assert.Equal(t, []string{
		"flights 4", "window 365", "threshold 60", "share 0.5", "figure-floor 5.0", "floor-share 0.9", "floor-flights 3",
		"zeros 1 4", "lows 0 4", "unknowns 1", "new-families 1 6.0", "forecast 50", "signoff yes", "safety 0", "current 90",
	}, named(l.Policies[1].Keys, setting))
}

// setting is one key of a policy in words.
func setting(key season.PolicyKey) string {
	text := key.Key
	if key.Off {
		return text + " off"
	}
	for _, v := range key.Values {
		text += " " + v.String()
	}
	if key.Yes {
		text += " yes"
	}
	return text
}

// A fault kind defined anew is replaced whole and keeps its place in the list.
func TestTourFaultKinds(t *testing.T) {
	l := tour(t)
	names := named(l.FaultKinds, func(k *season.FaultKind) string { return k.Name })
	assert.Equal(t, "line-angle", names[0])
	assert.Equal(t, []string{"other", "late-smoke", "wander", "short-gap", "loose-harness"}, names[len(names)-5:])
	amount := func(unit season.Unit, value, text string) season.Amount {
		return season.Amount{Unit: unit, Value: decimal(t, value), Times: 1, Text: text}
	}
	ratio := func(first, second string) season.Amount {
		a := amount(season.Ratio, first, first+":"+second)
		a.Second = decimal(t, second)
		return a
	}
	half, span := decimal(t, "0.5"), amount(season.Span, "1", "1span")
	five := amount(season.Span, "5", "5span")
	tourKinds := []season.FaultKind{
		{Name: "line-angle", Unit: season.Degrees, Per: &season.Step{Amount: amount(season.Degrees, "5", "5deg"), Points: decimal(t, "1")}, Says: "line off its angle"},
		{Name: "late-smoke", Unit: season.Count, Plain: &half, Felt: true, Says: "smoke on too late"},
		{
			Name: "wander", Unit: season.Span, Free: &span, Zero: &five, Says: "out of the box sideways",
			Per: &season.Step{Amount: amount(season.Span, "0.5", "0.5span"), Points: decimal(t, "1")},
		},
		{
			Name: "short-gap", Unit: season.Ratio, Plain: &half, Next: true, Says: "gap between two figures short or missing",
			At: []season.Step{{Amount: ratio("2", "1"), Points: decimal(t, "1")}, {Amount: ratio("1", "0"), Points: decimal(t, "2")}},
		},
		{Name: "loose-harness", Safety: true, Says: "a strap came loose"},
	}
	for _, want := range tourKinds {
		assert.Equal(t, want, *kindOfName(t, l, want.Name), want.Name)
	}
	shipped := kindOfName(t, l, "roll-angle")
	assert.True(t, shipped.Shipped)
	require.NotNil(t, shipped.Plain)
	assert.Equal(t, "0.5", shipped.Plain.String())
}

func kindOfName(t testing.TB, l *season.Ledger, name string) *season.FaultKind {
	t.Helper()
	for _, k := range l.FaultKinds {
		if k.Name == name {
			return k
		}
	}
	require.Fail(t, "no fault kind "+name)
	return nil
}
