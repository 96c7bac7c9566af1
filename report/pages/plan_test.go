package pages

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season"
)

func planPage(t testing.TB, book string) (string, answers.Plan) {
	t.Helper()
	l := faultBook(t, book)
	doc := Plan(answers.PlanOf(l, season.Selection{Pilot: l.Pilots[0]}, nil), true)
	return oneLine(textOf(t, doc)), doc.Data.(answers.Plan)
}

// At most three, each with its gain, interval, evidence, fault and drill.
func TestPlanPage(t *testing.T) {
	book := familyHead + flownRows(sixRows...) + "drill 2026-03-01 ines 7 \"four loops a leg\"\n"
	for _, month := range []string{"03", "04", "05", "06"} {
		book += "review 2026-" + month + "-18/ines/known\n  fault 1 radius 2x\n  fault 5 spin-stop 10deg on 9.11.1.4\n"
	}
	text, d := planPage(t, book)
	require.Len(t, d.Items, 3)
	assert.Equal(t, "known-26", d.Sequence)
	assert.Contains(t, text, words.PlanSentence(d))
	for i, item := range d.Items {
		assert.Contains(t, text, item.Gain.Text(1)+" percentage points ("+words.GainRange(d, item).Ends()+" at 90% confidence)")
		assert.Contains(t, text, item.Evidence)
		if i > 0 {
			assert.LessOrEqual(t, item.Gain.Float64(), d.Items[i-1].Gain.Float64())
		}
		switch item.Group {
		case "7":
			assert.Equal(t, "radius", item.Fault)
			assert.Equal(t, []int{4, 4, 4, 4}, []int{item.SeenInFamily, item.ExposedInFamily, item.Seen, item.Exposed})
			assert.Contains(t, text, "radius, in 4 of 4 flights with the family")
			assert.Equal(t, "7", item.Drill)
			assert.Contains(t, text, "loops, part loops and eights (family 7), since 2026-03-01: four loops a leg")
		case "spins":
			assert.Equal(t, "spin-stop", item.Fault)
			assert.Empty(t, item.Drill)
		}
	}
	assert.Contains(t, text, "Comes back without an open drill - spin under- or over-rotated (noted in spins alone): 4 of 4 flights that could show it, 104 points at stake")
	require.NotEmpty(t, d.Without)
	assert.Equal(t, "spins", d.Without[0].Group)
	assert.NotContains(t, text, "4. ")

	// As rows for a program, each is a family with its gain.
	l := faultBook(t, book)
	var rows strings.Builder
	require.NoError(t, report.WriteCSV(&rows, Plan(answers.PlanOf(l, season.Selection{Pilot: l.Pilots[0]}, nil), true)))
	for _, item := range d.Items {
		assert.Contains(t, rows.String(), "\n"+csvText(words.GroupTitle(item.Group))+","+strconv.FormatFloat(item.Gain.Float64(), 'f', -1, 64)+",")
	}
}

// Without --all a plan has a row a recommendation, names what comes back, and the
// pages that it rests on; no interval, and no section a family.
func TestPlanInBrief(t *testing.T) {
	book := familyHead + flownRows(sixRows...) + "drill 2026-03-01 ines 7 \"four loops a leg\"\n"
	for _, month := range []string{"03", "04", "05", "06"} {
		book += "review 2026-" + month + "-18/ines/known\n  fault 1 radius 2x\n  fault 2 heading 10deg\n  fault 3 line-angle 10deg\n  fault 4 bank 10deg\n  fault 5 spin-stop 10deg on 9.11.1.4\n"
	}
	l := faultBook(t, book)
	d := answers.PlanOf(l, season.Selection{Pilot: l.Pilots[0]}, nil)
	brief, all := flatText(t, Plan(d, false)), flatText(t, Plan(d, true))
	assert.Regexp(t, `3 loops, part loops and eights \(family 7\) 0\.3 not told apart, only carries a lot of K radius, 4 of 4 flights since 2026-03-01 `, brief)
	assert.Regexp(t, `2 spins 0\.3 its only figure lies below the others spin-stop, 4 of 4 flights none `, brief)
	assert.Regexp(t, `Comes back most often without an open drill: .*, 4 of 4 flights, practice included; 3 other faults have no open drill\.`, brief)
	assert.Contains(t, brief, "What it rests on: boxbook faults ines; boxbook drills ines; boxbook families ines; boxbook forecast ines known-26")
	assert.NotContains(t, brief, "confidence)")
	assert.Contains(t, all, "confidence)")
	assert.NotContains(t, all, "--all")
}

// flatText is a document at a width at which no cell of a table goes on in a
// second line, with single spaces.
func flatText(t testing.TB, d report.Document) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, report.WriteText(&b, d, report.TextOptions{Width: 200}))
	return oneLine(b.String())
}

// csvText quotes what has a comma.
func csvText(text string) string {
	if strings.Contains(text, ",") {
		return strconv.Quote(text)
	}
	return text
}

// Where there is nothing to recommend the true reason is said: too few, totals
// alone, figures that do not differ.
func TestPlanOfNothing(t *testing.T) {
	official := ""
	for _, month := range []string{"03", "04", "05", "06", "07"} {
		official += "flight 2026-" + month + "-18 ines known\n  sequence known-26\n  official 70\n"
	}
	for why, book := range map[string]string{
		"no contest flights with marks in the last two years; at least four are needed.":                                 familyHead,
		"1 contest flight with marks in the last two years; at least four are needed.":                                   familyHead + flownRows("7 7 7 7 7 7"),
		"no contest flights with marks (5 with an official total only) in the last two years; at least four are needed.": familyHead + official,
		"2 families were flown; at least three are needed.": strings.Replace(twoFamilies, "1 7.4.1.1:10", "1 7.4.1.1:10 5.2.1.1:4", 1) +
			flownRows("7 6", "6 8", "8 7", "7 7"),
	} {
		text, d := planPage(t, book)
		assert.Regexp(t, "Cannot tell where practice pays( at sportsman)?: "+regexp.QuoteMeta(why), text)
		assert.NotNil(t, d.Items)
		assert.Equal(t, 1, strings.Count(text, words.PlanCaution))
	}
}

const twoFamilies = "pilot ines\nsequence known-26\n  category sportsman\n  1 7.4.1.1:10\n  2 K 9\n"

// What comes back with its drill open stands on the page where a row has a part of it alone.
func TestPlanSaysWhatComesBackBesideARow(t *testing.T) {
	plan := func(elsewhere string) (string, answers.Plan) {
		book := familyHead + flownRows(sixRows...) + "drill 2026-03-01 ines radius\n"
		for _, month := range []string{"03", "04", "05"} {
			book += "review 2026-" + month + "-18/ines/known\n  fault 1 radius\n"
		}
		return planPage(t, book+"review 2026-06-18/ines/known\n  fault "+elsewhere+" radius\n")
	}
	inRow := func(d answers.Plan) bool {
		return slices.ContainsFunc(d.Items, func(i answers.PlanItem) bool { return i.Group == "7" && i.Fault == "radius" })
	}
	text, d := plan("2")
	assert.True(t, inRow(d))
	assert.Contains(t, text, "Comes back most often with its drill still open: radius changed, 4 of 4 flights")
	text, d = plan("1")
	assert.True(t, inRow(d))
	assert.NotContains(t, text, "with its drill still open", "the row says the same")
}
