package commands

import (
	"errors"
	"strconv"

	"github.com/spf13/pflag"
)

// yearFlag is a flag that names a year; 0 where it is not given.
type yearFlag struct{ year *int }

var _ pflag.Value = yearFlag{}

// errNoYear says that a flag's value is no year.
var errNoYear = errors.New("it is not a year")

func (f yearFlag) String() string {
	if f.year == nil || *f.year == 0 {
		return ""
	}
	return strconv.Itoa(*f.year)
}

// Set takes the years that a date can have.
func (f yearFlag) Set(text string) error {
	year, ok := readYear(text)
	if !ok {
		return errNoYear
	}
	*f.year = year
	return nil
}

// Type is the word that the help page shows behind the flag.
func (f yearFlag) Type() string { return "YEAR" }

// readYear reads a year as it stands in a date, of four digits.
func readYear(text string) (year int, ok bool) {
	n, err := strconv.ParseUint(text, 10, 16)
	return int(n), err == nil && len(text) == 4 && n > 0
}
