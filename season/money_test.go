package season_test

import (
	"fmt"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
)

// Halves go away from zero, to the currency's smallest unit.
func TestRoundMoney(t *testing.T) {
	for _, test := range []struct {
		units  string
		places int
		want   string
	}{
		{"37.004", 2, "37.00"},
		{"37.005", 2, "37.01"},
		{"-37.004", 2, "-37.00"},
		{"-37.005", 2, "-37.01"},
		{"-0.004", 2, "0.00"},
		{"2.5", 0, "3"},
		{"-2.5", 0, "-3"},
		{"1/3", 3, "0.333"},
		{"2/3", 3, "0.667"},
	} {
		units, ok := new(big.Rat).SetString(test.units)
		require.True(t, ok)
		got, ok := season.RoundMoney(units, season.Currency{Code: "EUR", Decimals: test.places})
		require.True(t, ok, test.units)
		assert.Equal(t, test.want, got.Text(), test.units)
	}
	_, ok := season.RoundMoney(new(big.Rat).SetInt(new(big.Int).Lsh(big.NewInt(1), 63)), season.Currency{Code: "EUR"})
	assert.False(t, ok, "more than an amount can hold")
}

func TestDigitsSwapped(t *testing.T) {
	for text, want := range map[int64]string{
		43550:  "[435.05 453.50 345.50]",
		-4210:  "[-42.01 -41.20 -24.10]",
		9500:   "[90.50 59.00]", // across the point too
		1000:   "[]",            // 01.00 is nothing that anybody types
		7:      "[]",
		40:     "[0.04]",
		110000: "[1010.00]",
	} {
		got := []string{}
		for _, m := range (season.Money{Minor: text, Currency: season.Currency{Code: "EUR", Decimals: 2}}).DigitsSwapped() {
			got = append(got, m.Text())
		}
		assert.Equal(t, want, fmt.Sprint(got), text)
	}
	yen := season.Currency{Code: "JPY"}
	assert.Equal(t, []season.Money{{Minor: 21, Currency: yen}}, season.Money{Minor: 12, Currency: yen}.DigitsSwapped())
}

// A point one or two places elsewhere makes ten or a hundred times the amount, or less where
// the currency has that.
func TestPointMoved(t *testing.T) {
	euro, yen := season.Currency{Code: "EUR", Decimals: 2}, season.Currency{Code: "JPY"}
	moved := func(minor int64, c season.Currency) []string {
		var all []string
		for _, m := range (season.Money{Minor: minor, Currency: c}).PointMoved() {
			all = append(all, m.Text())
		}
		return all
	}
	assert.Equal(t, []string{"3.70", "370.00", "0.37", "3700.00"}, moved(3700, euro))
	assert.Equal(t, []string{"-0.50", "-50.00", "-0.05", "-500.00"}, moved(-500, euro))
	assert.Equal(t, []string{"120", "1200"}, moved(12, yen))
	assert.Empty(t, moved(0, euro))
}
