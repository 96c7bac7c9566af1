package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A series begins and ends where something is known, in Markdown as on the
// screen.
func TestSeriesInMarkdownIsThatOfTheScreen(t *testing.T) {
	for _, test := range []struct {
		points []Point
		want   string
	}{
		{[]Point{{Label: "March"}, {"April", Float(60.25)}, {"June", Float(66)}, {Label: "July"}}, "·▁█· 60.3 (April) .. 66.0 (June)"},
		{[]Point{{"April", Float(60)}}, "▄ 60.0 (April)"},
		{[]Point{{Label: "April"}}, "· no values"},
		{nil, "no values"},
	} {
		document := Document{Sections: []Section{{Blocks: []Block{&Series{Name: "percent", Decimals: 1, Points: test.points}}}}}
		var markdown, text strings.Builder
		require.NoError(t, WriteMarkdown(&markdown, document))
		require.NoError(t, WriteText(&text, document, TextOptions{}))
		assert.Equal(t, "percent: "+test.want+"\n", markdown.String())
		assert.Equal(t, "percent "+test.want, strings.Join(strings.Fields(text.String()), " "))
	}
}

// The lines of a paragraph stay lines.
func TestMarkdownLines(t *testing.T) {
	var b strings.Builder
	doc := Document{Title: "Season", Sections: []Section{{Blocks: []Block{&Paragraph{Text: "one: boxbook a\ntwo: boxbook b"}}}}}
	require.NoError(t, WriteMarkdown(&b, doc))
	assert.Contains(t, b.String(), "one: boxbook a  \ntwo: boxbook b\n")
}
