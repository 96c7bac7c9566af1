package report

import (
	"os"
	"path/filepath"
	"testing"

	"boxbook/report/display"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestDisplayWidth(t *testing.T) {
	for text, want := range map[string]int{
		"":             0,
		"Longmere":     8,
		"山田":           4,
		"한국":           4,
		"ﾔﾏﾀﾞ":         4,
		"Re\u0301mi":   4,
		"Łukasz":       6,
		"الياس":        5,
		"✓…─·":         4,
		"👩‍✈️":         2,
		"👍🏽":           2,
		"🇬🇧":           2,
		"\u1112\u1161": 2, // a syllable made of two jamo
	} {
		assert.Equal(t, want, display.Width(text), "%q", text)
	}
}

func TestShorten(t *testing.T) {
	for _, test := range []struct {
		text  string
		width int
		want  string
	}{
		{"Longmere", 8, "Longmere"},
		{"Longmere", 7, "Longme…"},
		{"Longmere", 1, "…"},
		{"Longmere", 0, ""},
		{"Longmere", -1, ""},
		{"Long Mere", 6, "Long…"},
		{"山田花子", 7, "山田花…"},
		{"山田花子", 6, "山田…"},
		{"Re\u0301mi", 3, "Re\u0301…"},
		{"👩‍✈️👩‍✈️", 3, "👩‍✈️…"},
		{"👩‍✈️👩‍✈️", 2, "…"},
	} {
		assert.Equal(t, test.want, Shorten(test.text, test.width), "%q to %d", test.text, test.width)
	}
}

func TestPrintable(t *testing.T) {
	for _, test := range []struct{ name, text, want string }{
		{"plain", "Mira Halloran", "Mira Halloran"},
		{"an escape", "\x1b[31mred\x1b[0m", "�[31mred�[0m"},
		{"a one-byte escape", "\u009b31mred", "�31mred"},
		{"bell, backspace, delete", "a\a\b\x7f", "a���"},
		{"line feeds and tabs", "a\r\nb\tc\nd\u2028e", `a b c d\u2028e`},
		{"white space at the end", "a \u00a0\u3000\n", "a"},
		{"white space in front", "  a", "  a"},
		{"not UTF-8", "a\xffb", "a�b"},
		{"direction overrides", "a\u202eb\u2066c", `a\u202eb\u2066c`},
		{"invisible", "a\u200b\u00ad\ufeff\u200eb", `a\u200eb`},
		{"private use", "a\ue000b\U000f0000", "a�b�"},
		{"joined emoji", "👩‍✈️", "👩‍✈️"},
		{"a text hidden in tags", "🏴\U000e0067\U000e0062\U000e0073\U000e0063\U000e0074\U000e007f", "🏴"},
		{"no characters at all", "a\ufffeb\uffff\U0001fffe", "a�b��"},
		{"a no-break space inside", "6\u00a0flights", "6\u00a0flights"},
	} {
		t.Run(test.name, func(t *testing.T) {
			assert.Equal(t, test.want, printable(test.text))
		})
	}
}

func TestTerminalWidthWithoutATerminal(t *testing.T) {
	file, err := os.Create(filepath.Join(t.TempDir(), "out"))
	require.NoError(t, err)
	assert.Equal(t, 80, TerminalWidth(file))
	require.NoError(t, file.Close())
	assert.Equal(t, 80, TerminalWidth(file), "closed")
	assert.Equal(t, 80, TerminalWidth(nil))
}

func TestWidthToFill(t *testing.T) {
	for columns, want := range map[int]int{-1: 80, 0: 80, 1: 40, 39: 40, 40: 40, 132: 132, 200: 200, 500: 200} {
		assert.Equal(t, want, widthToFill(columns), "%d", columns)
	}
}
