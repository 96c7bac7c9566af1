package answers

import (
	"boxbook/season"
	"boxbook/season/analysis"
)

// ContestAhead is a contest that has not begun. Days are those to its first day,
// EntryDays those to EntryDay, the last one for entries, below 0 where it is over;
// both are absent where the contest names none. Sequence is the one typed for it
// in Category, the pilot's; each is absent where there is none.
type ContestAhead struct {
	Contest   string `json:"contest"`
	Name      string `json:"name"`
	Date      string `json:"date"`
	Days      int    `json:"days"`
	EntryDay  string `json:"entryDay,omitempty"`
	EntryDays *int   `json:"entryDays,omitempty"`
	Category  string `json:"category,omitempty"`
	Sequence  string `json:"sequence,omitempty"`
}

// Expiry is something of a pilot's that runs out in so many Days, below 0 where
// it did.
type Expiry struct {
	What   string `json:"what"`
	Date   string `json:"date"`
	Days   int    `json:"days"`
	Remark string `json:"remark,omitempty"`
}

// ofNow reports whether a selection is about the present: the latest season flown
// or a later one.
func ofNow(l *season.Ledger, s season.Selection) bool {
	return s.Contest == nil && (s.Season == 0 || s.Season >= l.LatestSeason(season.Selection{Pilot: s.Pilot}))
}

func aheadOf(l *season.Ledger, s season.Selection) ([]ContestAhead, []Expiry) {
	l = l.KnownTo(s)
	if !ofNow(l, s) {
		return []ContestAhead{}, []Expiry{}
	}
	return aheadIn(analysis.AheadOf(l, s.Pilot))
}

// aheadIn are the contests ahead and what runs out.
func aheadIn(ahead analysis.Ahead) ([]ContestAhead, []Expiry) {
	contests, expires := []ContestAhead{}, []Expiry{}
	for _, c := range ahead.Contests {
		line := ContestAhead{Contest: c.Contest.Handle, Name: c.Contest.Name, Date: c.Contest.First.String(), Days: c.Days, Category: ahead.Category}
		if c.Contest.EnterBy != 0 {
			line.EntryDay, line.EntryDays = c.Contest.EnterBy.String(), &c.EntryDays
		}
		if c.Sequence != nil {
			line.Sequence = c.Sequence.Handle
		}
		contests = append(contests, line)
	}
	for _, e := range ahead.Expires {
		expires = append(expires, Expiry{e.What, e.Date.String(), e.Days, e.Remark})
	}
	return contests, expires
}
