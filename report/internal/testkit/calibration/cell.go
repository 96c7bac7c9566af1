package calibration

import (
	"fmt"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"runtime"
	"sync"
	"sync/atomic"
)

// Limit is between what a measure must lie. Both ends are shares or ratios.
type Limit struct {
	What        string
	Least, Most float64
	// Ratio says that it is a ratio of widths, Part that it is a part of a whole that
	// differs by season: neither is a share of seasons.
	Ratio, Part bool
}

func atMost(what string, most float64) Limit   { return Limit{What: what, Most: most} }
func atLeast(what string, least float64) Limit { return Limit{What: what, Least: least, Most: 1} }
func within(what string, least, most float64) Limit {
	return Limit{What: what, Least: least, Most: most}
}
func ratio(what string, most float64) Limit { return Limit{What: what, Most: most, Ratio: true} }

// Cell is one kind of season, what is measured in it, and the limits.
type Cell struct {
	Group, Name string
	// Heavy cells take fewer seasons in the long form.
	Heavy bool
	// One makes one season, asks, and counts.
	One    func(r *rand.Rand, p Program, t Tally)
	Limits []Limit
}

// ID names the cell among all.
func (c Cell) ID() string { return c.Group + ": " + c.Name }

// random gives the randomness of one season of the cell. It hangs on the cell's
// name and the season's number alone, so that a cell stays what it is when others
// come or go, and nobody chooses a seed.
func (c Cell) random(number int) *rand.Rand {
	h := fnv.New64a()
	h.Write([]byte(c.ID()))
	return rand.New(rand.NewPCG(h.Sum64(), uint64(number)))
}

// Run makes seasons on every processor and counts.
func (c Cell) Run(p Program, seasons int) Tally {
	tallies := make([]Tally, seasons)
	var next atomic.Int64
	var all sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			for i := int(next.Add(1)) - 1; i < seasons; i = int(next.Add(1)) - 1 {
				tallies[i] = Tally{}
				c.One(c.random(i), p, tallies[i])
			}
		})
	}
	all.Wait()
	sum := Tally{}
	for _, t := range tallies {
		sum.Add(t)
	}
	return sum
}

// Finding is one measure of a cell beside its limit.
type Finding struct {
	Cell  Cell
	Limit Limit
	Count Count
	Over  bool
}

// Judge holds a tally against the cell's limits, each widened by so many standard
// errors of a share that lies on the limit (of a ratio: its own). What was never
// measured is over any limit.
func (c Cell) Judge(t Tally, errors float64) []Finding {
	var list []Finding
	for _, limit := range c.Limits {
		f := Finding{c, limit, t[limit.What], true}
		if f.Count.Of > 0 {
			mean := f.Count.Mean()
			f.Over = mean < limit.Least-errors*f.slack(limit.Least) || mean > limit.Most+errors*f.slack(limit.Most)
		}
		list = append(list, f)
	}
	return list
}

// slack is one standard error at an end of the limit.
func (f Finding) slack(end float64) float64 {
	if f.Limit.Ratio || f.Limit.Part {
		return f.Count.Error()
	}
	return math.Sqrt(max(0, end*(1-end)) / float64(f.Count.Of))
}

// String says the finding in a line.
func (f Finding) String() string {
	return fmt.Sprintf("%s, %s: %s in %d seasons, limit %s", f.Cell.ID(), f.Limit.What, f.figure(), f.Count.Of, f.Limit)
}

func (f Finding) figure() string {
	switch {
	case f.Count.Of == 0:
		return "never measured"
	case f.Limit.Ratio:
		return fmt.Sprintf("%.3f", f.Count.Mean())
	}
	return fmt.Sprintf("%.1f %%", 100*f.Count.Mean())
}

func (l Limit) String() string {
	show := func(v float64) string { return fmt.Sprintf("%.4g %%", 100*v) }
	if l.Ratio {
		show = func(v float64) string { return fmt.Sprintf("%.4g", v) }
	}
	switch {
	case l.Least == 0:
		return "at most " + show(l.Most)
	case l.Most == 1 && !l.Ratio:
		return "at least " + show(l.Least)
	}
	return show(l.Least) + " to " + show(l.Most)
}
