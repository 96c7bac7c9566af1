package main

import (
	"strings"

	"github.com/spf13/pflag"
)

// texts is a flag that may be given several times; the help says TEXT, not a
// type of the programming language.
type texts struct{ values *[]string }

func (t texts) String() string { return strings.Join(*t.values, ", ") }

func (t texts) Set(value string) error {
	*t.values = append(*t.values, value)
	return nil
}

// Type is the word that the help page shows behind the flag.
func (t texts) Type() string { return "TEXT" }

// textFlags defines a flag that may be given several times.
func textFlags(flags *pflag.FlagSet, name, usage string) *[]string {
	values := &[]string{}
	flags.Var(texts{values}, name, usage)
	return values
}

// flagValue is a flag and what it gave.
type flagValue struct{ name, value string }

// withoutValue names the flags that gave nothing.
func withoutValue(flags []flagValue) []string {
	var names []string
	for _, f := range flags {
		if f.value == "" {
			names = append(names, f.name)
		}
	}
	return names
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
