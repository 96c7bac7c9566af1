package analysis

import (
	"cmp"
	"math"
	"slices"

	"boxbook/season/stats"
)

// contestMeans takes from each flight its stratum's mean, leaves out strata of
// one flight, and averages by contest, in order of time, on the day of its first
// flight. Where no stratum was flown both before and after a day, what the mean took
// away leaves nothing to compare across it: the contests of each side stand apart.
func contestMeans(points []TrendPoint) []stats.Series {
	sums, counts := map[string]float64{}, map[string]int{}
	for _, p := range points {
		sums[p.Stratum] += p.Value
		counts[p.Stratum]++
	}
	type contest struct {
		day, sum, n float64
		last        float64 // day of the last flight of a stratum of this contest
	}
	var contests []*contest
	of, lasts := map[string]*contest{}, map[string]float64{}
	for _, p := range points {
		if last, met := lasts[p.Stratum]; !met || p.Day > last {
			lasts[p.Stratum] = p.Day
		}
	}
	for _, p := range points {
		n := counts[p.Stratum]
		if n < 2 {
			continue
		}
		c := of[p.Contest]
		if c == nil {
			c = &contest{day: p.Day, last: p.Day}
			of[p.Contest], contests = c, append(contests, c)
		}
		c.sum += p.Value - sums[p.Stratum]/float64(n)
		c.n++
		c.last = max(c.last, lasts[p.Stratum])
	}
	slices.SortStableFunc(contests, func(a, b *contest) int { return cmp.Compare(a.day, b.day) })
	var means []stats.Series
	joined := math.Inf(-1)
	for _, c := range contests {
		if c.day > joined {
			means = append(means, stats.Series{})
		}
		joined = max(joined, c.last)
		s := &means[len(means)-1]
		s.X, s.Y = append(s.X, c.day), append(s.Y, c.sum/c.n)
	}
	return means
}
