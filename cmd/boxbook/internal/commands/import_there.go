package commands

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/cmd/boxbook/internal/entry"
	"boxbook/report/display"
	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/ledger"
)

// thereError says that the ledger has a sheet's flight already, and what it has of the sheet.
type thereError struct{ text, hint string }

func (e *thereError) Error() string { return e.text + "; nothing was written" }

// placed is what an import adds: the flight's block, or to a flight that the ledger has
// without marks the lines that it lacks. The error says what the ledger has of the flight
// that lets it take neither; there is none where the sheet could not be read into it as
// another flight of that day.
func (a *app) placed(to destination, l *season.Ledger, flight entry.Answers, o importFlags, block entry.Addition) (entry.Addition, error) {
	was := flightNamed(l, entry.FlightName(flight))
	if was == nil {
		return block, nil
	}
	other, free := entry.AsAnother(l, flight)
	result, err := a.preview(to, entry.Addition{Block: entry.FlightBlock(l, other)})
	if err != nil || result.Diagnostics.Errors() > 0 {
		return block, err
	}
	is := flightNamed(result.Ledger, entry.FlightName(other))
	said := fmt.Sprintf("%s is in the ledger already, at %s:%d, ", was.Name, was.At.File, was.At.Line)
	edit := "to correct it, change it there with an editor\n" + anotherOfThatDay(free)
	switch differing := differingMarks(was, is); {
	case !was.HasMarks() && is.HasMarks():
		if against := contradicting(was, is, o.ownPanel); len(against) > 0 {
			return block, &thereError{said + "without marks, but with " + strings.Join(against, " and with "), edit}
		}
		return a.joining(to, l, flight, was, is)
	case was.Sequence != nil && was.Sequence.Handle != is.Sequence.Handle:
		return block, &thereError{said + "with the sequence " + was.Sequence.Handle, edit}
	case !sameNames(was.Panel, is.Panel):
		panel := fmt.Sprintf("with another panel, %s, than the sheet's, %s", strings.Join(was.Panel, " "), strings.Join(is.Panel, " "))
		return block, &thereError{said + panel, edit}
	case len(differing) > 0:
		return block, &thereError{said + "with other marks: " + atMost(differing), edit}
	default:
		return block, &thereError{said + "with the same marks", "where the sheet was imported before, nothing is left to do\n" + anotherOfThatDay(free)}
	}
}

// flightNamed is the flight of exactly that name, nil where there is none.
func flightNamed(l *season.Ledger, name string) *season.Flight {
	at := slices.IndexFunc(l.Flights, func(f *season.Flight) bool { return f.Name == name })
	if at < 0 {
		return nil
	}
	return l.Flights[at]
}

// likeAnother says that a flight has all marks of another one of its pilot, on the same
// sequence by the same judges: of that day, or in practice and of other days with as many
// marks as tell sheets apart; "" where none has them, and where the ledger's own warning
// says it.
func likeAnother(result *ledger.Result, name string) string {
	is := flightNamed(result.Ledger, name)
	if is == nil || !is.HasMarks() {
		return ""
	}
	count := 0
	is.Rows.Each(func(_ int, row []scoring.Mark) { count += len(row) })
	for _, was := range result.Ledger.Flights {
		if was == is || was.Void != nil || !was.HasMarks() || was.Pilot != is.Pilot || was.Sequence != is.Sequence || is.Sequence == nil || !sameNames(was.Panel, is.Panel) {
			continue
		}
		if count < ledger.AlikeMarks && (was.Date != is.Date || !is.Contested()) || len(differingMarks(was, is)) > 0 {
			continue
		}
		if slices.ContainsFunc(result.Diagnostics, func(d ledger.Diagnostic) bool {
			return ledger.RepeatsMarks(d) && (d.Line == is.At.Line || d.Line == was.At.Line)
		}) {
			return ""
		}
		return fmt.Sprintf("all its marks are those of %s, at %s:%d", was.Name, was.At.File, was.At.Line)
	}
	return ""
}

// differentMarks is how many different marks a sheet has at least that two pilots never have
// alike; a sheet of one mark throughout may come twice.
const differentMarks = 4

// likeAnotherPilots says that a flight has all marks of another pilot's, of its day or its
// contest, on the same sequence by the same judges, and whose they are; "" where none has
// them, or where they are too few to tell sheets apart.
func likeAnotherPilots(result *ledger.Result, name string) (said, pilot string) {
	is := flightNamed(result.Ledger, name)
	if is == nil || is.Sequence == nil {
		return "", ""
	}
	count, different := 0, map[scoring.Mark]bool{}
	is.Rows.Each(func(_ int, row []scoring.Mark) {
		count += len(row)
		for _, mark := range row {
			different[mark] = true
		}
	})
	if count < ledger.AlikeMarks || len(different) < differentMarks {
		return "", ""
	}
	for _, was := range result.Ledger.Flights {
		together := was.Date == is.Date || was.Contest != nil && was.Contest == is.Contest
		if was.Pilot == is.Pilot || !together || was.Void != nil || !was.HasMarks() || was.Sequence != is.Sequence || !sameNames(was.Panel, is.Panel) {
			continue
		}
		if len(differingMarks(was, is)) == 0 {
			return fmt.Sprintf("all its marks are those of another pilot's flight, %s, at %s:%d", was.Name, was.At.File, was.At.Line), was.Pilot.Handle
		}
	}
	return "", ""
}

func anotherOfThatDay(number string) string {
	return "another flight of that day has a number: --number " + number
}

// sameNames reports whether two panels have the same judges, in whatever order.
func sameNames(one, other []string) bool {
	return slices.Equal(slices.Sorted(slices.Values(one)), slices.Sorted(slices.Values(other)))
}

// atMost names the first of some differences, and counts the others.
func atMost(differing []string) string {
	const most = 3
	if len(differing) <= most {
		return strings.Join(differing, ", ")
	}
	more := len(differing) - most
	return strings.Join(differing[:most], ", ") + fmt.Sprintf(" and %d more", more)
}

// differingMarks says where two flights of one panel have other marks, a line of the
// sequence each: "figure 2 (7.0 HZ, on the sheet 7.0 7.0)".
func differingMarks(was, is *season.Flight) []string {
	var found []string
	compare := func(line string, there, here []season.Row) {
		had, has := marksByJudge(was.Panel, was.Panel, there), marksByJudge(was.Panel, is.Panel, here)
		if had != has {
			found = append(found, fmt.Sprintf("%s (%s, on the sheet %s)", line, had, has))
		}
	}
	for i := range max(was.Rows.Len(), is.Rows.Len()) {
		compare(fmt.Sprintf("figure %d", i+1), timesFlown(was.Rows, i), timesFlown(is.Rows, i))
	}
	compare("positioning", weighted(was.Positioning), weighted(is.Positioning))
	compare("harmony", weighted(was.Harmony), weighted(is.Harmony))
	return found
}

// timesFlown are the rows of a figure.
func timesFlown(rows season.Rows, i int) []season.Row {
	if i >= rows.Len() || !rows.Has(i) {
		return nil
	}
	row := rows.At(i)
	return append([]season.Row{row}, row.Again...)
}

func weighted(row *season.Row) []season.Row {
	if row == nil {
		return nil
	}
	return []season.Row{*row}
}

// marksByJudge are the marks of rows in the order of judges, whose own order is that of
// the panel; "none" where there are no rows.
func marksByJudge(judges, panel []string, rows []season.Row) string {
	if len(rows) == 0 {
		return "none"
	}
	var flown []string
	for _, row := range rows {
		var marks []string
		for _, judge := range judges {
			mark := scoring.Mark{Kind: scoring.Absent}
			if at := slices.Index(panel, judge); at >= 0 && at < len(row.Marks) {
				mark = row.Marks[at]
			}
			marks = append(marks, mark.String())
		}
		flown = append(flown, strings.Join(marks, " "))
	}
	return display.OneLine(strings.Join(flown, entry.AnotherTime))
}
