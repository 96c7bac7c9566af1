package main

import (
	"strings"

	"boxbook/cmd/boxbook/internal/entry"
)

// answerFlag is a flag that answers a field of an entry; it may be given
// several times. The help says TEXT, not a type of the programming language.
type answerFlag struct {
	answers entry.Answers
	name    string
}

func (f answerFlag) String() string { return strings.Join(f.answers[f.name], ", ") }

func (f answerFlag) Set(value string) error {
	f.answers[f.name] = append(f.answers[f.name], value)
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
