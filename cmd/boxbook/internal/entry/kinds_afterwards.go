package entry

import (
	"fmt"
	"slices"
)

// What joins a flight that is there, when it comes to hand.

// officialKind is the printed result of a flight.
func officialKind() Kind {
	fields := []Field{flightField()}
	for _, f := range resultFields() {
		if slices.Contains(officialLines, f.Name) {
			f.When, f.Optional = nil, f.Name != "official"
			fields = append(fields, f)
		}
	}
	return Kind{Name: "official", Short: "add the printed result to a flight", Fields: fields, Write: func(s Scene) (Addition, error) {
		if err := s.printedAlready(); err != nil {
			return Addition{}, err
		}
		var lines []string
		for _, name := range officialLines {
			if s.Has(name) {
				lines = append(lines, s.Behind(name, name))
			}
		}
		return s.intoFlight("the printed result of ", lines...)
	}}
}

// printedAlready refuses a second official total, and says where the flight stands.
func (s Scene) printedAlready() error {
	f, err := s.Flight(s.One("flight"))
	if err != nil || f.Official == nil || !s.Has("official") {
		return nil // else the reader says what is wrong
	}
	return &Refusal{
		Text: fmt.Sprintf("%s has an official total already, %s, in the flight at %s:%d", f.Name, f.Official.Points, f.At.File, f.At.Line),
		Hint: "change it there with an editor, then: boxbook check\nboxbook undo takes back all that the last command wrote, not this line alone",
	}
}

// officialLines are what a printed result says of a flight.
var officialLines = []string{"official", "judge-totals", "place", "field"}

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
	return Kind{Name: field.Name, Short: short, Fields: []Field{flightField(), field}, Write: func(s Scene) (Addition, error) {
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
