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
// of their lines. The error is for a line with more than one mark, or for a mark
// that is not well formed.
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
		switch {
		case err != nil:
			return nil, fmt.Errorf("%s, line %d: %w", name, i+1, err)
		case len(marks) > 1:
			return nil, fmt.Errorf("%s, line %d: more than one mark", name, i+1)
		case len(marks) == 1:
			values = append(values, Value{File: name, Block: block, Line: said, Mark: marks[0]})
		}
	}
	return values, nil
}
