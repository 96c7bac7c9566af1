package ledger

import (
	"cmp"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"boxbook/season"
)

// This file names the slip in a date that cannot be read.

// dateAdvice rewrites the other ways people write a date: 18.04.2026, 18/4/2026,
// 2026/4/18, 20260418. Where the year stands last and either number before it
// may be the month, the day is taken to come first, and that is a guess; and so is
// the day of 2026-04-1, which may have lost its second digit.
func dateAdvice(text string) advice {
	if plain := dashes.Replace(text); plain != text {
		if _, ok := season.ParseDate(plain); ok {
			return instead("write %s", plain)
		}
		text = plain
	}
	text = strings.NewReplacer("O", "0", "o", "0", "l", "1").Replace(text)
	if first, last, found := twoDates(text); found {
		return hint(spanIs + first + ".." + last)
	}
	if len(text) > len(isoDate) {
		date, rest := text[:len(isoDate)], text[len(isoDate):]
		if _, ok := season.ParseDate(date); ok && season.IsHandle(rest) {
			return instead("put a space after the date: %s", date+" "+rest)
		}
	}
	parts := strings.FieldsFunc(text, func(r rune) bool { return r == '.' || r == '/' || r == '-' })
	if len(parts) == 1 && len(text) == 8 && isNumber(text) {
		parts = []string{text[:4], text[4:6], text[6:]}
	}
	if len(parts) != 3 || !isNumber(strings.Join(parts, "")) {
		return advice{}
	}
	yearLast := len(parts[2]) == 4
	if yearLast {
		parts[0], parts[2] = parts[2], parts[0]
	}
	year, _ := strconv.Atoi(parts[0])
	month, _ := strconv.Atoi(parts[1])
	day, _ := strconv.Atoi(parts[2])
	date, ok := season.DateOf(year, month, day)
	if !ok || year < 1900 {
		return advice{}
	}
	return instead("write %s", date.String()).unless(yearLast && day <= 12 && day != month || len(parts[2]) == 1 && len(parts[1]) > 1)
}

// dashes makes the plain hyphen of what other programs put in its place: hyphens that
// keep a word together, dashes, the minus sign.
var dashes = strings.NewReplacer("\u2010", "-", "\u2011", "-", "\u2012", "-", "\u2013", "-", "\u2014", "-", "\u2212", "-")

// DateMeant is the date that a text can only mean, written as the language has it; the
// text itself where there is none, or more than one reading.
func DateMeant(text string) string {
	if advice := dateAdvice(text); advice.certain && advice.text != "" && !strings.Contains(advice.text, " ") {
		return advice.text
	}
	return text
}

// DateSlip says what is wrong with a text that is not written as a date is, and what
// to write; "" for one that is, of a day that there may not be. A date without a year is
// of the year of today.
func DateSlip(text string, today season.Date) string {
	if _, ok := season.ParseDate(text); ok || isDateForm(text) {
		return ""
	}
	said := fmt.Sprintf(messages[badDate].text, text)
	if advice := dateAdviceOn(text, today); advice.hint != "" {
		return said + "; " + advice.hint
	}
	return said
}

// dateAdviceOn is dateAdvice of a text that may be of a day of today's year, or of a year
// in two digits, which is a guess; where the month may come first it says that too.
func dateAdviceOn(text string, today season.Date) advice {
	whole, year := text, "2000"
	if today != 0 {
		year, _, _ = strings.Cut(today.String(), "-")
	}
	if shortYear().MatchString(text) {
		text = longYear(text, year)
	}
	found, other := dateAdvice(text), monthFirst(text)
	if found.hint == "" && other == "" && today != 0 {
		text = strings.TrimRight(text, "./") + "." + year
		found, other = dateAdvice(text), cmp.Or(other, monthFirst(text))
	}
	found = found.unless(text != whole)
	switch {
	case found.hint != "" && other != "" && !found.certain:
		found.hint += ", or " + other + " where the month comes first"
	case found.hint == "" && other != "":
		found.hint = "write " + other
	}
	return found
}

// longYear is a date with a year of two digits with that of a year's century: of one with
// hyphens the first number where that is nearer to the year, else the last.
func longYear(text, year string) string {
	last := text[:len(text)-2] + year[:2] + text[len(text)-2:]
	first := year[:2] + text
	if date, ok := season.ParseDate(first); ok && awayFrom(year, date) <= awayFrom(year, dateLast(last)) {
		return first
	}
	return last
}

// dateLast is a date whose year stands last, 0 where there is no such day.
func dateLast(text string) season.Date {
	date, _ := season.ParseDate(dateAdvice(text).text)
	return date
}

// awayFrom is how many years a date is from a year.
func awayFrom(year string, date season.Date) int {
	of, _ := strconv.Atoi(year)
	return max(of-date.Year(), date.Year()-of)
}

// shortYear is a date whose year stands last in two digits, in this century.
var shortYear = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^\d{1,2}([./-])\d{1,2}([./-])\d{2}$`) })

// monthFirst is a date whose year stands last, read with the month before the day; ""
// where there is no such day.
func monthFirst(text string) string {
	parts := strings.FieldsFunc(text, func(r rune) bool { return r == '.' || r == '/' || r == '-' })
	if len(parts) != 3 || len(parts[2]) != 4 || !isNumber(strings.Join(parts, "")) {
		return ""
	}
	year, _ := strconv.Atoi(parts[2])
	month, _ := strconv.Atoi(parts[0])
	day, _ := strconv.Atoi(parts[1])
	if date, ok := season.DateOf(year, month, day); ok && year >= 1900 {
		return date.String()
	}
	return ""
}

// isDateForm reports whether a text has the digits and hyphens of a date.
func isDateForm(text string) bool {
	return len(text) == len(isoDate) && text[4] == '-' && text[7] == '-' && isNumber(text[:4]+text[5:7]+text[8:])
}

// DateHinted is the date that a text in another form would be taken for, "" where it
// is none: what may be asked about, not what may be read.
func DateHinted(text string) string {
	if date, ok := season.ParseDate(dateAdvice(text).text); ok && date.String() != text {
		return date.String()
	}
	if parts := strings.Split(text, "-"); len(parts) == 3 && len(parts[0]) == 4 { // day and month in the other order
		if date, ok := season.ParseDate(strings.Join([]string{parts[0], parts[2], parts[1]}, "-")); ok && parts[1] > "12" {
			return date.String()
		}
	}
	return ""
}

// isoDate is how a date is written.
const isoDate = "2026-05-16"

// spanIs begins the hint for a span of days that is written otherwise.
const spanIs = "a span is written "

// twoDates takes apart two dates with one character between them.
func twoDates(text string) (first, last string, found bool) {
	const length = len(isoDate)
	if len(text) != 2*length+1 {
		return "", "", false
	}
	first, last = text[:length], text[length+1:]
	_, isFirst := season.ParseDate(first)
	_, isLast := season.ParseDate(last)
	return first, last, isFirst && isLast
}
