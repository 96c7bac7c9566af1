package ledger

import (
	"io/fs"
	"math/big"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"boxbook/data"
	"boxbook/scoring"
	"boxbook/season"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What the program ships has nothing wrong with it, nor has the ledger that a
// new book begins with, nor the demo.
func TestShippedLedgersAreClean(t *testing.T) {
	readClean(t, "")
	template := readClean(t, data.Template)
	readClean(t, regexp.MustCompile(`(?m)^#   (cost|settle) `).ReplaceAllString(data.Template, "$1 "))
	require.Len(t, template.Flights, 1)
	assert.Equal(t, season.Printed, template.Flights[0].Record().Source)

	result, demo := readDemo(t)
	require.Empty(t, rendered(t, result.Diagnostics))
	assert.Len(t, result.Paths, len(demo), "every file of the demo is included")
	assert.NotEmpty(t, result.Ledger.Flights)
}

// readDemo reads the demo as the program holds it, and gives its files.
func readDemo(t *testing.T) (*Result, Memory) {
	t.Helper()
	demo := Memory{}
	require.NoError(t, fs.WalkDir(data.Demo(), ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || path.Ext(name) != ".boxbook" {
			return err
		}
		raw, err := fs.ReadFile(data.Demo(), name)
		require.NoError(t, err)
		demo[name] = string(raw)
		return nil
	}))
	today, _ := season.ParseDate(casesToday)
	result, err := Load(Options{Files: demo, Main: "longmere.boxbook", Builtin: data.Builtin(), AsOf: today})
	require.NoError(t, err)
	return result, demo
}

// The demo's printed results are those of its flights: the same sum of points out
// of the same sum of maxima.
func TestDemoResultsAreThoseOfItsFlights(t *testing.T) {
	result, _ := readDemo(t)
	compared := 0
	for _, contest := range result.Ledger.Contests {
		for _, printed := range contest.Results {
			if printed.Points == nil || printed.Maximum == nil {
				continue
			}
			points, maximum := new(big.Rat), new(big.Rat)
			for _, f := range result.Ledger.Flights {
				if f.Contest == contest && f.Pilot == printed.Pilot && f.Counts() {
					points.Add(points, f.Record().Points)
					maximum.Add(maximum, f.Record().Maximum)
				}
			}
			assert.Equal(t, printed.Points.Rat(), points, "%s, %s", contest.Handle, printed.Pilot.Handle)
			assert.Equal(t, printed.Maximum.Rat(), maximum, "%s, %s", contest.Handle, printed.Pilot.Handle)
			compared++
		}
	}
	assert.Greater(t, compared, 10)
}

// The total that the template shows as printed is the one its marks give.
func TestTemplateAgreesWithItself(t *testing.T) {
	f := readClean(t, data.Template).Flights[0]
	assert.True(t, scoring.Agrees(f.Score().Points, f.Official.Points), "computed %s, printed %s", f.Score().Points.FloatString(2), f.Official.Points)
}

// Every sample ledger is read without errors.
func TestSampleLedgersHaveNoErrors(t *testing.T) {
	paths, err := filepath.Glob(ledgersFolder + "*.boxbook")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(paths), 3)
	for _, name := range paths {
		result := readDisk(t, name)
		assert.NoError(t, result.Diagnostics.Err(), "%s: %s", name, rendered(t, result.Diagnostics))
		assert.NotEmpty(t, result.Ledger.Flights, name)
	}
}

// The shipped ladders' floors; where each is from stands in the data file, and in
// testdata/outside what is published of them.
func TestShippedLadders(t *testing.T) {
	l := readClean(t, "")
	floors := map[string]string{}
	for _, ladder := range l.Ladders {
		assert.True(t, ladder.Shipped, ladder.Name)
		for _, c := range ladder.Categories {
			floors[ladder.Name] += c.Name + " "
			if c.Floor > 0 {
				floors[ladder.Name] += (season.Money{Minor: int64(c.Floor)}).Text() + c.Unit + " "
			}
		}
	}
	assert.Equal(t, map[string]string{
		"us":  "primary 1500ft sportsman 1500ft intermediate 1200ft advanced 800ft unlimited 328ft ",
		"uk":  "club 1500ft sports 1000ft intermediate 1000ft advanced 200m unlimited 100m ",
		"fai": "intermediate advanced unlimited 100m ",
	}, floors)
}

// The figures' K sum to 165, with positioning and harmony to 185, as printed
// [published: daec-silver, figures]; maximum 1850. The marks' 1292.50 is [derived]:
// judges 1311.5, 1255.5 and 1310.5.
func TestGliderSilver(t *testing.T) {
	l := readDisk(t, ledgersFolder+"glider-silver.boxbook").Ledger
	s := l.Sequences[0]
	assert.Equal(t, 165, s.K())
	assert.Equal(t, 185, s.K()+s.Positioning+s.Harmony)
	f := l.Flights[0]
	assert.Equal(t, 1850, f.Maximum())
	score := f.Score()
	assert.Equal(t, 1850, score.Maximum)
	assert.Equal(t, []string{"1311.50", "1255.50", "1310.50"}, rounded(score, 2))
	assert.Equal(t, "1292.50", score.Points.FloatString(2))
	assert.Equal(t, "69.86", score.Percent.FloatString(2))
}

// rounded are the judges' totals with so many decimals.
func rounded(score scoring.Score, places int) []string {
	var totals []string
	for _, total := range score.JudgeTotals {
		totals = append(totals, total.FloatString(places))
	}
	return totals
}

// checkValues are flights whose scores are known beforehand; all are derived,
// plain arithmetic from the stated rules [derived].
var checkValues = []struct {
	date, points, percent string
	judges                string
}{
	{"2026-03-01", "721.3333", "72.13", "732.00 691.00 741.00"}, // a hard zero of one of three is filled
	{"2026-03-02", "691.3333", "69.13", "732.00 691.00 741.00"}, // less a penalty of 30
	{"2026-03-03", "598.0833", "59.81", "604.50 567.75 622.00"}, // two of three: zero from all
	{"2026-03-04", "721.9333", "72.19", "732.00 692.80 741.00"}, // 7.25 and 7.75 rounded to 7.3 and 7.8
	{"2026-03-05", "724.3333", "72.43", "732.00 700.00 741.00"}, // to 7.5 and 8.0
	{"2026-03-06", "721.3333", "72.13", "732.00 691.00 741.00"},
	{"2026-03-08", "0.0000", "0.00", "0.00 0.00 0.00 0.00"}, // ruled a zero
	{"2026-03-09", "75.0000", "75.00", "75.00 75.00 70.00 80.00"},
	{"2026-03-10", "37.5000", "37.50", "0.00 0.00 70.00 80.00"}, // as given
	{"2026-03-11", "46.6667", "46.67", "70.00 0.00 70.00"},      // 0.0 is no hard zero
	{"2026-03-12", "540.4917", "67.56", "596.00 568.17 596.00 603.00 589.29"},
	{"2026-03-13", "539.1528", "67.39", "596.00 568.17 596.00 603.00 589.29"}, // a highest and a lowest dropped
	{"2026-03-14", "540.4917", "67.56", "596.00 568.17 596.00 603.00 589.29"},
	{"2026-03-15", "540.4917", "67.56", "596.00 568.17 596.00 603.00 589.29"},
}

func TestCheckValues(t *testing.T) {
	l := readDisk(t, ledgersFolder+"check-values.boxbook").Ledger
	for _, want := range checkValues {
		score := flightOf(t, l, want.date+"/checker/known").Score()
		require.True(t, score.Decided(), want.date)
		assert.Equal(t, want.points, score.Points.FloatString(4), want.date)
		assert.Equal(t, want.percent, score.Percent.FloatString(2), want.date)
		assert.Equal(t, want.judges, strings.Join(rounded(score, 2), " "), want.date)
	}
	assert.Len(t, l.Flights, len(checkValues)+1, "and the one that is undecided")
}

// Two hard zeros of four on one figure: never a silent zero or mean, a range
// from 0 to 75 [derived].
func TestCheckValueUndecided(t *testing.T) {
	f := flightOf(t, readDisk(t, ledgersFolder+"check-values.boxbook").Ledger, "2026-03-07/checker/known")
	score := f.Score()
	assert.False(t, score.Decided())
	assert.Nil(t, score.Percent)
	assert.Equal(t, scoring.Undecided, score.Lines[0].Ruling)
	assert.Equal(t, []string{"0", "75"}, []string{score.Low.RatString(), score.High.RatString()})
	assert.Equal(t, season.NoRecord, f.Record().Source)
}

// Raw 590.4917 and 589.1528, the maximum 800; the official 540.5 agrees with
// 540.4917 and 540.4 does not [derived].
func TestCheckValuesAgainstOfficial(t *testing.T) {
	l := readDisk(t, ledgersFolder+"check-values.boxbook").Ledger
	raw := func(date string) string {
		return flightOf(t, l, date+"/checker/known").Score().Raw.FloatString(4)
	}
	assert.Equal(t, "590.4917", raw("2026-03-12"))
	assert.Equal(t, "589.1528", raw("2026-03-13"))
	agrees := map[string]bool{}
	for _, date := range []string{"2026-03-04", "2026-03-05", "2026-03-06", "2026-03-12", "2026-03-14", "2026-03-15"} {
		f := flightOf(t, l, date+"/checker/known")
		agrees[date] = scoring.Agrees(f.Score().Points, f.Official.Points)
	}
	assert.Equal(t, map[string]bool{
		"2026-03-04": true, "2026-03-05": true, "2026-03-06": false, "2026-03-12": true, "2026-03-14": true, "2026-03-15": false,
	}, agrees)
	assert.Equal(t, 800, flightOf(t, l, "2026-03-12/checker/known").Maximum())
}

// The judges' totals that the ledger has as printed are those that the marks
// give.
func TestCheckValuesJudgeTotals(t *testing.T) {
	f := flightOf(t, readDisk(t, ledgersFolder+"check-values.boxbook").Ledger, "2026-03-12/checker/known")
	require.Len(t, f.JudgeTotals, 5)
	for i, total := range f.JudgeTotals {
		assert.True(t, scoring.Agrees(f.Score().JudgeTotals[i], total), "%s", total)
	}
}

// Reading from the disk, from memory and through ReadText is the same.
func TestSourcesAgree(t *testing.T) {
	name := ledgersFolder + "check-values.boxbook"
	fromDisk, err := Disk{}.Read(name)
	require.NoError(t, err)
	file, err := os.Open(name)
	require.NoError(t, err)
	defer file.Close()
	streamed, err := ReadText(file, name, 0)
	require.NoError(t, err)
	assert.Equal(t, fromDisk, streamed)
	_, err = ReadText(strings.NewReader("x"), "huge", maxFile+1)
	var large *TooLargeError
	require.ErrorAs(t, err, &large)
	assert.EqualError(t, err, "huge is larger than 256 MiB")
}

// The help page on the language is a ledger without anything wrong in it.
func TestLanguagePageIsALedger(t *testing.T) {
	l := readClean(t, data.Language)
	assert.NotEmpty(t, l.Flights)
	for kind := range blockSpecs {
		if kind == "part-of" {
			assert.Contains(t, data.Language, ` part-of "`, "in a comment: the page is part of nothing")
			continue
		}
		assert.Contains(t, "\n"+data.Language, "\n"+kind+" ", "the page shows every block")
	}
}
