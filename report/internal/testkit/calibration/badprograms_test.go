package calibration

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/combin"
	"gonum.org/v1/gonum/stat/distuv"

	"boxbook/season"
)

// A calibration that cannot fail says nothing. The program below answers as people
// would who overlook what the methods are for: levels are means of the whole
// record, trends least squares on single flights, every grade counts as one, a
// drill worked where a fault is rarer than before, points are where most K is.
func careless() Program {
	return Program{
		Season: func(l *season.Ledger) (a Season) {
			mean, half := meanRange(percentsOf(l))
			read(map[string]any{
				"trend": map[string]any{"word": slopeWord(percentsOf(l), 0.05)},
				"level": map[string]any{"next": SpanOf(mean-half, mean+half)},
			}, &a)
			return
		},
		Ready: func(l *season.Ledger, policy *season.Policy) Ready {
			key, _ := policy.Key("threshold")
			mark, _ := key.Values[0].Rat().Float64()
			y := percentsOf(l)
			mean, sd := stat.MeanStdDev(y, nil)
			state, t := "cannot tell", (mean-mark)/(sd/math.Sqrt(float64(len(y))))
			switch chance := (distuv.StudentsT{Sigma: 1, Nu: float64(len(y) - 1)}).CDF(t); {
			case chance >= 0.95:
				state = "met"
			case chance <= 0.05:
				state = "not met"
			}
			return Ready{[]Gate{{thresholdGate, state}}}
		},
		Forecast: func(l *season.Ledger, _ *season.Sequence) (a Forecast) {
			mean, half := meanRange(percentsOf(l))
			a.Span = SpanOf(mean-half, mean+half)
			return
		},
		Families: carelessFamilies,
		Drills:   carelessDrills,
		Plan: func(l *season.Ledger) (a Plan) {
			part := map[string]float64{}
			for _, f := range l.Sequences[0].Figures {
				for family, share := range shares(f) {
					part[family] += share * float64(f.K)
				}
			}
			var items []map[string]string
			for _, family := range byGain(part)[:planItems] {
				items = append(items, map[string]string{"group": family})
			}
			read(map[string]any{"items": items}, &a)
			return
		},
	}
}

func percentsOf(l *season.Ledger) []float64 {
	var list []float64
	for _, f := range l.Flights {
		p, _ := f.Record().Percent.Float64()
		list = append(list, p)
	}
	return list
}

func meanRange(y []float64) (mean, half float64) {
	mean, sd := stat.MeanStdDev(y, nil)
	n := float64(len(y))
	return mean, sd * math.Sqrt(1+1/n) * distuv.StudentsT{Sigma: 1, Nu: n - 1}.Quantile(0.9)
}

// slopeWord is the verdict of least squares over the flights by number.
func slopeWord(y []float64, alpha float64) string {
	x := make([]float64, len(y))
	for i := range x {
		x[i] = float64(i)
	}
	r := stat.Correlation(x, y, nil)
	n := float64(len(y))
	t := r * math.Sqrt((n-2)/(1-r*r))
	switch p := 2 * (distuv.StudentsT{Sigma: 1, Nu: n - 2}).CDF(-math.Abs(t)); {
	case p > alpha || math.IsNaN(p):
		return "cannot tell"
	case t > 0:
		return "improving"
	}
	return "declining"
}

// againstRest are a family's values against the rest over a ledger's flights.
func againstRest(flights []*season.Flight, family string) []float64 {
	var list []float64
	for _, f := range flights {
		if v, ok := AgainstRest(flownOf(f), family); ok {
			list = append(list, v)
		}
	}
	return list
}

func carelessFamilies(l *season.Ledger) (a Families) {
	for _, family := range season.Groups {
		y := againstRest(l.Flights, family)
		if len(y) < 3 {
			continue
		}
		mean, sd := stat.MeanStdDev(y, nil)
		chance := distuv.UnitNormal.CDF(-mean / (sd / math.Sqrt(float64(len(y)))))
		a.Groups = append(a.Groups, Family{Group: family, Weak: chance >= 0.92, Trend: &Trend{slopeWord(y, 0.05)}})
	}
	return
}

func carelessDrills(l *season.Ledger) Drills {
	d := l.Drills[0]
	at := slices.IndexFunc(l.Flights, func(f *season.Flight) bool { return f.Date >= d.Date })
	before, after := l.Flights[:at], l.Flights[at:]
	p := 0.0
	if season.IsGroup(d.Target) {
		p = rankSum(againstRest(before, d.Target), againstRest(after, d.Target))
	} else {
		p = fisher(seenIn(before, d.Target), len(before), seenIn(after, d.Target), len(after))
	}
	word := "cannot tell"
	if p <= 0.05 {
		word = worked
	}
	return Drills{[]Drill{{Target: d.Target, Word: word}}}
}

// fisher is the one-sided p of so few after.
func fisher(before, ofBefore, after, ofAfter int) float64 {
	sum, all := 0.0, before+after
	for k := max(0, all-ofBefore); k <= after; k++ {
		sum += math.Exp(lnChoose(ofAfter, k) + lnChoose(ofBefore, all-k) - lnChoose(ofBefore+ofAfter, all))
	}
	return sum
}

func lnChoose(n, k int) float64 { return combin.LogGeneralizedBinomial(float64(n), float64(k)) }

// rankSum is the p of a normal approximation for values that rose.
func rankSum(before, after []float64) float64 {
	mb, sb := stat.MeanStdDev(before, nil)
	ma, sa := stat.MeanStdDev(after, nil)
	return distuv.UnitNormal.CDF(-(ma - mb) / math.Sqrt(sb*sb/float64(len(before))+sa*sa/float64(len(after))))
}

// What a careless program must break.
func TestCarelessProgramBreaksTheLimits(t *testing.T) {
	for _, c := range []struct{ id, what string }{
		{"present: 12 flights, 2 a contest, contest share 30 %, rises by 10", nextHeld},
		{"present: 12 flights, 1 a contest, rises by 20", falselyNot},
		{"present: 12 flights, 1 a contest, falls by 10", falselyMet},
		{"present: 12 flights, 1 a contest, a step of 10 down", falselyMet},
		{"present: 20 flights, 3 a contest, contest share 50 %, steady", falselyMet},
		{"trend: 20 flights, 3 a contest, contest share 50 %, steady", trendCalled},
		{"forecast: 20 flights, 2 a contest, known, free and unknowns, rises by 20, families 0.3, figures 0.4, judges 0.5", percentHeld},
		{"forecast: 20 flights, 1 a contest, one known, steady, families 0.0, figures 0.8, judges 1.0", percentHeld},
		{"families: none differs: 12 flights, 2 a contest, contest share 30 %, one known, figures 0.4, judges 0.5", someWeaker},
		{"families' trend: 12 flights, 1 a contest, one known, a contest adds 0.0", trendOfFamily},
		{"drills: nothing worked: scheduled, 0 named, 16 before, 12 after, all fall to 0.3", saidWorked},
		{"drills: nothing worked: scheduled, 0 named, 16 before, 12 after, on spin-stop, some figures never flown later, from 0.6 to 0.6", saidWorked},
		{"family drills: nothing worked: 1 a contest, one known, a contest adds 0.0, on the worst of four true", saidWorked},
		{"plan: 12 flights, 1 a contest, one known, steady, families 0.6, figures 0.0", bestFirst},
	} {
		cell := Named(c.id)
		tally := cell.Run(careless(), shortSeasons)
		for _, f := range cell.Judge(tally, slackErrors) {
			if f.Limit.What == c.what {
				t.Log(f)
				assert.True(t, f.Over, f.String())
			}
		}
	}
}

// One that answers nothing breaks what asks for an answer.
func TestDeafProgramBreaksTheLimits(t *testing.T) {
	deaf := careless()
	deaf.Season = func(*season.Ledger) (a Season) { return }
	deaf.Forecast = func(*season.Ledger, *season.Sequence) (a Forecast) { return }
	for _, id := range []string{
		"present: 20 flights, 1 a contest, random walk",
		"forecast: 8 flights, 1 a contest, one known, rises by 10, families 0.3, figures 0.4, judges 0.5",
	} {
		cell := Named(id)
		findings := cell.Judge(cell.Run(deaf, 5), slackErrors)
		assert.True(t, findings[0].Over, findings[0].String())
	}
}
