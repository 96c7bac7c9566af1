package season

import (
	"strconv"
	"time"
)

// Date is a day of the Gregorian calendar, counted from 1970-01-01 (day 0).
// The difference of two dates is a number of days.
type Date int32

const secondsPerDay = 24 * 60 * 60

// DateOf makes the date of year, month 1..12 and day 1..31; it reports false
// for a day that the calendar does not have.
func DateOf(year, month, day int) (Date, bool) {
	t := time.Date(year, time.Month(month), day, 0, 0, 0, 0, time.UTC)
	if t.Year() != year || int(t.Month()) != month || t.Day() != day {
		return 0, false
	}
	return DateIn(t), true
}

// DateIn gives the day of t in t's own zone.
func DateIn(t time.Time) Date {
	y, m, d := t.Date()
	return Date(time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Unix() / secondsPerDay)
}

// ParseDate reads YYYY-MM-DD.
func ParseDate(text string) (Date, bool) {
	if len(text) != 10 || text[4] != '-' || text[7] != '-' {
		return 0, false
	}
	year, ok1 := digits(text[:4])
	month, ok2 := digits(text[5:7])
	day, ok3 := digits(text[8:])
	if !ok1 || !ok2 || !ok3 || year == 0 {
		return 0, false
	}
	return DateOf(year, month, day)
}

func digits(text string) (int, bool) {
	n := 0
	for i := range len(text) {
		if text[i] < '0' || text[i] > '9' {
			return 0, false
		}
		n = 10*n + int(text[i]-'0')
	}
	return n, true
}

// Time gives midnight UTC of the day.
func (d Date) Time() time.Time { return time.Unix(int64(d)*secondsPerDay, 0).UTC() }

// Year is the calendar year.
func (d Date) Year() int { return d.Time().Year() }

// InYear is the same day in another calendar year.
func (d Date) InYear(year int) Date { return DateIn(d.Time().AddDate(year-d.Year(), 0, 0)) }

// yearsOff is by how many years a day may be off where its year is one's habit; a year that
// is further off may have two digits swapped, or another digit.
const yearsOff = 2

// YearMistyped reports whether a year may have been typed for another.
func YearMistyped(typed, meant int) bool {
	if max(typed-meant, meant-typed) <= yearsOff {
		return typed != meant
	}
	return yearMisspelt(typed, meant)
}

// yearMisspelt reports whether a year is another one with one other digit, or with two
// neighbouring digits swapped.
func yearMisspelt(typed, meant int) bool {
	a, b := strconv.Itoa(typed), strconv.Itoa(meant)
	if len(a) != len(b) {
		return false
	}
	var other []int
	for i := range a {
		if a[i] != b[i] {
			other = append(other, i)
		}
	}
	swapped := len(other) == 2 && other[1] == other[0]+1 && a[other[0]] == b[other[1]] && a[other[1]] == b[other[0]]
	return len(other) == 1 || swapped
}

// YearMeant is which of some years was probably meant by one that is none of them: the
// nearest of those that it may have been typed for by a slip of a digit, else the nearest;
// of two as near, the later. False where there are none.
func YearMeant(typed int, years []int) (int, bool) {
	apart := func(year int) int { return max(typed-year, year-typed) }
	meant, found, slip := 0, false, false
	for _, year := range years {
		misspelt := yearMisspelt(typed, year)
		nearer := apart(year) < apart(meant) || apart(year) == apart(meant) && year > meant
		if !found || misspelt && !slip || misspelt == slip && nearer {
			meant, found, slip = year, true, misspelt
		}
	}
	return meant, found
}

// String prints YYYY-MM-DD.
func (d Date) String() string { return d.Time().Format(time.DateOnly) }

// MonthDay is a day of every year: the day on which a season begins. The zero
// MonthDay stands for 1 January.
type MonthDay struct{ Month, Day int }

// Season names the season that d falls in: the year in which it begins.
func (m MonthDay) Season(d Date) int {
	year, month, day := d.Time().Date()
	if m.Month != 0 && (int(month) < m.Month || (int(month) == m.Month && day < m.Day)) {
		return year - 1
	}
	return year
}

// Begin is the first day of the season, or the financial year, that a year names.
func (m MonthDay) Begin(year int) Date {
	begin, ok := DateOf(year, max(m.Month, 1), max(m.Day, 1))
	if !ok { // 29 February, in a year without one
		begin, _ = DateOf(year, m.Month+1, 1)
	}
	return begin
}
