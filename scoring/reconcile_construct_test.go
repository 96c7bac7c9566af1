package scoring

import (
	"flag"
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
	return fmt.Sprintf("%7d %7.2f%% %7.2f%% %7.2f%% %6.2f", f.flights, of(f.among), of(f.first), of(f.five), float64(f.lines)/float64(f.flights))
}

// disturbed is how many flights a row has; the limits are meant for 2,000.
var disturbed = flag.Int("disturbed", 300, "how many generated flights are disturbed in each way")

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
// for at least 98 in 100 of each class. Of totals printed more coarsely only that
// it is there is asked, and of a penalty that it stands first. Slips are drawn as people make them,
// and once more with every alternative alike, which no order can favour.
func TestReconcileFindsTheCause(t *testing.T) {
	t.Parallel()
	flights := *disturbed
	if raceDetector || testing.Short() {
		flights = 200
	}
	for i, way := range []struct {
		name      string
		class     slipClass
		plausible bool
		places    int
		first     float64 // shares that must stand first, and within five lines
		five      float64
	}{
		{"another setting", slipRules, true, 2, 0, 0.98},
		{"a sheet left out", slipJudge, true, 2, 0, 0.98},
		{"a mark, as people misread", slipMark, true, 2, 0, 0.98},
		{"a mark, all alike", slipMark, false, 2, 0, 0.98},
		{"a K, as people mistype", slipK, true, 2, 0, 0.98},
		{"a K, all alike", slipK, false, 2, 0, 0.98},
		{"a penalty, 2 decimals", slipPenalty, true, 2, 1, 1},
		{"a penalty, 1 decimal", slipPenalty, true, 1, 1, 1},
		{"a penalty, no decimals", slipPenalty, true, 0, 1, 1},
		{"two K swapped", slipTwoK, true, 2, 0.34, 0.93},
		// Marks and K that fit by chance stand before rows.
		{"rows of one sheet, 2 decimals", slipRows, true, 2, 0.4, 0.94},
		{"rows of one sheet, 1 decimal", slipRows, true, 1, 0, 0},
		{"rows of one sheet, no decimals", slipRows, true, 0, 0, 0},
		// The K of the two figures swapped come to the same, and stand before; of one sheet the
		// rows stand before the K.
		{"rows of all sheets, 2 decimals", slipAllRows, true, 2, 0, 0.90},
		{"rows of all sheets, 1 decimal", slipAllRows, true, 1, 0, 0},
		{"rows of all sheets, no decimals", slipAllRows, true, 0, 0, 0},
	} {
		t.Run(way.name, func(t *testing.T) {
			t.Parallel()
			table, m := foundTable{}, newReconcileMaker(uint64(100+i))
			for n := range flights {
				sheet, score, s, points := m.drawSlip(way.class, way.plausible, way.places)
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
			assert.GreaterOrEqual(t, float64(table["all"].first), way.first*float64(flights))
			assert.GreaterOrEqual(t, float64(table["all"].five), way.five*float64(flights))
		})
	}
}
