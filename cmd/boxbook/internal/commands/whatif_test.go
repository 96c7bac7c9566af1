package commands

import (
	"fmt"
	"math/big"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"boxbook/data"
	"boxbook/report/answers"
	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/ledger"

	"github.com/stretchr/testify/require"
)

// paper is a flight as a person types it: the judges, a row of marks a figure,
// positioning, penalties.
type paper struct {
	rules     string
	judges    []string
	ks        []int
	rows      [][]string // a row a figure, positioning last
	penalties []string
}

// text is the ledger of the paper.
func (p paper) text() string {
	var b strings.Builder
	b.WriteString("pilot ines\nsequence six\n  category intermediate\n")
	for i, k := range p.ks {
		fmt.Fprintf(&b, "  %d K %d \"figure %d\"\n", i+1, k, i+1)
	}
	fmt.Fprintf(&b, "  positioning K 10\nflight 2026-05-16 ines known\n  sequence six\n  rules %s\n  panel %s\n", p.rules, strings.Join(p.judges, " "))
	for i, row := range p.rows {
		name := fmt.Sprint(i + 1)
		if i == len(p.ks) {
			name = "positioning"
		}
		fmt.Fprintf(&b, "  %s %s\n", name, strings.Join(row, " "))
	}
	for _, penalty := range p.penalties {
		fmt.Fprintf(&b, "  penalty other %s\n", penalty)
	}
	return b.String()
}

func (p paper) flight(t require.TestingT) *season.Flight {
	result, err := ledger.Load(ledger.Options{Files: ledger.Memory{"b.boxbook": p.text()}, Main: "b.boxbook", Builtin: data.Builtin()})
	require.NoError(t, err)
	require.NoError(t, result.Diagnostics.Err(), p.text())
	return result.Ledger.Flights[0]
}

// byHand makes a change on the paper as a person with a rubber would.
func (p paper) byHand(change string) paper {
	rows := make([][]string, len(p.rows))
	for i := range rows {
		rows[i] = slices.Clone(p.rows[i])
	}
	p.rows = rows
	switch {
	case change == "no-penalty":
		p.penalties = nil
	case change == "no-zeros":
		for _, row := range rows {
			for j, mark := range row {
				if strings.HasSuffix(mark, "Z") {
					row[j] = "AV"
				}
			}
		}
	case strings.HasPrefix(change, "without "):
		at := slices.Index(p.judges, strings.TrimPrefix(change, "without "))
		p.judges = slices.Delete(slices.Clone(p.judges), at, at+1)
		for i := range rows {
			rows[i] = slices.Delete(rows[i], at, at+1)
		}
	default:
		place, mark, _ := strings.Cut(change, "=")
		name, judge, _ := strings.Cut(place, "@")
		line := len(p.ks)
		if name != "pos" {
			fmt.Sscan(name, &line)
			line--
		}
		for j := range rows[line] {
			if judge == "" || judge == p.judges[j] {
				rows[line][j] = mark
			}
		}
	}
	return p
}

var someGrades = []string{"0", "4.5", "6", "6.5", "7", "7.5", "8", "8.5", "10"}

// papersDrawn is how many papers a property is held to.
const papersDrawn = 100

// onPapers runs a property on papers that are drawn, each from the seed that names
// its test. rapid, which the other properties use, would be a fifth of the start of
// every process that these tests begin.
func onPapers(t *testing.T, property func(t *testing.T, r *rand.Rand, p paper)) {
	for seed := range uint64(papersDrawn) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			r := rand.New(rand.NewPCG(seed, 2026))
			property(t, r, drawPaper(r))
		})
	}
}

func oneOf[T any](r *rand.Rand, list []T) T { return list[r.IntN(len(list))] }

// rowOf draws a mark for each judge.
func rowOf(r *rand.Rand, judges []string, marks []string) []string {
	row := make([]string, len(judges))
	for i := range row {
		row[i] = oneOf(r, marks)
	}
	return row
}

func drawPaper(r *rand.Rand) paper {
	p := paper{rules: oneOf(r, []string{"panel-mean", "drop-extremes", "as-graded"})}
	p.judges = []string{"A", "B", "C", "D", "E", "F"}[:1+r.IntN(6)]
	marks := append([]string{"HZ", "CHZ", "PZ", "AV", "-"}, slices.Repeat(someGrades, 3)...)
	for range 1 + r.IntN(6) {
		p.ks, p.rows = append(p.ks, 3+r.IntN(43)), append(p.rows, rowOf(r, p.judges, marks))
	}
	p.rows = append(p.rows, rowOf(r, p.judges, someGrades))
	for range r.IntN(3) {
		p.penalties = append(p.penalties, oneOf(r, []string{"30", "72.5"}))
	}
	return p
}

// drawChange draws a change that the paper can take.
func drawChange(r *rand.Rand, p paper) string {
	place := fmt.Sprint(1 + r.IntN(len(p.ks)))
	mark := oneOf(r, append([]string{"HZ", "AV", "PZ"}, someGrades...))
	judge := oneOf(r, p.judges)
	forms := []string{place + "=" + mark, place + "@" + judge + "=" + mark, "pos@" + judge + "=8.5", "pos=5", "no-penalty"}
	if len(p.judges) > 1 {
		forms = append(forms, "without "+judge)
	}
	return oneOf(r, forms)
}

// What a change comes to is what the ledger comes to when its text is changed by
// hand instead.
func TestWhatIfIsTheLedgerChangedByHand(t *testing.T) {
	onPapers(t, func(t *testing.T, r *rand.Rand, before paper) {
		after, typed := before, []string{}
		for range 1 + r.IntN(4) {
			change := drawChange(r, after)
			after, typed = after.byHand(change), append(typed, strings.Fields(change)...)
		}
		d, err := whatIf(before.flight(t), typed, nil)
		require.NoError(t, err)
		requireScored(t, before.flight(t), d.Before)
		requireScored(t, after.flight(t), d.After)
	})
}

// Zeros are taken away as AV by hand would, and refused where no grade is left.
func TestWhatIfWithoutZeros(t *testing.T) {
	refused, taken := 0, 0
	onPapers(t, func(t *testing.T, _ *rand.Rand, p paper) {
		bare := slices.ContainsFunc(p.rows, func(row []string) bool {
			zero := slices.ContainsFunc(row, func(mark string) bool { return strings.HasSuffix(mark, "Z") })
			return zero && !slices.ContainsFunc(row, func(mark string) bool { return slices.Contains(someGrades, mark) })
		})
		d, err := whatIf(p.flight(t), []string{"no-zeros"}, nil)
		if bare {
			require.ErrorContains(t, err, "has no grade to go by")
			refused++
			return
		}
		require.NoError(t, err)
		requireScored(t, p.byHand("no-zeros").flight(t), d.After)
		taken++
	})
	require.Positive(t, refused)
	require.Positive(t, taken)
}

// Where the only zero is from every judge, a grade in its place is all there is to ask
// for; with another zero, no-zeros still has something to take away.
func TestWhatIfZeroFromEveryJudge(t *testing.T) {
	hint := func(rows ...[]string) string {
		_, err := whatIf(paper{rules: "panel-mean", judges: []string{"AK", "BM"}, ks: []int{10, 12}, rows: append(rows, []string{"7", "7"})}.flight(t), []string{"no-zeros"}, nil)
		var usage *usageError
		require.ErrorAs(t, err, &usage)
		return usage.hint
	}
	require.Equal(t, "give it one instead: 2=7.0", hint([]string{"7", "8"}, []string{"HZ", "HZ"}))
	require.Equal(t, "give it one first: 2=7.0 no-zeros", hint([]string{"7", "HZ"}, []string{"HZ", "HZ"}))
}

func requireScored(t require.TestingT, f *season.Flight, d answers.WhatScore) {
	score := f.Score()
	require.Equal(t, score.Decided(), !d.Undecided)
	if score.Decided() {
		require.Zero(t, score.Points.Cmp(d.Points.Rat()), "%s, not %s", d.Points.Text(4), score.Points.FloatString(4))
		require.Zero(t, score.Percent.Cmp(d.Percent.Rat()))
	}
	require.Equal(t, fmt.Sprint(score.Maximum), d.Maximum.Text(0))
}

// A figure alone reaches a total with the grade that is said, and not with half a
// point less; all figures at the mean, rounded up to half a point, reach it, and
// rounded down they do not.
func TestWhatReachingTakes(t *testing.T) {
	kinds := map[string]int{}
	onPapers(t, func(t *testing.T, r *rand.Rand, p paper) {
		percent := 1 + r.Int64N(100)
		d, err := whatIf(p.flight(t), nil, &analysis.Goal{Percent: big.NewRat(percent, 1)})
		require.NoError(t, err)
		if d.Reach == nil {
			require.True(t, d.After.Undecided)
			kinds["undecided"]++
			return
		}
		reaches := func(p paper) bool { return p.flight(t).Score().Points.Cmp(d.Reach.Points.Rat()) >= 0 }
		for _, f := range d.Reach.Figures {
			with := func(half int) bool { return reaches(p.byHand(fmt.Sprintf("%d=%s", f.Number, scoring.GradeOf(half)))) }
			if !f.Grade.Known() {
				require.False(t, with(scoring.TopGrade))
				kinds["none alone"]++
				continue
			}
			half := int(2 * f.Grade.Float64())
			require.True(t, with(half))
			require.True(t, half == 0 || !with(half-1))
			kinds["alone"]++
		}
		all := func(half int) bool {
			out := p
			for i := range p.ks {
				out = out.byHand(fmt.Sprintf("%d=%s", i+1, scoring.GradeOf(half)))
			}
			return reaches(out)
		}
		if !d.Reach.Mean.Known() {
			require.False(t, all(scoring.TopGrade))
			kinds["out of reach"]++
			return
		}
		halves := d.Reach.Mean.Rat()
		halves.Mul(halves, big.NewRat(2, 1))
		down := int(new(big.Int).Quo(halves.Num(), halves.Denom()).Int64())
		if halves.IsInt() {
			require.True(t, all(down))
			require.True(t, down == 0 || !all(down-1))
		} else {
			require.True(t, all(down+1))
			require.False(t, all(down))
		}
		kinds["mean"]++
	})
	for _, kind := range []string{"alone", "none alone", "out of reach", "mean"} {
		require.Positive(t, kinds[kind], kind)
	}
}

// TestWhatIfOfTheLatestFlight takes the latest flight of any kind, as every command does,
// and names the last contest flight where that one is practice; a flight that is named is
// taken without a word.
func TestWhatIfOfTheLatestFlight(t *testing.T) {
	const of = " -f ../../../../data/demo/longmere.boxbook --asof 2026-11-25"
	const note = "the latest flight is a practice one; the last contest flight is 2026-09-13/ines/unknown"
	say := func(command string) (int, string) {
		var out strings.Builder
		exit := run(strings.Fields(command+of), readmeStreams(&out))
		return exit, strings.Join(strings.Fields(out.String()), " ")
	}
	for _, command := range []string{"whatif ines --reach 80", "whatif ines last --reach 80", "whatif ines 5=8"} {
		exit, said := say(command)
		require.Equal(t, exitDone, exit, said)
		require.Contains(t, said, "2026-11-07/ines/practice")
		require.Contains(t, said, note)
	}
	exit, said := say("whatif ines 4=7.5")
	require.Equal(t, exitUsage, exit)
	require.Contains(t, said, "figure 4 was not marked in 2026-11-07/ines/practice the latest flight is meant, a practice one; the last contest flight is 2026-09-13/ines/unknown")
	for _, command := range []string{"whatif ines 2026-11-07 --reach 80", "whatif yuki 4=8 --season 2026 --contest autumn-ladder"} {
		_, said := say(command)
		require.NotContains(t, said, "the last contest flight")
	}
}

// TestWhatIfWithoutASheet says of a judge whose sheet is not to hand that it is missing.
func TestWhatIfWithoutASheet(t *testing.T) {
	const of = " -f ../../../../data/demo/longmere.boxbook --asof 2026-11-25"
	say := func(command string) (int, string) {
		var out strings.Builder
		exit := run(strings.Fields("whatif 2026-09-12/ines "+command+of), readmeStreams(&out))
		return exit, strings.Join(strings.Fields(out.String()), " ")
	}
	for _, command := range []string{"4=8", "4@AK=8", "without AK", "--reach 75"} {
		exit, said := say(command)
		require.Equal(t, exitDone, exit, said)
		require.Contains(t, said, "the sheet of LP is missing: points, percent and grades are without it")
	}
	for _, command := range []string{"4@lp=8", "without LP"} {
		exit, said := say(command)
		require.Equal(t, exitUsage, exit)
		require.Contains(t, said, "the sheet of LP is missing in 2026-09-12/ines/known, and the score is without it the sheets to hand are those of AK, BM, CT, RS")
	}
}
