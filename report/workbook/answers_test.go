package workbook

import (
	"math/big"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
	"boxbook/season"
	"boxbook/season/analysis"
)

// What Elements charges and shares out is what season.Losses does, element by
// element; the deductions are worked out here again, for the formulas.
func TestElementsAreLosses(t *testing.T) {
	charged := 0
	for _, w := range everyWorkbook {
		l := load(t, w.path)
		c := contentOf(l, of(t, l, w.pilot))
		at := 0
		selected := l.KnownTo(of(t, l, w.pilot)).Select(of(t, l, w.pilot))
		for i, f := range c.flights {
			require.Equal(t, selected[i].Name, f.Flight.Flight)
			if !f.marked() {
				continue
			}
			for _, figure := range analysis.LossesOf(selected[i]).Figures {
				for _, part := range figure.Elements {
					for !c.elements[at].Lost.Known() || c.elements[at].Code == "" {
						at++ // undecided, or without elements
					}
					e := c.elements[at]
					at++
					require.Equal(t, part.Element.Code, e.Code)
					requireNumber(t, part.Lost, formatted(number(e.Lost)))
					requireNumber(t, part.Charged, formatted(e.charged()))
					if part.Charged.Sign() > 0 {
						charged++
					}
				}
			}
		}
	}
	require.Greater(t, charged, 20)
}

// formatted is a number with all its digits.
func formatted(v xlsx.Value) string { return strconv.FormatFloat(v.Number, 'g', -1, 64) }

// The families' cells are those of FamiliesOf.
func TestFamiliesAreSeasons(t *testing.T) {
	l := load(t, demoLedger)
	s := of(t, l, "ines")
	answer := analysis.FamiliesOf(l, s)
	require.NotEmpty(t, answer.Groups)
	book := workbookOf(t, l, "ines")
	for i, g := range answer.Groups {
		row := familyHead + 1 + i
		at := func(title string) string {
			return book.stored(words.FamiliesSheet, xlsx.ColumnName(book.column(words.FamiliesSheet, familyHead, title))+strconv.Itoa(row))
		}
		require.Equal(t, words.FamilyTitle(g.Group), at("family"))
		require.Equal(t, strconv.Itoa(g.Figures), at("figures"))
		requireNumber(t, g.K, at("K flown"))
		requireNumber(t, g.LostPerFlight, at("lost per flight"))
		requireNumber(t, new(big.Rat).SetFloat64(g.Percent), at("percent"))
		requireNumber(t, new(big.Rat).SetFloat64(g.Shrunken), at("adjusted percent"))
	}
}

// No family's name reads as a number, which a sum by name would take for
// another's: 9.1 and 9.10.
func TestFamilyNamesAreNoNumbers(t *testing.T) {
	seen := map[string]bool{}
	for _, group := range append([]string{""}, season.Groups...) {
		title := words.FamilyTitle(group)
		_, err := strconv.ParseFloat(title, 64)
		require.Error(t, err, title)
		require.False(t, seen[title], title)
		seen[title] = true
	}
}

// The page to read first says what the pages on the screen say.
func TestVerdictsAreThePages(t *testing.T) {
	l := load(t, demoLedger)
	c := contentOf(l, of(t, l, "ines"))
	book := workbookOf(t, l, "ines")
	for i, v := range c.verdicts() {
		row := strconv.Itoa(verdictRow + i)
		require.Equal(t, v.label, book.stored(words.SeasonSheet, "A"+row))
		require.Equal(t, v.words, book.stored(words.SeasonSheet, "B"+row))
		require.NotEmpty(t, v.words)
	}
	require.Contains(t, book.stored(words.SeasonSheet, "B"+strconv.Itoa(verdictRow)), "percentage points (-2 to +7 at 92% confidence, +7 cut to what was observed)")
}
