package commands

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"boxbook/report/display"

	"boxbook/season"
	"boxbook/season/ledger"

	"github.com/rogpeppe/go-internal/diff"
)

// This file owns the tone of everything said to a person outside a report:
// lower case, no full stop, hints on lines of their own.

// list prints diagnostics, with the commands to run of their hints as they may be
// pasted.
func list(w io.Writer, found ledger.List, run pasted) error {
	shown := slices.Clone(found)
	for i, d := range shown {
		shown[i].Hint = run.in(d.Hint)
	}
	return ledger.Render(w, shown)
}

// complain says an error, and commands to run as they may be pasted. What a diagnostic
// listing has already said is not said again. fixesAny says whether errors that carry an
// edit would be corrected.
func complain(w io.Writer, err error, run pasted, fixesAny func(ledger.List) bool) {
	var usage *usageError
	var invalid *ledger.InvalidError
	var addition *additionError
	var changed *changedError
	var meanwhile *meanwhileError
	var there *thereError
	switch {
	case errors.As(err, &changed):
		fmt.Fprintf(w, "boxbook: %s\n", changed)
	case errors.Is(err, errCheck), errors.Is(err, errInterrupted):
	case errors.As(err, &addition):
		_ = list(w, addition.brought, run) //nolint:errcheck // standard error is the last resort
		fmt.Fprintf(w, "boxbook: with this addition the ledger would have %s; nothing was written\n", counted(addition.Errors, "error", "errors"))
		if n := addition.before(); n > 0 {
			fmt.Fprintf(w, "  and %s that it has already, %s\n", counted(n, "warning", "warnings"), run.in("see boxbook check"))
		}
	case errors.As(err, &invalid):
		_ = list(w, invalid.List, run) //nolint:errcheck // standard error is the last resort
		fmt.Fprintf(w, "boxbook: %s; nothing was done\n", err)
		if line := fixedBy(invalid.List); line != "" && fixesAny(invalid.List) {
			fmt.Fprintf(w, "  %s\n", run.in(line))
		}
	case errors.As(err, &usage):
		complainHinted(w, run.in(usage.text), run.in(usage.hint))
	case errors.As(err, &there):
		complainHinted(w, there.Error(), run.in(there.hint))
	case errors.As(err, &meanwhile):
		complainHinted(w, meanwhile.Error(), run.in(meanwhile.hint))
	default:
		fmt.Fprintf(w, "boxbook: %s\n", plainFailure(err))
	}
}

// complainHinted says a sentence, and each line of its hint beneath it.
func complainHinted(w io.Writer, text, hint string) {
	fmt.Fprintf(w, "boxbook: %s\n", text)
	if hint == "" {
		return
	}
	for _, line := range strings.Split(hint, "\n") {
		fmt.Fprintf(w, "  %s\n", line)
	}
}

// howToBegin stands in the place of the home page where there is no ledger.
const howToBegin = `No ledger in this folder: no file ends in .boxbook.

to try it out  boxbook demo         writes an invented ledger, shows pages
to begin       boxbook log flight   asks for a flight, and begins a ledger
               boxbook start        writes one that explains itself by example
of a ledger    boxbook -f FILE      or $BOXBOOK_LEDGER, for every command

All commands: boxbook --help
`

// shownName is a file's name as it is said to a person: no name can move the
// cursor, end the line or turn the text around it.
func shownName(path string) string { return display.OneLine(filepath.ToSlash(path)) }

// shownNames is the same of several, in a row.
func shownNames(paths []string) string {
	shown := make([]string, len(paths))
	for i, path := range paths {
		shown[i] = shownName(path)
	}
	return strings.Join(shown, ", ")
}

// shownDiff is a unified diff of a file's text and another one, whose name gets a
// suffix, as a person may be shown it.
func shownDiff(name, was, suffix, is string) string {
	name = shownName(name)
	lines := strings.SplitAfter(string(diff.Diff(name, []byte(was), name+suffix, []byte(is))), "\n")
	for i, line := range lines {
		text, end := strings.CutSuffix(line, "\n")
		text, carriage := strings.CutSuffix(text, "\r")
		if strings.ContainsFunc(text, func(r rune) bool { return r != '\t' && !display.Seen(r) }) {
			text = display.OneLine(text)
		}
		if lines[i] = text; carriage {
			lines[i] += "\r"
		}
		if end {
			lines[i] += "\n"
		}
	}
	return strings.Join(lines, "")
}

// counted says a number of things: "1 error", "no flights".
func counted(n int, one, many string) string {
	if n == 0 {
		return "no " + many
	}
	return display.Counted(n, one, many)
}

// checkSummary is the last line of check.
func checkSummary(name string, result *ledger.Result) string {
	list, l := result.Diagnostics, result.Ledger
	text := fmt.Sprintf("%s: %s, %s", shownName(name), counted(list.Errors(), "error", "errors"), counted(list.Warnings(), "warning", "warnings"))
	if list.Errors() > 0 {
		return text
	}
	if len(l.Flights)+len(l.Pilots)+len(l.Contests) == 0 {
		if n := len(l.Costs) + len(l.Settlements) + len(l.Debts) + len(l.InHand) + len(l.Agreed) + len(l.Budgets); n > 0 {
			return text + "; " + counted(n, "line about money", "lines about money")
		}
		if name == standardInputName {
			return text + "; nothing in it yet"
		}
		return text + fmt.Sprintf("; nothing in it yet: `boxbook log flight -f %s` begins with a flight", display.ShellWord(shownName(name)))
	}
	return text + fmt.Sprintf("; %s, %s, %s", counted(len(l.Pilots), "pilot", "pilots"),
		counted(len(l.Contests), "contest", "contests"), counted(len(l.Flights), "flight", "flights"))
}

// explainedWidth bounds the line that names kinds of error.
const explainedWidth = 80

// explainedBy names the kinds of error in a list for which there is help, as many
// as a line holds, "" where there is none.
func explainedBy(list ledger.List) string {
	var names []string
	line := ""
	for _, d := range ledger.MostPressing(list, ledger.MaxShown) {
		if name := string(d.Code); d.Severity == ledger.Error && !slices.Contains(names, name) {
			names = append(names, name)
			longer := "explained by boxbook help KIND: " + strings.Join(names, ", ")
			if len(longer) > explainedWidth {
				break
			}
			line = longer
		}
	}
	return line
}

// fixedBy names the command that corrects what has one reading, "" where nothing has.
func fixedBy(list ledger.List) string {
	n := 0
	for _, d := range list {
		if len(d.Fixes) > 0 && d.File != standardInputName {
			n++
		}
	}
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("%d of these %s one reading, corrected by: boxbook check --fix", n, display.Plural(n, "has", "have"))
}

// sayFixed says what of the errors listed before was fixed in a file, or would be, and how
// many that stood behind those in their lines.
func sayFixed(verb, name string, made, listed ledger.List) string {
	behind := 0
	for _, d := range made {
		if !listed.Has(d) {
			behind++
		}
	}
	fixed := len(made) - behind
	switch text := fmt.Sprintf("%s %s: %s", verb, name, counted(fixed, "error", "errors")); {
	case behind == 0:
		return text
	case fixed == 0:
		return fmt.Sprintf("%s %s: %s that stood behind others", verb, name, counted(behind, "error", "errors"))
	default:
		return fmt.Sprintf("%s, and %d that stood behind %s", text, behind, display.Plural(fixed, "it", "them"))
	}
}

// sayLeft says what is left of a ledger's errors once it is fixed.
func sayLeft(list ledger.List) string {
	return fmt.Sprintf("left: %s, %s", counted(list.Errors(), "error", "errors"), counted(list.Warnings(), "warning", "warnings"))
}

// nothingToFix says that no error can be fixed by a program.
const nothingToFix = "nothing to fix: no error here has one reading only"

// howToCorrect says how an entry is corrected.
const howToCorrect = "the last entry is taken back by: boxbook undo\n" +
	"anything else is corrected in the ledger, a plain text file, with an editor;\n" +
	"boxbook check then says FILE:LINE of what does not fit"

// howToRename says how a name is changed everywhere.
const howToRename = "an editor that knows boxbook renames a name wherever it stands: boxbook help editors;\n" +
	"by hand, boxbook check names each place that still has the old one"

// howToSearch says how the ledger is searched.
const howToSearch = "the ledger is a plain text file, which any editor searches;\n" +
	"boxbook export writes its flights, marks, faults and money as tables"

// howToClose says how a year of the club's is closed and the next one begun.
const howToClose = "a year needs no closing: lines of the next go on behind, balances carry over\n" +
	"by themselves; boxbook log agreed keeps the result as it was agreed"

// theLastFlight says what shows the latest flight.
const theLastFlight = "the latest flight: boxbook flight last, boxbook debrief last"

// errNoLedger says that no ledger was named and the folder has none.
var errNoLedger error = &usageError{
	"no ledger: no *.boxbook file in this folder", "name one with -f FILE or $BOXBOOK_LEDGER, or begin one: boxbook start",
}

// errWriteStdin says that what was read from standard input stays as it is.
var errWriteStdin error = &usageError{text: "standard input cannot be written into; name a ledger with -f FILE"}

// severalLedgers says that no ledger was named and the folder does not settle
// it.
func severalLedgers(seen []string) error {
	return &usageError{
		"several ledgers in this folder: " + shownNames(seen), "name one with -f FILE or $BOXBOOK_LEDGER",
	}
}

// secondLedger says that a ledger to write into is not there, and others beside
// it are.
func secondLedger(path string, beside []string) error {
	e := &usageError{
		fmt.Sprintf("%s is not there, and its folder has %s", shownName(path), shownNames(beside)),
		"a second ledger is begun by: boxbook start " + shownName(path),
	}
	near := ledger.Nearest(filepath.Base(path), baseNames(beside))
	if near == "" && len(beside) == 1 {
		near = filepath.Base(beside[0])
	}
	if near != "" {
		e.text += fmt.Sprintf("; did you mean %q?", near)
	}
	return e
}

func baseNames(paths []string) []string {
	names := make([]string, len(paths))
	for i, path := range paths {
		names[i] = filepath.Base(path)
	}
	return names
}

// missingFlags says which flags are needed beside those given.
func missingFlags(names []string, hint string) error {
	return &usageError{"missing: --" + strings.Join(names, ", --"), hint}
}

// noFlights says why there is nothing to show.
func noFlights(l *season.Ledger, s season.Selection) error {
	if len(l.Flights) == 0 {
		return &usageError{text: "there are no flights in the ledger yet"}
	}
	if found := ahead(l, func(all *season.Ledger) []*season.Flight { return all.Select(s) }); len(found) > 0 {
		return isLater(l, found)
	}
	return &usageError{text: "no flights in this selection"}
}

// ahead are the flights that a question would find if they were not later than the day
// that counts as today.
func ahead(l *season.Ledger, find func(all *season.Ledger) []*season.Flight) []*season.Flight {
	if l.AsOf == 0 {
		return nil
	}
	all := *l
	all.AsOf = 0
	return slices.DeleteFunc(slices.Clone(find(&all)), func(f *season.Flight) bool { return f.Date <= l.AsOf })
}

// isLater says so of flights, and what shows them.
func isLater(l *season.Ledger, found []*season.Flight) error {
	last := found[len(found)-1]
	if len(found) > 1 {
		return laterThan(l, counted(len(found), "flight", "flights")+" of this selection are", last.Date, "shows them")
	}
	return laterThan(l, last.Name+" is", last.Date, "shows it")
}

// laterThan says of something that it is later than the day that counts as today.
func laterThan(l *season.Ledger, what string, day season.Date, shows string) error {
	return &usageError{fmt.Sprintf("%s later than %s", what, l.AsOf), fmt.Sprintf("--asof %s %s", day, shows)}
}

// unknown says that a name is not known, with the nearest one that is.
func unknown(kind, name string, known []string) error {
	e := &usageError{text: fmt.Sprintf("no %s is called %q", kind, name)}
	switch near := ledger.Near(name, known); {
	case len(near) > 0:
		e.text += "; " + ledger.DidYouMean(near)
	case len(known) > 0 && len(known) <= 12:
		e.hint = wrappedList("known: ", known)
	}
	return e
}

// wrappedList lists names behind a beginning, on lines that fit as hints.
func wrappedList(beginning string, names []string) string {
	const room = helpWidth - len("  ")
	lines := []string{strings.TrimSuffix(beginning, " ")}
	for i, name := range names {
		if i < len(names)-1 {
			name += ","
		}
		if last := lines[len(lines)-1]; i > 0 && display.Width(last)+1+display.Width(name) > room {
			lines = append(lines, strings.Repeat(" ", len(beginning)-1))
		}
		lines[len(lines)-1] += " " + name
	}
	return strings.Join(lines, "\n")
}

// mostParties is how many parties a message names.
const mostParties = 30

// noParty says that nobody has a name, or that none was given, and who there is; called is
// the handle of whoever has it as a full name, or the club.
func noParty(name, called string, known []string) error {
	e := &usageError{text: "whose statement? no name is given"}
	if name != "" {
		e.text = fmt.Sprintf("no pilot, coach or person is called %q", name)
		if near := ledger.Near(name, known); called == "" && len(near) > 0 {
			e.text += "; " + ledger.DidYouMean(near)
		}
	}
	if called != "" {
		e.text += "; " + ledger.CalledHere(name, called)
	}
	if len(known) <= mostParties {
		e.hint = "there are: " + strings.Join(known, ", ")
	}
	return e
}

// noTopic says that help knows nothing of that name.
func noTopic(name string, known []string) error {
	const what = "command, topic or kind of error"
	switch {
	case answeredElsewhere(name) != "":
		return &usageError{fmt.Sprintf("no %s is called %q", what, name), answeredElsewhere(name)}
	case slices.Contains(ledger.LanguageWords(), name):
		return &usageError{fmt.Sprintf("%q is a word of the ledger, and no %s", name, what), pageOfWord(name)}
	case topicOf(name) != "":
		return &usageError{fmt.Sprintf("no %s is called %q", what, name), "did you mean boxbook help " + topicOf(name) + "?"}
	case ledger.Nearest(name, known) == "":
		return &usageError{fmt.Sprintf("no %s is called %q", what, name), "see boxbook --help"}
	}
	return unknown(what, name, known)
}

// notAStepUp says that a category asked about lies not above the present one.
func notAStepUp(to, from string) error {
	return &usageError{
		fmt.Sprintf("%s is no step above %s, the highest category flown in contests within the policy's window", to, from),
		"--to names a category above it; without --to the next one is asked about",
	}
}
