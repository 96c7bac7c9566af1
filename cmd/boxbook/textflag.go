package main

import (
	"strings"

	"boxbook/cmd/boxbook/internal/entry"
)

// answerFlag is a flag that answers a field of an entry; it may be given
// several times. The help says TEXT, not a type of the programming language.
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
func (f answerFlag) Type() string { return "TEXT" }

// oneText is a flag that is given once.
type oneText struct{ value *string }

func (t oneText) String() string { return *t.value }

func (t oneText) Set(value string) error {
	*t.value = value
	return nil
}

// Type is the word that the help page shows behind the flag.
func (t oneText) Type() string { return "TEXT" }
