package report

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestCellString(t *testing.T) {
	for _, test := range []struct {
		name string
		cell Cell
		want string
	}{
		{"text", Text("HZ"), "HZ"},
		{"empty", Empty(), ""},
		{"number", Num(Float(67.565), 2), "67.57"},
		{"not known", Num(Number{}, 2), ""},
		{"signed, positive", Signed(Float(1.25), 1), "+1.3"},
		{"signed, negative", Signed(Float(-1.25), 1), "-1.3"},
		{"signed, zero", Signed(Int(0), 1), "0.0"},
		{"signed, rounds to zero", Signed(Float(0.04), 1), "0.0"},
		{"signed, negative rounds to zero", Signed(Float(-0.04), 1), "0.0"},
		{"signed, not known", Signed(Number{}, 1), ""},
		{"grouped", Num(Float(1234567.891), 2).Grouped(), "1,234,567.89"},
		{"grouped and signed", Signed(Int(1000), 0).Grouped(), "+1,000"},
		{"grouped, not known", Num(Number{}, 2).Grouped(), ""},
		{"the mark is apart", Num(Int(8), 1).Marked("*"), "8.0"},
	} {
		t.Run(test.name, func(t *testing.T) {
			assert.Equal(t, test.want, test.cell.String())
		})
	}
}

func TestCellNumber(t *testing.T) {
	number, ok := Num(Float(67.565), 2).Toned(Good).Number()
	assert.True(t, ok)
	assert.Equal(t, 67.565, number.Float64(), "unrounded")

	number, ok = Num(Number{}, 2).Number()
	assert.True(t, ok, "a number that is not known is still no text")
	assert.False(t, number.Known())

	_, ok = Text("8.0").Number()
	assert.False(t, ok)
}

func TestCellKeepsToneAndMark(t *testing.T) {
	cell := Text("met").Toned(Good).Marked("a")
	assert.Equal(t, Good, cell.Tone)
	assert.Equal(t, "a", cell.Mark)
	assert.Equal(t, "met", cell.String())
}
