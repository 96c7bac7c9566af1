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
		"":                            nil,
	} {
		assert.Equal(t, want, season.NamedIn(text, all), text)
	}
}
