package words_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"boxbook/data"
	"boxbook/data/sources"
	"boxbook/report/words"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestSourcesPage: the page has every source with all that is said of it, every
// shipped value with its mark, and no line is wider than a page of help.
func TestSourcesPage(t *testing.T) {
	list, err := sources.List()
	require.NoError(t, err)
	values, err := sources.Values(data.Builtin())
	require.NoError(t, err)
	page, err := words.SourcesPage(data.Sources, list, values)
	require.NoError(t, err)
	for _, line := range strings.Split(page, "\n") {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), 80, line)
	}
	flat := strings.Join(strings.Fields(page), " ")
	for _, s := range list {
		for _, said := range []string{s.Key, s.Title, s.By, s.Edition, s.Date, s.Address, s.Seen} {
			assert.Contains(t, flat, strings.Join(strings.Fields(said), " "), s.Key)
		}
		for _, p := range s.Places {
			assert.Contains(t, flat, p.Section+": "+p.Says)
		}
	}
	for _, v := range values {
		assert.Contains(t, flat, v.Block)
		assert.Contains(t, flat, v.Mark.String())
	}

	_, err = words.SourcesPage("{{nothing}}", list, values)
	assert.Error(t, err)
}
