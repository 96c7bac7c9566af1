package ledger

import (
	"slices"
	"strings"
	"testing"

	"boxbook/season"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestTidyReachesEveryDecimal writes the samples, which have every block and
// every key, with commas for the points of all numbers, and finds none of them
// left.
func TestTidyReachesEveryDecimal(t *testing.T) {
	for _, l := range sampleLedgers(t) {
		for path, text := range l.text {
			rough, commas := withCommas(t, text)
			laid, err := Tidy(path, text)
			require.NoError(t, err)
			again, err := Tidy(path, rough)
			require.NoError(t, err)
			require.Equal(t, laid, again)
			if l.name == "language-tour.boxbook" && path == l.main {
				require.Greater(t, commas, 90)
			}
		}
	}
}

// withComma writes a number's point as a comma. Sequences, ladders, drills and
// pilots have catalogue numbers and no decimals; a fault kind has groups; and
// of 1,234 nobody knows what it means.
func withComma(b *block, word string) string {
	other := strings.ReplaceAll(word, ".", ",")
	if b == nil || b.kind == "sequence" || b.kind == "ladder" || b.kind == "drill" || b.kind == "pilot" ||
		b.kind == "fault-kind" && (season.IsGroup(word) || season.GroupOf(word) != "") ||
		oneGroup().MatchString(word) || tidyDecimal(other) != word {
		return word
	}
	return other
}

// withCommas writes all of them so, and counts them.
func withCommas(t require.TestingT, text string) (rough string, commas int) {
	r, f := alone("test.boxbook", text)
	require.NoError(t, r.structure())
	owner := newTidier(r, f).owner
	var b strings.Builder
	at := int32(0)
	for _, tok := range f.tokens {
		b.WriteString(text[at:tok.start])
		at = tok.end
		word := text[tok.start:tok.end]
		other := withComma(owner[tok.line], word)
		if other != word {
			commas++
		}
		b.WriteString(other)
	}
	return b.String() + text[at:], commas
}

// roughen types a text again as a tired person would: any white space between
// the words and at the lines' ends, marks in any case, commas for points.
// Comments go, for their place is the person's own.
func roughen(t *rapid.T, text string) string {
	r, f := alone("test.boxbook", text)
	owner := newTidier(r, f).owner
	gaps := rapid.SampledFrom([]string{" ", "  ", "\t", "   \t ", "     "})
	ends := rapid.SampledFrom([]string{"", "", "", " ", "\t  "})
	var b strings.Builder
	for n, l := range f.lines {
		for i, tok := range f.tokens[l.first:l.last] {
			if i > 0 || tok.start > l.start {
				b.WriteString(gaps.Draw(t, "gap"))
			}
			b.WriteString(roughWord(t, owner[n], f, l, i))
		}
		b.WriteString(ends.Draw(t, "end"))
		b.WriteString(f.ending(n))
	}
	return b.String()
}

func roughWord(t *rapid.T, b *block, f *file, l line, i int) string {
	tok := f.tokens[int(l.first)+i]
	word := f.text[tok.start:tok.end]
	key := f.word(f.tokens[l.first])
	marks := (isRow(key) && i > 0) || (key == "sheet" && i > 1)
	switch {
	case tok.quoted || !rapid.Bool().Draw(t, "other"):
		return word
	case marks && isMarkWord(word):
		return strings.ToLower(word)
	default:
		return withComma(b, word)
	}
}

// withoutComments takes comments out of a text.
func withoutComments(text string) string {
	_, f := alone("test.boxbook", text)
	var b strings.Builder
	for n, l := range f.lines {
		b.WriteString(text[l.start:f.commentStart(n)])
		b.WriteString(f.ending(n))
	}
	return b.String()
}

// TestTidyIsOneLayout holds that there is one layout: however a ledger without
// comments is typed, tidy gives the same text.
func TestTidyIsOneLayout(t *testing.T) {
	var texts []string
	for _, l := range tidyLedgers(t) {
		if l.load(t).Diagnostics.Err() != nil {
			continue // a comma is put only where a number belongs
		}
		for _, text := range l.text {
			bare := withoutComments(text)
			if _, err := Tidy("test.boxbook", bare); err == nil {
				texts = append(texts, bare)
			}
		}
	}
	slices.Sort(texts)
	require.Greater(t, len(texts), 20)
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SampledFrom(texts).Draw(t, "text")
		want, err := Tidy("test.boxbook", text)
		require.NoError(t, err)
		got, err := Tidy("test.boxbook", roughen(t, text))
		require.NoError(t, err)
		require.Equal(t, want, got)
	})
}
