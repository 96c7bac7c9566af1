package sheetimport

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// dates are the ways in which spreadsheets write dates as text.
var dates = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)^(?:(\d{4})-(\d\d)-(\d\d)|(\d{1,2})[./-](\d{1,2})[./-](?:\d{2}|\d{4})|(\d{1,2})[./](\d{1,2})\.|(\d{1,2})/(\d{1,2})|(\d{1,2})[. -]{1,2}([a-z]{3})[a-z]*\.?|([a-z]{3})[a-z]*[. -]{1,2}(\d{1,2}))$`)
})

// dateText reports whether a text is a date as spreadsheets write one.
func dateText(text string) bool { return len(text) <= 12 && dates().MatchString(text) }

// dateHint guesses the grade that became a date: 8.5 becomes the 8th of May
// where the day stands first, 8/5 the 5th of August where the month does. Half
// points leave nothing else.
func dateHint(text string) string {
	const asked = "was it %s? format the cells as text and type the marks again"
	if half, err := strconv.ParseFloat(text, 64); err == nil {
		return fmt.Sprintf(asked, strconv.FormatFloat(half, 'f', -1, 64))
	}
	day, month := dayAndMonth(text)
	switch {
	case month == 5 && day >= 1 && day <= 9:
		return fmt.Sprintf(asked, fmt.Sprintf("%d.5", day))
	case day == 5 && month >= 1 && month <= 9:
		return fmt.Sprintf(asked, fmt.Sprintf("%d.5", month))
	default:
		return ""
	}
}

// months are the first letters of month names, English and German.
var months = []string{"jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"}

func dayAndMonth(text string) (day, month int) {
	parts := dates().FindStringSubmatch(text)
	if parts == nil {
		return 0, 0
	}
	number := func(i int) int {
		n, err := strconv.Atoi(parts[i])
		if err != nil {
			return 0
		}
		return n
	}
	named := func(i int) int {
		return 1 + slices.Index(months, strings.NewReplacer("mai", "may", "okt", "oct", "dez", "dec").Replace(strings.ToLower(parts[i])))
	}
	switch {
	case parts[1] != "":
		return number(3), number(2)
	case parts[4] != "":
		return number(4), number(5)
	case parts[6] != "":
		return number(6), number(7)
	case parts[8] != "":
		return number(8), number(9)
	case parts[10] != "":
		return number(10), named(11)
	default:
		return number(13), named(12)
	}
}
