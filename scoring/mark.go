package scoring

import (
	"math/big"
	"strconv"
)

// MarkKind tells a grade from the marks that are not grades. A stored mark
// keeps its kind: a grade of 0.0 and a hard zero are different facts.
type MarkKind uint8

const (
	// Grade is a number from 0 to 10 in half points. 0.0 is the right figure
	// with ten or more points of faults [published: baea-major, 0.0;
	// iac-2018, 0.0].
	Grade MarkKind = iota
	// HardZero is a matter of fact: the wrong figure, the wrong direction on
	// the main axis, 90 degrees out [published: iac-2018, 7.3.1]. What it does depends on the panel.
	HardZero
	// ConfirmedHardZero is a hard zero that the chief judge confirmed: the
	// figure is zero from every judge, and one in a row is enough.
	ConfirmedHardZero
	// PerceptionZero says that a criterion of a flick, spin or tailslide was
	// not seen to be met; it counts as an ordinary 0 in the mean
	// [published: baea-major, PZ; civa-seminar, part 3, PZ].
	PerceptionZero
	// NotSeen says that the judge was distracted and gave no mark (AV)
	// [published: civa-seminar, part 3, AV]; A, for a figure not seen, is treated
	// alike [published: baea-arithmetic, not seen].
	NotSeen
	// Absent says that the sheet is there and the mark is not ("-").
	Absent
)

// TopGrade is the highest grade, in half points.
const TopGrade = 20

// Mark is what one judge put down for one line of a sheet. Half is the grade
// in half points, 0 to 20, and 0 for every other kind.
type Mark struct {
	Kind MarkKind
	Half uint8
}

// GradeOf makes a grade of half points, 0 to 20.
func GradeOf(half int) Mark { return Mark{Kind: Grade, Half: uint8(half)} }

// WithoutPoint reads a grade that is written without its point: 75 for 7.5, 05 for 0.5.
// A number to 10 is that grade, 5 or 10, and not one that lacks its point.
func WithoutPoint(text string) (Mark, bool) {
	n, err := strconv.Atoi(text)
	switch {
	case err != nil || len(text) < 2 || text[0] < '0' || text[0] > '9' || n%5 != 0:
		return Mark{}, false
	case len(text) == 2 && text[0] == '0', text[0] != '0' && n > 10 && n <= 100:
		return GradeOf(n / 5), true
	default:
		return Mark{}, false
	}
}

// symbols are the marks that are not grades, as the ledger writes them.
var symbols = [...]string{HardZero: "HZ", ConfirmedHardZero: "CHZ", PerceptionZero: "PZ", NotSeen: "AV", Absent: "-"}

// String writes the mark as a ledger does: "8.0", "HZ", "CHZ", "PZ", "AV", "-".
func (m Mark) String() string {
	if m.Kind != Grade {
		return symbols[m.Kind]
	}
	text := strconv.Itoa(int(m.Half / 2))
	if m.Half%2 == 1 {
		return text + ".5"
	}
	return text + ".0"
}

// FigureOnly reports whether the mark is one that a figure can have and a
// weighted line cannot: a hard zero, a confirmed one, a perception zero.
func (m Mark) FigureOnly() bool {
	return m.Kind == HardZero || m.Kind == ConfirmedHardZero || m.Kind == PerceptionZero
}

// confirms reports whether the mark is the other, a hard zero, confirmed.
func (m Mark) confirms(other Mark) bool { return m.Kind == ConfirmedHardZero && other.Kind == HardZero }

// numeric reports whether the mark is a number as it stands: a grade or a
// perception zero.
func (m Mark) numeric() bool { return m.Kind == Grade || m.Kind == PerceptionZero }

// given reports whether the judge gave a mark at all: AV and "-" apart.
func (m Mark) given() bool { return m.Kind != NotSeen && m.Kind != Absent }

// halves are the grades as rationals, shared by every score: nobody writes
// to a rational that a Score holds.
var halves = func() (table [TopGrade + 1]*big.Rat) {
	for i := range table {
		table[i] = big.NewRat(int64(i), 2)
	}
	return table
}()
