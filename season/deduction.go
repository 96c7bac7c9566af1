package season

import (
	"math/big"
)

// fullGrade is what a judge deducts from [published: baea-rules-1, grade], and hence the most that one fault costs.
func fullGrade() *big.Rat { return big.NewRat(10, 1) }

// Deduction is what the fault takes from the grade of its figure, in grades
// from 0 to 10: 0 for what is only felt, which is a cause and no fault that a
// judge marks [common practice], and for a matter of safety. It is nil where nothing
// says what the fault costs: no amount was typed and the kind has no plain
// price.
func (f Fault) Deduction() *big.Rat {
	if f.Felt || f.Safety {
		return new(big.Rat)
	}
	return f.Kind.Deduction(f.Amount)
}

// Deduction is what an amount of this kind costs when a judge sees it, in
// grades from 0 to 10, nil where nothing says it. It never falls as the
// amount grows. Points typed are taken as typed; `3x` multiplies.
func (k *FaultKind) Deduction(a Amount) *big.Rat {
	cost, times := (*big.Rat)(nil), int64(max(a.Times, 1))
	switch {
	case a.Unit == NoUnit && k.Unit == Count && k.sized():
		cost, times = k.ofCount(a), 1
	case a.Unit == NoUnit:
		cost = k.plain()
	default:
		cost = k.once(a)
	}
	if cost == nil {
		return nil
	}
	cost.Mul(cost, big.NewRat(times, 1))
	if cost.Cmp(fullGrade()) > 0 {
		return fullGrade()
	}
	return cost
}

// plain is what the kind costs where no amount is typed.
func (k *FaultKind) plain() *big.Rat {
	if k.Plain == nil {
		return nil
	}
	return k.Plain.Rat()
}

// sized reports whether the kind says anything that depends on the amount.
func (k *FaultKind) sized() bool {
	return k.Per != nil || len(k.At) > 0 || k.Free != nil || k.Zero != nil
}

// ofCount prices `3x` of a kind whose steps are counts: there the count is the
// amount itself, 1 where none is typed and no plain price stands for it.
func (k *FaultKind) ofCount(a Amount) *big.Rat {
	if cost := k.plain(); a.Text == "" && cost != nil {
		return cost
	}
	return k.ofSize(size{value: big.NewRat(int64(max(a.Times, 1)), 1)})
}

// once prices a single amount with a unit.
func (k *FaultKind) once(a Amount) *big.Rat {
	s := sizeOf(a)
	if a.Unit != Points {
		return k.ofSize(s)
	}
	if k.Zero != nil && k.Unit == Points && s.reaches(sizeOf(*k.Zero)) {
		return fullGrade()
	}
	return a.Value.Rat()
}

// ofSize prices an amount in the kind's own unit.
func (k *FaultKind) ofSize(s size) *big.Rat {
	switch {
	case k.Zero != nil && s.reaches(sizeOf(*k.Zero)):
		return fullGrade()
	case s.none(), k.Free != nil && sizeOf(*k.Free).reaches(s):
		return new(big.Rat)
	}
	cost := k.beforeSteps(s)
	for _, at := range k.At {
		if points := at.Points.Rat(); s.reaches(sizeOf(at.Amount)) && (cost == nil || points.Cmp(cost) > 0) {
			cost = points
		}
	}
	return cost
}

// beforeSteps prices by `per`; without it an amount costs the plain price, or
// that of the first `at` if it is less: what is smaller than the first step
// costs no more than the step.
func (k *FaultKind) beforeSteps(s size) *big.Rat {
	switch {
	case k.Per != nil:
		return k.perStep(s)
	case len(k.At) == 0:
		return k.plain()
	case k.Plain == nil:
		return new(big.Rat)
	default:
		cost, first := k.plain(), k.At[0].Points.Rat()
		if first.Cmp(cost) < 0 {
			return first
		}
		return cost
	}
}

// perStep counts the full steps beyond what is free, and half a step's points
// for a rest: half a point at the least [published: baea-rules-2, angles], but never more than a full step.
func (k *FaultKind) perStep(s size) *big.Rat {
	if s.endless {
		return fullGrade()
	}
	excess := new(big.Rat).Set(s.value)
	if k.Free != nil {
		excess.Sub(excess, sizeOf(*k.Free).value)
	}
	step, points := sizeOf(k.Per.Amount), k.Per.Points.Rat()
	if step.endless { // no amount but the endless one has a full step
		return restOf(points)
	}
	quotient := excess.Quo(excess, step.value)
	full := new(big.Int).Quo(quotient.Num(), quotient.Denom())
	cost := new(big.Rat).Mul(points, new(big.Rat).SetInt(full))
	if !quotient.IsInt() {
		cost.Add(cost, restOf(points))
	}
	return cost
}

// restOf is what a part of a step costs.
func restOf(points *big.Rat) *big.Rat {
	half := big.NewRat(1, 2)
	rest := new(big.Rat).Mul(points, half)
	if rest.Cmp(half) < 0 {
		rest = half
	}
	if rest.Cmp(points) > 0 {
		rest.Set(points)
	}
	return rest
}

// size is an amount as one number, for its order: a ratio 3:1 is 3, and 1:0, a
// line that is missing, is above every ratio.
type size struct {
	value   *big.Rat // nil where endless
	endless bool
	least   int64 // what is no fault at all: 1 for ratios (equal lines), else 0
}

func sizeOf(a Amount) size {
	if a.Unit != Ratio {
		return size{value: a.Value.Rat()}
	}
	if !a.Second.Positive() {
		return size{endless: true, least: 1}
	}
	return size{value: new(big.Rat).Quo(a.Value.Rat(), a.Second.Rat()), least: 1}
}

// none reports whether there is no fault at all: 0deg, 1:1.
func (s size) none() bool { return !s.endless && s.value.Cmp(big.NewRat(s.least, 1)) <= 0 }

// reaches reports whether s is at least as large as o.
func (s size) reaches(o size) bool {
	switch {
	case s.endless:
		return true
	case o.endless:
		return false
	default:
		return s.value.Cmp(o.value) >= 0
	}
}

// Reaches reports whether an amount is at least as large as another of its
// unit: 3:1 reaches 2:1, and 1:0, a line that is missing, every ratio.
func (a Amount) Reaches(o Amount) bool { return sizeOf(a).reaches(sizeOf(o)) }

// Flew reports whether the flight is known to have had that figure: in
// practice only those with a row were flown, where there is any row.
func (f *Flight) Flew(figure int) bool {
	if f.Sequence == nil || figure < 1 || figure > len(f.Sequence.Figures) {
		return false
	}
	return figure <= f.Rows.Len() && f.Rows.Has(figure-1) || !f.Rows.Any()
}

// FigureK is the K of a figure, 0 where it is not known.
func (f *Flight) FigureK(figure int) int {
	if f.Sequence == nil || figure < 1 || figure > len(f.Sequence.Figures) {
		return 0
	}
	return f.Sequence.Figures[figure-1].K
}

// mostDegrees is how far the angle faults of a figure may add up before nothing
// is left of its grade [published: baea-rules-1, 45 degrees; iac-2004, 45
// degrees].
const mostDegrees = 45
