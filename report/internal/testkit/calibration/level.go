package calibration

import (
	"math"
	"math/rand/v2"
)

// Path makes a pilot's true level at moments of a record, in percent points about
// the pilot's base. Moments run from 0, the first contest, over 1, the last, to
// whatever lies ahead; they ascend.
type Path struct {
	Name string
	Make func(r *rand.Rand, at []float64) []float64
	// Steady says that nothing moves; Rises and Wanders what moves how.
	Steady, Rises, Wanders bool
}

// wanderSD is how far a wandering form strays, in percent points: twice a flight's
// standard deviation over a record for the walk, once about the level for a form
// that comes back.
const (
	walkSD  = 6.0
	wavesSD = 3.0
	// wavesKept is how much of a form is left at the next contest.
	wavesKept = 0.7
)

func linear(name string, rise float64) Path {
	return Path{Name: name, Rises: rise > 0, Steady: rise == 0, Make: func(_ *rand.Rand, at []float64) []float64 {
		return levels(at, func(t float64) float64 { return rise * t })
	}}
}

func step(name string, rise float64) Path {
	return Path{Name: name, Rises: rise > 0, Make: func(r *rand.Rand, at []float64) []float64 {
		when := 0.3 + 0.4*r.Float64()
		return levels(at, func(t float64) float64 {
			if t > when {
				return rise
			}
			return 0
		})
	}}
}

func levels(at []float64, level func(t float64) float64) []float64 {
	out := make([]float64, len(at))
	for i, t := range at {
		out[i] = level(t)
	}
	return out
}

// walk is a random walk in the time of the record.
func walk(r *rand.Rand, at []float64) []float64 {
	out := make([]float64, len(at))
	for i := 1; i < len(at); i++ {
		out[i] = out[i-1] + walkSD*math.Sqrt(at[i]-at[i-1])*r.NormFloat64()
	}
	return out
}

// waves is a form that strays and comes back, contest by contest.
func waves(r *rand.Rand, at []float64) []float64 {
	out := make([]float64, len(at))
	out[0] = wavesSD * r.NormFloat64()
	for i := 1; i < len(at); i++ {
		out[i] = wavesKept*out[i-1] + wavesSD*math.Sqrt(1-wavesKept*wavesKept)*r.NormFloat64()
	}
	return out
}

// The ways in which a level can go.
var (
	Steady   = linear("steady", 0)
	Rise10   = linear("rises by 10", 10)
	Rise20   = linear("rises by 20", 20)
	Fall10   = linear("falls by 10", -10)
	Fall20   = linear("falls by 20", -20)
	StepUp   = step("a step of 10 up", 10)
	StepDown = step("a step of 10 down", -10)
	Walk     = Path{Name: "random walk", Wanders: true, Make: walk}
	Waves    = Path{Name: "form that comes and goes", Wanders: true, Make: waves}
)
