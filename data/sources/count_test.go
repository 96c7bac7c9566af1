package sources_test

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/data/sources"
	"boxbook/data/sources/testkit"
)

// tally counts checks by what they rest on, house choices apart, and by the sources
// that they name; a check that names a source twice counts once for it.
type tally struct {
	checks int
	kinds  map[string]int
	keys   map[string]int
}

// houseChoices are counted apart from what has the same word.
const houseChoices = "house choice"

func (c *tally) add(m sources.Mark) {
	if c.kinds == nil {
		c.kinds, c.keys = map[string]int{}, map[string]int{}
	}
	c.checks++
	if m.House {
		c.kinds[houseChoices]++
	} else {
		c.kinds[m.Word]++
	}
	named := map[string]bool{}
	for _, cite := range m.Cites {
		named[cite.Key] = true
	}
	for key := range named {
		c.keys[key]++
	}
}

// TestTally: a house choice is counted apart, a source once a check.
func TestTally(t *testing.T) {
	c := tally{}
	marks, err := sources.Marks("[published: a, 1; a, 2] [derived: a, 1; b, 1] [derived, a house choice: a, 1] [memory]")
	require.NoError(t, err)
	for _, m := range marks {
		c.add(m)
	}
	assert.Equal(t, "  4 checks on  2 sources: published 1, memory 1, derived 1, house choice 1", c.String())
	assert.Equal(t, map[string]int{"a": 3, "b": 1}, c.keys)
}

// String is a tally in a row.
func (c *tally) String() string {
	said := []string{}
	for _, kind := range append(slices.Clone(sources.Words), houseChoices) {
		if n := c.kinds[kind]; n > 0 {
			said = append(said, fmt.Sprintf("%s %d", kind, n))
		}
	}
	return fmt.Sprintf("%3d checks on %2d sources: %s", c.checks, len(c.keys), strings.Join(said, ", "))
}

// TestSourcesCounted counts the checks of the main job that rest on sources
// outside, by kind, and the marks of all other tests: -v shows them. Every table is
// run by a test.
func TestSourcesCounted(t *testing.T) {
	tables, err := filepath.Glob(filepath.Join(testkit.Folder(), "*.txt"))
	require.NoError(t, err)
	runs := strings.Join(slices.Collect(maps.Values(citing(t))), "\n")
	all := tally{}
	for _, path := range tables {
		name := strings.TrimSuffix(filepath.Base(path), ".txt")
		assert.Contains(t, runs, fmt.Sprintf("Outside(t, %q,", name), "no test runs the table")
		one := tally{}
		for _, c := range testkit.Checks(t, name) {
			one.add(c.Mark)
			all.add(c.Mark)
		}
		t.Logf("%-11s %s", name, &one)
	}
	t.Logf("%-11s %s", "main job", &all)
	for _, key := range slices.Sorted(maps.Keys(all.keys)) {
		t.Logf("main job, checks on %-18s %3d", key, all.keys[key])
	}
	assert.GreaterOrEqual(t, all.kinds[sources.Published], 100)
	countOthers(t)
	countOutside(t)
}

// outsideKinds are what a check can lean on, by the beginning of a source's group:
// sources of the trade, numbers published for statistics, and programs.
var outsideKinds = []struct{ name, group string }{
	{"outside data", "Statistics: numbers"},
	{"reference library", "Statistics: programs"},
	{"source of the trade", ""},
}

// countOutside counts the marks of all tests by what their sources are; a mark that
// names several kinds counts for each.
func countOutside(t *testing.T) {
	t.Helper()
	marks, keys := map[string]int{}, map[string]map[string]bool{}
	for path, text := range citing(t) {
		if !strings.HasSuffix(path, "_test.go") && !strings.Contains(path, "/testdata/") {
			continue
		}
		found, err := sources.Marks(text)
		require.NoError(t, err)
		for _, m := range found {
			kinds := map[string]bool{}
			for _, cite := range m.Cites {
				kind := kindOf(t, cite.Key)
				if keys[kind] == nil {
					keys[kind] = map[string]bool{}
				}
				kinds[kind], keys[kind][cite.Key] = true, true
			}
			if len(kinds) == 0 {
				kinds["no source: "+m.Word] = true
			}
			for kind := range kinds {
				marks[kind]++
			}
		}
	}
	for _, kind := range slices.Sorted(maps.Keys(marks)) {
		t.Logf("all tests, %-28s %3d marks on %2d sources", kind, marks[kind], len(keys[kind]))
	}
	for _, kind := range outsideKinds {
		assert.Positive(t, marks[kind.name], kind.name)
	}
}

// kindOf is what a source is.
func kindOf(t *testing.T, key string) string {
	t.Helper()
	s, ok := sources.Find(list(t), key)
	require.True(t, ok, key)
	at := slices.IndexFunc(outsideKinds, func(k struct{ name, group string }) bool { return strings.HasPrefix(s.Group, k.group) })
	return outsideKinds[at].name
}

// countOthers counts the marks beside the checks of the other tests, by room.
func countOthers(t *testing.T) {
	t.Helper()
	rooms := map[string]*tally{}
	for path, text := range citing(t) {
		if !strings.HasSuffix(path, "_test.go") && !strings.Contains(path, "/testdata/reference/") && !strings.Contains(path, "/testdata/diagnostics/") {
			continue
		}
		marks, err := sources.Marks(text)
		require.NoError(t, err)
		room, _ := filepath.Rel(top, filepath.Dir(path))
		for _, m := range marks {
			if rooms[room] == nil {
				rooms[room] = &tally{}
			}
			rooms[room].add(m)
		}
	}
	for _, room := range slices.Sorted(maps.Keys(rooms)) {
		t.Logf("other tests, marks in %-36s %s", room+string(os.PathSeparator), rooms[room])
	}
}
