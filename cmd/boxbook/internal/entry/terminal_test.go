package entry

import (
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestKeysTypedAhead hands the editor a line at once: text that stands on a
// line comes before what was typed ahead, and Ctrl-C ends its own line alone.
func TestKeysTypedAhead(t *testing.T) {
	term, err := NewTerminal(strings.NewReader("back\r and more\rhalf\x03lost"), io.Discard)
	require.NoError(t, err)
	text, err := term.read("first: ", "", false)
	require.NoError(t, err)
	assert.Equal(t, "back", text)
	text, err = term.read("second: ", "typed before", false)
	require.NoError(t, err)
	assert.Equal(t, "typed before and more", text)
	text, err = term.read("third: ", "", false)
	require.ErrorIs(t, err, ErrStopped)
	assert.Equal(t, "half", text)
}

func TestYesAndNo(t *testing.T) {
	for text, want := range map[string][2]bool{
		"y": {true, true}, "YES": {true, true}, " ye ": {true, true}, "ok": {true, true}, "o": {true, true}, "1": {true, true}, "True": {true, true},
		"n": {false, true}, "No": {false, true}, "0": {false, true}, "FALSE": {false, true},
		"": {}, "yea": {}, "nope": {}, "2": {}, "not sure": {},
	} {
		yes, ok := yesNo(text)
		assert.Equal(t, want, [2]bool{yes, ok}, "%q", text)
		yes, ok = saidYesNo(text)
		if text == "0" || text == "1" {
			want = [2]bool{}
		}
		assert.Equal(t, want, [2]bool{yes, ok}, "%q, where yes writes", text)
	}
}

func TestListedLeavesRoom(t *testing.T) {
	known := []string{"ines", "tobias", "yuki", "marek"}
	for room, want := range map[int]string{
		0: " (ines, tobias ...)", 17: " (ines, tobias ...)", 18: " (ines, tobias, yuki ...)", 25: " (ines, tobias, yuki, marek)", 80: " (ines, tobias, yuki, marek)",
	} {
		assert.Equal(t, want, listed(known, room), room)
	}
	assert.Empty(t, listed(nil, 80))
}
