package analysis

import (
	"math/big"

	"boxbook/season"
)

// kSum is an exact sum of K: of whole ones, and of parts of the K that a figure's
// elements share. The zero kSum is 0.
type kSum struct {
	whole int64
	parts *big.Rat // nil where no K is shared
}

// add adds an element's K.
func (k *kSum) add(e season.Element) {
	if e.Parts <= 1 {
		k.whole += int64(e.K)
		return
	}
	if k.parts == nil {
		k.parts = new(big.Rat)
	}
	k.parts.Add(k.parts, e.ShareK())
}

// plus adds another sum.
func (k *kSum) plus(other kSum) {
	k.whole += other.whole
	if other.parts == nil {
		return
	}
	if k.parts == nil {
		k.parts = new(big.Rat)
	}
	k.parts.Add(k.parts, other.parts)
}

// rat is the sum as a number of its own.
func (k kSum) rat() *big.Rat {
	sum := new(big.Rat).SetInt64(k.whole)
	if k.parts != nil {
		sum.Add(sum, k.parts)
	}
	return sum
}

// float64 is the nearest float64.
func (k kSum) float64() float64 {
	if k.parts == nil {
		return float64(k.whole)
	}
	nearest, _ := k.rat().Float64()
	return nearest
}

// isZero reports whether nothing but 0 was added: no K is below it.
func (k kSum) isZero() bool { return k.whole == 0 && (k.parts == nil || k.parts.Sign() == 0) }
