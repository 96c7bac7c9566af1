package commands

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"boxbook/report"
	"boxbook/report/display"
	"boxbook/report/words"
)

// pageFormats are those of a page, the first where nothing is said.
func pageFormats() []string { return formatNames(func(report.Format) bool { return true }) }

// rowFormats are those of rows for other programs, csv first: it is what most
// of them read.
func rowFormats() []string {
	names := formatNames(func(f report.Format) bool { return f.Rows })
	slices.Sort(names)
	return names
}

func formatNames(fits func(report.Format) bool) []string {
	var names []string
	for _, f := range report.Formats {
		if fits(f) {
			names = append(names, f.Name)
		}
	}
	return names
}

// plainText reports whether a page is for reading here.
func (a *app) plainText() bool { return a.format == "" || a.format == report.Formats[0].Name }

// settleFormat finds the format before anything is read: as --format says, else
// as the ending of the file does, else the first that the command knows.
func (a *app) settleFormat(cmd *cobra.Command, known []string) error {
	ending := endingOf(a.output)
	format, _ := report.FormatOf(ending)
	switch {
	case slices.Contains(known, a.format):
		return nil
	case a.format != "":
		return &usageError{text: fmt.Sprintf("--format %q is not one of %s", a.format, strings.Join(known, ", "))}
	case isFolder(a.output) && slices.Contains(known, bookletFormat):
		a.format = bookletFormat
		return nil
	case ending == "":
		a.format = known[0]
		return nil
	case slices.Contains(known, format.Name):
		a.format = format.Name
		return nil
	default:
		return refusedEnding(cmd, a.output, ending)
	}
}

// The endings of a workbook, and of what no command makes: a page is printed
// from a browser.
const (
	workbookEnding = ".xlsx"
	printedEnding  = ".pdf"
)

// endingOf is the ending of a file's name, "" where it has none or is standard
// output.
func endingOf(path string) string {
	if path == stdinName {
		return ""
	}
	return strings.ToLower(filepath.Ext(path))
}

// onlyEnding holds the output to the one ending that a command's files have.
func (a *app) onlyEnding(cmd *cobra.Command, only string) error {
	if ending := endingOf(a.output); ending != "" && ending != only {
		return refusedEnding(cmd, a.output, ending)
	}
	return nil
}

// refusedEnding says which command makes a file of the ending.
func refusedEnding(cmd *cobra.Command, path, ending string) error {
	e := &usageError{text: fmt.Sprintf("-o %s: this command makes no %s file", path, ending)}
	format, known := report.FormatOf(ending)
	switch {
	case ending == printedEnding:
		e.hint = "a page to print from a browser is made by: " + pagesOf(cmd) + " -o " + display.ShellWord(strings.TrimSuffix(path, filepath.Ext(path))+".html")
	case ending == workbookEnding && ofTheClub(cmd):
		e.hint = "the club's workbook is made by: boxbook workbook --club" + yearAmong(cmd.Flags().Args()) + " -o " + path
	case ending == workbookEnding:
		e.hint = "a workbook is made by: boxbook workbook -o " + path
	case ending == ledgerSuffix:
		e.hint = "a new ledger is made by: boxbook start " + path
	case known && format.Name == bookletFormat:
		e.hint = "a page is made by: boxbook season -o " + path + "; a season to read by: boxbook booklet -o " + path
	case known && format.Rows && ofTheClub(cmd):
		e.hint = "each line of money as a row is made by: boxbook export money -o " + path
	case known && format.Rows:
		e.hint = "every mark as a row is made by: boxbook export -o " + path
	case known:
		e.hint = "a page is made by: boxbook season -o " + path
	default:
		e = &usageError{fmt.Sprintf("-o %s: the ending %s is not known", path, ending), "known: " + strings.Join(endings(), ", ") + "; or name a --format"}
	}
	return e
}

// pagesOf is the command that makes a page of what a command is about: itself
// where it makes any, with the words that it was given.
func pagesOf(cmd *cobra.Command) string {
	said := cmd.CommandPath()
	switch {
	case cmd.Name() == "export":
		return "boxbook booklet"
	case cmd.Flags().Lookup("format") == nil:
		said = "boxbook booklet"
	}
	for _, word := range cmd.Flags().Args() {
		said += " " + display.ShellWord(word)
	}
	return said
}

// ofTheClub reports whether a command is about the club's money.
func ofTheClub(cmd *cobra.Command) bool {
	switch cmd.Name() {
	case "year", "statement":
		return true
	case "workbook":
		return cmd.Flags().Changed("club")
	case "export":
		return slices.Contains(cmd.Flags().Args(), words.MoneyTable)
	}
	return false
}

// yearAmong is the year among the words that a command was given, with a space before
// it, "" where none is.
func yearAmong(args []string) string {
	for _, word := range args {
		if _, ok := readYear(word); ok {
			return " " + word
		}
	}
	return ""
}

// endings are those of all formats.
func endings() []string {
	var all []string
	for _, f := range report.Formats {
		all = append(all, f.Ending)
	}
	return all
}
