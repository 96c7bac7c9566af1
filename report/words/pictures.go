package words

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/season"
)

// The titles of the pictures.
const (
	PercentPicture  = "Percent by date"
	FamiliesPicture = "Families"
	StakePicture    = "Points at stake"
	DrillsPicture   = "Drills, before and since"
	LossesPicture   = "Points lost by figure"
)

// The words in the pictures.
const (
	PictureBefore = "before"
	PictureSince  = "since"
	// DrillSquares explain the picture of the drills.
	DrillSquares = "A square is a flight that could show the fault; filled where it was noted."
	NoiseBars    = "Bars: what another panel of this size would change by chance, one standard deviation."
	FormLine     = "Line: the trend; shaded: how steep or flat it may be."
	NoFormLine   = "No line: chance is not ruled out."
	// The units on the scales.
	PictureUnitPoints  = " points"
	PictureUnitPercent = "%"
)

// ProgrammeSigns are the signs of programmes beside their names, as a picture
// draws them.
func ProgrammeSigns(programmes []string) string {
	signs := map[string]string{
		string(season.Known): "●", string(season.Unknown): "○", string(season.Free): "■", string(season.FreeUnknown): "□",
		string(season.FreeKnown): "◆", string(season.Final): "▲",
	}
	said := make([]string, len(programmes))
	for i, p := range programmes {
		said[i] = signs[p] + " " + p
	}
	return strings.Join(said, ", ")
}

// PercentFinding says what the percents by date show.
func PercentFinding(d answers.Season) string {
	n := 0
	var best, worst answers.SeasonLine
	for _, f := range d.Flights {
		if f.Enters {
			n++
		}
		if f.Flight == d.Best {
			best = f
		}
		if f.Flight == d.Worst {
			worst = f
		}
	}
	said := []string{fmt.Sprintf("%s, from %s%% (%s) to %s%% (%s).", Counted(n, "contest flight", "contest flights"),
		worst.Percent.Text(PercentDecimals), worst.Date, best.Percent.Text(PercentDecimals), best.Date)}
	return strings.Join(append(said, TrendSentences(d)...), " ")
}

// FamiliesFinding says what the families' levels show.
func FamiliesFinding(d answers.Families) string { return WeakSentence(d) }

// AllFamilies is the percent of all families together, beside their line.
func AllFamilies(d answers.Families) string { return "all " + d.Percent.Text(LevelDecimals) }

// LevelKey says what the signs and the bars of the families' picture are: a level is
// another number than the percent as flown, which may stand in the sentence above it.
func LevelKey(d answers.Families) []string {
	return []string{
		"Signs: the " + ColumnShrunkenPercent + ", each figure once however often it was flown, without zeros and what chance explains; the percent as flown is another.",
		"Bars: its range at " + AtConfidence(d.Limits.Confidence) + ".",
	}
}

// StakeFinding names the row of a table of kinds with the most points at stake.
func StakeFinding(k answers.FaultKind, rows []answers.FaultKind) string {
	return fmt.Sprintf("Most at stake: %s, %s points as noted.", StakeName(k, rows), k.Points.Text(PointDecimals))
}

// StakeName names a row of a table of kinds in words: the kind and its family, alone
// only where no other row is of the same kind.
func StakeName(k answers.FaultKind, rows []answers.FaultKind) string {
	other := func(r answers.FaultKind) bool { return r.Kind == k.Kind && r.Group != k.Group }
	if k.Group == "" || !slices.ContainsFunc(rows, other) {
		return name(k)
	}
	return cmp.Or(k.Says, k.Kind) + " (noted in " + GroupName(k.Group) + ")"
}

// DrillsFinding says each drill's verdict.
func DrillsFinding(d answers.Drills) string { return strings.Join(DrillSentences(d), " ") }

// DrillName names a drill's target in words, with the day it was set.
func DrillName(d answers.Drill) string {
	what := GroupTitle(d.Target)
	if !d.OnFamily() {
		what = cmp.Or(d.Says, d.Target)
	}
	return what + ", " + d.Date
}

// DrillCount says how many flights of one side the fault was noted in.
func DrillCount(s answers.DrillSide) string { return fmt.Sprintf("%d of %d", s.Seen, s.Flights) }

// DrillMean is one side of a drill on a family, percent points against the rest.
func DrillMean(s answers.DrillSide) string { return report.Signed(s.Mean, TrendDecimals).String() }

// LossesFinding says what cost most.
func LossesFinding(d *answers.Lost) string { return Sentence(LostSentence(d)) + "." }

// LossName names a row of the losses by figure.
func LossName(r LostRow) string { return strings.TrimSpace(r.Key + " " + r.Name) }
