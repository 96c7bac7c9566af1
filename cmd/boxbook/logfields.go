package main

import (
	"fmt"

	"boxbook/season"

	"github.com/spf13/cobra"
)

// answers are what was given for a form's fields, by flag or by being asked.
type answers map[string][]string

func (v answers) one(name string) string {
	if len(v[name]) == 0 {
		return ""
	}
	return v[name][0]
}

func (v answers) has(name string) bool { return len(v[name]) > 0 && v[name][0] != "" }

// behind is a field's answer behind a word of the language, "" where there is
// none.
func (v answers) behind(word, name string) string {
	if !v.has(name) {
		return ""
	}
	return word + " " + v.one(name)
}

// field is one thing that a form asks for.
type field struct {
	name     string // the flag
	asks     string // what to type
	optional bool
	repeat   bool
	words    bool // several words in one answer stay several
	propose  func(*season.Ledger) []string
	check    func(string) (answer, problem string) // nil: the ledger's own check is enough
}

// form is a kind of entry that is made of fields.
type form struct {
	kind, short string
	fields      []field
	build       func(*season.Ledger, answers) (entry, error)
}

func newLogForm(a *app, f form) *cobra.Command {
	values := map[string]*[]string{}
	cmd := &cobra.Command{
		Use: f.kind, Short: f.short, Args: arguments(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error { return a.runForm(f, values) },
	}
	for _, field := range f.fields {
		values[field.name] = textFlags(cmd.Flags(), field.name, fieldUsage(field))
	}
	return cmd
}

func fieldUsage(f field) string {
	usage := f.asks
	if f.repeat {
		usage += "; may be given several times"
	}
	return usage
}

// runForm takes the fields from flags, asks for what is missing, and records.
func (a *app) runForm(f form, flags map[string]*[]string) error {
	l, err := a.openOrEmpty()
	if err != nil {
		return err
	}
	given, err := f.given(flags)
	if err != nil {
		return err
	}
	p, err := a.ask()
	if err != nil {
		return err
	}
	if p != nil {
		err = f.fill(p, l, given)
		if closeErr := p.close(); err == nil {
			err = closeErr
		}
		if err != nil {
			return err
		}
	}
	if missing := f.missing(given); len(missing) > 0 {
		return missingFlags(missing, "boxbook log "+f.kind+" --help")
	}
	e, err := f.build(l, given)
	if err != nil {
		return err
	}
	return a.record(e)
}

// given are the fields that flags gave.
func (f form) given(flags map[string]*[]string) (answers, error) {
	given := answers{}
	for _, field := range f.fields {
		values := *flags[field.name]
		if len(values) > 1 && !field.repeat {
			return nil, &usageError{text: fmt.Sprintf("--%s is given %d times", field.name, len(values))}
		}
		if len(values) > 0 {
			given[field.name] = values
		}
		if field.check == nil {
			continue
		}
		for i, value := range values {
			answer, problem := field.check(value)
			if problem != "" {
				return nil, &usageError{text: "--" + field.name + ": " + problem}
			}
			values[i] = answer
		}
	}
	return given, nil
}

// missing names the fields that are needed and were not given.
func (f form) missing(given answers) []string {
	var names []string
	for _, field := range f.fields {
		if !field.optional && !given.has(field.name) {
			names = append(names, field.name)
		}
	}
	return names
}

// fill asks for the fields that no flag gave: all of them where one that is
// needed is missing, none where the flags were enough.
func (f form) fill(p *prompter, l *season.Ledger, given answers) error {
	if len(f.missing(given)) == 0 {
		return nil
	}
	for _, field := range f.fields {
		if given.has(field.name) {
			continue
		}
		values, err := p.askField(l, field)
		if err != nil {
			return err
		}
		given[field.name] = values
	}
	return nil
}

// askField asks for a form's field; an empty answer takes the only proposal.
func (p *prompter) askField(l *season.Ledger, f field) ([]string, error) {
	var known []string
	if f.propose != nil {
		known = f.propose(l)
	}
	var values []string
	for {
		text, err := p.read(fieldPrompt(f, known, len(values)), "")
		if err != nil {
			return nil, err
		}
		switch {
		case text == "" && len(known) == 1 && !f.optional && len(values) == 0:
			return known, nil
		case text == "" && (f.optional || len(values) > 0):
			return values, nil
		case text == "":
			p.say("  this is needed")
			continue
		}
		if f.check != nil {
			answer, problem := f.check(text)
			if problem != "" {
				p.say("  %s", problem)
				continue
			}
			text = answer
		}
		values = append(values, text)
		if !f.repeat {
			return values, nil
		}
	}
}

// fieldPrompt is a field's question with what the ledger proposes.
func fieldPrompt(f field, known []string, have int) string {
	text := f.asks
	switch {
	case f.repeat && have > 0:
		text += ", or Enter for no more"
	case f.optional:
		text += ", or Enter for none"
	case len(known) == 1:
		text += " [" + known[0] + "]"
	}
	if len(known) > 1 && have == 0 {
		text = listed(text, known)
	}
	return text + ": "
}
