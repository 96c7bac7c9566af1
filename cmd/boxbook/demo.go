package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"boxbook/data"
	"boxbook/report/pages"
	"boxbook/season"

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
		Long: `Write the ledger of an invented club into a folder (boxbook-demo where nothing
is given) and show it: a home page, check, score sheets, seasons, families,
faults and drills, readiness, the treasurer's year, the workbook. A demo ledger
that is already there is kept, changes and all.`,
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

// step is one command of the tour and the function behind it.
type step struct {
	says string // the command line after `boxbook`
	set  func(*app)
	run  func(*app) error
}

func (a *app) runDemo(dir string) error {
	if err := a.writeDemo(dir); err != nil {
		return err
	}
	path := filepath.Join(dir, demoLedger)
	for _, st := range demoTour(dir) {
		fmt.Fprintf(a.out, "\n$ boxbook %s -f %s\n\n", st.says, shownName(path))
		b := &app{streams: a.streams, ledger: path, color: a.color, asof: demoToday}
		if st.set != nil {
			st.set(b)
		}
		if err := st.run(b); err != nil {
			return err
		}
	}
	return nil
}

// demoTour is the tour, command by command.
func demoTour(dir string) []step {
	book := filepath.Join(dir, "ines-2026.xlsx")
	pilot := func(b *app) { b.pilot = demoPilot }
	return []step{
		{says: "--pilot ines", set: pilot, run: func(b *app) error { return b.runHome(nil) }},
		{says: "check", run: func(b *app) error { return b.runCheck(checkFlags{}) }},
		{says: "flight 2026-04-18/ines", run: func(b *app) error { return b.runFlight([]string{"2026-04-18/ines"}, pages.FlightOptions{}) }},
		{says: "flight 2026-09-12/yuki", run: func(b *app) error { return b.runFlight([]string{"2026-09-12/yuki"}, pages.FlightOptions{}) }},
		{says: "season --pilot ines", set: pilot, run: (*app).runSeason},
		{says: "season --pilot tobias", set: func(b *app) { b.pilot = "tobias" }, run: (*app).runSeason},
		{says: "families --pilot ines", set: pilot, run: (*app).runFamilies},
		{says: "faults --pilot ines", set: pilot, run: (*app).runFaults},
		{says: "drills --pilot ines", set: pilot, run: (*app).runDrills},
		{says: "plan --pilot ines", set: pilot, run: func(b *app) error { return b.runPlan(nil) }},
		{says: "ready --pilot ines", set: pilot, run: func(b *app) error { return b.runReady(readyOptions{policy: season.HousePolicy}) }},
		{says: "year 2026", run: func(b *app) error { return b.runYear("2026", yearOptions{}) }},
		{
			says: "workbook --pilot ines -o " + shownName(book),
			set:  func(b *app) { b.pilot, b.output = demoPilot, book }, run: func(b *app) error { return b.runWorkbook() },
		},
	}
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
