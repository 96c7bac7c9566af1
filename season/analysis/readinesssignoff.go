package analysis

import (
	"cmp"
	"slices"
	"strings"

	"boxbook/season"
	"boxbook/season/analysis/code"
)

// signoffGate asks for a sign-off for the category by somebody else than the
// pilot, within the window, after the day of the last low penalty of any flight.
// Every one that counts stands with its remark, a condition of it; where none
// does, the latest of each kind stands with why not. It closes no matter of
// safety. It is not asked where no next step is known.
func (s *readinessState) signoffGate(g *Gate) bool {
	if key, _ := s.r.Policy.Key("signoff"); !key.Yes || s.r.To == "" {
		return false
	}
	low := s.lastLow()
	var idle []Fact
	for _, so := range s.signoffs() {
		f := dated(code.SignedOff, so.By.Name, so.Date)
		f.Text = so.Remark
		why := s.idle(so, low)
		if why == "" {
			g.add(f)
			continue
		}
		f.Code = why
		if why == code.SignedElsewhere {
			f.Name = so.Category
		}
		if !slices.ContainsFunc(idle, func(other Fact) bool { return other.Code == why }) {
			idle = append(idle, f)
		}
	}
	g.State = stateOf(len(g.Facts) > 0)
	if g.State == code.NotMet {
		g.add(idle...)
		if low != nil {
			g.add(dated(code.LowPenalty, low.Name, low.Date))
		}
	}
	return true
}

// signoffs are the pilot's, the latest first.
func (s *readinessState) signoffs() []*season.Signoff {
	own := slices.DeleteFunc(slices.Clone(s.l.Signoffs), func(so *season.Signoff) bool {
		return so.Pilot != s.r.Pilot || !s.l.Past(so.Date)
	})
	slices.Reverse(own)
	slices.SortStableFunc(own, func(a, b *season.Signoff) int { return cmp.Compare(b.Date, a.Date) })
	return own
}

// idle says why a sign-off does not count, "" for one that does.
func (s *readinessState) idle(so *season.Signoff, low *season.Flight) code.Fact {
	switch {
	case so.Category != s.r.To:
		return code.SignedElsewhere
	case isSelf(so.By, s.r.Pilot):
		return code.SignedBySelf
	case !s.within(so.Date):
		return code.SignedLongAgo
	case low != nil && low.Date >= so.Date:
		return code.SignedBefore
	default:
		return ""
	}
}

// lastLow is the latest flight of any kind with a low penalty, nil where there is
// none.
func (s *readinessState) lastLow() *season.Flight {
	for _, f := range slices.Backward(s.every) {
		if lowsOf(f) > 0 {
			return f
		}
	}
	return nil
}

// isSelf reports whether a coach is the pilot: of one handle or of one name.
func isSelf(c *season.Coach, p *season.Pilot) bool {
	return c.Handle == p.Handle || strings.EqualFold(c.Name, p.Name)
}
