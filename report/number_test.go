package report

import (
	"encoding/json"
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func rational(t *testing.T, text string) Number {
	t.Helper()
	value, ok := new(big.Rat).SetString(text)
	require.True(t, ok, text)
	return Exact(value)
}

func TestNumberTextRoundsOnceHalvesAwayFromZero(t *testing.T) {
	for _, test := range []struct {
		name     string
		number   Number
		decimals int
		want     string
	}{
		{"rational, half", rational(t, "67.565"), 2, "67.57"},
		{"rational, negative half", rational(t, "-67.565"), 2, "-67.57"},
		{"rational, just below half", rational(t, "67.5649999999999999999999"), 2, "67.56"},
		{"rational, third", rational(t, "2/3"), 3, "0.667"},
		{"rational, padded", rational(t, "7"), 2, "7.00"},
		{"rational, no decimals", rational(t, "2.5"), 0, "3"},
		{"rational, even half", rational(t, "0.125"), 2, "0.13"},
		{"float, below the half in binary", Float(2.675), 2, "2.68"},
		{"float, negative", Float(-2.675), 2, "-2.68"},
		{"float, above the half in binary", Float(1.005), 2, "1.01"},
		{"float, no decimals", Float(0.5), 0, "1"},
		{"float, no second rounding", Float(0.4449), 1, "0.4"},
		{"float, large", Float(1e21), 1, "1000000000000000000000.0"},
		{"float, least", Float(math.SmallestNonzeroFloat64), 2, "0.00"},
		{"negative to zero", Float(-0.004), 2, "0.00"},
		{"negative rational to zero", rational(t, "-0.004"), 2, "0.00"},
		{"negative to zero, no decimals", Float(-0.4), 0, "0"},
		{"negative, half a hundredth", Float(-0.005), 2, "-0.01"},
		{"negative zero", Float(math.Copysign(0, -1)), 2, "0.00"},
		{"negative ten keeps its sign", Int(-10), 0, "-10"},
		{"whole", Int(-3), 1, "-3.0"},
		{"decimals below zero", Float(12.5), -1, "13"},
		{"not known", Number{}, 2, ""},
		{"not a number", Float(math.NaN()), 2, ""},
		{"infinity", Float(math.Inf(-1)), 2, ""},
		{"no rational", Exact(nil), 2, ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			assert.Equal(t, test.want, test.number.Text(test.decimals))
		})
	}
}

// Rounding in whole numbers, without a decimal expansion: the integer nearest
// to the value times ten to the decimals, found by adding a half and cutting.
func TestNumberTextAgreesWithIntegerRounding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		numerator := rapid.Int64Range(-1e9, 1e9).Draw(t, "numerator")
		denominator := rapid.Int64Range(1, 1e4).Draw(t, "denominator")
		decimals := rapid.IntRange(0, 6).Draw(t, "decimals")
		scale := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(decimals)), nil)
		want := new(big.Int).Abs(big.NewInt(numerator))
		want.Mul(want, scale).Mul(want, big.NewInt(2)).Add(want, big.NewInt(denominator))
		want.Quo(want, big.NewInt(2*denominator))
		if numerator < 0 {
			want.Neg(want)
		}
		got, ok := new(big.Rat).SetString(Exact(big.NewRat(numerator, denominator)).Text(decimals))
		require.True(t, ok)
		assert.Zero(t, got.Cmp(new(big.Rat).SetFrac(want, scale)))
	})
}

func TestNumberKnown(t *testing.T) {
	assert.True(t, Int(0).Known())
	assert.False(t, Int(0).IsZero(), "the number 0 is known")
	assert.True(t, Float(0).Known())
	for _, unknown := range []Number{{}, Float(math.NaN()), Float(math.Inf(1)), Exact(nil)} {
		assert.False(t, unknown.Known())
		assert.True(t, unknown.IsZero())
		assert.True(t, math.IsNaN(unknown.Float64()))
	}
}

func TestExactCopiesItsValue(t *testing.T) {
	value := big.NewRat(1, 2)
	number := Exact(value)
	value.SetInt64(9)
	assert.Equal(t, "0.5", number.Text(1))
}

func TestNumberMarshalsUnrounded(t *testing.T) {
	tooLarge := Exact(new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(400), nil)))
	out, err := json.Marshal([]Number{
		rational(t, "1/3"), rational(t, "67.565"), Float(2.675), Int(1800), Int(0), Float(math.Copysign(0, -1)),
		{},
		Float(math.NaN()), tooLarge,
	})
	require.NoError(t, err)
	assert.Equal(t, `[0.3333333333333333,67.565,2.675,1800,0,0,null,null,null]`, string(out))
}

// What processors differ in is not kept: the same ledger gives the same bytes.
func TestFloatKeepsTwelveDigits(t *testing.T) {
	assert.Equal(t, Float(0.654412857280108), Float(0.6544128572801079))
	assert.Equal(t, 0.654412857280, Float(0.6544128572801079).Float64())
	assert.NotEqual(t, Float(0.65441285728), Float(0.65441285729))
	assert.True(t, Float(math.MaxFloat64).Known())
}

func TestNumberIsLeftOutWhenNotKnown(t *testing.T) {
	type result struct {
		Mean   Number `json:"mean,omitzero"`
		Points Number `json:"points,omitzero"`
		Lost   Number `json:"lost"`
	}
	out, err := json.Marshal(result{Points: Int(0)})
	require.NoError(t, err)
	assert.Equal(t, `{"points":0,"lost":null}`, string(out))
}

func TestNumberInJSONReadsBackAsTheSameFloat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.OneOf(
			rapid.Map(rapid.Float64Range(-math.MaxFloat64, math.MaxFloat64), Float),
			rapid.Map(rapid.Int64(), Int),
			rapid.Custom(func(t *rapid.T) Number {
				return Exact(big.NewRat(rapid.Int64().Draw(t, "numerator"), rapid.Int64Range(1, math.MaxInt64).Draw(t, "denominator")))
			}),
		).Draw(t, "number")
		out, err := json.Marshal(number)
		require.NoError(t, err)
		var back float64
		require.NoError(t, json.Unmarshal(out, &back))
		assert.True(t, number.Float64() == back, "%s", out)
	})
}

func TestNumberTextUp(t *testing.T) {
	for _, c := range []struct {
		number Number
		want   string
	}{
		{Exact(big.NewRat(716, 100)), "7.16"},
		{Exact(big.NewRat(7161, 1000)), "7.17"},
		{Exact(big.NewRat(-7169, 1000)), "-7.16"},
		{Float(7), "7.00"},
		{Float(7.0000000000000009), "7.00"},
		{Number{}, ""},
	} {
		assert.Equal(t, c.want, c.number.TextUp(2))
	}
}

// A chance is never shown as none at all, neither by itself nor in a cell; other programs
// get the number.
func TestNumberChance(t *testing.T) {
	for value, want := range map[float64]string{0: "< 0.001", 1e-9: "< 0.001", .000499: "< 0.001", .0005: "0.001", .0449: "0.045", 1: "1.000"} {
		assert.Equal(t, want, Float(value).Chance(), value)
		assert.Equal(t, want, Chance(Float(value)).String(), value)
	}
	assert.Empty(t, Number{}.Chance())
	assert.Empty(t, Chance(Number{}).String())
	assert.Equal(t, "0.000000001", csvCell(Chance(Float(1e-9))))
}

// math/big's own conversion is the reference.
func TestNumberIsTheNearestFloat(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		top := rapid.OneOf(rapid.Int64(), rapid.Int64Range(-1<<53-2, 1<<53+2), rapid.Int64Range(-99999, 99999)).Draw(rt, "top")
		bottom := rapid.OneOf(rapid.Int64Range(1, math.MaxInt64), rapid.Int64Range(1, 1<<53+2), rapid.Int64Range(1, 9999)).Draw(rt, "bottom")
		exact := big.NewRat(top, bottom)
		want, _ := exact.Float64()
		require.Equal(rt, want, Exact(exact).Float64(), "%v", exact)
	})
}
