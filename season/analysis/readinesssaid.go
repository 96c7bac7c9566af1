package analysis

import (
	"cmp"
	"slices"
	"strings"

	"boxbook/season"
)

// Said is what somebody said of a pilot on a day, in notes of reviews and remarks
// of sign-offs, which Signoff says it is, or the pilot in a flight's own.
type Said struct {
	Date    season.Date
	By      string
	Text    string
	Signoff bool
}

// saidOf are the latest words of each coach on a pilot within the policy's window, the
// latest first, then the pilot's own; noted are the latest notes of a review by those whose
// latest words are of a sign-off.
func (s *readinessState) saidOf() (said, noted []Said) {
	p := s.r.Pilot
	reviewed, signed := map[*season.Coach]Said{}, map[*season.Coach]Said{}
	say := func(latest map[*season.Coach]Said, by *season.Coach, said Said) {
		if by != nil && said.Text != "" && !isSelf(by, p) && s.within(said.Date) && said.Date >= latest[by].Date {
			said.By = by.Name
			latest[by] = said
		}
	}
	var own []Said
	for _, f := range s.every {
		for _, review := range f.Reviewed {
			say(reviewed, review.By, Said{Date: f.Date, Text: strings.Join(review.Notes, "; ")})
		}
		if len(f.Notes) > 0 && s.recent(f) {
			own = []Said{{Date: f.Date, By: p.Name, Text: strings.Join(f.Notes, "; ")}}
		}
	}
	for _, so := range s.l.Signoffs {
		if so.Pilot == p && s.l.Past(so.Date) {
			say(signed, so.By, Said{Date: so.Date, Text: so.Remark, Signoff: true})
		}
	}
	for _, by := range s.l.Coaches {
		note, reviews := reviewed[by]
		remark, signs := signed[by]
		switch {
		case signs && remark.Date >= note.Date:
			said = append(said, remark)
			if reviews {
				noted = append(noted, note)
			}
		case reviews:
			said = append(said, note)
		}
	}
	latestFirst := func(a, b Said) int { return cmp.Compare(b.Date, a.Date) }
	slices.SortStableFunc(said, latestFirst)
	slices.SortStableFunc(noted, latestFirst)
	return append(said, own...), noted
}
