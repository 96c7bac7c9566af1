package ledger

import (
	"fmt"
	"slices"

	"boxbook/season"
)

// aheadListed is how many days later than the one that counts as today are listed each
// at its place.
const aheadListed = 3

// foldAhead puts one line at the end in the place of all warnings of days later than the
// one that counts as today, where they are many: how many, the first and the last.
func foldAhead(list List) List {
	if list.Ahead() <= aheadListed {
		return list
	}
	isAhead := func(d Diagnostic) bool { return d.Code == afterToday }
	rest := slices.DeleteFunc(slices.Clone(list), isAhead)
	first := list[slices.IndexFunc(list, isAhead)]
	last := first
	for _, d := range list {
		switch {
		case !isAhead(d):
		case d.ahead < first.ahead:
			first = d
		case d.ahead > last.ahead:
			last = d
		}
	}
	return append(rest, Diagnostic{
		Code: afterToday, Severity: first.Severity,
		Message: fmt.Sprintf("%d dates are later than %s, the day that counts as today: from %s to %s", list.Ahead(), first.asOf, standsAt(first), standsAt(last)),
	})
}

// standsAt is the day of a warning and where it stands.
func standsAt(d Diagnostic) string { return fmt.Sprintf("%s (%s:%d)", d.ahead, d.File, d.Line) }

// later warns of a day that is later than the one that counts as today.
func (r *reader) later(f *file, tok token, day season.Date) {
	d := r.at(f, tok, afterToday, day, r.opts.AsOf)
	d.ahead, d.asOf = day, r.opts.AsOf
}
