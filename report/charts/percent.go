package charts

import (
	"fmt"
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/display"
	"boxbook/report/words"
	"boxbook/season"
)

// The measures of the percents by date: the plot in shares of the width, the rest
// in pixels.
const (
	plotFrom, plotTo = .1, .98
	plotTall         = 170.
	contestLine      = 15.
	monthLine        = 18.
	// marginDays are left before the first flight and after the last.
	marginDays = 8
	// mostMonths have a label each.
	mostMonths = 7
)

// percents are the flights that a picture of a season shows.
type percents struct {
	season  answers.Season
	flights []answers.SeasonLine
	days    []float64
	x, y    scale
	top     float64 // of the plot, beneath the contests' names
}

// Percent is the percent of each flight that enters the season, by date, with its
// panel noise and its contest, and the trend where one is claimed; nil where no
// flight has a percent.
func Percent(d answers.Season) *report.Drawing {
	p := percents{season: d}
	for _, f := range d.Flights {
		if day, ok := season.ParseDate(f.Date); ok && f.Enters && f.Percent.Known() {
			p.flights, p.days = append(p.flights, f), append(p.days, float64(day))
		}
	}
	if len(p.flights) == 0 {
		return nil
	}
	p.x = scale{slices.Min(p.days) - marginDays, slices.Max(p.days) + marginDays, plotFrom, plotTo}
	contests, rows := p.contests()
	p.top = float64(rows)*contestLine + 8
	p.y = p.heights()
	drawing := &report.Drawing{Title: words.PercentPicture, Finding: words.PercentFinding(d), Height: int(p.top + plotTall + monthLine + 4)}
	trend, claimed := p.trend()
	drawing.Shapes = slices.Concat(p.grid(), p.months(), contests, trend, p.marks())
	drawing.Key = []string{words.ProgrammeSigns(p.programmes())}
	if slices.ContainsFunc(p.flights, func(f answers.SeasonLine) bool { return f.Noise.Known() }) {
		drawing.Key = append(drawing.Key, words.NoiseBars)
	}
	if claimed {
		drawing.Key = append(drawing.Key, words.FormLine)
	} else {
		drawing.Key = append(drawing.Key, words.NoFormLine)
	}
	return drawing
}

// heights are the percents from the bottom of the plot to its top.
func (p *percents) heights() scale {
	low, high := p.flights[0].Percent.Float64(), p.flights[0].Percent.Float64()
	for _, f := range p.flights {
		noise := 0.0
		if f.Noise.Known() {
			noise = f.Noise.Float64()
		}
		low, high = min(low, f.Percent.Float64()-noise), max(high, f.Percent.Float64()+noise)
	}
	margin := max(.5, .05*(high-low))
	return scale{low - margin, high + margin, p.top + plotTall, p.top}
}

func (p *percents) grid() []report.Shape {
	var shapes []report.Shape
	values := ticks(p.y.low, p.y.high, 5)
	for i, value := range values {
		y, text := p.y.place(value), tickText(value)
		if i == len(values)-1 {
			text += words.PictureUnitPercent
		}
		shapes = append(shapes, line("grid", across(plotFrom), y, "100%", y), label("", "0", y+4, text))
	}
	return shapes
}

// months are named beneath the plot, so many apart that the narrow page has room,
// with the year where the flights are of several.
func (p *percents) months() []report.Shape {
	first, last := season.Date(p.x.low).Time(), season.Date(p.x.high).Time()
	count := 12*(last.Year()-first.Year()) + int(last.Month()-first.Month())
	format, most := "Jan", mostMonths
	if count > 12 {
		format, most = "Jan 06", mostMonths-2
	}
	step := max(1, (count+most-1)/most)
	var shapes []report.Shape
	for month := first.AddDate(0, 0, 1-first.Day()); !month.After(last); month = month.AddDate(0, step, 0) {
		day := float64(season.DateIn(month))
		if day < p.x.low || p.x.place(day) > .93 {
			continue
		}
		x, y := across(p.x.place(day)), p.top+plotTall
		shapes = append(shapes, line("grid", x, y, x, y+5), label("", x, y+monthLine, month.Format(format)))
	}
	return shapes
}

// contests are named above the plot, each in the first row that has room for it,
// with a line down to its first flight.
func (p *percents) contests() (shapes []report.Shape, rows int) {
	var ends []float64 // of each row, in pixels of the narrow page
	seen := ""
	type named struct {
		x    string
		y, d float64
	}
	var leaders []named
	for i, f := range p.flights {
		if f.Contest == "" || f.Contest == seen {
			continue
		}
		seen = f.Contest
		name := fitting(f.ContestName)
		at, wide := narrowPage*p.x.place(p.days[i]), letter*float64(display.Width(name))
		x, text := across(p.x.place(p.days[i])), across(p.x.place(p.days[i]))
		class, from := "", at
		switch {
		case at+wide <= narrowPage:
		case at-wide >= 0:
			class, from = "end", at-wide
		case at-wide/2 >= 0 && at+wide/2 <= narrowPage:
			class, from = "middle", at-wide/2
		default:
			class, from, text = "end", narrowPage-wide, "100%"
		}
		row := slices.IndexFunc(ends, func(end float64) bool { return end+8 < from })
		if row < 0 {
			row, ends = len(ends), append(ends, 0)
		}
		ends[row] = from + wide
		y := float64(row+1)*contestLine - 3
		leaders = append(leaders, named{x, y + 3, 0})
		contest := data{}
		contest.text("contest", f.Contest)
		shapes = append(shapes, group(contest.attributes, label(class, text, y, name)))
	}
	bottom := float64(len(ends))*contestLine + 8 + plotTall
	for _, l := range leaders {
		shapes = append([]report.Shape{line("leader", l.x, l.y, l.x, bottom)}, shapes...)
	}
	return shapes, len(ends)
}

// trend are the lines of the trends that are claimed, each within the slopes that
// its interval leaves.
func (p *percents) trend() (shapes []report.Shape, claimed bool) {
	for _, t := range p.season.Trends {
		if !t.Claimed() {
			continue
		}
		first, _ := season.ParseDate(t.Line.First)
		last, _ := season.ParseDate(t.Line.Last)
		from, to := p.x.place(float64(first)), p.x.place(float64(last))
		of := data{}
		of.text("category", t.Category).number("first", t.Line.AtFirst).number("last", t.Line.AtLast).number("low", t.Low).number("high", t.High)
		drawn := []report.Shape{line("level", across(from), p.y.place(t.Line.AtFirst.Float64()), across(to), p.y.place(t.Line.AtLast.Float64()))}
		if t.Low.Known() && t.High.Known() {
			drawn = append([]report.Shape{p.slopes(t, from, to)}, drawn...)
		}
		shapes, claimed = append(shapes, group(of.attributes, drawn...)), true
	}
	return shapes, claimed
}

// slopes are what lies between the least and the greatest slope, about the middle
// of the line.
func (p *percents) slopes(t answers.CategoryTrend, from, to float64) report.Shape {
	lowFirst, lowLast := t.Line.Turned(t.Low.Float64())
	highFirst, highLast := t.Line.Turned(t.High.Float64())
	y := func(percent float64) string { return pixels(p.y.place(percent) - p.top) }
	middle := y((lowFirst + lowLast) / 2)
	band := fmt.Sprintf("0,%s 500,%s 1000,%s 1000,%s 500,%s 0,%s", y(lowFirst), middle, y(highLast), y(lowLast), middle, y(highFirst))
	return report.Shape{
		Name: "svg", Attributes: at("x", across(from), "y", pixels(p.top), "width", across(to-from), "height", pixels(plotTall),
			"viewBox", "0 0 1000 "+pixels(plotTall), "preserveAspectRatio", "none", "overflow", "hidden"),
		Shapes: []report.Shape{{Name: "polygon", Class: "band", Attributes: at("points", band)}},
	}
}

// marks are the flights, each with its noise and its numbers.
func (p *percents) marks() []report.Shape {
	var shapes []report.Shape
	for i, f := range p.flights {
		of := data{}
		of.text("flight", f.Flight).text("date", f.Date).text("programme", f.Programme).number("percent", f.Percent).number("noise", f.Noise)
		x, percent := across(p.x.place(p.days[i])), f.Percent.Float64()
		var drawn []report.Shape
		if f.Noise.Known() {
			drawn = append(drawn, line("noise", x, p.y.place(percent+f.Noise.Float64()), x, p.y.place(percent-f.Noise.Float64())))
		}
		shapes = append(shapes, group(of.attributes, append(drawn, placed(x, p.y.place(percent), sign(f.Programme, false)))...))
	}
	return shapes
}

// programmes are those of the flights, in the order of the trade.
func (p *percents) programmes() []string {
	var names []string
	for _, programme := range season.Programmes {
		if slices.ContainsFunc(p.flights, func(f answers.SeasonLine) bool { return f.Programme == string(programme) }) {
			names = append(names, string(programme))
		}
	}
	return names
}
