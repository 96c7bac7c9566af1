package sources

import (
	"fmt"
	"io/fs"
	"strings"
)

// Value is a line of a shipped definition that has a mark behind it: a price, a
// floor, a setting.
type Value struct {
	File, Block, Line string
	Mark              Mark
}

// Values reads the marked lines of ledger files, in the order of the files and
// of their lines. A category that has a floor, flies unknown programmes and meets
// two families is three values with a mark each. The error is for a line with another
// number of marks, or for a mark that is not well formed.
func Values(files fs.FS) ([]Value, error) {
	names, err := fs.Glob(files, "*.boxbook")
	if err != nil {
		return nil, err
	}
	var values []Value
	for _, name := range names {
		raw, err := fs.ReadFile(files, name)
		if err != nil {
			return nil, err
		}
		found, err := valuesOf(name, string(raw))
		if err != nil {
			return nil, err
		}
		values = append(values, found...)
	}
	return values, nil
}

func valuesOf(name, text string) ([]Value, error) {
	var values []Value
	block := ""
	for i, line := range strings.Split(text, "\n") {
		said, comment, _ := strings.Cut(line, "#")
		said = strings.Join(strings.Fields(said), " ")
		if said == "" {
			continue
		}
		if !strings.HasPrefix(line, " ") {
			block = said
		}
		marks, err := Marks(comment)
		if err != nil {
			return nil, fmt.Errorf("%s, line %d: %w", name, i+1, err)
		}
		if len(marks) == 0 {
			continue
		}
		parts := Parts(said)
		if len(marks) != len(parts) {
			return nil, fmt.Errorf("%s, line %d: %d marks for %d values", name, i+1, len(marks), len(parts))
		}
		for at, part := range parts {
			values = append(values, Value{File: name, Block: block, Line: part, Mark: marks[at]})
		}
	}
	return values, nil
}

// Parts are the values of a line, each with its own mark: a category's floor, its
// programmes with the first new family, and each further family; any other line is
// one.
func Parts(line string) []string {
	head, rest, flown := strings.Cut(line, " unknowns")
	words := strings.Fields(head)
	if !flown || len(words) < 2 || words[0] != "category" {
		return []string{line}
	}
	category := words[0] + " " + words[1]
	var parts []string
	if head != category {
		parts = append(parts, head)
	}
	families := strings.Fields(rest) // "new", and the families
	first := min(len(families), 2)
	parts = append(parts, strings.Join(append([]string{category, "unknowns"}, families[:first]...), " "))
	for _, family := range families[first:] {
		parts = append(parts, category+" new "+family)
	}
	return parts
}
