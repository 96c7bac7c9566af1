package ledger

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/season"
)

// Severity tells an error, which stops every command but check, from a warning.
type Severity string

// The two severities.
const (
	Error   Severity = "error"
	Warning Severity = "warning"
)

// Diagnostic is one thing wrong at one place.
type Diagnostic struct {
	Code     Code
	File     string // as the person named it
	Line     int    // from 1
	Column   int    // in characters from 1; a tab is one
	Width    int    // characters under the caret, at least 1
	Severity Severity
	Message  string
	Hint     string // what to type instead, "" where there is nothing to say
	// Fixes are the edits that fix it, together; none where there is more than
	// one reading, or none. The hint is made from them.
	Fixes  []Fix
	Source string // the line as it stands
	// more is what few diagnostics have: of a million none is larger for it.
	more *besides

	order int   // of the file among the files read, for sorting
	at    span  // what Column and Width count
	root  *root // the slip that it shows, where others may show it too

	ahead, asOf season.Date // a day that is later than the one that counts as today
}

// EndLine is the line on which the span ends: the one on which it begins.
func (d Diagnostic) EndLine() int { return d.Line }

// EndColumn is the column behind the span's last character.
func (d Diagnostic) EndColumn() int { return d.Column + d.Width }

// Error is the one-line form that editors pick up. A diagnostic of line 0 stands in
// no file: it has no place, but for a name in the file's stead.
func (d Diagnostic) Error() string {
	switch {
	case d.Line > 0:
		return fmt.Sprintf("%s:%d:%d: %s: %s", d.File, d.Line, d.Column, d.Severity, d.Message)
	case d.File != "":
		return fmt.Sprintf("%s: %s: %s", d.File, d.Severity, d.Message)
	default:
		return fmt.Sprintf("%s: %s", d.Severity, d.Message)
	}
}

// Span is the text that a diagnostic is about: a part of its line.
func (d Diagnostic) Span() string {
	line := []rune(d.Source)
	from := min(max(d.Column-1, 0), len(line))
	return string(line[from:min(from+d.Width, len(line))])
}

// List is every diagnostic of one reading, in order of file and place.
type List []Diagnostic

// Fresh are the diagnostics of a reading that an earlier one did not have: the
// same said of a line that reads the same, wherever it stands now, is not fresh.
func Fresh(before, after List) List {
	type seen struct {
		code         Code
		file, source string
	}
	count := map[seen]int{}
	for _, d := range before {
		count[seen{d.Code, d.File, d.Source}]++
	}
	var fresh List
	for _, d := range after {
		key := seen{d.Code, d.File, d.Source}
		if count[key]--; count[key] < 0 {
			fresh = append(fresh, d)
		}
	}
	return fresh
}

// Errors counts the errors.
func (l List) Errors() int { return l.count(func(d Diagnostic) bool { return d.Severity == Error }) }

// Warnings counts the warnings.
func (l List) Warnings() int {
	return l.count(func(d Diagnostic) bool { return d.Severity == Warning })
}

// Ahead counts the warnings of days later than the one that counts as today.
func (l List) Ahead() int {
	return l.count(func(d Diagnostic) bool { return d.Code == afterToday })
}

// AheadTo counts those of them that are no later than another day.
func (l List) AheadTo(day season.Date) int {
	return l.count(func(d Diagnostic) bool { return d.Code == afterToday && d.ahead <= day })
}

// RepeatsMoney reports whether a diagnostic says that a line of money may be another one,
// typed twice.
func RepeatsMoney(d Diagnostic) bool { return d.Repeats().Line > 0 }

// PaysNothingOwed reports whether a diagnostic says that nothing was owed of what a payment
// pays.
func PaysNothingOwed(d Diagnostic) bool { return d.Code == nothingOwed }

// PaysOtherWay reports whether a diagnostic says that a payment is probably typed the wrong
// way round.
func PaysOtherWay(d Diagnostic) bool { return d.Code == paidOtherWay }

// besides is what stands beside a diagnostic: those on other lines that show the same slip
// and are not listed; those whose money a line may have in part only, or whose bill it may be
// a payment of, none for all whom the line names; and the lines that Repeats and SameReceipt
// give.
type besides struct {
	alike                List
	whose                []season.Party
	repeats, sameReceipt season.Place
}

// Repeats is the line that a line of money may be typed again of, nowhere for any other
// diagnostic.
func (d Diagnostic) Repeats() season.Place {
	if d.more == nil {
		return season.Place{}
	}
	return d.more.repeats
}

// SameReceipt is the line whose receipt a line of money has though the two cannot be of one
// slip; likewise.
func (d Diagnostic) SameReceipt() season.Place {
	if d.more == nil {
		return season.Place{}
	}
	return d.more.sameReceipt
}

// Alike are the diagnostics on other lines that show the same slip and are not listed.
func (d Diagnostic) Alike() List {
	if d.more == nil {
		return nil
	}
	return d.more.alike
}

// Whose are those whose money a line may have in part only, or whose bill it may be a
// payment of; none: all whom the line names.
func (d Diagnostic) Whose() []season.Party {
	if d.more == nil {
		return nil
	}
	return d.more.whose
}

// ofWhom notes whose.
func (d *Diagnostic) ofWhom(whose []season.Party) {
	if len(whose) > 0 {
		d.besides().whose = whose
	}
}

func (d *Diagnostic) besides() *besides {
	if d.more == nil {
		d.more = &besides{}
	}
	return d.more
}

// PaysBill reports whether a diagnostic says that a line, which is no payment, may be one of
// a bill.
func PaysBill(d Diagnostic) bool { return len(d.Whose()) > 0 && !RepeatsMoney(d) }

// IsAbout reports whether a diagnostic about a line of somebody's is about this party.
func (d Diagnostic) IsAbout(p season.Party) bool {
	return len(d.Whose()) == 0 || slices.Contains(d.Whose(), p)
}

// RepeatsMarks reports whether a diagnostic says that a flight may be another one, typed
// again.
func RepeatsMarks(d Diagnostic) bool { return d.Code == marksAlike }

func (l List) count(counts func(Diagnostic) bool) int {
	n := 0
	for _, d := range l {
		if counts(d) {
			n++
		}
	}
	return n
}

// Err is nil where the list has no errors; warnings alone are no error.
func (l List) Err() error {
	if n := l.Errors(); n > 0 {
		return &InvalidError{Errors: n, List: l}
	}
	return nil
}

// InvalidError says that a ledger has errors.
type InvalidError struct {
	Errors int
	List   List
}

// Error counts the errors; the list says what they are.
func (e *InvalidError) Error() string {
	if e.Errors == 1 {
		return "the ledger has 1 error"
	}
	return fmt.Sprintf("the ledger has %d errors", e.Errors)
}

// sortList orders diagnostics by file, place and severity, and drops what was
// said twice of one place.
func sortList(list List) List {
	slices.SortStableFunc(list, func(a, b Diagnostic) int {
		return cmp.Or(cmp.Compare(a.order, b.order), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column),
			cmp.Compare(a.Severity, b.Severity))
	})
	return slices.CompactFunc(list, func(a, b Diagnostic) bool {
		return a.order == b.order && a.Line == b.Line && a.Column == b.Column && a.Message == b.Message
	})
}

// Kind is what is known of a kind of diagnostic, whatever the case.
type Kind struct {
	Code     Code
	Severity Severity
	// Message is how it is said, with %q and the like for what was read.
	Message string
}

// Kinds are all kinds of diagnostic, by name.
func Kinds() []Kind {
	kinds := make([]Kind, 0, len(messages))
	for code, m := range messages {
		kinds = append(kinds, Kind{code, m.severity, m.text})
	}
	slices.SortFunc(kinds, func(a, b Kind) int { return strings.Compare(string(a.Code), string(b.Code)) })
	return kinds
}
