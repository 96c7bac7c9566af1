package words

import (
	"fmt"

	"boxbook/report/answers"
)

// The heading of what comes up, and the columns of its tables.
const (
	AheadHeading  = "Ahead"
	ColumnWhen    = "when"
	ColumnEntry   = "entry by"
	ColumnExpires = "expires"
	ColumnWhat    = "what"
)

// ExpiresTitle stands above what runs out.
func ExpiresTitle(limits answers.SeasonLimits) string {
	return fmt.Sprintf("expires within %s", Counted(limits.ExpiryDays, "day", "days"))
}

// InDays says when a day is: "in 12 days", "today", "3 days ago".
func InDays(days int) string {
	switch {
	case days > 0:
		return "in " + Counted(days, "day", "days")
	case days == 0:
		return "today"
	default:
		return Counted(-days, "day", "days") + " ago"
	}
}

// EntryWords says until when a contest takes entries, "" where it does not say.
func EntryWords(c answers.ContestAhead) string {
	switch {
	case c.EntryDays == nil:
		return ""
	case *c.EntryDays < 0:
		return c.EntryDay + ", over"
	default:
		return c.EntryDay + ", " + InDays(*c.EntryDays)
	}
}

// SequenceWords says whether a contest's sequence is typed, "" where the pilot
// has no category.
func SequenceWords(c answers.ContestAhead) string {
	switch {
	case c.Sequence != "":
		return c.Sequence
	case c.Category == "":
		return ""
	default:
		return "not typed yet"
	}
}
