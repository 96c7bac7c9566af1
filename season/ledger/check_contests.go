package ledger

import (
	"slices"
	"strings"

	"boxbook/season"
)

// SplitDays is within how many days of the last one of a contest another one begins that
// may be a part of it: the next day, or with one day without flying between them.
const SplitDays = 2

// checkSplit warns of two contests of one pilot on adjoining days with the very same panel
// of named judges, which may be one contest typed as two. Two with results or sites of
// their own are two.
func (r *reader) checkSplit() {
	last := map[string]*season.Contest{}
	var later, earlier []*season.Contest
	for _, c := range byFirstDay(r.out.Contests) {
		key, ok := panelKey(c.Panel)
		if !ok {
			continue
		}
		before := last[key]
		last[key] = c
		if before != nil && c.First-before.Last <= SplitDays && mayBeOne(before, c) {
			later, earlier = append(later, c), append(earlier, before)
		}
	}
	if len(later) == 0 {
		return
	}
	pilots := r.contestPilots(append(slices.Clone(later), earlier...))
	for i, c := range later {
		both := func(p *season.Pilot) bool { return slices.Contains(pilots[earlier[i]], p) }
		if b := r.contestBlock(c); b != nil && slices.ContainsFunc(pilots[c], both) {
			r.at(b.f, b.headToken(1), contestSplit, c.Handle, earlier[i].Handle, lineText(earlier[i].At, b.f))
		}
	}
}

// byFirstDay are contests in the order of their first days.
func byFirstDay(contests []*season.Contest) []*season.Contest {
	sorted := slices.Clone(contests)
	slices.SortStableFunc(sorted, func(a, b *season.Contest) int { return int(a.First - b.First) })
	return sorted
}

// panelKey is what two panels of the same judges share, in whatever order; ok is false
// where a name is a seat, which says nothing of the person, and of a single judge.
func panelKey(panel []string) (key string, ok bool) {
	if len(panel) < 2 || slices.ContainsFunc(panel, season.IsSeat) {
		return "", false
	}
	sorted := slices.Sorted(slices.Values(panel))
	return strings.Join(sorted, " "), true
}

// mayBeOne reports whether nothing typed says that two contests are two.
func mayBeOne(a, b *season.Contest) bool {
	sites := a.Site != "" && b.Site != "" && a.Site != b.Site
	return !sites && (len(a.Results) == 0 || len(b.Results) == 0)
}

// contestPilots are who flew in some contests.
func (r *reader) contestPilots(contests []*season.Contest) map[*season.Contest][]*season.Pilot {
	flown := map[*season.Contest][]*season.Pilot{}
	for _, c := range contests {
		flown[c] = nil
	}
	for _, fl := range r.names.flights.list {
		if fl.Contest == nil || fl.Pilot == nil {
			continue
		}
		if pilots, asked := flown[fl.Contest]; asked && !slices.Contains(pilots, fl.Pilot) {
			flown[fl.Contest] = append(pilots, fl.Pilot)
		}
	}
	return flown
}

// contestBlock is the block that a contest stands in.
func (r *reader) contestBlock(c *season.Contest) *block {
	for _, b := range r.blocks["contest"] {
		if place(b.f, b.head) == c.At {
			return b
		}
	}
	return nil
}
