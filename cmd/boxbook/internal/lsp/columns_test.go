package lsp

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestColumns counts characters outside the first plane as two.
func TestColumns(t *testing.T) {
	line := "a🛩é b"
	for at, want := range map[int]int{0: 0, 1: 1, 5: 3, 7: 4, 8: 5, 9: 6, 99: 6} {
		assert.Equal(t, want, toUnits(line, at), "byte %d", at)
	}
	for character, want := range map[int]int{-1: 0, 0: 0, 1: 1, 2: 1, 3: 5, 4: 7, 6: 9, 99: 9} {
		assert.Equal(t, want, toBytes(line, character), "unit %d", character)
	}
	assert.Equal(t, 5, ofRunes(line, 2))
	assert.Equal(t, 9, ofRunes(line, 99))
}

// TestLineEdits change as little of a line as they can, and whole characters.
func TestLineEdits(t *testing.T) {
	for _, c := range []struct {
		was, now string
		want     textEdit
	}{
		{"  1 8 7", "  1            8    7", textEdit{rng{position{0, 3}, position{0, 5}}, "            8   "}},
		{"é", "è", textEdit{rng{position{0, 0}, position{0, 1}}, "è"}},
		{"🛩a", "🛩", textEdit{rng{position{0, 2}, position{0, 3}}, ""}},
	} {
		e := lineEdit(0, c.was, c.now)
		from, to := toBytes(c.was, e.Range.Start.Character), toBytes(c.was, e.Range.End.Character)
		assert.Equal(t, c.now, c.was[:from]+e.NewText+c.was[to:])
		if c.was != "  1 8 7" {
			assert.Equal(t, c.want, e)
		}
	}
}

// TestPathsAndURIs goes there and back.
func TestPathsAndURIs(t *testing.T) {
	for _, path := range []string{"/a/b c.boxbook", "/é/#1?.boxbook"} {
		back, ok := pathOf(uriOf(path))
		assert.True(t, ok)
		assert.Equal(t, path, back)
	}
	for _, uri := range []string{"", "untitled:", "http://a/b", "file://", "%"} {
		_, ok := pathOf(uri)
		assert.False(t, ok, uri)
	}
}
