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
		Hint: "change it there with an editor, then: boxbook check; an entry just made is taken back by: boxbook undo",
	}
}

// officialLines are what a printed result says of a flight.
var officialLines = []string{"official", "judge-totals", "place", "field"}

// videoKind is a video of a flight.
func videoKind() Kind {
	video := videoField()
	video.Optional = false
	return Kind{Name: "video", Short: "add a video to a flight", Fields: []Field{flightField(), video}, Write: func(s Scene) (Addition, error) {
		var lines []string
		for _, path := range allQuoted(s.Answers["video"]) {
			lines = append(lines, "video "+path)
		}
		return s.intoFlight("a video of ", lines...)
	}}
}
