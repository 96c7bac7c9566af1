package commands

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

func newWorkbook(a *app) *cobra.Command {
	club := false
	cmd := &cobra.Command{
		Use: "workbook [PILOT | --club [YEAR]]", Short: "write the coach's workbook, or the treasurer's", GroupID: groupHandOver,
		Long: `Write a workbook of a pilot's season: a page to read first, every remark of
coach and pilot, flights, every mark, families, faults and drills, the panels,
readiness. Means, points and percents are live formulas that lead back to the
marks, so that a changed mark shows what would follow. It holds no accounts.

With --club write the treasurer's workbook of a financial year instead, the
latest or the YEAR that follows: the year with its result, money and what is in
hand beside the year before and the budget; members; a journal with one row
per posting, over which all other figures are formulas; contests with one column
per pilot; payments; duties. It holds no marks and no faults, only flights and
places.`,
		Example: "  boxbook workbook ines -o ines-2026.xlsx\n  boxbook workbook --club -o club.xlsx\n  boxbook workbook --club 2025 -o club-2025.xlsx",
		RunE: func(_ *cobra.Command, args []string) error {
			if club {
				return a.runClubWorkbook(strings.Join(args, ""))
			}
			return a.runWorkbook()
		},
	}
	cmd.Flags().BoolVar(&club, "club", false, "the treasurer's workbook, of the financial year that follows")
	cmd.Args = arguments(cobra.MaximumNArgs(1))
	cmd.ValidArgsFunction = first(func(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
		if club { // a year follows, and no pilot
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return a.offer(proposePilots)(cmd, args, typed)
	})
	before(cmd, func(args []string) error {
		if club {
			return aboutEverybody(cmd)
		}
		return a.takePilot(strings.Join(args, ""))
	})
	a.preferredPilot(cmd, elseOnlyPilot)
	a.choosingFlags(cmd)
	a.ledgerFlag(cmd)
	a.asOfFlag(cmd)
	a.outputFlag(cmd, "write to this `FILE`, such as ines.xlsx")
	before(cmd, func([]string) error { return a.workbookFile(cmd) })
	instead(cmd, "a workbook is an xlsx file; every mark as a row is made by: boxbook export", "format", "color")
	instead(cmd, "the accounts of a year are a workbook of their own: boxbook workbook --club 2026 -o club.xlsx", "year", "beside")
	return cmd
}

// aboutEverybody refuses what chooses flights, of which the club's year has none.
func aboutEverybody(cmd *cobra.Command) error {
	for _, flag := range append([]string{"pilot"}, choosing...) {
		if cmd.Flags().Changed(flag) {
			return &usageError{
				"workbook --club is about everybody and takes no --" + flag,
				"its financial year is a word: boxbook workbook --club 2026 -o club.xlsx",
			}
		}
	}
	return nil
}

// workbookFile holds the file to the one ending of a workbook.
func (a *app) workbookFile(cmd *cobra.Command) error {
	return a.onlyEnding(cmd, workbookEnding)
}

func (a *app) runWorkbook() error {
	a.makeRoom()
	l, s, err := a.seasonQuestion()
	if err != nil {
		return err
	}
	if a.output == "" {
		return &usageError{"a workbook needs a file to go to", "boxbook workbook " + s.Pilot.Handle + " -o " + s.Pilot.Handle + workbookEnding}
	}
	return a.writeWorkbook("", func(w io.Writer, p *progress) error {
		book := answers.BookOf(l, s, p.part(0, 30))
		return fromMain.Workbook(w, book, BookOptions{Head: a.head(tables.PeriodChoices(s)), Progress: p.part(30, 100)})
	})
}

// runClubWorkbook writes the treasurer's workbook of the year that text names, the
// latest where it is "".
func (a *app) runClubWorkbook(text string) error {
	a.makeRoom()
	year, err := yearArgument(text)
	if err != nil {
		return err
	}
	l, err := a.open()
	if err != nil {
		return err
	}
	if text == "" {
		year = answers.YearAtHand(l)
	}
	if a.output == "" {
		return &usageError{"a workbook needs a file to go to", fmt.Sprintf("boxbook workbook --club %d -o club%s", year, workbookEnding)}
	}
	book, err := answers.ClubBookOf(l, year)
	if err != nil {
		return err
	}
	return a.writeWorkbook(words.YearChosen(year), func(w io.Writer, p *progress) error {
		return fromMain.ClubWorkbook(w, book, BookOptions{Head: a.head(yearChoices(book.Year)), Progress: p.part(0, 100)})
	})
}

// writeWorkbook writes a workbook into its file, and says so, with what it is about.
func (a *app) writeWorkbook(about string, write func(w io.Writer, p *progress) error) error {
	p := a.newProgress("writing " + filepath.Base(a.output))
	defer p.end()
	if err := a.deliver(func(w io.Writer) error { return write(w, p) }); err != nil {
		return err
	}
	p.end()
	return a.sayWrote(about)
}
