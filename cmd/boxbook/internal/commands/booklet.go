package commands

import (
	"io"

	"github.com/spf13/cobra"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/tables"
)

// bookletFormat is what a booklet is written in.
const bookletFormat = "html"

func newBooklet(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "booklet", Short: "write a season to read, as one file for a phone", GroupID: groupHandOver,
		Long: `Write a pilot's season as one file to read on a phone or to print: the answers
and the picture of the season first, then what comes back, drills, plan,
readiness, families and panels, then every flight with its sheet, faults and
notes, folded. The file stands alone: no script, nothing fetched. A fault's
place in the video leads there, where the video's path is relative to the file
or an address.

Use flight for one flight in full, booklet for a season to read, and workbook
for a season to calculate with.`,
		Example: "  boxbook booklet ines -o ines-2026.html",
		RunE:    func(*cobra.Command, []string) error { return a.runBooklet() },
	}
	a.pilotWord(cmd, elseOnlyPilot)
	a.choosingFlags(cmd)
	a.ledgerFlag(cmd)
	a.asOfFlag(cmd)
	a.outputFlag(cmd, "write to this `FILE`, such as ines.html")
	before(cmd, func([]string) error { return a.bookletFile(cmd) })
	instead(cmd, "a booklet is an html file; a season in another format is made by: boxbook season", "format", "color")
	return cmd
}

// bookletFile holds the file to the one ending of a booklet.
func (a *app) bookletFile(cmd *cobra.Command) error {
	format, _ := report.FormatNamed(bookletFormat)
	a.format = format.Name
	return a.onlyEnding(cmd, format.Ending)
}

func (a *app) runBooklet() error {
	a.makeRoom()
	l, s, err := a.seasonQuestion()
	if err != nil {
		return err
	}
	format, _ := report.FormatNamed(bookletFormat)
	if a.output == "" {
		return &usageError{"a booklet needs a file to go to", "boxbook booklet " + s.Pilot.Handle + " -o " + s.Pilot.Handle + format.Ending}
	}
	doc := pages.Booklet(answers.BookOf(l, s, nil))
	doc.Head = a.head(tables.TitledChoices(s))
	err = a.deliver(func(w io.Writer) error { return format.Write(w, doc, report.TextOptions{}) })
	if err != nil {
		return err
	}
	return a.sayWrote("")
}
