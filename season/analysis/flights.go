package analysis

import (
	"math/big"
	"slices"

	"boxbook/season"
)

// Flights is the answer to "how did the season go": a line a flight, a line a
// contest. Practice and void flights are listed and enter no figure.
type Flights struct {
	Pilot    *season.Pilot
	Season   int // 0 where the selection is no single season
	Lines    []FlightLine
	Contests []ContestLine
	// Best and Worst are indexes into Lines by percent of the record, -1 where
	// no flight has one.
	Best, Worst int
}

// FlightLine is one flight of a season. ToWinner and ToMedian are the record's
// points less the winner's and less the median of the field; nil where the
// field is not known well enough.
type FlightLine struct {
	Flight   *season.Flight
	Record   season.Record
	ToWinner *big.Rat
	ToMedian *big.Rat
}

// Enters reports whether the flight enters the season's figures.
func (f FlightLine) Enters() bool {
	return f.Flight.Counts() && f.Flight.Contested() && f.Record.Percent != nil
}

// ContestLine is one contest of a pilot: the result as printed where it was
// typed, and the sum of the flights' records beside it. Nil where not known.
type ContestLine struct {
	Contest  *season.Contest
	Category string
	Flights  int
	Result   season.Record // printed where typed, else the sum
	// MaximumTyped says that the printed result's maximum was typed with it.
	MaximumTyped bool
	Sum          season.Record
	Rank, Of     int
	// Parts are the flights by category, in the order flown.
	Parts []ContestPart
}

// ContestPart is a pilot's flights of one category in a contest.
type ContestPart struct {
	Category string
	Flights  int
	Sum      season.Record
}

// SeasonOf answers for the selected flights; the selection names a pilot.
func SeasonOf(l *season.Ledger, s season.Selection) Flights {
	l = l.KnownTo(s)
	out := Flights{Pilot: s.Pilot, Season: s.Season, Best: -1, Worst: -1}
	for _, f := range l.Select(s) {
		line := FlightLine{Flight: f, Record: f.Record()}
		if f.Void != nil {
			line.Record = season.Record{}
		}
		field, _ := FieldOf(f)
		line.ToWinner, line.ToMedian = field.ToWinner, field.ToMedian
		out.Lines = append(out.Lines, line)
	}
	out.extremes()
	out.Contests = contestLines(l, s, out.Lines)
	return out
}

// extremes finds the best and the worst flight.
func (o *Flights) extremes() {
	for i, line := range o.Lines {
		if !line.Enters() {
			continue
		}
		if o.Best < 0 || line.Record.Percent.Cmp(o.Lines[o.Best].Record.Percent) > 0 {
			o.Best = i
		}
		if o.Worst < 0 || line.Record.Percent.Cmp(o.Lines[o.Worst].Record.Percent) < 0 {
			o.Worst = i
		}
	}
}

// contestLines lists the contests of the selection: those with flights of the
// pilot, and those with a typed result alone, by first day.
func contestLines(l *season.Ledger, s season.Selection, lines []FlightLine) []ContestLine {
	var out []ContestLine
	for _, c := range l.Contests {
		if line, ok := contestLine(l, s, c, lines); ok {
			out = append(out, line)
		}
	}
	slices.SortStableFunc(out, func(a, b ContestLine) int { return int(a.Contest.First) - int(b.Contest.First) })
	return out
}

// contestLine is one contest; it reports false where the selection has nothing
// of it.
func contestLine(l *season.Ledger, s season.Selection, c *season.Contest, lines []FlightLine) (ContestLine, bool) {
	line := ContestLine{Contest: c}
	var records []season.Record
	for _, f := range lines {
		if f.Flight.Contest == c && f.Flight.Counts() && f.Flight.Contested() {
			records = append(records, f.Record)
			line.Category = f.Flight.Category
		}
	}
	line.Parts = contestParts(c, lines)
	line.Flights, line.Sum = len(records), sumOfRecords(records)
	line.Result = line.Sum
	typed := printedResult(l, s, c, &line)
	return line, line.Flights > 0 || typed
}

// contestParts are the flights of a contest by category.
func contestParts(c *season.Contest, lines []FlightLine) []ContestPart {
	var parts []ContestPart
	records := map[string][]season.Record{}
	for _, f := range lines {
		if f.Flight.Contest != c || !f.Flight.Counts() || !f.Flight.Contested() {
			continue
		}
		category := f.Flight.Category
		if records[category] == nil {
			parts = append(parts, ContestPart{Category: category})
		}
		records[category] = append(records[category], f.Record)
	}
	for i, part := range parts {
		parts[i].Flights, parts[i].Sum = len(records[part.Category]), sumOfRecords(records[part.Category])
	}
	return parts
}

// sumOfRecords adds records up; it is not known where one of them is not, or
// where there is none.
func sumOfRecords(records []season.Record) season.Record {
	if len(records) == 0 {
		return season.Record{}
	}
	sum := season.Record{Points: new(big.Rat), Maximum: new(big.Rat), Source: season.Computed}
	for _, r := range records {
		if r.Points == nil || r.Maximum == nil {
			return season.Record{}
		}
		sum.Points.Add(sum.Points, r.Points)
		sum.Maximum.Add(sum.Maximum, r.Maximum)
	}
	return withPercent(sum)
}

// printedResult lays the result as printed over the sum. It reports whether
// there is one that the selection may show without flights. It is known from
// the contest's last day on.
func printedResult(l *season.Ledger, s season.Selection, c *season.Contest, line *ContestLine) bool {
	i := slices.IndexFunc(c.Results, func(r season.Result) bool { return r.Pilot == s.Pilot })
	if i < 0 || !l.Past(c.Last) {
		return false
	}
	r := c.Results[i]
	line.Rank, line.Of = r.Rank, r.Of
	if r.Points != nil {
		line.MaximumTyped = r.Maximum != nil
		line.Result = withPercent(season.Record{Points: r.Points.Rat(), Maximum: resultMaximum(l, r, c), Source: season.Printed})
	}
	return l.ShowsResults(s, c)
}

// resultMaximum is what a printed result is out of: the maximum as typed, else
// that of all flights of the pilot in the contest, selected or not. A result
// above it has flights that the ledger lacks: nil, as where a part is not known.
func resultMaximum(l *season.Ledger, r season.Result, c *season.Contest) *big.Rat {
	if r.Maximum != nil {
		return r.Maximum.Rat()
	}
	var records []season.Record
	for _, f := range l.Select(season.Selection{Pilot: r.Pilot, Contest: c}) {
		if f.Counts() && f.Contested() {
			records = append(records, f.Record())
		}
	}
	maximum := sumOfRecords(records).Maximum
	if maximum == nil || r.Points.Rat().Cmp(maximum) > 0 {
		return nil
	}
	return maximum
}

// withPercent adds 100 x points / maximum where both are known.
func withPercent(r season.Record) season.Record {
	if r.Points != nil && r.Maximum != nil && r.Maximum.Sign() > 0 {
		r.Percent = new(big.Rat).Quo(r.Points, r.Maximum)
		r.Percent.Mul(r.Percent, big.NewRat(100, 1))
	}
	return r
}
