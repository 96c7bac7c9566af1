package display

import (
	"os/exec"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A word stands as it is where a shell reads it so, else in single quotes, in which
// nothing means anything.
func TestShellWord(t *testing.T) {
	for word, want := range map[string]string{
		"ines":                "ines",
		"seasons/2026.x":      "seasons/2026.x",
		"2026-09-12/ines":     "2026-09-12/ines",
		"žofie":               "žofie",
		"":                    "''",
		"my books/l.boxbook":  "'my books/l.boxbook'",
		"$HOME`date`":         "'$HOME`date`'",
		`a"b\c`:               `'a"b\c'`,
		"it's":                `'it'\''s'`,
		"two\nlines":          "'" + OneLine("two\nlines") + "'",
		"4=7.5":               "'4=7.5'",
		"log-draft (2).draft": "'log-draft (2).draft'",
	} {
		assert.Equal(t, want, ShellWord(word), "%q", word)
	}
	sh, err := exec.LookPath("sh")
	if err != nil {
		t.Skip("no shell here")
	}
	for _, word := range []string{"", "it's", "$HOME `date` \"x\" \\ !", "a*b?[c]", "~"} {
		said, err := exec.Command(sh, "-c", "printf %s "+ShellWord(word)).Output() //nolint:gosec // the words are those above
		require.NoError(t, err)
		assert.Equal(t, word, string(said))
	}
}
