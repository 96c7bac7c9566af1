package season_test

import (
	"testing"

	"boxbook/season"

	"github.com/stretchr/testify/assert"
)

// Names in any script: a letter, then letters with their marks, digits, - or _.
func TestIsHandle(t *testing.T) {
	for text, want := range map[string]bool{
		"ines": true, "J1": true, "known-26": true, "a_b": true, "Łukasz": true, "Jose\u0301": true, "иван": true, "a٣": true,
		"": false, "9x": false, "-a": false, "_a": false, "\u0301a": false, "a b": false, "a.b": false, "a/b": false, "a\x00": false, "\xff": false,
	} {
		assert.Equal(t, want, season.IsHandle(text), "%q", text)
	}
}
