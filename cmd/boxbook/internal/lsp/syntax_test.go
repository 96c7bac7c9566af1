package lsp

import (
	"encoding/json"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"boxbook/data"
	"boxbook/season/ledger"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// languageWords are all words that the language has for good.
func languageWords(t *testing.T) (blocks, keys, inside []string) {
	t.Helper()
	spec, err := ledger.Specify(data.Builtin())
	require.NoError(t, err)
	for _, b := range spec.Blocks {
		blocks, keys = append(blocks, b.Keyword), append(keys, b.Keys...)
	}
	inside = slices.Concat(ledger.InsideWords(), spec.Programmes, spec.Penalties, spec.Marks, spec.Units, spec.HardZero, spec.Half, spec.YesNo)
	return blocks, keys, inside
}

// colours are the stretches of a line that a TextMate grammar colours: the
// earliest match of any pattern, then on behind it.
func colours(patterns []*regexp.Regexp, line string) []bool {
	coloured := make([]bool, len(line))
	for at := 0; at < len(line); {
		first, end := len(line), len(line)
		var spans []int
		for _, p := range patterns {
			if strings.HasPrefix(p.String(), "^") && at > 0 {
				continue
			}
			if found := p.FindStringSubmatchIndex(line[at:]); found != nil && at+found[0] < first {
				first, end, spans = at+found[0], at+found[1], found
			}
		}
		if spans == nil {
			break
		}
		from, to := spans[0], spans[1]
		if len(spans) > 2 {
			from, to = spans[2], spans[3]
			end = at + to
		}
		for i := at + from; i < at+to; i++ {
			coloured[i] = true
		}
		at = max(end, at+1)
	}
	return coloured
}

func textmate(t *testing.T) []*regexp.Regexp {
	t.Helper()
	text, ok := data.Syntax("textmate")
	require.True(t, ok)
	var grammar struct {
		Patterns []struct {
			Name     string         `json:"name"`
			Match    string         `json:"match"`
			Captures map[string]any `json:"captures"`
		} `json:"patterns"`
	}
	require.NoError(t, json.Unmarshal([]byte(text), &grammar))
	var patterns []*regexp.Regexp
	for _, p := range grammar.Patterns {
		require.Equal(t, p.Name == "", len(p.Captures) > 0, p.Match)
		patterns = append(patterns, regexp.MustCompile(p.Match))
	}
	return patterns
}

// whole reports whether all of a line is coloured but for its white space.
func whole(patterns []*regexp.Regexp, line string) bool {
	for i, is := range colours(patterns, line) {
		if !is && line[i] != ' ' {
			return false
		}
	}
	return true
}

// TestTextMateColoursTheLanguage holds the grammar to the reader's tables, and to
// the words of the demo and the samples.
func TestTextMateColoursTheLanguage(t *testing.T) {
	patterns := textmate(t)
	blocks, keys, inside := languageWords(t)
	for _, word := range blocks {
		assert.True(t, whole(patterns, word), word)
	}
	for _, word := range keys {
		assert.True(t, whole(patterns, "  "+word), word)
	}
	for _, word := range inside {
		assert.True(t, whole(patterns, "  1 "+word), word)
	}
	words := 0
	for _, rd := range samples(t) {
		for _, source := range rd.Sources {
			for n := range rd.Lines(source.Name) {
				line, _ := rd.Line(source.Name, n)
				coloured := colours(patterns, rd.LineText(source.Name, n))
				for _, w := range line.Words {
					if w.Slot == "" || w.Quoted || w.Slot == ledger.SlotDate || w.Slot == ledger.SlotMark || w.Slot == ledger.SlotPoints {
						words++
						assert.False(t, slices.Contains(coloured[w.Start:w.End], false), "%s: %q", rd.LineText(source.Name, n), w.Text)
					}
				}
				if line.Comment < line.End {
					assert.True(t, coloured[line.End-1], rd.LineText(source.Name, n))
				}
			}
		}
	}
	assert.Greater(t, words, 4000)
	for _, amount := range []string{"-40.00", "−40.00"} {
		line := "agreed 2025 " + amount + " EUR"
		assert.NotContains(t, colours(patterns, line)[len("agreed 2025 "):len("agreed 2025 ")+len(amount)], false, line)
	}
	assert.False(t, colours(patterns, "cost 2026-04-18 hall-2 5 EUR for club")[len("cost 2026-04-18 hall")], "the hyphen of a name is no minus")
}

// samples are the demo and the sample ledgers.
func samples(t *testing.T) []*ledger.Reading {
	t.Helper()
	paths, err := filepath.Glob("../../../../testdata/ledgers/*.boxbook")
	require.NoError(t, err)
	var all []*ledger.Reading
	for _, path := range append(paths, "../../../../data/demo/longmere.boxbook") {
		rd, err := ledger.Read(ledger.Options{Files: ledger.Disk{}, Main: path, Builtin: data.Builtin()})
		require.NoError(t, err)
		all = append(all, rd)
	}
	return all
}

// TestVimHasEveryWord holds the lists of the Vim file to the reader's tables; what
// Vim makes of them is looked at by .ci/editor.
func TestVimHasEveryWord(t *testing.T) {
	text, ok := data.Syntax("vim")
	require.True(t, ok)
	blocks, keys, inside := languageWords(t)
	listed := map[string][]string{}
	for _, m := range regexp.MustCompile(`(?m)^syn (?:keyword|match) (boxbook\w+) (.*)$`).FindAllStringSubmatch(text, -1) {
		listed[m[1]] = append(listed[m[1]], regexp.MustCompile(`[\p{L}\d-]+`).FindAllString(m[2], -1)...)
	}
	others := slices.Concat(listed["boxbookWord"], listed["boxbookMark"])
	for _, word := range blocks {
		assert.Contains(t, listed["boxbookBlock"], word)
	}
	for _, word := range keys {
		assert.Contains(t, listed["boxbookKey"], word)
	}
	for _, word := range inside {
		assert.True(t, word == "-" || slices.Contains(others, word), word)
	}
}
