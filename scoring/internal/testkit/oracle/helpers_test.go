package oracle

import (
	"math/big"
	"strings"
	"testing"
)

// The tests, too, use the standard library alone: nothing that the house uses
// can go wrong in both places.

// equal fails the test where the two differ.
func equal[T comparable](t *testing.T, want, got T, notes ...any) {
	t.Helper()
	if got != want {
		t.Errorf("got %v, want %v %v", got, want, notes)
	}
}

// holds stops the test where the condition is false.
func holds(t *testing.T, condition bool, notes ...any) {
	t.Helper()
	if !condition {
		t.Fatal(append([]any{"does not hold:"}, notes...)...)
	}
}

// same stops the test where two exact numbers differ or one is absent.
func same(t *testing.T, want, got *big.Rat) {
	t.Helper()
	if want == nil || got == nil || want.Cmp(got) != 0 {
		t.Fatalf("got %v, want %v", got, want)
	}
}

// panics says whether a call panics.
func panics(call func()) (panicked bool) {
	defer func() { panicked = recover() != nil }()
	call()
	return false
}

// figure reads a line as typed: its K and its marks.
func figure(k int, marks string) Line { return Line{K: k, Marks: strings.Fields(marks)} }

func weighted(k int, marks string) Line {
	return Line{K: k, Weighted: true, Marks: strings.Fields(marks)}
}

// show writes exact numbers with four decimals, half away from zero, and "nil"
// for absent ones.
func show(numbers ...*big.Rat) string {
	return join(numbers, func(number *big.Rat) string { return number.FloatString(4) })
}

// exact writes exact numbers as whole numbers or fractions in lowest terms.
func exact(numbers ...*big.Rat) string {
	return join(numbers, (*big.Rat).RatString)
}

func join(numbers []*big.Rat, text func(*big.Rat) string) string {
	var texts []string
	for _, number := range numbers {
		if number == nil {
			texts = append(texts, "nil")
		} else {
			texts = append(texts, text(number))
		}
	}
	return strings.Join(texts, " ")
}
