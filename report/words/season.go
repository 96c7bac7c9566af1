package words

import (
	"fmt"
	"strconv"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/season"
)

// OfficialSign stands behind a percent that is the official one.
const OfficialSign = "*"

// The notes of a season that stand for themselves.
const (
	OfficialExplained = "the official total, as typed; the others are calculated from the marks"
	TotalAlone        = "without a maximum the printed total has no percent, and does not count; behind `official` add `of MAXIMUM`"
	ContestPercent    = "percent is of the printed result where there is one, else of the flights' sum"
)

// DistancesExplained says what the distances to others are, of the columns that the table
// has.
func DistancesExplained(median bool) string {
	columns := ColumnToWinner
	if median {
		columns += ", " + ColumnToMedian
	}
	return columns + ": points behind (-) or ahead (+), blank where not typed"
}

// UndecidedFlight says why a flight has no percent. Of practice, whose percents
// count nowhere, it does not ask for a ruling.
func UndecidedFlight(f answers.SeasonLine) string {
	if f.Programme == string(season.Practice) {
		return "no percent, as a figure has no grade or waits for a ruling; its faults count"
	}
	return "undecided: left out of every statistic until a ruling is recorded"
}

// VoidFlight says why a flight is void.
func VoidFlight(f answers.SeasonLine) string { return "void: " + f.Void }

// ZerosAndPenalties says which contest flights had a zeroed figure or a penalty,
// and what each took, a zero against the mean grade of the flight's other figures; where
// all is asked for also of the maximum. "" where no such flight has marks to tell by.
func ZerosAndPenalties(flights []answers.SeasonLine, all bool) string {
	var said []string
	contests, lost := 0, "points lost: "
	for _, f := range flights {
		if !f.Enters {
			continue
		}
		if !f.Bare {
			contests++
		}
		var took []string
		for _, z := range f.Zeros {
			took = append(took, fmt.Sprintf("%s of the maximum by a zero on figure %d", z.Lost.Text(PointDecimals), z.Figure))
		}
		switch n := len(took); {
		case n == 0 || !f.ZerosCost.Known():
		case !all:
			lost = "lost: " // with what a zero is held against, there is room for no more
			took = []string{fmt.Sprintf("%s (%s%%) vs rest by %s", f.ZerosCost.Text(0), f.ZerosPercent.Text(1), zeroedFigures(f))}
		default:
			took[n-1] += fmt.Sprintf(" (about %s points, %s percentage points, at the mean grade of the other figures)", f.ZerosCost.Text(0), f.ZerosPercent.Text(1))
		}
		if f.Penalty.Known() {
			took = append(took, f.Penalty.Text(PointDecimals)+" by penalty")
		}
		if len(took) > 0 {
			said = append(said, f.Date+" "+ListInWords(took))
		}
	}
	switch {
	case contests == 0 && len(said) == 0:
		return ""
	case len(said) == 0:
		return "no figure was zeroed in these contest flights, and no penalty is typed"
	default:
		return lost + strings.Join(said, "; ")
	}
}

// zeroedFigures names the figures of a flight that were zeroed.
func zeroedFigures(f answers.SeasonLine) string {
	if len(f.Zeros) == 1 {
		return fmt.Sprintf("a zero on figure %d", f.Zeros[0].Figure)
	}
	var numbers []string
	for _, z := range f.Zeros {
		numbers = append(numbers, strconv.Itoa(z.Figure))
	}
	return "zeros on figures " + ListInWords(numbers)
}

// OfficialDiffers says by how much the official total differs, and which command looks
// for the reason, which may find none.
func OfficialDiffers(flight string, difference report.Number) string {
	return fmt.Sprintf("official minus calculated is %s; `boxbook flight %s` looks for what would explain it",
		report.Signed(difference, PointDecimals), flight)
}

// ContestsUnnamed counts the flights that name no contest, and says as what they count; ""
// where each names one.
func ContestsUnnamed(flights []answers.SeasonLine) string {
	n := 0
	for _, f := range flights {
		if f.Enters && f.Contest == "" {
			n++
		}
	}
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("%s no contest: %s not among the contests below, and counts as one by itself where contests are counted",
		Counted(n, "contest flight names", "contest flights name"), PluralWord(n, "it is", "each is"))
}

// SequencesFlown names the sequences of each programme of a category whose contest
// flights were of several, in the order flown; "" where none were. Unknowns are always of
// another one.
func SequencesFlown(flights []answers.SeasonLine) string {
	type programme struct{ category, name string }
	var order []programme
	sequences, flown, categories := map[programme][]string{}, map[programme]map[string]int{}, map[string]bool{}
	for _, f := range flights {
		unknown := f.Programme == string(season.Unknown) || f.Programme == string(season.FreeUnknown)
		if !f.Enters || f.Sequence == "" || unknown {
			continue
		}
		p := programme{f.Category, f.Programme}
		if flown[p] == nil {
			order, flown[p] = append(order, p), map[string]int{}
		}
		if flown[p][f.Sequence] == 0 {
			sequences[p] = append(sequences[p], f.Sequence)
		}
		flown[p][f.Sequence]++
		categories[f.Category] = true
	}
	var said []string
	for _, p := range order {
		if len(sequences[p]) < 2 {
			continue
		}
		of := make([]string, len(sequences[p]))
		for i, s := range sequences[p] {
			of[i] = fmt.Sprintf("%s (%s)", s, Counted(flown[p][s], "flight", "flights"))
		}
		name := p.name
		if len(categories) > 1 {
			name += " " + AtCategory(p.category)
		}
		said = append(said, name+" of "+ListInWords(of))
	}
	if len(said) == 0 {
		return ""
	}
	return "more than one sequence: " + strings.Join(said, "; ")
}

// MayBePercent says that an official total, typed as points, may be a percent.
func MayBePercent(f answers.SeasonLine) string {
	return fmt.Sprintf("the official total may be a percent: as points it is %s%%, which is counted here", f.Percent.Text(PercentDecimals))
}

// OtherMaximum says that the official total is out of another maximum and in percent not
// what the marks come to, and which command looks into it.
func OtherMaximum(f answers.SeasonLine) string {
	return fmt.Sprintf("%s; `boxbook flight %s` looks for what would explain it", maximaDifferSaid(f.OfficialMaximum, f.OtherMaximum), f.Flight)
}

// maximaSaid names a printed maximum beside that of the sequence.
func maximaSaid(printed, own report.Number) string {
	return fmt.Sprintf("the printed maximum is %s, that of the sequence %s", printed.Text(0), own.Text(0))
}

// isPercent reports whether a printed maximum makes its points a percent.
func isPercent(maximum report.Number) bool { return maximum.Known() && maximum.Float64() == 100 }

// maximaDifferSaid says both where they make other percents too.
func maximaDifferSaid(printed, own report.Number) string {
	if isPercent(printed) {
		return "the official percent is not that of the marks"
	}
	return maximaSaid(printed, own) + ", and the percents differ"
}

// ProgrammeNumbered names a programme, with the flight's number behind the first.
func ProgrammeNumbered(programme string, label int) string {
	if label > 1 {
		return fmt.Sprintf("%s %d", programme, label)
	}
	return programme
}

// CategoryWord names a category, also where a flight has none.
func CategoryWord(category string) string {
	if category == "" {
		return "without a category"
	}
	return category
}

// AtCategory says of flights in which category they were: "at advanced".
func AtCategory(category string) string {
	if category == "" {
		return CategoryWord(category)
	}
	return "at " + category
}

// TrendSentences are each category's trend, which says whose it is where there
// are several; of categories that have the same said of them it is said once, in
// the place of the last of them.
func TrendSentences(d answers.Season) []string {
	of, last := map[string][]string{}, map[string]int{}
	for i, t := range d.Trends {
		trend := TrendSentence(t.Trend, d.Limits.TrendLimits)
		of[trend], last[trend] = append(of[trend], CategoryWord(t.Category)), i
	}
	var said []string
	for i, t := range d.Trends {
		trend := TrendSentence(t.Trend, d.Limits.TrendLimits)
		switch {
		case last[trend] != i:
		case len(d.Trends) == 1:
			said = append(said, trend)
		default:
			said = append(said, ListInWords(of[trend])+": "+trend)
		}
	}
	return said
}

// WhoseTrend says before a trend of which category it is, where there are
// several.
func WhoseTrend(d answers.Season, t answers.CategoryTrend) string {
	if len(d.Trends) < 2 {
		return ""
	}
	return CategoryWord(t.Category) + ": "
}

// MoveSentence says what a change of category did to the percent.
func MoveSentence(m answers.Move, limits answers.SeasonLimits) string {
	head := fmt.Sprintf("From %s to %s: ", CategoryWord(m.From), CategoryWord(m.To))
	if m.Reason == answers.MoveFewContests {
		return head + fmt.Sprintf("too few contests to tell what the move cost (%d before, %d after; at least %s of each).",
			m.Before, m.After, NumberWord(limits.MoveContests))
	}
	r := MoveRange(m)
	return head + fmt.Sprintf("%s percentage points between contest means (%s; %d contests before, %d after).", r.Change(), r.ChangesAt(), m.Before, m.After)
}

// MoveRange is the range of what a change of category did to the percent.
func MoveRange(m answers.Move) Range { return Range{m.Low, m.Change, m.High, m.Confidence} }

// SeasonSubtitle counts what the season's figures rest on.
func SeasonSubtitle(d answers.Season) string {
	counted, practice, void := 0, 0, 0
	for _, f := range d.Flights {
		switch {
		case f.Void != "":
			void++
		case f.Programme == string(season.Practice):
			practice++
		case f.Enters:
			counted++
		}
	}
	text := Counted(counted, "contest flight with a counted result", "contest flights with a counted result")
	if practice > 0 {
		text += ", " + Counted(practice, "practice flight", "practice flights")
	}
	if void > 0 {
		text += fmt.Sprintf(", %d void", void)
	}
	return text
}
