package commands

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"boxbook/data"

	"github.com/spf13/cobra"
)

// The demo's story.
const (
	demoFolder = "boxbook-demo"
	demoLedger = "longmere" + ledgerSuffix
	demoPilot  = "ines"
	demoToday  = "2026-11-25"
)

func newDemo(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "demo [DIR]", Short: "write a demo ledger and walk through it", GroupID: groupCare,
		Long: `Write the ledger of an invented club into a folder (boxbook-demo if omitted)
and walk through it: a home page, check, a disputed score sheet, and the first
lines of the pages on what comes back, a drill, where practice pays, readiness,
the season and the treasurer's year; the workbook and the booklet are written.
What is already there is kept, changes and all.`,
		Args: arguments(cobra.MaximumNArgs(1)),
		RunE: func(_ *cobra.Command, args []string) error {
			dir := demoFolder
			if len(args) == 1 {
				dir = args[0]
			}
			return a.runDemo(dir)
		},
	}
	a.colorFlag(cmd)
	return cmd
}

// writeDemo writes the demo's ledgers; what is there stays.
func (a *app) writeDemo(dir string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return &fileError{"make the folder " + dir, err}
	}
	return fs.WalkDir(data.Demo(), ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := fs.ReadFile(data.Demo(), name)
		if err != nil {
			return err
		}
		path := filepath.Join(dir, filepath.FromSlash(name))
		if there, err := os.ReadFile(path); err == nil {
			word := "kept"
			if string(there) != string(text) {
				word = "kept your"
			}
			_, err := fmt.Fprintf(a.out, "%s %s\n", word, shownName(path))
			return err
		} else if !errors.Is(err, fs.ErrNotExist) {
			return &fileError{"read " + path, err}
		}
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return &fileError{"make the folder " + filepath.Dir(path), err}
		}
		if err := writeNew(path, string(text)); err != nil {
			return err
		}
		_, err = fmt.Fprintf(a.out, "wrote %s\n", shownName(path))
		return err
	})
}
