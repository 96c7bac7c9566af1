package answers

import (
	"slices"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// Season is a pilot's season in JSON.
type Season struct {
	Pilot   string       `json:"pilot"`
	Season  int          `json:"season,omitempty"`
	Flights []SeasonLine `json:"flights"`
	// Trend is of the category flown last; Trends are of each category flown.
	Trend  *Trend          `json:"trend,omitempty"`
	Trends []CategoryTrend `json:"trends,omitempty"`
	Moves  []Move          `json:"moves,omitempty"`
	// Longer is the trend over several seasons, absent where the season has one of its
	// own, or those have none either.
	Longer   *LongTrend `json:"longer,omitempty"`
	Contests []Contest  `json:"contests"`
	// Level is where the pilot stands now; for a season before the latest flown, on
	// its last day. It rests on more than the flights above.
	Level Level `json:"level"`
	// Best and Worst are flights, by percent of the record; absent where no flight
	// has one.
	Best  string `json:"best,omitempty"`
	Worst string `json:"worst,omitempty"`
	// Entered counts the flights that enter the season's figures; Mean is the mean of
	// their percents, absent where there are none. Categories are those of these
	// flights, in the order flown.
	Entered    int           `json:"entered"`
	Mean       report.Number `json:"mean,omitzero"`
	Categories []string      `json:"categories"`
	// Aircraft are the same by aircraft, absent where all had the same.
	Aircraft []AircraftSum `json:"aircraft,omitempty"`
	// Beside is another season to stand beside this one, nil where there is none.
	Beside *Season `json:"beside,omitempty"`
	// Change is this season less the one beside, absent where no sequence was flown in both.
	Change *SeasonChange `json:"change,omitempty"`
	// Ahead are the contests that have not begun, Expires what runs out soon or
	// did, both from the day that stands for today; empty where the selection is of
	// a season that is over or of one contest.
	Ahead   []ContestAhead `json:"ahead"`
	Expires []Expiry       `json:"expires"`
	Limits  SeasonLimits   `json:"limits"`
}

// SeasonLimits are the thresholds that the season's sentences name: those of a
// trend, how many contests a move needs on each side, and how many days before
// something runs out it is said.
type SeasonLimits struct {
	TrendLimits
	MoveContests int `json:"moveContests"`
	ExpiryDays   int `json:"expiryDays"`
}

// MoveReason says why nothing is known of what a change of category did.
type MoveReason string

// MoveFewContests is a move with too few contests on a side.
const MoveFewContests MoveReason = "few-contests"

// CategoryTrend is the trend of one category.
type CategoryTrend struct {
	Category string `json:"category"`
	Trend
	// Line is absent where none may be drawn.
	Line *TrendLine `json:"line,omitempty"`
}

// LongTrend is a trend over several seasons, of flights in one category since a day,
// until another where more was flown later. First is the day of the first flight that is
// compared. Aircraft are those named by its flights where they differ; Unnamed are the
// flights that name none, all before or all after the others.
type LongTrend struct {
	Category string `json:"category"`
	Since    string `json:"since"`
	First    string `json:"first"`
	Until    string `json:"until,omitempty"`
	Seasons  int    `json:"seasons"`
	Aircraft int    `json:"aircraft,omitempty"`
	Unnamed  int    `json:"unnamed,omitempty"`
	Trend    Trend  `json:"trend"`
}

// SeasonChange is a season less the one beside on the sequences flown in both, in percent
// points between contest means; absent numbers where too few contests allow no range.
// Beyond says that it is more than chance gives; Reason why nothing could be.
type SeasonChange struct {
	Before     int           `json:"before"`
	After      int           `json:"after"`
	Change     report.Number `json:"change,omitzero"`
	Low        report.Number `json:"low,omitzero"`
	High       report.Number `json:"high,omitzero"`
	Confidence report.Number `json:"confidence,omitzero"`
	Beyond     bool          `json:"beyond,omitempty"`
	Reason     ChangeReason  `json:"reason,omitempty"`
	// OtherAircraft says that no aircraft was flown in both seasons, Unnamed that it is since
	// one of them names none.
	OtherAircraft bool `json:"otherAircraft,omitempty"`
	Unnamed       bool `json:"unnamed,omitempty"`
}

// ChangeReason says why a season cannot be told from the one beside.
type ChangeReason string

// ChangeFewContests are so few contests that no change, however large, could be told from
// chance.
const ChangeFewContests ChangeReason = "few-contests"

// TrendLine is a line through a category's flights, with the slope of their
// trend: the percent at its first day and at its last.
type TrendLine struct {
	First   string        `json:"first"`
	AtFirst report.Number `json:"atFirst"`
	Last    string        `json:"last"`
	AtLast  report.Number `json:"atLast"`
}

// Claimed reports whether the verdict claims the trend, so that pictures draw its
// line: one that chance may have drawn is not drawn.
func (t CategoryTrend) Claimed() bool {
	return t.Line != nil && (t.Word == Improving || t.Word == Declining)
}

// Turned are the ends of the line about the same middle that changes by so much
// from its first day to its last.
func (l TrendLine) Turned(change float64) (first, last float64) {
	middle := (l.AtFirst.Float64() + l.AtLast.Float64()) / 2
	return middle - change/2, middle + change/2
}

// Move is what a change of category did to the percent, in percent points
// between contest means; absent where too few contests can tell, with the reason.
type Move struct {
	From       string        `json:"from"`
	To         string        `json:"to"`
	Before     int           `json:"before"`
	After      int           `json:"after"`
	Change     report.Number `json:"change,omitzero"`
	Low        report.Number `json:"low,omitzero"`
	High       report.Number `json:"high,omitzero"`
	Confidence report.Number `json:"confidence,omitzero"`
	Reason     MoveReason    `json:"reason,omitempty"`
}

// SeasonLine is one flight of a season. ToWinner and ToMedian are points, own
// less the field's. Enters says that the flight enters the season's figures:
// that it counts, of a contest, and has a record.
type SeasonLine struct {
	Flight    string        `json:"flight"`
	Date      string        `json:"date"`
	Contest   string        `json:"contest,omitempty"`
	Category  string        `json:"category,omitempty"`
	Programme string        `json:"programme"`
	Sequence  string        `json:"sequence,omitempty"`
	Label     int           `json:"label"` // of several of a day and programme, from 1
	Points    report.Number `json:"points,omitzero"`
	Maximum   report.Number `json:"maximum,omitzero"`
	Percent   report.Number `json:"percent,omitzero"`
	Source    string        `json:"source,omitempty"`
	Place     int           `json:"place,omitempty"`
	Of        int           `json:"of,omitempty"`
	ToWinner  report.Number `json:"toWinner,omitzero"`
	ToMedian  report.Number `json:"toMedian,omitzero"`
	Noise     report.Number `json:"noise,omitzero"`
	// Difference is official less own points where they disagree.
	// DifferenceShown is that of the points as they are shown.
	Difference      report.Number `json:"difference,omitzero"`
	DifferenceShown report.Number `json:"differenceShown,omitzero"`
	// OtherMaximum is the sequence's maximum where the official total is out of another,
	// OfficialMaximum, and the percents differ.
	OtherMaximum    report.Number `json:"otherMaximum,omitzero"`
	OfficialMaximum report.Number `json:"officialMaximum,omitzero"`
	// MayBePercent says that the official total, typed as points, is likelier a percent.
	MayBePercent bool `json:"mayBePercent,omitempty"`
	Undecided    bool `json:"undecided,omitempty"`
	// Bare says that it has no marks, so that a zero in it could not be seen.
	Bare bool   `json:"bare,omitempty"`
	Void string `json:"void,omitempty"`

	ContestName string `json:"contestName,omitempty"`
	Aircraft    string `json:"aircraft,omitempty"`
	Enters      bool   `json:"enters"`

	// Zeros are the figures that were zeroed; Penalty is the points taken off.
	Zeros   []ZeroedFigure `json:"zeros,omitempty"`
	Penalty report.Number  `json:"penalty,omitzero"`
	// ZerosCost is what the zeros cost against the mean grade of the flight's other
	// figures, in points, ZerosPercent in percent of the flight's maximum.
	ZerosCost    report.Number `json:"zerosCost,omitzero"`
	ZerosPercent report.Number `json:"zerosPercent,omitzero"`
}

// ZeroedFigure is a figure that counts 0 as a matter of fact, with the points lost.
type ZeroedFigure struct {
	Figure int           `json:"figure"`
	Lost   report.Number `json:"lost"`
}

// Contest is one contest: the result as printed where it was typed, and
// the sum of the flights beside it.
type Contest struct {
	Contest  string        `json:"contest"`
	Date     string        `json:"date"`
	Category string        `json:"category,omitempty"`
	Points   report.Number `json:"points,omitzero"`
	Maximum  report.Number `json:"maximum,omitzero"`
	Percent  report.Number `json:"percent,omitzero"`
	Source   string        `json:"source,omitempty"`
	Place    int           `json:"place,omitempty"`
	Of       int           `json:"of,omitempty"`
	Flights  int           `json:"flights"`
	Sum      Record        `json:"sum"`
	Name     string        `json:"name"`
	// MaximumTyped says that the printed result's maximum was typed with it.
	MaximumTyped bool `json:"maximumTyped,omitempty"`
	// Parts are the flights by category, in the order flown, where they were of
	// several.
	Parts []ContestPart `json:"parts,omitempty"`
}

// ContestPart is the flights of one category in a contest, with their sum.
type ContestPart struct {
	Category string `json:"category"`
	Flights  int    `json:"flights"`
	Sum      Record `json:"sum"`
}

// SeasonOf is the season of the selection's pilot over the selected flights.
func SeasonOf(l *season.Ledger, s season.Selection) Season {
	return seasonOf(l, s, analysis.SeasonOf(l, s))
}

// seasonOf is the season of a selection of which these flights were flown.
func seasonOf(l *season.Ledger, s season.Selection, flown analysis.Flights) Season {
	d := Season{
		Pilot: s.Pilot.Handle, Season: s.Season, Flights: []SeasonLine{}, Contests: []Contest{}, Categories: []string{},
		Limits: SeasonLimits{trendLimitsOf(s), analysis.LeastMoveContests, analysis.ExpiryDays},
	}
	season.Together(
		func() { d.addTrends(l, s, flown) },
		func() { d.Level = seasonLevel(l, s) },
		func() {
			flown.CheckPanels()
			for _, line := range flown.Lines {
				d.Flights = append(d.Flights, seasonLine(line))
			}
		},
		func() {
			d.addSum(flown.Sum())
			for _, a := range flown.AircraftSums() {
				d.Aircraft = append(d.Aircraft, AircraftSum{a.Aircraft, a.Flights, report.Exact(a.Mean), listOf(a.Categories)})
			}
			d.Ahead, d.Expires = aheadOf(l, s)
			for _, c := range flown.Contests {
				d.Contests = append(d.Contests, contestOf(c))
			}
		},
	)
	if flown.Best >= 0 {
		d.Best, d.Worst = d.Flights[flown.Best].Flight, d.Flights[flown.Worst].Flight
	}
	return d
}

// SeasonBeside is the season of the selection with the year's beside it, chosen
// otherwise as the selection has it; by itself where nothing was flown in that year.
// The selection is of one season.
func SeasonBeside(l *season.Ledger, s season.Selection, year int) Season {
	seasons, of := [2]analysis.Flights{}, [2]Season{}
	season.SideBySide(len(of), func(i int) {
		s := s
		if i > 0 {
			s.Season = year
		}
		seasons[i] = analysis.SeasonOf(l, s)
		of[i] = seasonOf(l, s, seasons[i])
	})
	d, beside := of[0], of[1]
	if len(beside.Flights) > 0 {
		d.Beside, d.Change = &beside, changeBetween(seasons[1], seasons[0])
	}
	return d
}

// OneWholeSeason reports whether a selection is of one season and no part of it, which is
// what can stand beside another.
func OneWholeSeason(s season.Selection) bool {
	return s.Season != 0 && s.Since == 0 && s.Until == 0 && s.Contest == nil
}

// changeBetween is the change from one season to another, nil where they have no sequence
// in common.
func changeBetween(before, after analysis.Flights) *SeasonChange {
	c, ok := analysis.ChangeBetween(before, after)
	if !ok {
		return nil
	}
	d := &SeasonChange{Before: c.Before, After: c.After, Beyond: c.Beyond, OtherAircraft: c.OtherAircraft, Unnamed: c.Unnamed}
	if c.Undecidable {
		d.Reason = ChangeFewContests
	}
	if c.Known {
		d.Change, d.Low, d.High, d.Confidence = report.Float(c.Change), report.Float(c.Low), report.Float(c.High), report.Float(c.Confidence)
	}
	return d
}

// AircraftSum is the flights in one aircraft that enter the season's figures, how many
// and the mean of their percents, and their categories in the order flown; "" of those
// that name none.
type AircraftSum struct {
	Aircraft   string        `json:"aircraft"`
	Flights    int           `json:"flights"`
	Mean       report.Number `json:"mean,omitzero"`
	Categories []string      `json:"categories"`
}

// addSum adds what the flights come to that enter the season's figures.
func (d *Season) addSum(sum analysis.SeasonSum) {
	d.Entered, d.Mean, d.Categories = sum.Flights, report.Exact(sum.Mean), listOf(sum.Categories)
}

func contestOf(c analysis.ContestLine) Contest {
	d := Contest{
		Contest: c.Contest.Handle, Date: c.Contest.First.String(), Category: c.Category,
		Points: report.Exact(c.Result.Points), Maximum: report.Exact(c.Result.Maximum),
		Percent: report.Exact(c.Result.Percent), Source: string(c.Result.Source),
		Place: c.Rank, Of: c.Of, Flights: c.Flights, Sum: recordOf(c.Sum), Name: c.Contest.Name, MaximumTyped: c.MaximumTyped,
	}
	if len(c.Parts) > 1 {
		for _, part := range c.Parts {
			d.Parts = append(d.Parts, ContestPart{part.Category, part.Flights, recordOf(part.Sum)})
		}
	}
	return d
}

// addTrends adds the trend of each category and the step between them.
func (d *Season) addTrends(l *season.Ledger, chosen season.Selection, s analysis.Flights) {
	var trends []analysis.CategoryTrend
	var moves []analysis.Move
	season.Together(func() { trends = s.Trends() }, func() { moves = s.Moves() })
	d.Longer = longTrendOf(l, chosen, s, trends)
	for _, t := range trends {
		trend := CategoryTrend{Category: t.Category, Trend: trendOf(t.Trend, true)}
		if line, ok := s.TrendLine(t); ok {
			trend.Line = &TrendLine{line.First.String(), report.Float(line.AtFirst), line.Last.String(), report.Float(line.AtLast)}
		}
		d.Trends = append(d.Trends, trend)
	}
	for _, line := range s.Lines {
		i := slices.IndexFunc(d.Trends, func(t CategoryTrend) bool { return line.Enters() && t.Category == line.Flight.Category })
		if i >= 0 {
			d.Trend = &d.Trends[i].Trend
		}
	}
	for _, m := range moves {
		move := Move{From: m.From, To: m.To, Before: m.Before, After: m.After, Reason: MoveFewContests}
		if m.Known {
			move.Change, move.Low, move.High = report.Float(m.Change), report.Float(m.Low), report.Float(m.High)
			move.Confidence, move.Reason = report.Float(m.Confidence), ""
		}
		d.Moves = append(d.Moves, move)
	}
}

// longTrendOf is the trend over several seasons, nil where there is none to say.
func longTrendOf(l *season.Ledger, s season.Selection, flown analysis.Flights, trends []analysis.CategoryTrend) *LongTrend {
	long, ok := analysis.LongTrendOf(l, s, flown, trends)
	if !ok {
		return nil
	}
	d := &LongTrend{Category: long.Category, Since: long.Since.String(), First: long.First.String(), Seasons: analysis.LongSeasons, Trend: trendOf(long.Trend, true)}
	if long.Aircraft.Mixed() {
		d.Aircraft, d.Unnamed = long.Aircraft.Named, long.Aircraft.Unnamed
	}
	if long.Until != 0 {
		d.Until = long.Until.String()
	}
	return d
}

func seasonLine(line analysis.FlightLine) SeasonLine {
	f := line.Flight
	out := SeasonLine{
		Flight: f.Name, Date: f.Date.String(), Category: f.Category, Programme: string(f.Programme), Label: f.Label,
		Points: report.Exact(line.Record.Points), Maximum: report.Exact(line.Record.Maximum),
		Percent: report.Exact(line.Record.Percent), Source: string(line.Record.Source),
		Place: f.Rank, Of: f.Of, ToWinner: report.Exact(line.ToWinner), ToMedian: report.Exact(line.ToMedian),
		Undecided: f.HasMarks() && !f.Score().Decided(), Bare: !f.HasMarks(), Enters: line.Enters(), Aircraft: f.Aircraft,
	}
	out.MayBePercent = f.PercentDoubt() != season.NoPercentDoubt
	if gap := f.Disputed(); gap != nil {
		out.Difference = report.Exact(gap)
		out.DifferenceShown = lessShown(f, out.Difference)
	} else if state, why := analysis.OfficialOf(f); state == OfficialDiffers && why == OfficialMaximum {
		out.OtherMaximum, out.OfficialMaximum = report.Int(int64(f.Maximum())), report.Exact(f.Official.Maximum.Rat())
	}
	if noise := line.PanelNoise(); noise != nil {
		out.Noise = report.Float(*noise)
	}
	if f.Sequence != nil {
		out.Sequence = f.Sequence.Handle
	}
	if f.Contest != nil {
		out.Contest, out.ContestName = f.Contest.Handle, f.Contest.Name
	}
	if f.Void != nil {
		out.Void = *f.Void
	}
	for _, z := range analysis.ZeroedFigures(f) {
		out.Zeros = append(out.Zeros, ZeroedFigure{z.Figure, report.Exact(z.Lost)})
	}
	if points, percent, ok := analysis.ZerosCost(f); ok {
		out.ZerosCost, out.ZerosPercent = report.Float(points), report.Float(percent)
	}
	if len(f.Penalties) > 0 {
		out.Penalty = report.Exact(f.Score().Penalty)
	}
	return out
}
