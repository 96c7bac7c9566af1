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
// number of inversions of y - m x in the order of x, counted by merging. A bisection
// over m leaves few enough to list (Matousek 1991, memory; without its dice).
type countedSlopes struct {
	strata []Series // each in the order of x, of equal x in that of y
	pairs  int
	points int
	most   float64 // no slope is larger, nor smaller than its negative
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
	return c
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
	low, high := -2*c.most-1, 2*c.most+1
	before, upTo := 0, c.pairs
	for upTo-before > listedPerPoint*c.points {
		middle := low/2 + high/2
		if middle <= low || middle >= high {
			break // all that is left is alike
		}
		if n := c.below(middle); n < rank {
			low, before = middle, n
		} else {
			high, upTo = middle, n
		}
	}
	near := c.between(low, high, listedPerPoint*c.points)
	slices.Sort(near)
	return near[min(rank-before, len(near))-1]
}

// below counts the slopes below m.
func (c *countedSlopes) below(m float64) int {
	n := 0
	for _, s := range c.strata {
		n += inversions(tilted(s, m), nil)
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
