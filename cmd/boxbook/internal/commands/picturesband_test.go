package commands

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// writeSeason writes a ledger of one flight a month, whose six figures all have the
// grade of that month in half points.
func writeSeason(t *testing.T, halves ...int) string {
	t.Helper()
	var b strings.Builder
	b.WriteString("pilot p\n  name \"Pat\"\nsequence s\n  category intermediate\n  programme known\n" +
		"  1 7.4.1.1:10\n  2 5.2.1.1:17\n  3 1.2.1.1:8 9.1.2.4:10\n  4 2.2.1.1:4\n  5 1.2.6.3:8 9.11.1.4:5\n  6 8.5.2.1:14\n")
	for i, half := range halves {
		grade := float64(half) / 2
		fmt.Fprintf(&b, "contest c%d 2026-%02d-10\n  name \"Contest %d\"\n  ladder us\n  rules panel-mean\n  panel AA BB\n", i, i+1, i+1)
		fmt.Fprintf(&b, "flight 2026-%02d-10 p known\n  contest c%d\n  sequence s\n", i+1, i)
		for figure := range 6 {
			fmt.Fprintf(&b, "  %d %.1f %.1f\n", figure+1, grade, grade+.5)
		}
	}
	path := filepath.Join(t.TempDir(), "season.boxbook")
	require.NoError(t, os.WriteFile(path, []byte(b.String()), 0o600))
	return path
}

var (
	gridLine  = regexp.MustCompile(`<line class="grid" x1="[^"]*" y1="([^"]*)" x2="100%"[^>]*></line><text x="0" y="[^"]*">([0-9.]+)`)
	bandDrawn = regexp.MustCompile(`<svg x="[^"]*" y="([^"]*)"[^>]*><polygon class="band" points="([^"]*)">`)
)

func float(t *testing.T, text string) float64 {
	t.Helper()
	value, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return value
}

// bandEnds are the percents at the right end of a picture's band, the greatest
// first, read back by the scale that is drawn beside it.
func bandEnds(t *testing.T, page string) (high, low float64) {
	t.Helper()
	grid := gridLine.FindAllStringSubmatch(page, -1)
	require.Greater(t, len(grid), 1)
	first, last := grid[0], grid[len(grid)-1]
	y0, v0 := float(t, first[1]), float(t, first[2])
	pitch := (float(t, last[2]) - v0) / (float(t, last[1]) - y0)
	band := bandDrawn.FindStringSubmatch(page)
	require.NotNil(t, band)
	points := strings.Fields(band[2])
	at := func(i int) float64 {
		_, y, _ := strings.Cut(points[i], ",")
		return v0 + pitch*(float(t, band[1])+float(t, y)-y0)
	}
	return at(2), at(3)
}

// A trend is a line with its band where the verdict claims one, and nowhere else.
func TestATrendsBandIsDrawnWhereItIsClaimed(t *testing.T) {
	for name, c := range map[string]struct {
		path    string
		claimed bool
		word    string
	}{
		"rises":         {writeSeason(t, 10, 11, 11, 12, 13, 13, 14, 15, 15, 16), true, "improving"},
		"falls":         {writeSeason(t, 16, 15, 15, 14, 13, 13, 12, 11, 11, 10), true, "declining"},
		"goes about":    {writeSeason(t, 12, 15, 12, 14, 13, 15, 12, 13, 15, 12), false, ""},
		"may be rising": {"../../../../data/demo/longmere.boxbook", false, "may be improving"},
	} {
		t.Run(name, func(t *testing.T) {
			args := []string{"season", "-f", c.path, "--season", "2026"}
			if !c.claimed && c.word != "" {
				args = append(args, "--pilot", "ines")
			}
			page := screenOf(t, 80, append(args, "--format", "html")...)
			trends := dataOf(t, args...)["trends"].([]any)
			require.Len(t, trends, 1)
			trend := trends[0].(map[string]any)
			if c.word != "" {
				assert.Equal(t, c.word, trend["word"])
			}
			if !c.claimed {
				assert.NotRegexp(t, `class="(level|band)"[^>]* (x1|points)=.*</figure>`, regexp.MustCompile(`(?s)<figure>.*?</figure>`).FindString(page))
				assert.Empty(t, readBack(page, "first"))
				assert.Contains(t, page, "No line: chance is not ruled out.")
				return
			}
			line := trend["line"].(map[string]any)
			number := func(of map[string]any, key string) string { return of[key].(json.Number).String() }
			assert.Equal(t, [][]string{{number(line, "atFirst"), number(line, "atLast"), number(trend, "low"), number(trend, "high")}}, readBack(page, "first", "last", "low", "high"))
			high, low := bandEnds(t, page)
			middle := (float(t, number(line, "atFirst")) + float(t, number(line, "atLast"))) / 2
			assert.InDelta(t, middle+float(t, number(trend, "high"))/2, high, .1, "the band's upper end, to a pixel")
			assert.InDelta(t, middle+float(t, number(trend, "low"))/2, low, .1, "its lower end")
		})
	}
}

// A drill on a family shows the percent points against the rest, before and since.
func TestADrillOnAFamilyShowsItsMeans(t *testing.T) {
	path := writeSeason(t, 10, 11, 11, 12, 13, 13, 14, 15, 15, 16, 16)
	ledger, err := os.ReadFile(path)
	require.NoError(t, err)
	ledger = append(ledger, "drill 2026-07-15 p 5 \"the pedal later\"\n"...)
	require.NoError(t, os.WriteFile(path, ledger, 0o600))
	args := []string{"drills", "p", "-f", path}
	page := screenOf(t, 80, append(args, "--format", "html")...)
	var want [][]string
	for _, d := range dataOf(t, args...)["drills"].([]any) {
		for _, side := range []string{"before", "after"} {
			if mean, ok := d.(map[string]any)[side].(map[string]any)["mean"].(json.Number); ok {
				want = append(want, []string{mean.String()})
			}
		}
	}
	require.NotEmpty(t, want)
	assert.Equal(t, want, readBack(page, "mean"))
}

// The bars of a picture are as long as their numbers, against its scale.
func TestBarsAreAsLongAsTheirNumbers(t *testing.T) {
	for _, command := range []string{"faults ines", "flight 2026-09-12/ines/known"} {
		page := screenOf(t, 80, append(strings.Fields(command), "-f", "../../../../data/demo/longmere.boxbook", "--format", "html")...)
		picture := regexp.MustCompile(`(?s)<figure>.*?</figure>`).FindString(page)
		ticks := regexp.MustCompile(`<line class="grid" x1="([0-9.]+)%"[^>]*></line><text[^>]*>([0-9.]+)`).FindAllStringSubmatch(picture, -1)
		require.Greater(t, len(ticks), 1, command)
		from, last := ticks[0], ticks[len(ticks)-1]
		require.Equal(t, "0", from[2], command)
		unit := (float(t, last[1]) - float(t, from[1])) / float(t, last[2])
		bars := regexp.MustCompile(`data-(?:points|lost)="([^"]*)".*?<rect class="full" x="([0-9.]+)%"[^>]* width="([0-9.]+)%"`).FindAllStringSubmatch(picture, -1)
		require.Greater(t, len(bars), 5, command)
		for _, bar := range bars {
			assert.Equal(t, from[1], bar[2], command)
			assert.InDelta(t, unit*float(t, bar[1]), float(t, bar[3]), .02, command)
		}
	}
}
