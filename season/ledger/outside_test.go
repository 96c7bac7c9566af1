package ledger

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/data/sources"
	"boxbook/data/sources/testkit"
	"boxbook/season"
)

// sequenceText is a sequence of a table's figures and weighted lines, with the sum
// that is printed of them, 0 where none is.
func sequenceText(asked string, total int) string {
	var lines []string
	figures := 0
	for figure := range strings.SplitSeq(asked, "; ") {
		if name, k, weighted := strings.Cut(figure, " "); weighted && (name == "positioning" || name == "harmony") {
			lines = append(lines, name+" K "+k)
			continue
		}
		figures++
		lines = append(lines, fmt.Sprint(figures, " ", elementsText(figure)))
	}
	if total > 0 {
		lines = append(lines, fmt.Sprint("total K ", total))
	}
	return "sequence outside\n  " + strings.Join(lines, "\n  ") + "\n"
}

// elementsText writes a figure as its elements' codes and K. Where the source has no
// codes, some stand in that are of one K each.
func elementsText(figure string) string {
	elements := strings.Split(figure, " + ")
	if len(elements) == 1 && !strings.Contains(figure, ":") {
		return "K " + figure
	}
	for i, e := range elements {
		if !strings.Contains(e, ":") {
			elements[i] = fmt.Sprintf("%s.%s:%s", []string{"7.4.1", "9.1.3"}[min(i, 1)], e, e)
		}
	}
	return strings.Join(elements, " ")
}

// What sources outside say K sums to, through a sequence that is read: a total that
// does not fit its figures would be said.
func TestOutsideK(t *testing.T) {
	testkit.Outside(t, "k", func(t *testing.T, c testkit.Check) {
		if least, short := strings.CutPrefix(c.Want, "below "); short {
			asked, err := strconv.Atoi(least)
			require.NoError(t, err)
			assert.Less(t, readClean(t, sequenceText(c.Asked, 0)).Sequences[0].K(), asked, c.Where)
			return
		}
		printed, err := strconv.Atoi(c.Want)
		require.NoError(t, err)
		s := readClean(t, sequenceText(c.Asked, printed)).Sequences[0]
		assert.Equal(t, printed, s.K()+s.Positioning+s.Harmony, c.Where)
	})
}

var floorText = regexp.MustCompile(`^(\d+)(ft|m)$`)

// What they say of floors and programmes, through the shipped ladders.
func TestOutsideLadders(t *testing.T) {
	l := readClean(t, "")
	testkit.Outside(t, "ladders", func(t *testing.T, c testkit.Check) {
		ladder, category, _ := strings.Cut(c.Asked, " ")
		step, ok := stepOf(l, ladder, category)
		require.True(t, ok)
		if c.Want == "free yes" { // a ladder says nothing of free programmes: they may be flown
			flown := strings.NewReplacer(" known", " free", "category sportsman", "category "+category).Replace(sheetText("10: 8.0"))
			assert.Equal(t, season.Free, readClean(t, flown).Flights[0].Programme, c.Where)
			return
		}
		if want, unknowns := strings.CutPrefix(c.Want, "unknowns "); unknowns {
			assert.Equal(t, want == "yes", step.Unknowns, c.Where)
			return
		}
		floor := floorText.FindStringSubmatch(c.Want)
		require.NotNil(t, floor, c.Want)
		assert.Equal(t, floor[1]+floor[2], (season.Money{Minor: int64(step.Floor)}).Text()+step.Unit, c.Where)
	})
}

func stepOf(l *season.Ledger, ladder, category string) (season.Category, bool) {
	for _, has := range l.Ladders {
		if has.Name == ladder {
			return has.Category(category)
		}
	}
	return season.Category{}, false
}

// sheetText is a flight of a table's figures: K and marks of each.
func sheetText(asked string) string {
	var ks, rows []string
	judges := 0
	for figure := range strings.SplitSeq(asked, "; ") {
		if points, penalty := strings.CutPrefix(figure, "penalty "); penalty {
			rows = append(rows, "  penalty low "+points+"\n")
			continue
		}
		k, marks, _ := strings.Cut(figure, ": ")
		if k, weighted := strings.CutPrefix(k, "positioning "); weighted {
			ks = append(ks, "  positioning K "+k+"\n")
			rows = append(rows, "  positioning "+marks+"\n")
			continue
		}
		ks = append(ks, fmt.Sprintf("  %d K %s\n", len(ks)+1, k))
		rows = append(rows, fmt.Sprintf("  %d %s\n", len(rows)+1, marks))
		judges = len(strings.Fields(marks))
	}
	panel := strings.Join([]string{"A", "B", "C", "D"}[:judges], " ")
	return "pilot ines\nsequence outside\n  category sportsman\n  programme known\n" + strings.Join(ks, "") +
		"flight 2026-04-18 ines known\n  sequence outside\n  rules panel-mean\n  panel " + panel + "\n" + strings.Join(rows, "")
}

// What they say marks come to, through a flight that is read.
func TestOutsideScores(t *testing.T) {
	testkit.Outside(t, "scores", func(t *testing.T, c testkit.Check) {
		if k, marks, _ := strings.Cut(c.Asked, ": "); c.Mark.Word == sources.Published {
			assert.NotContains(t, k+marks, " ", "no source was seen with several marks and what they come to: %s", c.Where)
		}
		score := readClean(t, sheetText(c.Asked)).Flights[0].Score()
		low, high, undecided := strings.Cut(strings.TrimSuffix(c.Want, fmt.Sprintf(" of %d", score.Maximum)), "..")
		require.Equal(t, undecided, !score.Decided(), c.Where)
		if undecided {
			assert.Equal(t, []string{low, high}, []string{score.Low.RatString(), score.High.RatString()}, c.Where)
			return
		}
		points, _ := score.Points.Float64()
		assert.Equal(t, c.Want, fmt.Sprintf("%g of %d", points, score.Maximum), c.Where)
	})
}

// What they say a judge may write, through a row that is read: the mark as the
// program has it, or "refused".
func TestOutsideMarks(t *testing.T) {
	testkit.Outside(t, "marks", func(t *testing.T, c testkit.Check) {
		line, mark, weighted := strings.Cut(c.Asked, ": ")
		if !weighted {
			line, mark = "1", c.Asked
		}
		other := map[string]string{"1": "positioning", "positioning": "1"}[line]
		l := read(t, "pilot ines\nsequence outside\n  category sportsman\n  programme known\n  1 K 10\n  positioning K 5\n"+
			"flight 2026-04-18 ines known\n  sequence outside\n  panel A\n  "+line+" "+mark+"\n  "+other+" 7\n")
		if c.Want == "refused" {
			assert.Len(t, l.Diagnostics, 1, c.Where)
			return
		}
		require.Empty(t, l.Diagnostics, c.Where)
		has := map[string]season.Row{"1": l.Ledger.Flights[0].Rows.At(0), "positioning": *l.Ledger.Flights[0].Positioning}[line]
		assert.Equal(t, c.Want, has.Marks[0].String(), c.Where)
	})
}

// Two K of one code, as two catalogues have them, are none of the reader's business;
// in one catalogue they are a slip.
func TestOutsideCatalogues(t *testing.T) {
	testkit.Outside(t, "catalogues", func(t *testing.T, c testkit.Check) {
		gliders, power, ok := strings.Cut(c.Want, " and ")
		require.True(t, ok)
		two := "sequence of-gliders\n  category sportsman\n  programme known\n  catalogue glider\n  1 " + c.Asked + ":" + gliders +
			"\nsequence of-power\n  category sportsman\n  programme known\n  1 " + c.Asked + ":" + power + "\n"
		l := readClean(t, two)
		assert.Equal(t, c.Want, fmt.Sprint(l.Sequences[0].K(), " and ", l.Sequences[1].K()), c.Where)
		one := read(t, strings.Replace(two, "  catalogue glider\n", "", 1))
		assert.Len(t, one.Diagnostics, 1, c.Where)
	})
}

// What the shipped policy has of what sources say for other purposes.
func TestOutsidePolicy(t *testing.T) {
	l := readClean(t, "")
	testkit.Outside(t, "policy", func(t *testing.T, c testkit.Check) {
		assert.Contains(t, named(l.Policies[0].Keys, setting), c.Asked+" "+c.Want, c.Where)
	})
}
