package commands

import (
	"strings"

	"boxbook/cmd/boxbook/internal/entry"
	"boxbook/season"
)

// answerFlag is a flag that answers a field of an entry; it may be given
// several times. The help says what goes there, not a type of the programming
// language.
type answerFlag struct {
	answers entry.Answers
	field   entry.Field
}

func (f answerFlag) String() string { return strings.Join(f.answers[f.field.Name], ", ") }

func (f answerFlag) Set(value string) error {
	values := append(f.answers[f.field.Name], value)
	if f.field.List { // one answer, however often the flag is given
		values = []string{strings.Join(values, " ")}
	}
	f.answers[f.field.Name] = values
	return nil
}

// Type is the word that the help page shows behind the flag.
func (f answerFlag) Type() string {
	if f.field.Holds != "" {
		return f.field.Holds
	}
	if word := answerWords[f.field.Name]; word != "" {
		return word
	}
	if _, ok := season.ParseDate(f.field.Example); ok {
		return "DATE"
	}
	return "TEXT"
}

// answerWords are what stands behind the flags of fields that take neither a date
// nor free text.
var answerWords = map[string]string{
	"aircraft": "TEXT", "amount": "AMOUNT", "as": "WHICH", "at": "TIME", "by": "WHO", "catalogue": "WORD", "category": "CATEGORY",
	"contest": "CONTEST", "dates": "DAYS", "drill": "DRILL", "each": "yes|no", "fault": "FAULT", "field": "TOTALS", "figure": "FIGURE",
	"flight": "FLIGHT", "for": "WHO", "from": "WHO", "groups": "GROUPS", "handle": "WORD", "harmony": "K", "income": "yes|no",
	"judge-totals": "TOTALS", "kind": "KIND", "ladder": "LADDER", "number": "N", "official": "TOTAL", "on": "CODE", "panel": "JUDGES",
	"penalty": "PENALTY", "pilot": "PILOT", "place": "PLACE", "positioning": "K", "pot": "WORD", "programme": "PROGRAMME",
	"prompted-by": "FLIGHT", "rate": "RATE", "receipt": "NUMBER", "resolve": "RULING", "role": "ROLE", "row": "MARKS", "rules": "RULES",
	"sequence": "SEQUENCE", "sessions": "N", "sheet": "MARKS", "target": "TARGET", "to": "WHO", "to-club": "yes|no", "total": "K",
	"video": "PATH", "what": "WORD", "who": "WHO", "year": "YEAR",
}

// oneText is a flag that is given once.
type oneText struct{ value *string }

func (t oneText) String() string { return *t.value }

func (t oneText) Set(value string) error {
	*t.value = value
	return nil
}

// Type is the word that the help page shows behind the flag.
func (t oneText) Type() string { return "TEXT" }
