package scoring

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// found counts, for one kind of slip, how often the true cause was among the
// explanations and on which line.
type found struct {
	flights, among, first, five, lines int
}

func (f *found) add(at, lines int) {
	f.flights++
	f.lines += lines
	if at >= 0 {
		f.among++
	}
	if at == 0 {
		f.first++
	}
	if at >= 0 && at < 5 {
		f.five++
	}
}

func (f found) String() string {
	of := func(n int) float64 { return 100 * float64(n) / float64(f.flights) }
	return fmt.Sprintf("%7d %7.2f %% %7.2f %% %7.2f %% %6.2f", f.flights, of(f.among), of(f.first), of(f.five), float64(f.lines)/float64(f.flights))
}

// foundTable is the rows by name.
type foundTable map[string]*found

func (table foundTable) add(name string, at, lines int) {
	if table[name] == nil {
		table[name] = &found{}
	}
	table[name].add(at, lines)
}

func (table foundTable) String() string {
	names := make([]string, 0, len(table))
	for name := range table {
		names = append(names, name)
	}
	slices.Sort(names)
	var out strings.Builder
	fmt.Fprintf(&out, "%-26s %7s %9s %9s %9s %6s\n", "", "flights", "among", "first", "five", "lines")
	for _, name := range names {
		fmt.Fprintf(&out, "%-26s %s\n", name, table[name])
	}
	return out.String()
}

// TestReconcileFindsTheCause disturbs generated flights in one way, prints the
// total to the cent and looks for the true cause among the explanations: it is
// there every time, and its figure and step stand within the first five lines
// for at least 98 in 100 of each class. Slips are drawn as people make them,
// and once more with every alternative alike, which no order can favour.
func TestReconcileFindsTheCause(t *testing.T) {
	t.Parallel()
	flights := 2000
	if raceDetector || testing.Short() {
		flights = 200
	}
	for i, way := range []struct {
		name      string
		class     ExplanationKind
		plausible bool
	}{
		{"another setting", KindRules, true},
		{"a sheet left out", KindJudge, true},
		{"a mark, as people misread", KindMark, true},
		{"a mark, all alike", KindMark, false},
		{"a K, as people mistype", KindK, true},
		{"a K, all alike", KindK, false},
	} {
		t.Run(way.name, func(t *testing.T) {
			t.Parallel()
			table, m := foundTable{}, newReconcileMaker(uint64(100+i))
			for n := range flights {
				sheet, score, s, points := m.drawSlip(way.class, way.plausible)
				printed := Printed{Points: points, Judges: panelNames[:sheet.Judges]}
				r := Reconcile(sheet, score, printed)
				at := slices.IndexFunc(r.Explanations, s.is)
				require.NotEqual(t, -1, at, "%s: %v %+v", s.class, points, sheet)
				if n%10 == 0 {
					requireTrue(t, sheet, printed, r)
				}
				for _, row := range []string{"all", s.class, fmt.Sprintf("panel of %d", sheet.Judges)} {
					table.add(row, at, len(r.Explanations))
				}
			}
			t.Log("\n" + table.String())
			assert.GreaterOrEqual(t, float64(table["all"].five), 0.98*float64(flights))
		})
	}
}
