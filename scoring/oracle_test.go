package scoring_test

import (
	"flag"
	"fmt"
	"math/big"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/scoring"
	"boxbook/scoring/internal/testkit/oracle"
)

var (
	oracleSheets = flag.Int("oracle-sheets", fewSheets, "how many generated sheets to compare with the oracle")
	oracleSeed   = flag.Uint64("oracle-seed", 20260418, "seed of the generated sheets")
)

// oracleParts is how many subtests share the sheets; each has its own stream
// of random numbers, so that the sheets do not depend on how the parts run.
const oracleParts = 20

// hardZeroClasses are the classes of sheets most likely to be scored wrongly,
// so each must be on at least leastShare percent of the sheets.
var hardZeroClasses = []string{
	oracle.ClassMajority, oracle.ClassMinority, oracle.ClassHalf, oracle.ClassConfirmed, oracle.ClassAsGiven,
}

const leastShare = 5

// Every number that Score gives is exactly the oracle's, which is written from
// the same rules and shares no code with it.
func TestScoreEqualsOracle(t *testing.T) {
	sheets := (*oracleSheets + oracleParts - 1) / oracleParts
	t.Logf("seed %d, %d parts of %d sheets", *oracleSeed, oracleParts, sheets)
	met := make([]map[string]int, oracleParts)
	t.Run("parts", func(t *testing.T) { // returns when all of them have
		for part := range oracleParts {
			t.Run(strconv.Itoa(part), func(t *testing.T) {
				t.Parallel()
				met[part] = comparePart(t, part, sheets)
			})
		}
	})
	together := map[string]int{}
	for _, part := range met {
		for class, count := range part {
			together[class] += count
		}
	}
	assert.True(t, metEnough(together, oracleParts*sheets),
		"each class on at least %d%% of %d sheets: %v", leastShare, oracleParts*sheets, together)
}

// comparePart compares one part's sheets, stopping at the first that differs,
// and counts the classes that it met until each had its share.
func comparePart(t *testing.T, part, sheets int) map[string]int {
	rng := rand.New(rand.NewPCG(*oracleSeed, uint64(part)))
	met := map[string]int{}
	for i := range sheets {
		sheet := oracle.Generate(rng)
		differences := compare(sheet)
		require.Empty(t, differences, "seed %d, part %d, sheet %d:\n%s", *oracleSeed, part, i, describe(sheet))
		if !metEnough(met, sheets) { // to classify is slow: no further than needed
			for _, class := range oracle.Classes(sheet) {
				met[class]++
			}
		}
	}
	return met
}

// metEnough says whether each class of hard zeros had its share.
func metEnough(met map[string]int, sheets int) bool {
	for _, class := range hardZeroClasses {
		if 100*met[class] < leastShare*sheets {
			return false
		}
	}
	return true
}

// compare lists where Score and the oracle differ over one sheet. A panic is
// a difference like any other, so that the sheet which causes it is printed.
func compare(from oracle.Sheet) (differences []string) {
	defer func() {
		if cause := recover(); cause != nil {
			differences = []string{fmt.Sprintf("panic: %v", cause)}
		}
	}()
	sheet := sheetOf(from)
	want, got := oracle.Score(from), sheet.Score()
	c := &comparison{}
	c.equal("lines", len(want.Lines), len(got.Lines))
	for i, line := range want.Lines {
		c.line = i + 1
		c.lineScore(line, got.Lines[i])
		c.cells(from.Lines[i], line, got.Lines[i])
		c.flags(from.Style, from.Lines[i], line, got.Lines[i])
		c.questions(from.Style, from.Lines[i], line, sheet.Lines[i].Marks, sheet.Style)
	}
	c.line = 0
	c.total(want, got)
	return c.differences
}

// comparison collects differences; line is the one at hand, 0 for the flight.
type comparison struct {
	line        int
	differences []string
}

func (c *comparison) equal(what string, want, got any) {
	if want == got {
		return
	}
	at := ""
	if c.line > 0 {
		at = fmt.Sprintf("line %d: ", c.line)
	}
	c.differences = append(c.differences, fmt.Sprintf("%s%s is %v, the oracle says %v", at, what, got, want))
}

// rat compares exactly; absent numbers equal only each other.
func (c *comparison) rat(what string, want, got *big.Rat) {
	if !sameRat(want, got) {
		c.equal(what, ratText(want), ratText(got))
	}
}

// total compares what belongs to the whole flight.
func (c *comparison) total(want oracle.Result, got scoring.Score) {
	c.equal("judge totals", len(want.JudgeTotals), len(got.JudgeTotals))
	for i := range min(len(want.JudgeTotals), len(got.JudgeTotals)) {
		c.rat("judge total", want.JudgeTotals[i], got.JudgeTotals[i])
	}
	c.rat("raw", want.Raw, got.Raw)
	c.rat("penalty", want.Penalty, got.Penalty)
	c.rat("points", want.Points, got.Points)
	c.rat("percent", want.Percent, got.Percent)
	c.rat("maximum", want.Maximum, big.NewRat(int64(got.Maximum), 1))
	c.rat("low", want.Low, got.Low)
	c.rat("high", want.High, got.High)
	c.equal("decided", want.Raw != nil, got.Decided())
}

func (c *comparison) lineScore(want oracle.LineResult, got scoring.LineScore) {
	c.equal("ruling", want.Ruling, string(got.Ruling))
	c.rat("mean", want.Mean, got.Mean)
	c.rat("points", want.Points, got.Points)
	c.rat("lost", want.Lost, got.Lost)
	c.rat("low", want.Low, got.Low)
	c.rat("high", want.High, got.High)
}

// cells compares the row that stands for the marks and which of it is dropped.
// A row that is 0 from every judge has no extremes: the package drops none
// there, the oracle the first two, and the mean is 0 either way.
func (c *comparison) cells(line oracle.Line, want oracle.LineResult, got scoring.LineScore) {
	c.equal("cells", len(want.Used), len(got.Cells))
	zero := zeroedRow(line, want)
	for i := range min(len(want.Used), len(got.Cells)) {
		var filled *big.Rat
		dropped := false
		if want.Filled != nil {
			filled, dropped = want.Filled[i], want.Used[i] == nil && !zero
		}
		c.rat("filled mark", filled, got.Cells[i].Used)
		c.equal("dropped", dropped, got.Cells[i].Dropped)
	}
}

// flags compares what a cell says of how it came about with what follows from
// the mark and the oracle's ruling.
func (c *comparison) flags(style oracle.Style, line oracle.Line, want oracle.LineResult, got scoring.LineScore) {
	zero := zeroedRow(line, want)
	for i, mark := range line.Marks {
		hard := mark == oracle.HardZero || mark == oracle.ConfirmedHardZero
		filled := want.Filled != nil && !zero && !numberInItself(mark, style)
		c.equal("fill flag", filled, got.Cells[i].Fill)
		c.equal("overruled flag", zero && !hard, got.Cells[i].Overruled)
	}
}

// questions compares the answers to what may be asked of a row before any
// ruling is recorded.
func (c *comparison) questions(from oracle.Style, line oracle.Line, want oracle.LineResult, marks []scoring.Mark, style scoring.Style) {
	open := want.Ruling == oracle.Undecided || want.Ruling == oracle.Resolved
	c.equal("open", open, scoring.Open(marks, style))
	number := slices.ContainsFunc(line.Marks, func(mark string) bool { return numberInItself(mark, from) })
	c.equal("has a number", number, scoring.HasNumber(marks, style))
}

// zeroedRow says whether the oracle has a line at 0 from every judge.
func zeroedRow(line oracle.Line, want oracle.LineResult) bool {
	return want.Ruling == oracle.Zeroed || want.Ruling == oracle.Resolved && line.Resolve == oracle.Zero
}

// numberInItself says whether a mark is a number without being filled.
func numberInItself(mark string, style oracle.Style) bool {
	switch mark {
	case oracle.Average, oracle.NoMark, oracle.ConfirmedHardZero:
		return false
	case oracle.HardZero:
		return style.HardZero == oracle.AsGiven
	}
	return true
}

// The words of the oracle and the constants of the package.
var (
	markKinds = map[string]scoring.MarkKind{
		oracle.HardZero: scoring.HardZero, oracle.ConfirmedHardZero: scoring.ConfirmedHardZero,
		oracle.PerceptionZero: scoring.PerceptionZero, oracle.Average: scoring.NotSeen, oracle.NoMark: scoring.Absent,
	}
	hardZeroRules = map[string]scoring.HardZeroRule{oracle.Majority: scoring.ByMajority, oracle.AsGiven: scoring.AsGiven}
	halfRules     = map[string]scoring.HalfRule{
		oracle.Undecided: scoring.HalfUndecided, oracle.Zero: scoring.HalfZero, oracle.Fill: scoring.HalfFill,
	}
	fillRoundings = map[string]scoring.FillRounding{"none": scoring.Unrounded, "0.1": scoring.ToTenth, "0.5": scoring.ToHalf}
	decisions     = map[string]scoring.Decision{
		"": scoring.NoDecision, oracle.Zero: scoring.RuledZero, oracle.Fill: scoring.RuledFill,
	}
)

// sheetOf turns the oracle's sheet into one of the package; of two weighted
// lines the first is positioning, the second harmony.
func sheetOf(from oracle.Sheet) scoring.Sheet {
	sheet := scoring.Sheet{Judges: from.Judges, Style: scoring.Style{
		HardZero: word(hardZeroRules, from.Style.HardZero), Half: word(halfRules, from.Style.Half),
		FillRounding: word(fillRoundings, from.Style.FillRounding), DropExtremes: from.Style.DropExtremes,
	}}
	weighted := scoring.Positioning
	for _, line := range from.Lines {
		kind := scoring.Figure
		if line.Weighted {
			kind, weighted = weighted, scoring.Harmony
		}
		sheet.Lines = append(sheet.Lines, scoring.Line{
			Kind: kind, K: line.K, Marks: marksOf(line.Marks), Decision: word(decisions, line.Resolve),
		})
	}
	for _, penalty := range from.Penalties {
		sheet.Penalties = append(sheet.Penalties, decimalOf(penalty))
	}
	return sheet
}

func marksOf(words []string) []scoring.Mark {
	marks := make([]scoring.Mark, len(words))
	for i, text := range words {
		if kind, ok := markKinds[text]; ok {
			marks[i] = scoring.Mark{Kind: kind}
			continue
		}
		grade, err := strconv.ParseFloat(text, 64)
		if err != nil {
			panic(err)
		}
		marks[i] = scoring.GradeOf(int(2 * grade))
	}
	return marks
}

// decimalOf writes a penalty of whole or half points as a person types it.
func decimalOf(points *big.Rat) scoring.Decimal {
	text := points.FloatString(1)
	if points.IsInt() {
		text = points.RatString()
	}
	typed, ok := scoring.ParseDecimal(text)
	if !ok {
		panic("penalty " + text)
	}
	return typed
}

// word looks a word up that must be known.
func word[T any](known map[string]T, text string) T {
	value, ok := known[text]
	if !ok {
		panic("unknown word " + strconv.Quote(text))
	}
	return value
}

func sameRat(a, b *big.Rat) bool {
	if a == nil || b == nil {
		return a == b
	}
	return a.Cmp(b) == 0
}

func ratText(number *big.Rat) string {
	if number == nil {
		return "absent"
	}
	return number.RatString()
}

// describe prints a sheet so that it can be typed into a test.
func describe(sheet oracle.Sheet) string {
	var text strings.Builder
	fmt.Fprintf(&text, "style %+v, penalties %v\n", sheet.Style, sheet.Penalties)
	for i, line := range sheet.Lines {
		fmt.Fprintf(&text, "line %d K %d weighted %t resolve %q: %s\n",
			i+1, line.K, line.Weighted, line.Resolve, strings.Join(line.Marks, " "))
	}
	return text.String()
}

// fewSheets are as many as the README's command has time for.
const fewSheets = 800
