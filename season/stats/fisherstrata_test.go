package stats

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func within(t require.TestingT, tables ...[4]int) float64 {
	p, err := FisherWithin(tables...)
	require.NoError(t, err)
	return p
}

// [derived: r, mantelhaen.test]; the last is its help's table of penicillin in rabbits.
func TestFisherWithin(t *testing.T) {
	for _, c := range []struct {
		want   float64
		tables [][4]int
	}{
		{.010864525655, [][4]int{{1, 7, 7, 3}, {2, 6, 5, 4}}},
		{.000097425794, [][4]int{{0, 4, 6, 2}, {1, 9, 8, 2}}},
		{.166623366314, [][4]int{{2, 5, 4, 4}, {0, 6, 5, 9}, {3, 3, 1, 2}}},
		{.998622589532, [][4]int{{0, 6, 0, 5}, {3, 3, 0, 6}, {6, 0, 2, 4}, {5, 1, 6, 0}, {2, 0, 5, 0}}},
	} {
		assert.InDelta(t, c.want, within(t, c.tables...), 5e-12, "%v", c.tables)
	}
	assert.InDelta(t, 1, within(t), 0, "nothing is held against nothing")
	assert.InDelta(t, 1, within(t, [4]int{0, 20, 0, 0}, [4]int{0, 0, 22, 0}), 0, "each table on one side alone")
	_, err := FisherWithin([4]int{1, 2, 3, 4}, [4]int{-1, 2, 3, 4})
	require.ErrorIs(t, err, ErrRange)
}

// One table is Fisher's; a table of one possible cell, or none, changes nothing; the
// order of the tables does not matter.
func TestFisherWithinOfOneTable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cell := rapid.IntRange(0, 24)
		table := func(name string) [4]int {
			return [4]int{cell.Draw(t, name), cell.Draw(t, name), cell.Draw(t, name), 1 + cell.Draw(t, name)}
		}
		one, other := table("one"), table("other")
		alone, err := Fisher(one[0], one[1], one[2], one[3])
		require.NoError(t, err)
		assert.InDelta(t, alone.Less, within(t, one), 1e-12)
		assert.InDelta(t, alone.Less, within(t, [4]int{3, 4, 0, 0}, one, [4]int{}), 1e-12)
		assert.InDelta(t, within(t, one, other), within(t, other, one), 1e-12)
	})
}
