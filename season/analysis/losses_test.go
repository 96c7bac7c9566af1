package analysis_test

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"boxbook/season/analysis"
	"boxbook/season/internal/testkit"
)

// elementTexts write the losses of a figure's elements, the charged part behind.
func elementTexts(figure analysis.FigureLoss) []string {
	texts := []string{}
	for _, e := range figure.Elements {
		texts = append(texts, fmt.Sprintf("%s %s (%s)", e.Element.Code, testkit.ExactText(e.Lost), testkit.ExactText(e.Charged)))
	}
	return texts
}

// A figure of K 23, 17 + 6, at 8.0 loses 46 points (derived, every line).
func TestElementLosses(t *testing.T) {
	for _, test := range []struct {
		name  string
		lines []string
		want  []string
	}{
		{"in proportion to K", nil, []string{"5.2.1.1 34 (0)", "9.1.1.1 12 (0)"}},
		{"a fault on a code first: 1 x 23, the other 23 by K", []string{"fault 1 line-angle 5deg on 9.1.1.1"}, []string{"5.2.1.1 17 (0)", "9.1.1.1 29 (23)"}},
		{"all of it", []string{"fault 1 line-angle 10deg on 9.1.1.1"}, []string{"5.2.1.1 0 (0)", "9.1.1.1 46 (46)"}},
		{"scaled down where it exceeds the loss", []string{"fault 1 line-angle 20deg on 9.1.1.1"}, []string{"5.2.1.1 0 (0)", "9.1.1.1 46 (46)"}},
		{
			"69 scaled down to 46",
			[]string{"fault 1 line-angle 10deg on 9.1.1.1", "fault 1 heading 5deg on 5.2.1.1"},
			[]string{"5.2.1.1 46/3 (46/3)", "9.1.1.1 92/3 (92/3)"},
		},
		{"a fault without a code charges nobody", []string{"fault 1 line-angle 10deg"}, []string{"5.2.1.1 34 (0)", "9.1.1.1 12 (0)"}},
		{"nor one that is felt", []string{"fault 1 line-angle 10deg on 9.1.1.1 felt"}, []string{"5.2.1.1 34 (0)", "9.1.1.1 12 (0)"}},
		{"nor one without a price", []string{"fault 1 drift on 5.2.1.1"}, []string{"5.2.1.1 34 (0)", "9.1.1.1 12 (0)"}},
		{
			"two observers charge once, the larger",
			[]string{"fault 1 line-angle 3deg on 9.1.1.1", "fault 1 line-angle 5deg on 9.1.1.1 by marek"},
			[]string{"5.2.1.1 17 (0)", "9.1.1.1 29 (23)"},
		},
	} {
		t.Run(test.name, func(t *testing.T) {
			losses := analysis.LossesOf(testkit.FlightWith(t, append([]string{`note "as flown"`}, test.lines...)...))
			require.Len(t, losses.Figures, 4)
			assert.Equal(t, "46", testkit.ExactText(losses.Figures[0].Lost))
			assert.Equal(t, test.want, elementTexts(losses.Figures[0]))
		})
	}
}

// A code typed twice in a figure means both, and they share; hints share the
// figure's K equally.
func TestSharedLosses(t *testing.T) {
	const book = `
pilot ines
sequence shared
  1  5.2.1.1:10 9.1.1.1:6 9.1.1.1:6
  2  K 14 2-rolling 9.4 9
`
	flight := "flight 2026-04-18 ines known\n  category intermediate\n  sequence shared\n  panel A\n  1 5\n  2 4\n"
	losses := analysis.LossesOf(testkit.BookOf(t, book+flight+"  fault 1 roll-stop 5deg on 9.1.1.1\n").Flights[0])
	assert.Equal(t, []string{"5.2.1.1 40 (0)", "9.1.1.1 35 (11)", "9.1.1.1 35 (11)"}, elementTexts(losses.Figures[0]), "22 of 110 charged, 88 by K")
	assert.Equal(t, []string{"2-rolling 28 (0)", "9.4 28 (0)", "9 28 (0)"}, elementTexts(losses.Figures[1]))
	assert.Equal(t, "194", testkit.ExactText(losses.Total))
	assert.Equal(t, "70", testkit.ExactText(losses.Elements[1].Lost), "both of 9.1.1.1")
	assert.Equal(t, []string{"2-rolling 28", "5 40", "9.1 70", "hesitation 28", " 28"}, groupTexts(losses))
}

// A fault that costs the following figure too is charged to the element it was
// noted on, not to one of that code in the following figure.
func TestCarriedFaultChargesNoElement(t *testing.T) {
	const book = `
pilot ines
sequence twice
  1  7.4.1.1:10 9.1.3.4:10
  2  7.4.1.1:10 9.1.3.4:10
flight 2026-04-18 ines known
  category intermediate
  sequence twice
  panel A
  1 8
  2 8
  fault 1 no-line on 9.1.3.4
`
	losses := analysis.LossesOf(testkit.BookOf(t, book).Flights[0])
	assert.Equal(t, []string{"7.4.1.1 10 (0)", "9.1.3.4 30 (20)"}, elementTexts(losses.Figures[0]))
	assert.Equal(t, []string{"7.4.1.1 20 (0)", "9.1.3.4 20 (0)"}, elementTexts(losses.Figures[1]))
}

// groupTexts write the groups with their losses.
func groupTexts(losses analysis.Losses) []string {
	texts := []string{}
	for _, g := range losses.Groups {
		texts = append(texts, g.Group+" "+testkit.ExactText(g.Lost))
	}
	return texts
}

func TestLossesOfAFlight(t *testing.T) {
	losses := analysis.LossesOf(testkit.FlightWith(t, "penalty low 20", "fault 3 spin-stop 3deg on 9.11.1.5"))
	assert.Equal(t, "132", testkit.ExactText(losses.Total), "660 less 528; penalties stand apart")
	assert.Equal(t, "20", testkit.ExactText(losses.Positioning))
	assert.Nil(t, losses.Harmony)
	assert.Zero(t, losses.Undecided)
	// [derived]: 28 lost on figure 3, 7 charged to the spin, 21 shared 8 to 6.
	assert.Equal(t, []string{"1 12", "5 34", "7 20", "9.1 12", "spins 16", " 18"}, groupTexts(losses))
	codes := []string{}
	for _, e := range losses.Elements {
		codes = append(codes, fmt.Sprintf("%q %v %s", e.Code, e.Figures, testkit.ExactText(e.Lost)))
	}
	assert.Equal(t, []string{
		`"5.2.1.1" [1] 34`, `"9.1.1.1" [1] 12`, `"7.4.1.1" [2] 20`, `"1.2.6.3" [3] 12`, `"9.11.1.5" [3] 16`, `"" [4] 18`,
	}, codes)
	assert.Equal(t, "5/33", testkit.ExactText(losses.Share(losses.Positioning)))
}

// Undecided lines are left out, and the shares are over the decided ones.
func TestLossesOfAnUndecidedFlight(t *testing.T) {
	book := testkit.FaultBook + "flight 2026-04-18 ines known\n  sequence four\n  panel A B\n  1 HZ 8\n  2 8 8\n  3 9 9\n  4 10 10\n  positioning 7 8\n"
	losses := analysis.LossesOf(testkit.BookOf(t, book).Flights[0])
	assert.Equal(t, "59", testkit.ExactText(losses.Total), "20 + 14 + 0 + 25")
	assert.Equal(t, 1, losses.Undecided)
	require.Len(t, losses.Figures, 3)
	assert.Equal(t, 2, losses.Figures[0].Number)
	assert.Equal(t, "20/59", testkit.ExactText(losses.Share(losses.Figures[0].Lost)))
	resolved := analysis.LossesOf(testkit.BookOf(t, book+"  resolve 1 zero\n").Flights[0])
	assert.Equal(t, "289", testkit.ExactText(resolved.Total), "and 230 of the figure that was ruled a zero")
}

func TestNothingLost(t *testing.T) {
	book := testkit.FaultBook + "flight 2026-04-18 ines practice\n  sequence four\n  panel A\n  2 10\n  fault 2 radius on 7.4.1.1\nflight 2026-04-19 ines known\n  sequence four\n  official 400\n"
	flights := testkit.BookOf(t, book).Flights
	full := analysis.LossesOf(flights[0])
	assert.Equal(t, "0", testkit.ExactText(full.Total))
	assert.Nil(t, full.Share(full.Figures[0].Lost))
	assert.Equal(t, []string{"7.4.1.1 0 (0)"}, elementTexts(full.Figures[0]), "there is nothing to charge")
	bare := analysis.LossesOf(flights[1])
	assert.Equal(t, "0", testkit.ExactText(bare.Total))
	assert.Empty(t, bare.Figures)
}

// lossBook draws a sequence, its marks and faults.
func lossBook() *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		var rows, marks, faults strings.Builder
		judges := rapid.IntRange(1, 6).Draw(t, "judges")
		row := func() string {
			return strings.Join(rapid.SliceOfN(rapid.SampledFrom([]string{"0", "4.5", "7", "7.5", "8", "10", "HZ", "AV", "PZ", "-"}), judges, judges).Draw(t, "marks"), " ")
		}
		codes := []string{"5.2.1.1", "7.4.1.1", "9.1.3.4", "9.11.1.4", "9.9.3.4", "4.1", "2.2.3.1"}
		for figure := range rapid.IntRange(1, 5).Draw(t, "figures") {
			var elements []string
			used := rapid.SliceOfN(rapid.SampledFrom(codes), 0, 4).Draw(t, "codes")
			hints := rapid.Bool().Draw(t, "hints") || len(used) == 0
			for i, code := range used {
				if least := 0; !hints {
					if i == len(used)-1 {
						least = 1 // a figure's K is above 0
					}
					code += fmt.Sprint(":", rapid.IntRange(least, 20).Draw(t, "k"))
				}
				elements = append(elements, code)
			}
			if hints {
				elements = append([]string{fmt.Sprint("K ", rapid.IntRange(1, 40).Draw(t, "K"))}, elements...)
			}
			fmt.Fprintf(&rows, "  %d  %s\n", figure+1, strings.Join(elements, " "))
			fmt.Fprintf(&marks, "  %d  %s\n", figure+1, row())
			for _, code := range rapid.SliceOfN(rapid.SampledFrom(append(used, "")), 0, 3).Draw(t, "faults") {
				line := fmt.Sprintf("  fault %d %s", figure+1, rapid.SampledFrom([]string{"heading 7deg", "no-line", "other 4pt", "radius felt", "line-length 1:0"}).Draw(t, "fault"))
				if code != "" {
					line = strings.Replace(line, " felt", "", 1) + " on " + code
				}
				faults.WriteString(line + "\n")
			}
		}
		seats := strings.Join([]string{"A", "B", "C", "D", "E", "F"}[:judges], " ")
		return "pilot ines\nsequence drawn\n" + rows.String() + "  harmony K 7\nflight 2026-04-18 ines known\n  category intermediate\n  rules " +
			rapid.SampledFrom([]string{"panel-mean", "drop-extremes", "as-graded"}).Draw(t, "rules") +
			"\n  sequence drawn\n  panel " + seats + "\n" + marks.String() + "  harmony " + strings.Repeat("7 ", judges) + "\n" + faults.String()
	})
}

// By figure, by element and by group the parts sum to the loss, exactly, and
// the loss is what the raw points lack to the maximum.
func TestPartsSumToTheLoss(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		f := testkit.BookOf(t, lossBook().Draw(rt, "book")).Flights[0]
		losses, score := analysis.LossesOf(f), f.Score()
		if score.Decided() {
			lack := new(big.Rat).Sub(big.NewRat(int64(score.Maximum), 1), score.Raw)
			require.Equal(rt, testkit.ExactText(lack), testkit.ExactText(losses.Total))
		}
		byFigure, byElement, byCode, byGroup := weighted(losses), weighted(losses), weighted(losses), weighted(losses)
		for _, figure := range losses.Figures {
			byFigure.Add(byFigure, figure.Lost)
			if len(figure.Elements) == 0 {
				byElement.Add(byElement, figure.Lost)
			}
			for _, e := range figure.Elements {
				byElement.Add(byElement, e.Lost)
				require.GreaterOrEqual(rt, e.Charged.Sign(), 0)
				require.GreaterOrEqual(rt, e.Lost.Cmp(e.Charged), 0, "what is charged is part of what is lost")
			}
		}
		for _, e := range losses.Elements {
			byCode.Add(byCode, e.Lost)
		}
		for _, g := range losses.Groups {
			byGroup.Add(byGroup, g.Lost)
		}
		for _, sum := range []*big.Rat{byFigure, byElement, byCode, byGroup} {
			require.Equal(rt, testkit.ExactText(losses.Total), testkit.ExactText(sum))
		}
	})
}

// weighted is the loss of the weighted lines.
func weighted(losses analysis.Losses) *big.Rat {
	sum := new(big.Rat)
	for _, line := range []*big.Rat{losses.Positioning, losses.Harmony} {
		if line != nil {
			sum.Add(sum, line)
		}
	}
	return sum
}

// What a figure that counts 0 lost is a part of what its codes and families lost, known
// by its figure: all of it together is the figure's loss.
func TestZerosAmongLosses(t *testing.T) {
	book := strings.Replace(testkit.FaultBook+testkit.FlightText("2026-04-18 ines known", `note "as flown"`), "  1 8 8\n", "  1 HZ HZ\n", 1)
	losses := analysis.LossesOf(testkit.BookOf(t, book).Flights[0])
	texts := []string{}
	add := func(name string, lost *big.Rat, zeros []analysis.ZeroedFigure) {
		for _, z := range zeros {
			texts = append(texts, fmt.Sprintf("%s %s, of it %s in %d", name, testkit.ExactText(lost), testkit.ExactText(z.Lost), z.Figure))
		}
	}
	for _, c := range losses.Elements {
		add(c.Code, c.Lost, c.Zeros)
	}
	for _, g := range losses.Groups {
		add(g.Group, g.Lost, g.Zeros)
	}
	assert.Equal(t, []string{"5.2.1.1 170, of it 170 in 1", "9.1.1.1 60, of it 60 in 1", "5 170, of it 170 in 1", "9.1 60, of it 60 in 1"}, texts)
	assert.True(t, losses.Figures[0].Zeroed)
	assert.False(t, losses.Figures[1].Zeroed)
}
