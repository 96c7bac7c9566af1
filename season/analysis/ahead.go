package analysis

import (
	"cmp"
	"slices"

	"boxbook/season"
)

// ExpiryDays is how many days before something runs out a page begins to say so.
const ExpiryDays = 60

// Ahead is what comes up for a pilot, from the ledger's AsOf.
type Ahead struct {
	Category string // the one flown last in a contest, "" where none was
	Contests []ContestAhead
	Expires  []ExpiryAhead
}

// ContestAhead is a contest that has not begun. Days are those to its first day,
// EntryDays those to the last day for entries, below 0 where it is over; they say
// nothing where the contest names no such day. Sequence is the one to be flown
// there in the pilot's category, nil where it is not typed.
type ContestAhead struct {
	Contest         *season.Contest
	Days, EntryDays int
	Sequence        *season.Sequence
}

// ExpiryAhead is something that runs out within ExpiryDays, or did: Days are then
// below 0.
type ExpiryAhead struct {
	season.Expiry
	Days int
}

// AheadOf lists the contests by date, and what expires by date.
func AheadOf(l *season.Ledger, p *season.Pilot) Ahead {
	if l.AsOf == 0 {
		return Ahead{}
	}
	out := Ahead{Category: categoryOf(l, p)}
	for _, c := range l.Contests {
		if c.First > l.AsOf {
			out.Contests = append(out.Contests, ContestAhead{c, int(c.First - l.AsOf), int(c.EnterBy - l.AsOf), sequenceFor(l, c, out.Category)})
		}
	}
	slices.SortStableFunc(out.Contests, func(a, b ContestAhead) int { return cmp.Compare(a.Days, b.Days) })
	for _, e := range p.Expires {
		if days := int(e.Date - l.AsOf); days <= ExpiryDays {
			out.Expires = append(out.Expires, ExpiryAhead{e, days})
		}
	}
	slices.SortStableFunc(out.Expires, func(a, b ExpiryAhead) int { return cmp.Compare(a.Days, b.Days) })
	return out
}

// categoryOf is the category that a pilot flew last in a contest.
func categoryOf(l *season.Ledger, p *season.Pilot) string {
	for _, f := range slices.Backward(l.Select(season.Selection{Pilot: p})) {
		if f.Counts() && f.Contested() && f.Category != "" {
			return f.Category
		}
	}
	return ""
}

// sequenceFor is the latest sequence typed that a category can fly at a contest
// ahead: its known one, which no contest of an earlier season than the contest's
// has used up. One that says so comes before one that says nothing.
func sequenceFor(l *season.Ledger, c *season.Contest, category string) *season.Sequence {
	var unsaid *season.Sequence
	for _, seq := range slices.Backward(l.Sequences) {
		switch {
		case category == "" || seq.Category != category || !mayBeKnown(l, seq),
			usedBefore(l, seq, l.SeasonStart.Season(c.First)), firstFlownAfter(l, seq, c.First):
		case seq.Programme == season.Known:
			return seq
		case unsaid == nil:
			unsaid = seq
		}
	}
	return unsaid
}

// mayBeKnown reports whether a sequence is a known one: it says so, or says nothing
// and was flown as that, or not at all. What was flown in practice alone may be
// anything.
func mayBeKnown(l *season.Ledger, seq *season.Sequence) bool {
	if seq.Programme != "" {
		return seq.Programme == season.Known
	}
	flown := false
	for _, f := range l.Flights {
		if f.Sequence == seq {
			flown = true
			if f.Programme == season.Known {
				return true
			}
		}
	}
	return !flown
}

// firstFlownAfter reports whether a sequence was flown in contests, and first after a
// day: on the day that counts as today, before both, it was not known.
func firstFlownAfter(l *season.Ledger, seq *season.Sequence, day season.Date) bool {
	for _, f := range l.Flights {
		if f.Sequence == seq && f.Contested() {
			return f.Date > day
		}
	}
	return false
}

// usedBefore reports whether a sequence was flown in a contest of an earlier
// season.
func usedBefore(l *season.Ledger, seq *season.Sequence, before int) bool {
	return slices.ContainsFunc(l.Select(season.Selection{}), func(f *season.Flight) bool {
		return f.Sequence == seq && f.Contested() && l.SeasonStart.Season(f.Date) < before
	})
}
