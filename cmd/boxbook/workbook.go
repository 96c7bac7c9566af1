package main

import (
	"fmt"
	"io"
	"path/filepath"

	"boxbook/report/workbook"

	"github.com/spf13/cobra"
)

func newWorkbook(a *app) *cobra.Command {
	return &cobra.Command{
		Use: "workbook", Short: "write the coach's workbook", GroupID: groupHandOver,
		Long: `Write a workbook of a pilot's season: flights, every mark, and the season at a
glance. Means, points and percents are live formulas that lead back to the
marks, so that a changed mark shows what would follow.`,
		Example: "  boxbook workbook --pilot ines -o ines-2026.xlsx",
		Args:    arguments(cobra.NoArgs),
		RunE:    func(*cobra.Command, []string) error { return a.runWorkbook() },
	}
}

func (a *app) runWorkbook() error {
	l, s, err := a.pilotQuestion()
	if err != nil {
		return err
	}
	s = oneSeason(l, s)
	if a.output == "" {
		return &usageError{"a workbook needs a file to go to", "boxbook workbook -o " + s.Pilot.Handle + ".xlsx"}
	}
	err = a.deliver(func(w io.Writer) error {
		return workbook.Write(w, l, s, workbook.Options{AsOf: l.AsOf, Version: version})
	})
	if err != nil {
		return err
	}
	if a.output == stdinName {
		return nil
	}
	_, err = fmt.Fprintf(a.out, "wrote %s\n", filepath.ToSlash(a.output))
	return err
}
