//go:build differential

package stats_test

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

var (
	differentialFolder = flag.String("differential", "", "write random data sets and what this package says of them into this folder")
	differentialSets   = flag.Int("differential-sets", 500, "so many data sets of each method")
	differentialSeed   = flag.Uint64("differential-seed", 20261128, "seed of the data sets")
)

// numbers are a data set's, or a result's, under a name.
type numbers struct {
	name   string
	values []float64
}

func one(name string, value float64) numbers            { return numbers{name, []float64{value}} }
func many(name string, values ...float64) numbers       { return numbers{name, values} }
func count[T ~int](name string, values ...T) numbers    { return numbers{name, floats(values)} }
func (d *differential) oneOf(values ...float64) float64 { return values[d.IntN(len(values))] }

func floats[T ~int](values []T) []float64 {
	out := make([]float64, len(values))
	for i, v := range values {
		out[i] = float64(v)
	}
	return out
}

// differential draws data sets at random.
type differential struct {
	*rand.Rand
	t *testing.T
}

// halves draws n half points between low and high halves, so that ties are common.
func (d *differential) halves(n, low, high int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = float64(low+d.IntN(high-low+1)) / 2
	}
	return out
}

// normals draws n values about a centre.
func (d *differential) normals(n int, centre, sd float64) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = centre + sd*d.NormFloat64()
	}
	return out
}

// TestWriteDifferential writes the data sets of each method and what this package
// says of them, for .ci/statistics.R to work out again: METHOD-data.csv has a line a
// set and name, METHOD-says.csv likewise, the numbers between spaces.
func TestWriteDifferential(t *testing.T) {
	require.NotEmpty(t, *differentialFolder, "-differential FOLDER")
	for i, method := range []struct {
		name string
		draw func(*differential) (data, says []numbers)
	}{
		{"mann-kendall", drawMannKendall},
		{"theil-sen", drawTheilSen},
		{"fisher", drawFisher},
		{"fisher-within", drawFisherWithin},
		{"proportion", drawProportion},
		{"rates", drawRates},
		{"noncentral-t", drawNoncentralT},
		{"two-way", drawTwoWay},
		{"shift", drawShift},
		{"present", drawPresent},
		{"shares", drawShares},
	} {
		d := &differential{rand.New(rand.NewPCG(*differentialSeed, uint64(i))), t}
		var data, says strings.Builder
		for set := range *differentialSets {
			given, said := method.draw(d)
			writeNumbers(&data, set+1, given)
			writeNumbers(&says, set+1, said)
		}
		for suffix, text := range map[string]string{"data": data.String(), "says": says.String()} {
			path := filepath.Join(*differentialFolder, method.name+"-"+suffix+".csv")
			require.NoError(t, os.WriteFile(path, []byte("set,name,values\n"+text), 0o644))
		}
	}
}

func writeNumbers(b *strings.Builder, set int, all []numbers) {
	for _, n := range all {
		words := make([]string, len(n.values))
		for i, v := range n.values {
			words[i] = strconv.FormatFloat(v, 'g', 17, 64)
		}
		fmt.Fprintf(b, "%d,%s,%s\n", set, n.name, strings.Join(words, " "))
	}
}
