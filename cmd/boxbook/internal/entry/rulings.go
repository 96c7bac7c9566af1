package entry

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/scoring"
	"boxbook/season"
)

// Rulings of the chief judge: what waits for one, and what a ruling on another line meets.

// undecidedSaid names the lines that wait for a ruling, of the marks typed so far or of the
// flight that was named.
func undecidedSaid(s Scene) string {
	var names []string
	for _, key := range s.waiting() {
		names = append(names, lineName(key))
	}
	if len(names) == 0 {
		return ""
	}
	return "  undecided: " + strings.Join(names, ", ")
}

// rulingShown is a ruling on the first line that waits for one.
func rulingShown(s Scene) string {
	if keys := s.waiting(); len(keys) > 0 {
		return keys[0] + " zero"
	}
	return ""
}

// waiting are the lines that wait for a ruling, as a ruling begins.
func (s Scene) waiting() (keys []string) {
	for _, r := range s.undecided() {
		keys = append(keys, strings.TrimPrefix(r.Name(), "figure "))
	}
	for _, line := range halfZeros(s) {
		key, _, _ := strings.Cut(line, ":")
		keys = append(keys, key)
	}
	return keys
}

// rulesWhatWaits refuses a ruling on a line of the flight that does not wait for one. What
// names no line is for the reader to judge.
func rulesWhatWaits(f *season.Flight, rulings []string) error {
	names := namesOf(f.Undecided(), season.Ruling.Name)
	for _, ruling := range rulings {
		key, _, _ := strings.Cut(strings.TrimSpace(ruling), " ")
		name := lineName(key)
		if !isSheetLine(key) || slices.Contains(names, name) {
			continue
		}
		if refusal := decidedAlready(f, name); refusal != nil {
			return refusal
		}
		if len(names) > 0 {
			return &Refusal{Text: fmt.Sprintf("nothing is undecided on %s of %s, but on %s", name, f.Name, strings.Join(names, ", "))}
		}
	}
	if len(names) == 0 {
		return &Refusal{Text: fmt.Sprintf("nothing is undecided in %s: a ruling would have no effect", f.Name)}
	}
	return nil
}

// decidedAlready refuses a ruling on a line that has one, or that its hard zeros decide,
// and says what is typed instead; nil where it has none of these.
func decidedAlready(f *season.Flight, name string) *Refusal {
	for _, r := range f.Rulings {
		if r.Name() == name {
			return &Refusal{
				Text: fmt.Sprintf("%s has a ruling on %s already, %s, at %s:%d", f.Name, name, rulingWord(r.Decision), f.At.File, r.At+1),
				Hint: changeThere,
			}
		}
	}
	var figure int
	if _, err := fmt.Sscanf(name, "figure %d", &figure); err != nil {
		return nil // no weighted line has a hard zero
	}
	vote := scoring.VoteOn(f.MarksOf(scoring.Figure, figure))
	there := fmt.Sprintf(" in its row, in the flight at %s:%d", f.At.File, f.At.Line)
	switch {
	case vote.Confirmed:
		return &Refusal{
			Text: fmt.Sprintf("%s of %s is 0 already: the jury confirmed a hard zero, CHZ", name, f.Name),
			Hint: "where it was not confirmed, change CHZ to HZ" + there,
		}
	case vote.Hard == 0 || f.Style.HardZero == scoring.AsGiven:
		return nil
	case vote.Side == scoring.Majority:
		return &Refusal{
			Text: fmt.Sprintf("%s of %s is 0: %d of the %d judges who gave a mark gave a hard zero, and a ruling is for exactly half", name, f.Name, vote.Hard, vote.Given),
			Hint: "where the jury overturned them, change each HZ to AV" + there + ": it is then filled with the mean of the others",
		}
	case vote.Side == scoring.Minority:
		return &Refusal{
			Text: fmt.Sprintf("%s of %s is filled: %d of the %d judges who gave a mark gave a hard zero, and a ruling is for exactly half", name, f.Name, vote.Hard, vote.Given),
			Hint: "where the jury confirmed the zero, change HZ to CHZ" + there + ": the figure is then 0 from every judge",
		}
	default:
		return nil
	}
}

// rulingWord is a decision as the ledger types it.
func rulingWord(decision scoring.Decision) string {
	if decision == scoring.RuledFill {
		return "fill"
	}
	return "zero"
}
