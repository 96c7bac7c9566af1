package sheetimport

import (
	"math"
	"strconv"
	"strings"
	"unicode"

	"boxbook/scoring"
)

// number reads what a cell holds as a number, whatever the language of the
// program that wrote it: 1 291,50, 1,291.50, 75,1 %. decimals are those that it
// shows.
func number(c Cell) (value float64, decimals int, ok bool) {
	if c.Kind != Text && c.Kind != Number {
		return 0, 0, false
	}
	text := strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || r == '%' || r == '\'' || r == '’' {
			return -1
		}
		return r
	}, plain(c.Text))
	point, comma := strings.LastIndexByte(text, '.'), strings.LastIndexByte(text, ',')
	switch {
	case point >= 0 && comma > point:
		text = strings.ReplaceAll(strings.ReplaceAll(text, ".", ""), ",", ".")
	case point >= 0 && comma >= 0:
		text = strings.ReplaceAll(text, ",", "")
	default:
		text = strings.ReplaceAll(text, ",", ".")
	}
	if strings.Trim(text, "0123456789.") != "" || text == "" {
		return 0, 0, false
	}
	if _, fraction, found := strings.Cut(text, "."); found {
		decimals = len(fraction)
	}
	value, err := strconv.ParseFloat(text, 64)
	return value, decimals, err == nil && value < 1e9
}

// mayBeGrade reports whether a number could stand for a grade: half points to
// 10, or the same without the point.
func mayBeGrade(value float64) bool {
	halves := value * 2
	if value <= 10 {
		return halves == math.Trunc(halves)
	}
	return value <= 100 && math.Mod(value, 5) == 0
}

// counted is what a mark counts on a sheet that an office added up as it
// stands: a grade, and 0 for a zero. It is not known of what has no number.
func (e Entry) counted() (float64, bool) {
	if !e.Read {
		return 0, false
	}
	return float64(e.Mark.Half) / 2, e.Mark.Kind == scoring.Grade || e.Mark.FigureOnly()
}
