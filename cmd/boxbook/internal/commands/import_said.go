package commands

import (
	"fmt"
	"strings"

	"boxbook/report/display"
	"boxbook/report/words"
	"boxbook/season/ledger"
	"boxbook/season/sheetimport"
)

// tellSheet says on standard error what was not read, and what could not be.
func (a *app) tellSheet(name string, found sheetimport.Result) {
	at := func(worksheet, cell string) string {
		switch {
		case cell == "":
			return name
		case worksheet == "":
			return name + ":" + cell
		default:
			return fmt.Sprintf("%s:%s!%s", name, quotedSheet(worksheet), cell)
		}
	}
	for _, note := range found.Notes {
		fmt.Fprintf(a.err, "%s: note: %s\n", at(note.Sheet, note.Cell), a.pasted().in(note.Text))
	}
	for _, problem := range found.Problems {
		fmt.Fprintf(a.err, "%s: error: %s\n", at(problem.Sheet, problem.Cell), problem.Text)
		if problem.Hint != "" {
			fmt.Fprintf(a.err, "    hint: %s\n", problem.Hint)
		}
	}
	if found.More > 0 {
		fmt.Fprintf(a.err, "%s: and %d more\n", name, found.More)
	}
}

// tellRead ends an import: what was read, and whether something stands against it.
func (a *app) tellRead(name string, found sheetimport.Result) {
	if found.Panel != nil {
		fmt.Fprintf(a.err, "%s: %s%s\n", name, readOf(found), agreedOf(found))
	}
	if n := len(found.Problems) + found.More; n > 0 {
		fmt.Fprintf(a.err, "%s: %s; nothing was written\n", name, counted(n, "error", "errors"))
	}
}

// tellWarnings says what the ledger would warn of with the flight, and does not without.
func (a *app) tellWarnings(to destination, sheet string, with ledger.List) error {
	before, err := a.preview(to)
	if err != nil {
		return err
	}
	for _, d := range ledger.Fresh(before.Diagnostics, with) {
		fmt.Fprintf(a.err, "%s: %s: %s\n", sheet, d.Severity, d.Message)
		if d.Hint != "" {
			fmt.Fprintf(a.err, "    hint: %s\n", d.Hint)
		}
	}
	return nil
}

// agreedOf names the totals that agree with the marks: "; its total 566.98 agrees".
func agreedOf(found sheetimport.Result) string {
	if len(found.Agreed) == 0 {
		return ""
	}
	return "; " + words.ListInWords(found.Agreed) + " " + display.Plural(len(found.Agreed), "agrees", "agree")
}

// readOf counts what was read: "60 of 60 marks read, 5 of 5 judges".
func readOf(found sheetimport.Result) string {
	read, all := 0, 0
	judges := make([]bool, len(found.Panel))
	for i, row := range found.Rows {
		for _, entries := range append([][]sheetimport.Entry{row}, found.Again[i]...) {
			if entries == nil {
				if len(found.Problems) == 0 {
					continue // a figure that was not flown, in practice
				}
				entries = make([]sheetimport.Entry, len(found.Panel))
			}
			for j, e := range entries {
				all++
				if e.Read {
					read++
					judges[j] = true
				}
			}
		}
	}
	n := 0
	for _, has := range judges {
		if has {
			n++
		}
	}
	return fmt.Sprintf("%d of %s read, %d of %s", read, counted(all, "mark", "marks"), n, counted(len(found.Panel), "judge", "judges"))
}

// quotedSheet is a worksheet's name as a reference to a cell has it.
func quotedSheet(name string) string {
	plain := strings.IndexFunc(name, func(r rune) bool {
		return r != '_' && (r < '0' || r > '9') && (r < 'A' || r > 'Z') && (r < 'a' || r > 'z')
	})
	if plain < 0 {
		return name
	}
	quoted := fmt.Sprintf("%q", name) // nothing of a foreign name is left raw
	return "'" + strings.ReplaceAll(quoted[1:len(quoted)-1], "'", "''") + "'"
}
