package entry

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/ledger"
)

// What is doubted, or refused, of an answer that belongs to another question.

// mostPilots is more than any contest has in one category, a house choice: a place beyond
// is asked about, never refused.
const mostPilots = 150

// notAPlace doubts a place of hundreds, which is probably the total.
func notAPlace(s Scene, answer string) string {
	words := strings.Fields(answer)
	if len(words) == 0 {
		return ""
	}
	last, err := strconv.Atoi(words[len(words)-1])
	if rank, errRank := strconv.Atoi(words[0]); err != nil || errRank != nil || max(rank, last) <= mostPilots {
		return ""
	}
	q := s.sequence()
	if f := s.result().flight; f != nil {
		q = f.Sequence
	}
	if q != nil && len(words) > 1 && last == q.Maximum() {
		return fmt.Sprintf("%d is the maximum of %s: %s would be the total, which is a question of its own", last, q.Handle, answer)
	}
	return fmt.Sprintf("%s is a place among hundreds: the total is a question of its own", answer)
}

// notTheirs refuses a place and the flight's own total where each judge's total is meant.
func notTheirs(s Scene, text string) string {
	answer, _ := placeOf(text)
	words := strings.Fields(answer)
	f := s.result().flight
	if len(words) == 3 && words[1] == "of" && isNumber(words[0]) && isNumber(words[2]) {
		asked := "which is asked for next"
		if f != nil && !s.result().open("place") {
			asked = fmt.Sprintf("and %s has its place", f.Name)
		}
		return fmt.Sprintf("%s is a place, %s; here each judge's total is meant", answer, asked)
	}
	total, _, _ := strings.Cut(s.One("official"), " ")
	if total == "" && f != nil && f.Official != nil {
		total = f.Official.Points.String()
	}
	judges := s.judgesOfResult()
	if len(judges) > 1 && len(words) == 1 && sameNumber(words[0], total) {
		return fmt.Sprintf("%s is the flight's total; here each judge's is meant, %d in the order of the panel", answer, len(judges))
	}
	return ""
}

// judgesOfResult are the judges whose totals are asked for.
func (s Scene) judgesOfResult() []string {
	if f := s.result().flight; f != nil {
		return f.Panel
	}
	return s.judges()
}

// aTotalEach are totals for as many judges as the flight has.
func aTotalEach(s Scene) string {
	return joined(slices.Repeat([]string{"596.0"}, max(1, len(s.judgesOfResult())))...)
}

// sameNumber reports whether two texts are one number, whatever its point and its zeros.
func sameNumber(one, other string) bool {
	a, first := scoring.ParseDecimal(strings.ReplaceAll(one, ",", "."))
	b, second := scoring.ParseDecimal(strings.ReplaceAll(other, ",", "."))
	return first && second && a.Cmp(b) == 0
}

// notAVideo doubts a path that is a place or totals: nothing but numbers.
func notAVideo(_ Scene, answer string) string {
	for _, word := range strings.Fields(answer) {
		if _, number := scoring.ParseDecimal(strings.ReplaceAll(word, ",", ".")); !number && word != "of" {
			return ""
		}
	}
	return fmt.Sprintf("%q has neither a folder nor an ending such as .mp4: the path of a file is meant", answer)
}

// notJudges doubts a panel with a programme's word among its names.
func notJudges(_ Scene, panel string) string {
	for _, word := range strings.Fields(panel) {
		if slices.Contains(season.Programmes, season.Programme(word)) {
			return fmt.Sprintf("%s is a programme's word: the judges' names are meant", word)
		}
	}
	return ""
}

// nearlyKnown stands in a doubt about judges whom nobody was called so far.
const nearlyKnown = "no judge was called so before"

// nearlyJudges doubts names of a panel that no judge had before and that are nearly those
// of judges of the contest, or of the flight before, whom the panel lacks.
func nearlyJudges(s Scene, panel string) string {
	named, usual := strings.Fields(panel), strings.Fields(cmp.Or(contestPanel(s), latestPanel(s)))
	known := judgesKnown(s.Ledger)
	meant := slices.Clone(named)
	var slips []string
	for i, name := range named {
		if known[name] || season.IsSeat(name) || name == missingJudges {
			continue
		}
		for at, other := range usual {
			samePlace := at == i && len(named) == len(usual)
			if !slices.Contains(meant, other) && !season.IsSeat(other) && ledger.NearlyJudge(name, other, samePlace) {
				slips, meant[i] = append(slips, name+" (nearly "+other+")"), other
				break
			}
		}
	}
	if len(slips) == 0 {
		return ""
	}
	return strings.Join(slips, ", ") + ": " + nearlyKnown + couldBe + joined(meant...)
}

// judgesKnown are the judges of all panels of a ledger.
func judgesKnown(l *season.Ledger) map[string]bool {
	known := map[string]bool{}
	for _, c := range l.Contests {
		for _, name := range c.Panel {
			known[name] = true
		}
	}
	for _, f := range l.Flights {
		for _, name := range slices.Concat(f.Panel, f.Missing) {
			known[name] = true
		}
	}
	return known
}

// panelMeant is the panel that such a doubt says to write, "" for none.
func panelMeant(problem string) string {
	_, panel, found := strings.Cut(problem, nearlyKnown+couldBe)
	if !found {
		return ""
	}
	return strings.TrimSuffix(panel, rightAgain)
}

// numberedJudges refuses a panel of numbers, and says how its judges could be called.
func numberedJudges(panel string) string {
	var called []string
	for _, word := range strings.Fields(panel) {
		switch {
		case isNumber(word):
			called = append(called, "J"+word)
		case word == missingJudges:
			called = append(called, word)
		default:
			return ""
		}
	}
	if len(called) == 0 {
		return ""
	}
	return "a judge's name begins with a letter" + couldBe + joined(called...)
}

// couldBe leads to an answer that can be taken as it stands.
const couldBe = "; write "

// pointInDoubt asks about a mark among others without their point that could be two, as
// an imported sheet is asked; "" where there is none. To type it with its point settles it.
func pointInDoubt(marks []string) string {
	var counted scoring.Tenths
	for _, mark := range marks {
		if value, ok := scoring.ParseDecimal(strings.ReplaceAll(mark, ",", ".")); ok {
			grade, _ := value.Rat().Float64()
			counted.Count(mark, grade, value.Places)
		}
	}
	for _, mark := range marks {
		if counted.InDoubt(mark) {
			tenth, whole := scoring.EitherGrade(mark)
			return fmt.Sprintf("%s among marks without their point: %s or %s? type it so", mark, tenth, whole)
		}
	}
	return ""
}
