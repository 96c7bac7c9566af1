// Package sources holds the list of what boxbook's facts, prices and check
// values rest on, and reads the marks by which code, data, tests and help pages
// cite it:
//
//	[published: baea-rules-2, angles]
//	[derived, a house choice: baea-rules-2, roll rate]
//	[memory]
//
// A mark has one of the four [Words], says "a house choice" where it is one, and
// names sources by key and place; `;` stands between two.
package sources

import (
	_ "embed"
	"fmt"
	"strings"
)

//go:embed sources.txt
var text string

// Source is something that was read, or a program that was run.
type Source struct {
	Key, Group, Title, By, Edition, Date, Address string
	// Seen says how much of it was seen.
	Seen   string
	Places []Place
}

// Place is a section, a page or a passage of a source, and what stands there.
type Place struct{ Section, Says string }

// Has reports whether the source has a place of that name.
func (s Source) Has(section string) bool {
	for _, p := range s.Places {
		if p.Section == section {
			return true
		}
	}
	return false
}

// List is the shipped list, in its order: the sources of a group stand together.
func List() ([]Source, error) { return Read(text) }

// Find gives the source of a key.
func Find(list []Source, key string) (Source, bool) {
	for _, s := range list {
		if s.Key == key {
			return s, true
		}
	}
	return Source{}, false
}

// Read reads a list of sources. The error names the line that is no part of one,
// a key that stands twice, or a source that lacks a field.
func Read(text string) ([]Source, error) {
	var list []Source
	group := ""
	for i, line := range strings.Split(text, "\n") {
		name, value, ok := strings.Cut(line, ": ")
		switch {
		case line == "" || strings.HasPrefix(line, "#"):
			continue
		case !ok:
			return nil, fmt.Errorf("sources, line %d: %q is no field", i+1, line)
		case name == "group":
			group = value
			continue
		case name == "key":
			list = append(list, Source{Key: value, Group: group})
			continue
		case len(list) == 0:
			return nil, fmt.Errorf("sources, line %d: no key before %q", i+1, name)
		}
		if !list[len(list)-1].set(name, value) {
			return nil, fmt.Errorf("sources, line %d: no field is called %q, or it stands twice", i+1, name)
		}
	}
	return list, complete(list)
}

// fields are those of one line each.
func (s *Source) fields() map[string]*string {
	return map[string]*string{
		"title": &s.Title, "by": &s.By, "edition": &s.Edition, "date": &s.Date, "address": &s.Address, "seen": &s.Seen,
	}
}

// set fills a field, and reports false for one that is not known or was filled.
func (s *Source) set(name, value string) bool {
	if name == "at" {
		section, says, ok := strings.Cut(value, " | ")
		if !ok || section == "" || s.Has(section) {
			return false
		}
		s.Places = append(s.Places, Place{section, says})
		return true
	}
	field := s.fields()[name]
	if field == nil || *field != "" {
		return false
	}
	*field = value
	return true
}

// complete looks for a key that stands twice and a field that is missing.
func complete(list []Source) error {
	keys := map[string]bool{}
	for _, s := range list {
		if keys[s.Key] {
			return fmt.Errorf("source %s stands twice", s.Key)
		}
		keys[s.Key] = true
		if s.Group == "" || len(s.Places) == 0 {
			return fmt.Errorf("source %s has no group or no place", s.Key)
		}
		for _, field := range s.fields() {
			if *field == "" {
				return fmt.Errorf("source %s lacks a field", s.Key)
			}
		}
	}
	return nil
}
