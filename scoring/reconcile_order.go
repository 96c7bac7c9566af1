package scoring

import (
	"slices"
	"strconv"
)

// classes are the kinds of explanations from the most plausible on. In the class
// of the rules a penalty comes first by its size, or last where it takes a ruling
// as well.
func classes() [][]ExplanationKind {
	return [][]ExplanationKind{
		{KindSheet},
		{KindPenalty, KindRules},
		{KindZero},
		{KindTotal},
		{KindMark},
		{KindJudge, KindFigure, KindK},
		{KindRows, KindSwappedK},
		{KindMarks},
	}
}

// rankOf is the place of an explanation's class.
func rankOf(kind ExplanationKind) int {
	return slices.IndexFunc(classes(), func(class []ExplanationKind) bool { return slices.Contains(class, kind) })
}

// The sizes put slips of different kinds into one order, smaller first: a mark
// that is n half points out has size n. They are judgements of what happens at
// a contest's desk [common practice], not measured.
const (
	sizeOfPenalty      = -1 // first of its class
	sizeOfRuledPenalty = 1
	sizeOfSheet        = 2 // a sheet that was not entered
	sizeOfFigure       = 2 // a figure that was not entered, or counted as nothing
	sizeOfPair         = 2 // two half points
	sizeOfRows         = 2 // two rows of one sheet
	sizeOfSwappedK     = 3 // two K of neighbouring figures
	sizeOfAllRows      = 4 // two rows of all sheets
)

// sizeOfMark ranks one mark read for another.
func sizeOfMark(was, would Mark) int {
	switch {
	case was.Kind == Grade && would.Kind == Grade:
		step := int(would.Half) - int(was.Half)
		return max(step, -step)
	case was.Kind == Absent:
		return 1 // the sheet in hand lacks the mark that the office has
	case was.confirms(would) || would.confirms(was):
		return 2 // the same zero, said with and without the jury
	default:
		return 3
	}
}

// sizeOfK ranks one K typed for another: the next number and digits changed
// over come before a digit left out, that before a digit misread.
func sizeOfK(was, would int) int {
	a, b := strconv.Itoa(was), strconv.Itoa(would)
	switch {
	case was-would == 1 || would-was == 1:
		return 2
	case len(a) == 2 && b == a[1:]+a[:1]:
		return 2
	case oneDigitMore(a, b) || oneDigitMore(b, a):
		return 3
	case len(a) == len(b) && differing(a, b) == 1:
		return 4
	default:
		return 8
	}
}

// differing counts the places in which two numbers of one length differ.
func differing(a, b string) int {
	n := 0
	for i := range a {
		if a[i] != b[i] {
			n++
		}
	}
	return n
}

// oneDigitMore reports whether long is short with one digit put in.
func oneDigitMore(short, long string) bool {
	if len(long) != len(short)+1 {
		return false
	}
	for i := range long {
		if long[:i]+long[i+1:] == short {
			return true
		}
	}
	return false
}
