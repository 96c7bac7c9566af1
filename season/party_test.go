package season_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/season"
)

// A text names a party by its handle as a word or by its full name.
func TestNamedIn(t *testing.T) {
	ines := season.Party{Pilot: &season.Pilot{Handle: "ines", Name: "Ines Halloran"}}
	rolf := season.Party{Person: &season.Person{Handle: "rolf"}}
	all := []season.Party{ines, rolf, {}}
	for text, want := range map[string][]season.Party{
		"from INES, in cash":          {ines},
		"ines halloran's fee":         {ines},
		"rolf; ines":                  {ines, rolf},
		"inesco, the club, rolf-park": nil,
		"Ines Hallorans, Rolfsen":     {ines},
		"of ines-halloran":            nil,
		"":                            nil,
	} {
		assert.Equal(t, want, season.NamedIn(text, all), text)
	}
}

// Of a name in capitals among other words, with another name behind it, or with something
// that is theirs it is not plain that the party is meant.
func TestPlainlyNamed(t *testing.T) {
	ines := season.Party{Pilot: &season.Pilot{Handle: "ines", Name: "Ines Halloran"}}
	for text, want := range map[string]bool{
		"Ines":                        true,
		"FROM INES":                   true,
		"'Ines', in cash":             true,
		"Ines's aunt, and Ines":       true,
		"Ines's aunt":                 false,
		"ines\u2019 aunt":             false,
		"Ines Halloran's fee":         false,
		"Ines Halloran, her fee":      true,
		"INES Ltd":                    false,
		"Ines Parker":                 false,
		"from Ines, In cash":          true,
		"the Wines":                   false,
		"Ines\u2019s and Ines's aunt": false,
	} {
		assert.Equal(t, want, season.PlainlyNamed(text, ines), text)
	}
	yamada := season.Party{Pilot: &season.Pilot{Handle: "\u5c71\u7530"}}
	assert.True(t, season.PlainlyNamed("from \u5c71\u7530, in cash", yamada), "a script without capitals")
}
