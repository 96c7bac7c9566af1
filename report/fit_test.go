package report

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// rigid is a column that is not flexible.
func rigid(width, drop int) measured {
	return measured{natural: width, floor: width, hard: min(width, 2), drop: drop}
}

func flexible(width, least int) measured {
	return measured{natural: width, floor: least, hard: min(least, 2)}
}

// number is a column of numbers, which cannot be shortened.
func number(width int) measured {
	return measured{natural: width, floor: width, hard: width}
}

func TestFit(t *testing.T) {
	for _, test := range []struct {
		name    string
		columns []measured
		key     int
		want    layout
	}{
		{"fits exactly", []measured{rigid(20, 0), rigid(18, 0)}, 1, layout{parts: []part{{[]int{0, 1}, []int{20, 18}}}}},
		{"shortens the widest", []measured{flexible(30, 5), flexible(12, 5)}, 1, layout{parts: []part{{[]int{0, 1}, []int{26, 12}}}}},
		{"shortens evenly then", []measured{flexible(30, 5), flexible(24, 5)}, 1, layout{parts: []part{{[]int{0, 1}, []int{19, 19}}}}},
		{"not below the least", []measured{flexible(30, 25), flexible(24, 5)}, 1, layout{parts: []part{{[]int{0, 1}, []int{25, 13}}}}},
		{
			"leaves out the highest rank first",
			[]measured{rigid(20, 0), rigid(20, 1), rigid(16, 2)},
			1,
			layout{parts: []part{{[]int{0}, []int{20}}}, dropped: []int{1, 2}},
		},
		{
			"leaves out the rightmost of equals",
			[]measured{rigid(10, 0), rigid(20, 1), rigid(20, 1)},
			1,
			layout{parts: []part{{[]int{0, 1}, []int{10, 20}}}, dropped: []int{2}},
		},
		{
			"shortened columns grow back",
			[]measured{flexible(30, 10), rigid(40, 1)},
			1,
			layout{parts: []part{{[]int{0}, []int{30}}}, dropped: []int{1}},
		},
		{
			"splits, with the key repeated",
			[]measured{rigid(10, 0), rigid(15, 0), rigid(11, 0), rigid(20, 0)},
			1,
			layout{parts: []part{{[]int{0, 1, 2}, []int{10, 15, 11}}, {[]int{0, 3}, []int{10, 20}}}},
		},
		{
			"splits without a key",
			[]measured{rigid(30, 0), rigid(30, 0)},
			0,
			layout{parts: []part{{[]int{0}, []int{30}}, {[]int{1}, []int{30}}}},
		},
		{
			"splits keys if there is nothing else",
			[]measured{rigid(30, 0), rigid(30, 0)},
			2,
			layout{parts: []part{{[]int{0}, []int{30}}, {[]int{1}, []int{30}}}},
		},
		{
			"cuts a key that takes it all",
			[]measured{rigid(60, 0), number(8)},
			1,
			layout{parts: []part{{[]int{0, 1}, []int{30, 8}}}},
		},
		{
			"gives up a key that cannot be cut",
			[]measured{number(35), number(8)},
			1,
			layout{parts: []part{{[]int{1}, []int{8}}}},
		},
		{"cuts one column that is too wide", []measured{rigid(50, 0)}, 0, layout{parts: []part{{[]int{0}, []int{40}}}}},
		{"no columns", nil, 0, layout{}},
	} {
		t.Run(test.name, func(t *testing.T) {
			assert.Equal(t, test.want, fit(test.columns, test.key, 40))
		})
	}
}

func TestFitShowsEveryColumnOrSaysSo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		columns := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) measured {
			natural := rapid.IntRange(0, 60).Draw(t, "natural")
			floor := rapid.IntRange(0, natural).Draw(t, "floor")
			return measured{natural, floor, rapid.IntRange(0, min(floor, 6)).Draw(t, "hard"), rapid.IntRange(0, 3).Draw(t, "drop"), rapid.Bool().Draw(t, "names")}
		}), 1, 12).Draw(t, "columns")
		key := rapid.IntRange(0, 2).Draw(t, "key")
		width := rapid.IntRange(40, 120).Draw(t, "width")
		found := fit(columns, key, width)

		seen := slices.Clone(found.dropped)
		for _, index := range found.dropped {
			assert.NotZero(t, columns[index].drop, "left out against its rank")
		}
		for _, each := range found.parts {
			total := gap * (len(each.columns) - 1)
			for i, index := range each.columns {
				seen = append(seen, index)
				total += each.widths[i]
				assert.LessOrEqual(t, each.widths[i], columns[index].natural)
				assert.GreaterOrEqual(t, each.widths[i], columns[index].hard)
			}
			assert.LessOrEqual(t, total, width)
			assert.True(t, slices.IsSorted(each.columns))
		}
		slices.Sort(seen)
		assert.Len(t, slices.Compact(seen), len(columns))
	})
}
