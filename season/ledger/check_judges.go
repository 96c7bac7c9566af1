package ledger

import (
	"slices"
	"strings"

	"boxbook/season"
)

// checkJudges warns of a judge of a flight's own panel whose name is that of a judge of its
// contest whom the flight lacks, nearly, and who judged nothing else: one of the two is
// mistyped. The contest's judges are those of its panel, or where it has none, of all its
// other flights. A note of the flight that names the judge says that there are two.
func (r *reader) checkJudges() {
	var judged map[string]int
	warn := func(fl *season.Flight, name, other, of string) {
		if judged == nil {
			judged = r.timesJudged()
		}
		if judged[name] == 1 && !noteNames(fl.Notes, name) {
			b := r.blockAt(fl.At)
			r.at(b.f, b.headToken(0), judgeAlmost, name, other, of, fl.Contest.Handle).hinted(messages[judgeAlmost].hint, name)
		}
	}
	own := map[*season.Contest][]*season.Flight{}
	for _, fl := range r.names.flights.list {
		switch {
		case fl.Contest == nil || r.broken[fl] || len(fl.Panel) == 0:
		case len(fl.Contest.Panel) == 0:
			own[fl.Contest] = append(own[fl.Contest], fl)
		case len(fl.Panel) == len(fl.Contest.Panel) && !slices.Equal(fl.Panel, fl.Contest.Panel):
			if name, other := mistypedOf(fl, fl.Contest.Panel); name != "" {
				warn(fl, name, other, "the panel")
			}
		}
	}
	for _, c := range r.out.Contests {
		for i, fl := range own[c] {
			if name, other := mistypedAmong(own[c], i); name != "" {
				warn(fl, name, other, "the other flights")
			}
		}
	}
}

// mistypedOf is a judge of a flight who is nearly one of its usual judges whom it lacks,
// and that one; "" where there is none.
func mistypedOf(fl *season.Flight, usual []string) (name, other string) {
	for _, name := range fl.Panel {
		if season.IsSeat(name) || slices.Contains(usual, name) {
			continue
		}
		for _, other := range usual {
			if !season.IsSeat(other) && !slices.Contains(fl.Panel, other) && !slices.Contains(fl.Missing, other) && mistypedJudge(name, other) {
				return name, other
			}
		}
	}
	return "", ""
}

// mistypedAmong is such a judge of one of a contest's flights that all have their own
// panel: the others all have the judge whose name is meant, and no other judge who is not
// this flight's. Of two flights it is the later one's.
func mistypedAmong(flights []*season.Flight, i int) (name, other string) {
	fl := flights[i]
	first := 0
	if i == 0 {
		first = 1
	}
	if len(flights) < 2 || len(flights) == 2 && i == 0 {
		return "", ""
	}
	if name, other = mistypedOf(fl, flights[first].Panel); name == "" {
		return "", ""
	}
	for at, f := range flights {
		strange := func(judge string) bool { return judge != other && !slices.Contains(fl.Panel, judge) }
		if at != i && (len(f.Panel) != len(fl.Panel) || !slices.Contains(f.Panel, other) || slices.ContainsFunc(f.Panel, strange)) {
			return "", ""
		}
	}
	return name, other
}

// noteNames reports whether one of some notes has a judge's name as a word.
func noteNames(notes []string, judge string) bool {
	return slices.ContainsFunc(notes, func(note string) bool {
		words := strings.FieldsFunc(note, func(c rune) bool { return !season.IsHandle("x" + string(c)) })
		return slices.Contains(words, judge)
	})
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

// NearlyJudge reports whether two names are one, mistyped, or may be: a letter is another,
// or more in names of three and up. Of two letters one is another judge, unless it is at
// the same place.
func NearlyJudge(name, other string, samePlace bool) bool {
	a, b := []rune(strings.ToLower(name)), []rune(strings.ToLower(other))
	switch {
	case mistypedJudge(name, other):
		return true
	case len(a) != len(b):
		return len(a) > 2 && len(b) > 2 && Nearest(name, []string{other}) != ""
	default:
		return len(lettersApart(a, b)) == 1 && (len(a) > 2 || samePlace)
	}
}

// changedLetter is how many letters a judge's name has at least of which one may be
// mistyped; those of fewer are the initials of somebody else.
const changedLetter = 4

// mistypedJudge reports whether two names differ in capitals alone, by a letter more or
// less, by two letters swapped, or where they are no initials by one that is another.
func mistypedJudge(name, other string) bool {
	a, b := []rune(strings.ToLower(name)), []rune(strings.ToLower(other))
	if len(a) > len(b) {
		a, b = b, a
	}
	if len(a) != len(b) {
		return len(a) > 1 && len(b) == len(a)+1 && oneMore(a, b)
	}
	switch apart := lettersApart(a, b); len(apart) {
	case 0:
		return true
	case 1:
		return len(a) >= changedLetter
	case 2:
		return apart[1] == apart[0]+1 && a[apart[0]] == b[apart[1]] && a[apart[1]] == b[apart[0]]
	default:
		return false
	}
}

// oneMore reports whether a name is another with one letter put in.
func oneMore(name, longer []rune) bool {
	for i := range longer {
		if slices.Equal(name[:i], longer[:i]) && slices.Equal(name[i:], longer[i+1:]) {
			return true
		}
	}
	return false
}

// lettersApart are the places at which two names of one length differ.
func lettersApart(a, b []rune) []int {
	var apart []int
	for i := range a {
		if a[i] != b[i] {
			apart = append(apart, i)
		}
	}
	return apart
}
