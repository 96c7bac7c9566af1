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
// of their lines. A category that has a floor and flies unknown programmes is two
// values with a mark each. The error is for any other line with more than one mark,
// or for a mark that is not well formed.
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

// Parts are the values of a line, each with its own mark: a category's floor, and
// its programmes and families; any other line is one.
func Parts(line string) []string {
	floor, rest, both := strings.Cut(line, " unknowns")
	head := strings.Fields(floor)
	if !both || len(head) != 4 || head[0] != "category" || head[2] != "floor" {
		return []string{line}
	}
	return []string{floor, head[0] + " " + head[1] + " unknowns" + rest}
}
