package analysis

import (
	"boxbook/season"
	"boxbook/season/stats"
)

// SeasonChange is a season less another on the sequences flown in both, between contest
// means in percent points, with an interval over all ways to deal the contests out to the
// two. Beyond says that it is more than chance gives, at [FirmFlight]. It is not known
// where so few contests allow no interval at [TrendConfidence]; Undecidable says that they
// are too few for any change, however large, to be beyond.
type SeasonChange struct {
	Before, After int // contests
	Change        float64
	Low, High     float64
	Confidence    float64
	Known, Beyond bool
	Undecidable   bool
	// OtherAircraft says that no aircraft was flown in both; Unnamed that it is since the
	// flights of one name none.
	OtherAircraft, Unnamed bool
}

// ChangeBetween compares two seasons of a pilot; false where they have no sequence in
// common. Each flight is taken against the mean of its sequence over both seasons.
func ChangeBetween(before, after Flights) (SeasonChange, bool) {
	sides := [2][]TrendPoint{before.entered(), after.entered()}
	sums, counts := map[string]float64{}, [2]map[string]int{{}, {}}
	for i, points := range sides {
		for _, p := range points {
			sums[p.Stratum] += p.Value
			counts[i][p.Stratum]++
		}
	}
	var means [2][]float64
	var compared [2][]*season.Flight
	for i, points := range sides {
		run := categoryRun{}
		for _, p := range points {
			if counts[0][p.Stratum] > 0 && counts[1][p.Stratum] > 0 {
				p.Value -= sums[p.Stratum] / float64(counts[0][p.Stratum]+counts[1][p.Stratum])
				run.points = append(run.points, p)
			}
		}
		means[i] = run.contestPercents()
		for _, line := range []Flights{before, after}[i].Lines {
			if both := Stratum(line.Flight); line.Enters() && counts[0][both] > 0 && counts[1][both] > 0 {
				compared[i] = append(compared[i], line.Flight)
			}
		}
	}
	c := SeasonChange{Before: len(means[0]), After: len(means[1])}
	c.OtherAircraft, c.Unnamed = otherAircraft(compared[0], compared[1])
	if c.Before == 0 || c.After == 0 {
		return c, false
	}
	firm, err := stats.TwoSampleShift(means[1], means[0], 1-FirmFlight)
	c.Undecidable = err == nil && firm.Confidence < 1-FirmFlight
	decided := err == nil && !c.Undecidable
	shift, err := stats.TwoSampleShift(means[1], means[0], TrendConfidence)
	if err != nil || shift.Confidence < TrendConfidence {
		return c, true
	}
	c.Known = true
	c.Change = average(means[1]) - average(means[0])
	c.Low, c.High, c.Confidence = shift.Interval.Low, shift.Interval.High, shift.Confidence
	c.Beyond = decided && (firm.Interval.Low > 0 || firm.Interval.High < 0)
	return c, true
}

// entered are the percents of all flights that enter.
func (o Flights) entered() []TrendPoint {
	var points []TrendPoint
	for _, line := range o.Lines {
		if line.Enters() {
			points = append(points, line.point())
		}
	}
	return points
}
