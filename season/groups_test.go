package season_test

import (
	"testing"

	"boxbook/season"

	"github.com/stretchr/testify/assert"
)

// The groups of codes; those that a source shows are in testdata/outside. That a
// third number of 2 or more makes a 2.x code of four a rolling turn, and that
// family 4 is no longer used: [memory].
func TestGroupOf(t *testing.T) {
	for code, want := range map[string]string{
		"1": "1", "1.1.1.1": "1", "1.2.6.3": "1",
		"2": "2", "2.1": "2", "2.2.1.1": "2", "2.4.1.4": "2",
		"2.2.2.1": "2-rolling", "2.1.3.1": "2-rolling", "2.2.10": "2-rolling", "2-rolling": "2-rolling",
		"3": "3", "3.1.1.1": "3",
		"4": "", "4.1.1.1": "",
		"5": "5", "5.2.1.1": "5",
		"6": "6", "6.2.1.1": "6",
		"7": "7", "7.4.1.1": "7", "7.2.2.1": "7",
		"8": "8", "8.5.2.1": "8", "8.4.3.1": "8",
		"9": "", "9.1": "9.1", "9.1.3.4": "9.1",
		"9.2": "hesitation", "9.2.3.4": "hesitation", "9.4": "hesitation", "9.4.1.2": "hesitation", "9.8.3.4": "hesitation",
		"9.3": "hesitation", "9.7.1": "hesitation",
		"9.9": "9.9", "9.9.3.4": "9.9", "9.10": "9.10", "9.10.3.4": "9.10",
		"9.11": "spins", "9.11.1.4": "spins", "9.12": "spins", "9.12.1.6": "spins", "spins": "spins",
		"9.13": "", "9.0": "", "9.13.1.1": "",
		"hesitation": "hesitation",
		"":           "", "0": "", "10": "", "0.1": "", "x": "", "9.": "", ".9": "", "9..1": "", "9.1.x": "", "-1": "", "+1": "", "9,1": "", "Spins": "",
		"1.2.3.4.5.6": "1", "1.2.3.4.5.6.7": "", "1.1000": "", "1.999": "1", "9.1.": "", "７": "",
	} {
		assert.Equal(t, want, season.GroupOf(code), "code %q", code)
	}
}

// Every group is a key of its own and has an order.
func TestGroups(t *testing.T) {
	assert.Equal(t, []string{"1", "2", "2-rolling", "3", "5", "6", "7", "8", "9.1", "hesitation", "9.9", "9.10", "spins"}, season.Groups)
	for _, group := range season.Groups {
		assert.True(t, season.IsGroup(group))
		assert.Equal(t, group, season.GroupOf(group))
	}
	for _, word := range []string{"4", "9", "9.2", "9.11", "9.1.3.4", "", "loops"} {
		assert.False(t, season.IsGroup(word), word)
	}
}

func TestCodeParts(t *testing.T) {
	numbers, ok := season.CodeParts("9.10.3.4")
	assert.True(t, ok)
	assert.Equal(t, []int{9, 10, 3, 4}, numbers)
	numbers, ok = season.CodeParts("4.1")
	assert.True(t, ok, "a number, though of no group")
	assert.Equal(t, []int{4, 1}, numbers)
	for _, word := range []string{"", ".", "1.", "a", "1.a", "0.1", "10.1", "1.2.3.4.5.6.7", "1.2345", "1 2", "1.-2", "1.+2"} {
		_, ok := season.CodeParts(word)
		assert.False(t, ok, word)
	}
}
