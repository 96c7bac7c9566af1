package calibration

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
)

// Long is how many seasons a cell takes in the long form.
func (c Cell) Long() int {
	if c.Heavy {
		return 400
	}
	return 1000
}

// kept is a cell's tally as it is kept between runs.
type kept struct {
	Cell    string
	Seasons int
	Tally   Tally
}

// Kept reads the tallies that a run kept in a file, by cell and seasons; none
// where there is no file. A line that a stopped run left half written is passed
// over.
func Kept(path string) (map[string]Tally, error) {
	list := map[string]Tally{}
	file, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return list, nil
	}
	if err != nil {
		return nil, err
	}
	defer file.Close()
	lines := bufio.NewScanner(file)
	for lines.Scan() {
		var k kept
		if json.Unmarshal(lines.Bytes(), &k) == nil {
			list[keyOf(k.Cell, k.Seasons)] = k.Tally
		}
	}
	return list, lines.Err()
}

func keyOf(id string, seasons int) string { return fmt.Sprintf("%s, %d", id, seasons) }

// Keep adds a cell's tally to the file.
func Keep(path string, c Cell, seasons int, t Tally) error {
	text, err := json.Marshal(kept{c.ID(), seasons, t})
	if err != nil {
		return err
	}
	file, err := os.OpenFile(path, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(file, "\n%s\n", text)
	return errors.Join(err, file.Close())
}

// Resume runs a cell, or takes what was kept of it.
func (c Cell) Resume(p Program, seasons int, path string, done map[string]Tally) (Tally, error) {
	if t, ok := done[keyOf(c.ID(), seasons)]; ok {
		return t, nil
	}
	t := c.Run(p, seasons)
	return t, Keep(path, c, seasons, t)
}

// Write writes findings as a table in Markdown, a group a table; a figure over its
// limit is bold.
func Write(w io.Writer, findings []Finding) {
	group := ""
	for _, f := range findings {
		if f.Cell.Group != group {
			group = f.Cell.Group
			fmt.Fprintf(w, "\n| %s | measured | figure | standard error | limit | seasons |\n|---|---|---|---|---|---|\n", group)
		}
		mark := ""
		if f.Over {
			mark = "**"
		}
		fmt.Fprintf(w, "| %s | %s | %s%s%s | %s | %s | %d |\n", f.Cell.Name, f.Limit.What, mark, f.figure(), mark, f.errorText(), f.Limit, f.Count.Of)
	}
}

func (f Finding) errorText() string {
	switch {
	case f.Count.Of == 0:
		return ""
	case f.Limit.Ratio:
		return fmt.Sprintf("%.3f", f.Count.Error())
	}
	return fmt.Sprintf("%.1f", 100*f.Count.Error())
}
