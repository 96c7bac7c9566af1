package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report/words"
	"boxbook/season"
)

// Every trend group has a name of its own; what is no group has none.
func TestGroupNames(t *testing.T) {
	names := map[string]bool{}
	for _, group := range season.Groups {
		name := words.GroupName(group)
		assert.NotEmpty(t, name, group)
		assert.False(t, names[name], "two groups are called %q", name)
		names[name] = true
	}
	for _, word := range []string{"4", "9", "9.2", "9.11", "9.1.3.4", "", "loops", "no family"} {
		assert.Empty(t, words.GroupName(word), word)
	}
}

// A title has the key where the words do not say it.
func TestGroupTitles(t *testing.T) {
	assert.Equal(t, "tailslides (family 6), slow rolls (family 9.1), rolling turns, hesitation rolls, spins, line-angle",
		words.GroupTitles([]string{"6", "9.1", "2-rolling", "hesitation", "spins", "line-angle"}))
}

// A drill on a family is said by the family, one on a fault by its kind.
func TestGroupsShort(t *testing.T) {
	assert.Equal(t, "radius, stall turns, spin-stop", words.GroupsShort([]string{"radius", "5", "spin-stop"}))
}
