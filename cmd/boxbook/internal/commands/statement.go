package commands

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/words"
	"boxbook/season"
)

// everybodyWord asks for the statements of all.
const everybodyWord = "all"

func newStatement(a *app) *cobra.Command {
	var how answers.Settling
	cmd := &cobra.Command{
		Use: "statement [WHO|all|club] [YEAR]", Short: "show one party's account for a year, ready to mail", GroupID: groupRead,
		Long: `Show what one pilot, coach or person has with the club and the others in a year:
what was carried in, every line of the ledger that is about them with their
share of it and what they paid, what is carried out, and what they pay to whom
to be even. The balances and payments are those of boxbook year.

all is a page for everybody with a line in the year or an open balance; in an
html file each begins a new printed page, and with a folder for -o, such as
mail/, each has a file of its own in it to send: mail/ines-2026.html. club is
the club's cash book: what came in and went out, the running balance, and each
count of what is in hand with its difference, to tick off against the bank.

YEAR is the club's year. If YEAR is omitted, it is the latest year with an
entry. WHO may be omitted if $BOXBOOK_PILOT names a pilot. --fewest and --in
find the payments as boxbook year does.`,
		Example:           "  boxbook statement ines\n  boxbook statement all 2026 -o statements.html\n  boxbook statement all 2026 -o mail/\n  boxbook statement club --format csv",
		Args:              arguments(cobra.MaximumNArgs(2)),
		ValidArgsFunction: behind(a.offer(proposeStatements), a.offer(proposeYears)),
		RunE:              func(_ *cobra.Command, args []string) error { return a.runStatement(args, how) },
	}
	a.settlingFlags(cmd, &how)
	a.pageFlags(cmd)
	instead(cmd, "who it is about is the first word: boxbook statement ines", "pilot")
	instead(cmd, "a statement is of a year of the club's: boxbook statement ines 2026", choosing...)
	return cmd
}

// proposeStatements are all that a statement can be of.
func proposeStatements(l *season.Ledger) []string {
	return append(namesOf(l.Parties(), season.Party.Name), everybodyWord)
}

// runStatement shows the statements that the words ask for.
func (a *app) runStatement(args []string, how answers.Settling) error {
	who, text, err := a.statementWords(args)
	if err != nil {
		return err
	}
	year, err := yearArgument(text)
	if err != nil {
		return err
	}
	l, err := a.open()
	if err != nil {
		return err
	}
	parties, named, err := statementParties(l, who)
	if err != nil {
		return err
	}
	if text == "" {
		year = answers.YearAtHand(l)
	}
	d, err := answers.StatementsOf(l, year, how, parties...)
	if err != nil {
		return refusedSettling(year, "statement "+who, err)
	}
	for i := range d.Statements {
		if d.Statements[i].IsClub() {
			d.Statements[i].Warned = answers.WarnedOf(l, year, a.found)
			continue
		}
		d.Statements[i].FindTwice(l, a.found)
	}
	doc := pages.Statement
	if len(parties) != 1 {
		d.Warned = answers.WarnedOf(l, year, a.found)
		doc = pages.Statements
	}
	if isFolder(a.output) {
		err = a.statementsApart(d)
	} else {
		err = a.show(doc(d), statementChosen(who, named, year))
	}
	if first := words.LookFirst(d.Warned.PagesOf(d.Statements)); err == nil && a.output != "" && first != "" {
		fmt.Fprintf(a.err, "before mailing, %s: %s\n", first, a.pasted().in("boxbook check"))
	}
	return err
}

// statementChosen is what a page of statements says was asked for.
func statementChosen(who, named string, year int) []report.Choice {
	return []report.Choice{{Key: "party", Value: who, Words: named}, {Key: "year", Value: year, Words: words.YearChosen(year)}}
}

// statementsApart writes each statement as a file of its own into a folder, which is
// made where it is not there: the page that a command for it alone makes.
func (a *app) statementsApart(d answers.Statements) error {
	format, _ := report.FormatNamed(a.format)
	folder := a.output
	defer func() { a.output = folder }()
	if err := os.Mkdir(folder, folderMode); err != nil && !errors.Is(err, fs.ErrExist) {
		return &fileError{"make " + folder, err}
	}
	all := d.Statements
	d.Warned = nil
	for i, s := range all {
		d.Statements = all[i : i+1]
		a.output = filepath.Join(folder, fmt.Sprintf("%s-%d%s", s.Party, d.Year, format.Ending))
		if err := a.show(pages.Statement(d), statementChosen(s.Party, "", d.Year)); err != nil {
			return err
		}
	}
	return nil
}

// statementWords settles who and which year are meant: handles begin with a letter,
// so that a number alone is a year.
func (a *app) statementWords(args []string) (who, year string, err error) {
	if len(args) > 0 && (args[0] == "" || args[0][0] < '0' || args[0][0] > '9') {
		who, args = args[0], args[1:]
	} else {
		who = a.env(pilotVariable)
	}
	switch {
	case len(args) > 1:
		return "", "", &usageError{fmt.Sprintf("%q is one word too many", args[1]), "boxbook statement ines 2026"}
	case len(args) == 1:
		year = args[0]
	}
	return who, year, nil
}

// statementParties are who is asked for, none where everybody is, with what the head
// of the page calls them.
func statementParties(l *season.Ledger, who string) (parties []season.Party, named string, err error) {
	if who == everybodyWord {
		return nil, words.Everybody, nil
	}
	p, ok := l.PartyNamed(who)
	if !ok {
		return nil, "", noParty(who, l.HandleCalled(who), proposeStatements(l))
	}
	return []season.Party{p}, "", nil
}
