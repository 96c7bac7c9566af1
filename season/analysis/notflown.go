package analysis

import (
	"slices"

	"boxbook/season"
)

// NotFlownGroup is a group that a pilot does not fly, with the reason as it was
// typed, "" where none was.
type NotFlownGroup struct{ Group, Reason string }

// NotFlownOf are the groups that a pilot does not fly, of those that fit.
func NotFlownOf(p *season.Pilot, fits func(group string) bool) []NotFlownGroup {
	var found []NotFlownGroup
	for _, group := range season.Groups {
		if flies, reason := p.Flies(group); !flies && fits(group) {
			found = append(found, NotFlownGroup{group, reason})
		}
	}
	return found
}

// setApart names the groups of the sequence that the pilot does not fly, and
// takes them out of what was never seen.
func (o *ForecastAnswer) setApart(p *season.Pilot) {
	o.NotFlown = NotFlownOf(p, func(group string) bool { return sequenceHas(o.Sequence, group) })
	o.Unseen = slices.DeleteFunc(o.Unseen, func(group string) bool { flies, _ := p.Flies(group); return !flies })
}
