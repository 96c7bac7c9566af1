package analysis

import (
	"slices"

	"boxbook/season"
)

// TrendLine is a line that may be drawn through a category's flights: the percent
// at the day of the first flight and at that of the last.
type TrendLine struct {
	First, Last     season.Date
	AtFirst, AtLast float64
}

// TrendLine is the line with the slope of a category's trend through the median
// of its flights (Theil-Sen). It reports false where no slope may be shown, or
// all flights were on one day.
func (o Flights) TrendLine(t CategoryTrend) (TrendLine, bool) {
	var days []season.Date
	var percents []float64
	for _, line := range o.Lines {
		if line.Enters() && line.Flight.Category == t.Category {
			days, percents = append(days, line.Flight.Date), append(percents, line.point().Value)
		}
	}
	if !t.Trend.HasSlope || len(days) == 0 {
		return TrendLine{}, false
	}
	line := TrendLine{First: slices.Min(days), Last: slices.Max(days)}
	slope := t.Trend.Season / t.Trend.Span
	for i, day := range days {
		percents[i] -= slope * float64(day-line.First)
	}
	slices.Sort(percents)
	middle := (percents[(len(percents)-1)/2] + percents[len(percents)/2]) / 2
	line.AtFirst, line.AtLast = middle, middle+slope*float64(line.Last-line.First)
	return line, line.Last > line.First
}
