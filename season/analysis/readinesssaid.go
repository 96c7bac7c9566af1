package analysis

import (
	"cmp"
	"slices"
	"strings"

	"boxbook/season"
)

// Said is what somebody said of a pilot on a day, in notes of reviews and remarks
// of sign-offs, or the pilot in a flight's own.
type Said struct {
	Date season.Date
	By   string
	Text string
}

// saidOf are the latest words of each coach on a pilot, the latest first, then
// the pilot's own.
func saidOf(l *season.Ledger, p *season.Pilot) []Said {
	var coaches []*season.Coach
	latest := map[*season.Coach]Said{}
	var own []Said
	say := func(by *season.Coach, on season.Date, texts ...string) {
		if text := strings.Join(texts, "; "); by != nil && text != "" && !isSelf(by, p) && on >= latest[by].Date {
			if !slices.Contains(coaches, by) {
				coaches = append(coaches, by)
			}
			latest[by] = Said{on, by.Name, text}
		}
	}
	for _, f := range l.Select(season.Selection{Pilot: p}) {
		for _, review := range f.Reviewed {
			say(review.By, f.Date, review.Notes...)
		}
		if len(f.Notes) > 0 {
			own = []Said{{f.Date, p.Name, strings.Join(f.Notes, "; ")}}
		}
	}
	for _, so := range l.Signoffs {
		if so.Pilot == p && l.Past(so.Date) {
			say(so.By, so.Date, so.Remark)
		}
	}
	said := make([]Said, 0, len(coaches)+1)
	for _, by := range coaches {
		said = append(said, latest[by])
	}
	slices.SortStableFunc(said, func(a, b Said) int { return cmp.Compare(b.Date, a.Date) })
	return append(said, own...)
}
