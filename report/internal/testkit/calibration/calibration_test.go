package calibration

import (
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	short = flag.Bool("calibrate-short", false, "run the short form of the calibration")
	long  = flag.String("calibrate", "", "run the long form of the calibration, keep each cell in this file, and go on where a run stopped")
	only  = flag.String("cells", "", "of the long form only the cells whose names match this expression")
	many  = flag.Int("seasons", 0, "so many seasons a cell in the long form, 0: 400 of the heavy cells, 1000 of the others")
)

// slackErrors is by how many standard errors a limit is widened: a cell that lies
// on its limit is found over it once in a thousand runs.
const slackErrors = 3

// A cell of each method, small enough for every run.
func TestCalibrationOfEach(t *testing.T) {
	for _, id := range eachRun {
		requireHeld(t, Named(id), quickSeasons)
	}
}

// The cells of the short form.
func TestCalibrationShort(t *testing.T) {
	if !*short {
		t.Skip("with -calibrate-short")
	}
	for _, id := range shortCells {
		start := time.Now()
		requireHeld(t, Named(id), shortSeasons)
		t.Logf("%s: %.1f s", id, time.Since(start).Seconds())
	}
}

func requireHeld(t *testing.T, c Cell, seasons int) {
	c = accepted(c)
	for _, f := range c.Judge(c.Run(Boxbook(), seasons), slackErrors) {
		t.Log(f)
		assert.False(t, f.Over, f.String())
	}
}

// accepted is a cell with the figures that are accepted of it in place of limits.
func accepted(c Cell) Cell {
	c.Limits = slices.Clone(c.Limits)
	for i, limit := range c.Limits {
		if figure, ok := resisting[c.ID()][limit.What]; ok {
			c.Limits[i].Least, c.Limits[i].Most = min(limit.Least, figure), max(limit.Most, figure)
		}
	}
	return c
}

// What is accepted is of a cell that there is, and over the cell's limit.
func TestAcceptedFiguresAreOfCells(t *testing.T) {
	for id, figures := range resisting {
		limits := 0
		for _, limit := range Named(id).Limits {
			if figure, ok := figures[limit.What]; ok {
				limits++
				require.True(t, figure < limit.Least || figure > limit.Most, "%s, %s", id, limit.What)
			}
		}
		require.Len(t, figures, limits, id)
	}
}

// TestCalibrationLong runs every cell, prints the table, and fails at the end where
// a figure is over its limit, or over what is accepted of it, by more than chance.
func TestCalibrationLong(t *testing.T) {
	if *long == "" {
		t.Skip("with -calibrate FILE")
	}
	done, err := Kept(*long)
	require.NoError(t, err)
	wanted := regexp.MustCompile(*only)
	var findings, far []Finding
	for _, c := range Cells() {
		if !wanted.MatchString(c.ID()) {
			continue
		}
		seasons := c.Long()
		if *many > 0 {
			seasons = *many
		}
		tally, err := c.Resume(Boxbook(), seasons, *long, done)
		require.NoError(t, err)
		findings = append(findings, c.Judge(tally, 0)...)
		far = append(far, slices.DeleteFunc(accepted(c).Judge(tally, slackErrors), func(f Finding) bool { return !f.Over })...)
	}
	Write(os.Stdout, findings)
	for _, f := range far {
		assert.False(t, f.Over, f.String())
	}
}

// No two cells have one name, or they would share their seasons.
func TestCellsHaveNamesOfTheirOwn(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range Cells() {
		require.False(t, seen[c.ID()], c.ID())
		seen[c.ID()] = true
		require.NotEmpty(t, c.Limits, c.ID())
	}
}

// A run that was stopped goes on where it was, and comes to the same.
func TestLongFormGoesOn(t *testing.T) {
	path := filepath.Join(t.TempDir(), "kept")
	c := Named("trend: 8 flights, 1 a contest, steady")
	whole := c.Run(Boxbook(), 20)
	require.Equal(t, whole, c.Run(Boxbook(), 20), "the same cell twice")
	require.NoError(t, Keep(path, c, 20, whole))
	file, err := os.OpenFile(path, os.O_APPEND|os.O_WRONLY, 0)
	require.NoError(t, err)
	_, err = file.WriteString(`{"Cell":"half a li`)
	require.NoError(t, err)
	require.NoError(t, file.Close())
	done, err := Kept(path)
	require.NoError(t, err)
	deaf := Program{} // would panic if it were asked
	again, err := c.Resume(deaf, 20, path, done)
	require.NoError(t, err)
	require.Equal(t, whole, again)
	require.Panics(t, func() { c.One(c.random(0), deaf, Tally{}) })
	require.NoError(t, Keep(path, c, 30, whole))
	done, err = Kept(path)
	require.NoError(t, err)
	require.Len(t, done, 2, "a line after half a line")

	var b strings.Builder
	Write(&b, c.Judge(whole, 0))
	require.Contains(t, b.String(), "| 8 flights, 1 a contest, steady | "+trendCalled+" | ")
}

// Every cell that is chosen exists, and the short form has those of every run's
// methods.
func TestChosenCellsExist(t *testing.T) {
	for _, id := range slices.Concat(eachRun, shortCells) {
		require.NotPanics(t, func() { Named(id) }, id)
	}
	groups := map[string]bool{}
	for _, id := range shortCells {
		groups[Named(id).Group] = true
	}
	for _, c := range Cells() {
		require.True(t, groups[c.Group], c.Group)
	}
}
