package answers

import (
	"boxbook/season"
	"boxbook/season/analysis"
)

// ClubHome is what a treasurer should know first, of a ledger with the club's money and
// no flights: Year is the club's year that runs, or the latest with an entry where that
// has none; Counts are those of the year in which a pot was counted last.
type ClubHome struct {
	Year   Year     `json:"year"`
	Counts []InHand `json:"counts"`
}

// ClubHomeOf is a treasurer's home page, nil of a ledger that has flights, or no money of
// the club. The error is for books that do not add up, which is a fault of the program.
func ClubHomeOf(l *season.Ledger) (*ClubHome, error) {
	if !analysis.ClubAlone(l) {
		return nil, nil
	}
	year, err := YearOf(l, YearAtHand(l))
	if err != nil {
		return nil, err
	}
	d := &ClubHome{Year: year, Counts: year.Club.InHand}
	if day := analysis.LatestCount(l); day != 0 && l.YearOf(day) != year.Year {
		counted, err := YearOf(l, l.YearOf(day))
		if err != nil {
			return nil, err
		}
		d.Counts = counted.Club.InHand
	}
	return d, nil
}
