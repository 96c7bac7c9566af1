package stats

import (
	"cmp"
	"math"
	"slices"
)

// manyPairs is the number of pairs up to which slopes and distances are listed.
// Beyond it, a thousand points in one stratum, they are only counted: what takes
// n log n for a rank instead of n squared.
const manyPairs = 500_000

// slopeRanks are the slopes of all pairs, by rank.
type slopeRanks interface {
	count() int
	at(rank int) float64 // from 1
}

// listedSlopes are sorted.
type listedSlopes []float64

func (s listedSlopes) count() int          { return len(s) }
func (s listedSlopes) at(rank int) float64 { return s[rank-1] }

// medianSlope is the middle one, or the mean of the two.
func medianSlope(s slopeRanks) float64 {
	n := s.count()
	if n%2 == 1 {
		return s.at(n/2 + 1)
	}
	return s.at(n/2)/2 + s.at(n/2+1)/2
}

// slopeAt reads a 1-based rank, interpolating between neighbours; ranks outside
// give the ends.
func slopeAt(s slopeRanks, rank float64) float64 {
	rank = math.Min(math.Max(rank, 1), float64(s.count()))
	below := int(math.Floor(rank))
	part := rank - float64(below)
	if part == 0 || below == s.count() {
		return s.at(below)
	}
	return s.at(below)*(1-part) + s.at(below+1)*part
}

// countedSlopes are those of points that are too many to list their pairs. Of x_i
// < x_j a slope is below m where y_j - m x_j < y_i - m x_i: how many are is the
// number of inversions of y - m x in the order of x, counted by merging. Slopes of
// pairs that dice choose say where to count, until few enough are left to list
// (Matousek 1991, memory): what is found is exact whatever the dice show.
type countedSlopes struct {
	strata []Series // each in the order of x, of equal x in that of y
	pairs  int
	points int
	most   float64 // no slope is larger, nor smaller than its negative
	sample []float64
	// near are the slopes listed last, sorted; before of all are smaller.
	near   []float64
	before int
	room   [2][]float64
}

func newCountedSlopes(strata []Series, pairs int) *countedSlopes {
	c := &countedSlopes{pairs: pairs}
	for _, s := range strata {
		order := make([]int, len(s.X))
		for i := range order {
			order[i] = i
		}
		slices.SortFunc(order, func(a, b int) int { return cmp.Or(cmp.Compare(s.X[a], s.X[b]), cmp.Compare(s.Y[a], s.Y[b])) })
		var in Series
		for _, i := range order {
			in.X, in.Y = append(in.X, s.X[i]), append(in.Y, s.Y[i])
		}
		c.strata, c.points = append(c.strata, in), c.points+len(order)
		c.most = math.Max(c.most, steepest(in))
	}
	c.sample = c.sampled(sampledPerPoint * c.points)
	c.room = [2][]float64{make([]float64, c.points), make([]float64, c.points)}
	return c
}

// sampledPerPoint is how many slopes a point are looked at before any are counted.
const sampledPerPoint = 4

// sampled are the slopes of pairs chosen by dice of a fixed seed, sorted: of each
// stratum its part of all pairs.
func (c *countedSlopes) sampled(n int) []float64 {
	dice := newRandom()
	var slopes []float64
	for _, s := range c.strata {
		size := len(s.X)
		for range n * pairCount(size) / max(1, c.allPairs()) {
			i, j := dice.IntN(size), dice.IntN(size)
			if dx := s.X[j] - s.X[i]; dx != 0 {
				slopes = append(slopes, (s.Y[j]-s.Y[i])/dx)
			}
		}
	}
	slices.Sort(slopes)
	return slopes
}

// allPairs counts the pairs of equal x too.
func (c *countedSlopes) allPairs() int {
	n := 0
	for _, s := range c.strata {
		n += pairCount(len(s.X))
	}
	return n
}

// steepest is the largest a slope of points in the order of x can be: the range of
// y over the shortest step of x.
func steepest(s Series) float64 {
	step := math.Inf(1)
	for i := 1; i < len(s.X); i++ {
		if dx := s.X[i] - s.X[i-1]; dx > 0 {
			step = math.Min(step, dx)
		}
	}
	if math.IsInf(step, 1) {
		return 0
	}
	return (slices.Max(s.Y) - slices.Min(s.Y)) / step
}

func (c *countedSlopes) count() int { return c.pairs }

// listedPerPoint is how many slopes a point are listed when the bisection has come
// so near.
const listedPerPoint = 8

// at finds a slope by its rank.
func (c *countedSlopes) at(rank int) float64 {
	if rank <= c.before || rank > c.before+len(c.near) {
		c.list(rank)
	}
	return c.near[min(rank-c.before, len(c.near))-1]
}

// list lists slopes among which that of a rank is.
func (c *countedSlopes) list(rank int) {
	low, high := -2*c.most-1, 2*c.most+1
	before, upTo := 0, c.pairs
	sample := c.sample
	for turn := 0; upTo-before > listedPerPoint*c.points; turn++ {
		middle := low/2 + high/2
		at := guess(len(sample), float64(rank-before)/float64(upTo-before), turn%2 == 0)
		if at >= 0 && sample[at] > low && sample[at] < high {
			middle = sample[at]
		}
		if middle <= low || middle >= high {
			break // all that is left is alike
		}
		if n := c.below(middle); n < rank {
			low, before = middle, n
		} else {
			high, upTo = middle, n
		}
		from, _ := slices.BinarySearch(sample, low)
		to, _ := slices.BinarySearch(sample, high)
		sample = sample[from:to]
	}
	c.near = c.between(low, high, listedPerPoint*c.points)
	slices.Sort(c.near)
	c.before = before
}

// guess is the place in a sample of n at which to count next for what has so large
// a share of the values below it: two standard errors below the likely place, or
// above it. It is -1 where the sample is too small to tell.
func guess(n int, share float64, below bool) int {
	const leastSample = 16
	if n < leastSample {
		return -1
	}
	off := 2*math.Sqrt(float64(n)*share*(1-share)) + 1
	if below {
		off = -off
	}
	return max(0, min(n-1, int(share*float64(n)+off)))
}

// below counts the slopes below m.
func (c *countedSlopes) below(m float64) int {
	n := 0
	for _, s := range c.strata {
		heights, room := c.room[0][:len(s.X)], c.room[1][:len(s.X)]
		for i, x := range s.X {
			heights[i] = s.Y[i] - m*x
		}
		n += fallingPairs(heights, room)
	}
	return n
}

// between lists slopes from low to below high, at most so many.
func (c *countedSlopes) between(low, high float64, most int) []float64 {
	var found []float64
	for _, s := range c.strata {
		order := tilted(s, low)
		slices.SortStableFunc(order, func(a, b tiltedPoint) int { return cmp.Compare(a.value, b.value) })
		for i := range order {
			order[i].value = order[i].y - high*order[i].x
		}
		inversions(order, func(before, after tiltedPoint) {
			if dx := after.x - before.x; dx > 0 && len(found) < most {
				found = append(found, (after.y-before.y)/dx)
			}
		})
	}
	return found
}

// tiltedPoint is a point and its height over a line.
type tiltedPoint struct{ value, x, y float64 }

// tilted are the heights of points over a line of slope m.
func tilted(s Series, m float64) []tiltedPoint {
	points := make([]tiltedPoint, len(s.X))
	for i := range points {
		points[i] = tiltedPoint{s.Y[i] - m*s.X[i], s.X[i], s.Y[i]}
	}
	return points
}

// inversions counts the pairs of which the one before is the larger, and shows them
// to a function that is not nil. It sorts the points.
func inversions(points []tiltedPoint, show func(before, after tiltedPoint)) int {
	return mergeCount(points, make([]tiltedPoint, len(points)), show)
}

func mergeCount(points, room []tiltedPoint, show func(before, after tiltedPoint)) int {
	if len(points) < 2 {
		return 0
	}
	middle := len(points) / 2
	n := mergeCount(points[:middle], room, show) + mergeCount(points[middle:], room, show)
	left, right := room[:copy(room, points[:middle])], points[middle:]
	for i := range points {
		if len(right) == 0 || len(left) > 0 && left[0].value <= right[0].value {
			if len(left) == 0 {
				break
			}
			points[i], left = left[0], left[1:]
			continue
		}
		n += len(left)
		for j := 0; show != nil && j < len(left); j++ {
			show(left[j], right[0])
		}
		points[i], right = right[0], right[1:]
	}
	return n
}
