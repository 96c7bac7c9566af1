package entry

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/scoring"
	"boxbook/season"
)

// What joins a flight that is there, when it comes to hand.

// officialKind is the printed result of a flight, or what a flight still lacks of it.
func officialKind() Kind {
	fields := []Field{targetFlight()}
	for _, f := range resultFields() {
		if f.Name == "resolve" {
			f.When = func(s Scene) bool { return len(s.undecided()) > 0 }
			f.NeededIf = func(s Scene) bool {
				return !slices.ContainsFunc(officialLines, s.result().open)
			}
			fields = append(fields, f)
		}
		if n := slices.Index(officialLines, f.Name); n >= 0 {
			f.Optional, f.When = true, func(s Scene) bool { return s.result().open(f.Name) }
			f.NeededIf, f.Needed = func(s Scene) bool { return s.resultNeeded(n) }, Scene.nothingOfResult
			f.Intro = func(s Scene) string { return s.result().completed(f.Name) }
			f.Shown = func(s Scene) string { return s.result().whole(f.Name) }
			fields = append(fields, f)
		}
	}
	k := Kind{Name: "official", Short: "add the printed result, or a ruling, to a flight", Fields: fields, Long: officialLong}
	k.Write = func(s Scene) (Addition, error) { return s.addResult(&k) }
	return k
}

const officialLong = `Add the printed result to a flight. A total or a place that stands there without
its "of" is completed by the same number: --official "1890.25 of 2450". Where
half the judges gave a hard zero, --resolve "1 zero" or --resolve "1 fill" adds
the chief judge's ruling.`

// officialLines are what a printed result says of a flight.
var officialLines = []string{"official", "judge-totals", "place", "field"}

// printedResult is what a flight has of its printed result; of no flight, nothing.
type printedResult struct{ flight *season.Flight }

// result is that of the flight that was named.
func (s Scene) result() printedResult {
	if s.host == nil || !s.Has("flight") {
		return printedResult{}
	}
	f, err := s.Flight(s.One("flight"))
	if err != nil {
		return printedResult{} // the reader says what is wrong
	}
	return printedResult{f}
}

// has is the number that a line begins with, "" where the flight lacks the line; whole
// says that nothing can be added to it.
func (r printedResult) has(line string) (number string, whole bool) {
	switch f := r.flight; {
	case f == nil:
	case line == "official" && f.Official != nil:
		return f.Official.Points.String(), f.Official.Typed
	case line == "place" && f.Rank > 0:
		return fmt.Sprint(f.Rank), f.Of > 0
	case line == "judge-totals" && len(f.JudgeTotals) > 0:
		return f.JudgeTotals[0].String(), true
	case line == "field" && len(f.Field) > 0:
		return f.Field[0].String(), true
	}
	return "", false
}

// lacks reports whether there is something to say of a line.
func (r printedResult) lacks(line string) bool {
	_, whole := r.has(line)
	return !whole
}

// open reports whether a line is asked for: a total whose maximum is that of the flight's
// sequence lacks nothing, and without a panel no judge has a total.
func (r printedResult) open(line string) bool {
	if line == "judge-totals" && r.flight != nil && len(r.flight.Panel) == 0 {
		return false
	}
	number, whole := r.has(line)
	return !whole && !(line == "official" && number != "" && r.flight.Sequence != nil)
}

// behindOf is what stands behind the "of" of a line.
var behindOf = map[string]string{"official": "MAXIMUM", "place": "PILOTS"}

// whole is how a line that stands there is completed, "" where the flight lacks it.
func (r printedResult) whole(line string) string {
	number, whole := r.has(line)
	if number == "" || whole {
		return ""
	}
	return number + " of " + behindOf[line]
}

// completed says what stands there of a line and how it is completed, "" for nothing.
func (r printedResult) completed(line string) string {
	whole := r.whole(line)
	if whole == "" {
		return ""
	}
	number, _ := r.has(line)
	return fmt.Sprintf("  %s %s stands there; `%s` completes it", line, number, whole)
}

// undecided are the lines of the named flight that wait for a ruling.
func (s Scene) undecided() []season.Ruling {
	if f := s.result().flight; f != nil {
		return f.Undecided()
	}
	return nil
}

// resultNeeded reports whether the n-th line of a result must be had: the last that is
// asked for, where nothing was said before.
func (s Scene) resultNeeded(n int) bool {
	if s.Has("resolve") || slices.ContainsFunc(officialLines[n+1:], s.Given.Has) || slices.ContainsFunc(officialLines[:n], s.Has) {
		return false
	}
	return !slices.ContainsFunc(officialLines[n+1:], s.result().open)
}

// nothingOfResult says that one line of those that are asked for must be had.
func (s Scene) nothingOfResult() string {
	if s.result().flight == nil {
		return ""
	}
	asked := slices.DeleteFunc(slices.Clone(officialLines), func(line string) bool { return !s.result().open(line) })
	if len(asked) < 2 {
		return ""
	}
	return fmt.Sprintf("nothing is said yet: one of them is needed; `back %s` goes to the first", asked[0])
}

// addResult adds what was said of a printed result, and completes what stands there.
func (s Scene) addResult(k *Kind) (Addition, error) {
	var lines, completes, former []string
	said := "the printed result of "
	if rulings := s.Answers["resolve"]; len(rulings) > 0 {
		f, err := s.Flight(s.One("flight"))
		if err != nil {
			return Addition{}, err
		}
		if err := rulesWhatWaits(f, rulings); err != nil {
			return Addition{}, err
		}
		for _, ruling := range rulings {
			lines = append(lines, "resolve "+ruling)
		}
		if !slices.ContainsFunc(officialLines, s.Has) {
			said = "a ruling of "
		}
	}
	for _, name := range officialLines {
		if !s.Has(name) {
			continue
		}
		number, whole := s.result().has(name)
		switch {
		case number == "":
			lines = append(lines, s.Behind(name, name))
		case !whole && completesNumber(number, s.One(name)):
			had := name + " " + number
			completes, former = append(completes, joined(had, joined(strings.Fields(s.One(name))[1:]...))), append(former, had)
		default:
			return Addition{}, s.printedAlready(name, number, whole)
		}
	}
	if len(lines)+len(completes) == 0 {
		return Addition{}, s.nothingPrinted(k)
	}
	add, err := s.intoFlight(said, lines...)
	if err != nil || len(completes) == 0 {
		return add, err
	}
	instead := "in place of " + strings.Join(former, ", ")
	add.Completes = completes
	add.Brief = add.showing(append(slices.Clone(completes), lines...)) + "\n\n" + instead
	add.Said += fmt.Sprintf(" (%s %s)", strings.Join(completes, ", "), instead)
	return add, nil
}

// completesNumber reports whether an answer is the same number with more behind it.
func completesNumber(number, answer string) bool {
	words := strings.Fields(answer)
	if len(words) < 2 || words[1] != "of" {
		return false
	}
	typed, ok := scoring.ParseDecimal(strings.ReplaceAll(words[0], ",", "."))
	had, _ := scoring.ParseDecimal(number)
	return ok && typed.Cmp(had) == 0
}

// changeThere says how to change a line that an entry cannot.
const changeThere = "change it there with an editor, then: boxbook check\nboxbook undo takes back all that the last command wrote, not this line alone"

// printedAlready refuses a line that the flight has, and says where it stands.
func (s Scene) printedAlready(name, number string, whole bool) error {
	f, called := s.result().flight, map[string]string{
		"official": "an official total already, " + number, "place": "a place already, " + number,
		"judge-totals": "the judges' totals already", "field": "the field's totals already",
	}
	refusal := &Refusal{
		Text: fmt.Sprintf("%s has %s, in the flight at %s:%d", f.Name, called[name], f.At.File, f.At.Line),
		Hint: changeThere,
	}
	if !whole {
		refusal.Text += fmt.Sprintf("; `%s of %s` completes it", number, behindOf[name])
	}
	return refusal
}

// nothingPrinted says that nothing was given, or that nothing is lacking.
func (s Scene) nothingPrinted(k *Kind) error {
	r := s.result()
	lacking := slices.DeleteFunc(slices.Clone(officialLines), func(line string) bool { return !r.lacks(line) })
	switch {
	case r.flight == nil:
		return k.refuse([]string{"official"})
	case len(s.undecided()) > 0:
		return &Refusal{Text: fmt.Sprintf("nothing is given to add; %s lacks: --%s", r.flight.Name, strings.Join(append([]string{"resolve"}, lacking...), ", --"))}
	case len(lacking) == 0:
		return &Refusal{Text: fmt.Sprintf("%s has its whole printed result already, in the flight at %s:%d", r.flight.Name, r.flight.At.File, r.flight.At.Line)}
	default:
		return &Refusal{Text: fmt.Sprintf("nothing is given to add; %s lacks: --%s", r.flight.Name, strings.Join(lacking, ", --"))}
	}
}

// videoKind, penaltyKind and noteKind are what comes to hand when a flight is in.
func videoKind() Kind {
	return joining(videoField(), "add a video to a flight", "a video of ")
}

func penaltyKind() Kind {
	return joining(penaltyField(), "add a penalty to a flight", "a penalty of ")
}

func noteKind() Kind {
	k := joining(noteField(), "add a pilot's note to a flight", "a note on ")
	k.Long = noteLong
	return k
}

const noteLong = `Add a pilot's note to a flight: a flight's own notes name no author. A coach's
note is one of a review: boxbook log review --by COACH --note TEXT.`

// joining is a kind that adds lines of one field to a flight.
func joining(field Field, short, says string) Kind {
	field.Optional = false
	return Kind{Name: field.Name, Short: short, Fields: []Field{targetFlight(), field}, Write: func(s Scene) (Addition, error) {
		texts := s.Answers[field.Name]
		if field.Shape == Text {
			texts = allQuoted(texts)
		}
		var lines []string
		for _, text := range texts {
			lines = append(lines, field.Name+" "+text)
		}
		return s.intoFlight(says, lines...)
	}}
}
