package ledger

import (
	"slices"
	"strings"

	"boxbook/season"
)

// checkJudges warns of a judge of a flight's own panel whose name is nearly that of a
// judge of its contest whom the flight lacks, and who judged nothing else: one of the
// two is mistyped.
func (r *reader) checkJudges() {
	var judged map[string]int
	for _, fl := range r.names.flights.list {
		if fl.Contest == nil || r.broken[fl] || len(fl.Panel) != len(fl.Contest.Panel) || slices.Equal(fl.Panel, fl.Contest.Panel) {
			continue
		}
		name, other := r.nearlyOfContest(fl)
		if name == "" {
			continue
		}
		if judged == nil {
			judged = r.timesJudged()
		}
		if judged[name] == 1 {
			b := r.blockAt(fl.At)
			r.at(b.f, b.headToken(0), judgeAlmost, name, other, fl.Contest.Handle)
		}
	}
}

// nearlyOfContest is a judge of a flight who is nearly one of its contest whom it lacks,
// and that one; "" where there is none.
func (r *reader) nearlyOfContest(fl *season.Flight) (name, other string) {
	usual := fl.Contest.Panel
	for i, name := range fl.Panel {
		if season.IsSeat(name) || slices.Contains(usual, name) {
			continue
		}
		for at, other := range usual {
			if !season.IsSeat(other) && !slices.Contains(fl.Panel, other) && !slices.Contains(fl.Missing, other) && NearlyJudge(name, other, at == i) {
				return name, other
			}
		}
	}
	return "", ""
}

// timesJudged counts the flights and the contests' panels that a judge is named in.
func (r *reader) timesJudged() map[string]int {
	judged := map[string]int{}
	for _, c := range r.out.Contests {
		for _, name := range c.Panel {
			judged[name]++
		}
	}
	for _, fl := range r.names.flights.list {
		if fl.Contest != nil && slices.Equal(fl.Panel, fl.Contest.Panel) {
			continue
		}
		for _, name := range slices.Concat(fl.Panel, fl.Missing) {
			judged[name]++
		}
	}
	return judged
}

// NearlyJudge reports whether two names differ in capitals alone, by two letters swapped
// or by one; of two letters one is another judge, unless it is at the same place.
func NearlyJudge(name, other string, samePlace bool) bool {
	a, b := []rune(strings.ToLower(name)), []rune(strings.ToLower(other))
	if len(a) != len(b) {
		return len(a) > 2 && len(b) > 2 && Nearest(name, []string{other}) != ""
	}
	var apart []int
	for i := range a {
		if a[i] != b[i] {
			apart = append(apart, i)
		}
	}
	switch len(apart) {
	case 0:
		return true
	case 1:
		return len(a) > 2 || samePlace
	case 2:
		return apart[1] == apart[0]+1 && a[apart[0]] == b[apart[1]] && a[apart[1]] == b[apart[0]]
	default:
		return false
	}
}
