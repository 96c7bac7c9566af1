package ledger

import (
	"strings"
	"testing"

	"boxbook/scoring"
	"boxbook/season"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What the program ships may be defined anew without a warning. Ladders, rule
// styles and fault kinds are replaced whole and keep their place.
func TestShippedLadderDefinedAnew(t *testing.T) {
	l := readClean(t, `
ladder uk
  category club       floor 500m
  category explorers  new 7.4.1.1 9.4 spins
pilot ines
flight 2026-04-18 ines known
  category explorers
  place 1
`)
	assert.Equal(t, []string{"us", "uk", "fai"}, named(l.Ladders, func(x *season.Ladder) string { return x.Name }))
	assert.Equal(t, season.Ladder{Name: "uk", Categories: []season.Category{
		{Name: "club", Floor: 500, Unit: "m"},
		{Name: "explorers", New: []string{"7", "hesitation", "spins"}}, // numbers name their group
	}}, *l.Ladders[1])
	assert.Same(t, l.Ladders[1], l.Flights[0].Ladder)
}

func TestShippedFaultKindDefinedAnew(t *testing.T) {
	l := readClean(t, `
fault-kind radius
  unit  deg
  at    10deg 2
  at    20deg 4
`)
	kind := kindOfName(t, l, "radius")
	assert.False(t, kind.Shipped)
	assert.Equal(t, season.Degrees, kind.Unit)
	assert.Nil(t, kind.Plain, "replaced whole: the shipped kind has `plain 1`")
	assert.Empty(t, kind.Says)
	require.Len(t, kind.At, 2)
	assert.Equal(t, "4", kind.At[1].Points.String())
}

// A style is panel-mean and its own settings over it; `like` takes another to
// stand on, in chains; a style of a shipped name that is like it means the
// shipped one.
func TestRulesLike(t *testing.T) {
	for _, test := range []struct {
		name, text string
		want       scoring.Style
	}{
		{"nothing said", "rules own\n  note \"as it comes\"\n", scoring.Style{Name: "own"}},
		{"over panel-mean", "rules own\n  half zero\n", scoring.Style{Name: "own", Half: scoring.HalfZero}},
		{"like as-graded", "rules own\n  like as-graded\n", scoring.Style{Name: "own", HardZero: scoring.AsGiven}},
		{"the last word is its own", "rules own\n  hard-zero majority\n  like as-graded\n", scoring.Style{Name: "own"}},
		{
			"a chain of three, in any order",
			"rules own\n  like second\n  half fill\nrules second\n  like third\n  fill-rounding 0,5\nrules third\n  like drop-extremes\n",
			scoring.Style{Name: "own", Half: scoring.HalfFill, FillRounding: scoring.ToHalf, DropExtremes: true},
		},
		{
			"like a chain that ends in no `like`",
			"rules own\n  like second\nrules second\n  drop-extremes yes\n",
			scoring.Style{Name: "own", DropExtremes: true},
		},
	} {
		t.Run(test.name, func(t *testing.T) {
			assert.Equal(t, test.want, styleOf(t, readClean(t, test.text), "own"))
		})
	}
}

func TestShippedRulesDefinedAnew(t *testing.T) {
	l := readClean(t, `
rules panel-mean
  like           panel-mean
  fill-rounding  0.1
rules drop-extremes      # replaced whole: nothing is dropped
  half           zero
rules mine
  like           panel-mean
`)
	assert.Equal(t, scoring.Style{Name: "panel-mean", FillRounding: scoring.ToTenth}, styleOf(t, l, "panel-mean"))
	assert.False(t, styleOf(t, l, "drop-extremes").DropExtremes)
	assert.Equal(t, scoring.Style{Name: "mine", FillRounding: scoring.ToTenth}, styleOf(t, l, "mine"), "the ledger's panel-mean")
	assert.Equal(t, []string{"panel-mean", "drop-extremes", "as-graded", "mine"}, named(l.Styles, func(s *season.RuleStyle) string { return s.Name }))
}

// Flights that name no style take the ledger's panel-mean, and say so.
func TestDefaultStyleDefinedAnew(t *testing.T) {
	l := readClean(t, "rules panel-mean\n  half fill\npilot ines\nflight 2026-04-18 ines known\n  category advanced\n  place 1\n")
	assert.Equal(t, scoring.HalfFill, l.Flights[0].Style.Half)
	assert.True(t, l.Flights[0].StyleDefault)
}

func styleOf(t testing.TB, l *season.Ledger, name string) scoring.Style {
	t.Helper()
	for _, s := range l.Styles {
		if s.Name == name {
			return s.Style
		}
	}
	require.Fail(t, "no rule style "+name)
	return scoring.Style{}
}

// A policy keeps the house value of every key that is left out, the shipped one
// defined anew included; a second policy stands on the house too.
func TestPolicyOverTheHouse(t *testing.T) {
	house := named(readClean(t, "").Policies[0].Keys, setting)
	require.Len(t, house, 15)
	l := readClean(t, "policy move-up\n  window 365\n  zeros 2 in 8\n  forecast off\n")
	require.Len(t, l.Policies, 1)
	want := strings.NewReplacer("window 730", "window 365", "zeros 0 4", "zeros 2 8", "forecast 50", "forecast off").
		Replace(strings.Join(house, "\n"))
	assert.Equal(t, strings.Split(want, "\n"), named(l.Policies[0].Keys, setting))
	off, _ := l.Policies[0].Key("forecast")
	assert.True(t, off.Off)
	assert.Equal(t, "50", off.Values[0].String(), "what is off keeps the house's number")

	l = readClean(t, "policy gentle\n  threshold 55,5\n")
	assert.Equal(t, []string{"move-up", "gentle"}, named(l.Policies, func(p *season.Policy) string { return p.Name }))
	assert.Equal(t, house, named(l.Policies[0].Keys, setting))
	assert.Equal(t, "threshold 55.5", setting(l.Policies[1].Keys[2]))
	assert.Equal(t, house[3:], named(l.Policies[1].Keys[3:], setting))
}
