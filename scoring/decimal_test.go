package scoring_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"boxbook/scoring"
)

func TestParseDecimal(t *testing.T) {
	for _, test := range []struct {
		text  string
		want  scoring.Decimal
		exact string
		shown string
	}{
		{"0", scoring.Decimal{}, "0", "0"},
		{"540", scoring.Decimal{Units: 540}, "540", "540"},
		{"540.5", scoring.Decimal{Units: 5405, Places: 1}, "1081/2", "540.5"},
		{"540.50", scoring.Decimal{Units: 54050, Places: 2}, "1081/2", "540.50"},
		{"540,50", scoring.Decimal{Units: 54050, Places: 2}, "1081/2", "540.50"},
		{"0.05", scoring.Decimal{Units: 5, Places: 2}, "1/20", "0.05"},
		{"0.00", scoring.Decimal{Places: 2}, "0", "0.00"},
		{"007.5", scoring.Decimal{Units: 75, Places: 1}, "15/2", "7.5"},
		{"1.000000001", scoring.Decimal{Units: 1000000001, Places: 9}, "1000000001/1000000000", "1.000000001"},
		{"999999999999999999", scoring.Decimal{Units: 999999999999999999}, "999999999999999999", "999999999999999999"},
	} {
		got, ok := scoring.ParseDecimal(test.text)
		require.True(t, ok, test.text)
		assert.Equal(t, test.want, got, test.text)
		assert.Equal(t, test.exact, got.Rat().RatString(), test.text)
		assert.Equal(t, test.shown, got.String(), test.text)
	}
}

func TestParseDecimalRefuses(t *testing.T) {
	for _, text := range []string{
		"", ".", ",", ".5", "5.", "5,", "-1", "+1", "1e3", "1.2.3", "1,2,3", "1,234.5", "1.234,5",
		" 1", "1 ", "1 000", "0x10", "1_000", "HZ", "½", "٣", "１", "NaN", "Inf",
		"1.0000000001",         // ten decimals
		"1000000000000000000",  // nineteen digits
		"1000000000.123456789", // nineteen with the decimals
	} {
		got, ok := scoring.ParseDecimal(text)
		assert.False(t, ok, "%q", text)
		assert.Equal(t, scoring.Decimal{}, got, "%q", text)
	}
}

func TestDecimalPositive(t *testing.T) {
	assert.False(t, scoring.Decimal{}.Positive())
	assert.False(t, scoring.Decimal{Places: 2}.Positive())
	assert.True(t, scoring.Decimal{Units: 1, Places: 9}.Positive())
}

// A number reads back as it is printed, with a comma too.
func TestDecimalReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := scoring.Decimal{
			Units:  rapid.Int64Range(0, 999_999_999_999_999_999).Draw(t, "units"),
			Places: rapid.IntRange(0, 9).Draw(t, "places"),
		}
		for _, text := range []string{want.String(), strings.Replace(want.String(), ".", ",", 1)} {
			got, ok := scoring.ParseDecimal(text)
			assert.True(t, ok, text)
			assert.Equal(t, want, got, text)
		}
	})
}

// Whatever is refused or read, what is read has its digits and no others.
func FuzzParseDecimal(f *testing.F) {
	for _, text := range []string{"540.49", "540,5", "0", "1.2.3", "-1", "", "007.50"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		got, ok := scoring.ParseDecimal(text)
		if !ok {
			assert.Equal(t, scoring.Decimal{}, got)
			return
		}
		again, ok := scoring.ParseDecimal(got.String())
		require.True(t, ok, got.String())
		assert.Equal(t, got, again)
		typed := strings.TrimLeft(strings.Replace(text, ",", ".", 1), "0")
		assert.Equal(t, typed, strings.TrimLeft(got.String(), "0"))
	})
}
