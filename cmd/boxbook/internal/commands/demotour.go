package commands

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"boxbook/report"
	"boxbook/report/display"
	"boxbook/report/pages"
	"boxbook/report/words"
	"boxbook/season"
)

// step is one command of the tour, the function behind it, and how much of its page
// is shown.
type step struct {
	says string // the command line after `boxbook`
	most int    // of how many lines the excerpt is at the most; 0 is all
	set  func(*app)
	run  func(*app) error
	// cautioned ends the excerpts of pages that advise.
	cautioned bool
}

func (a *app) runDemo(dir string) error {
	if err := a.writeDemo(dir); err != nil {
		return err
	}
	path := filepath.Join(dir, demoLedger)
	gap := true
	for _, st := range demoTour(dir) {
		lines, err := a.walk(st, path, gap)
		if err != nil {
			return err
		}
		gap = lines > 1
	}
	_, err := fmt.Fprintf(a.out, "go on in %s, where -f is not needed: boxbook plan ines; boxbook --help\n", shownName(dir))
	return err
}

// walk shows one step of the tour, behind a gap or none, and says of how many lines its
// page is.
func (a *app) walk(st step, ledger string, gap bool) (lines int, err error) {
	var page bytes.Buffer
	streams := *a.streams
	streams.out = &page
	asked := commandOf("boxbook "+st.says, &streams)
	if err := asked.Flags().Set("ledger", filepath.ToSlash(ledger)); err != nil {
		return 0, err
	}
	b := &app{streams: &streams, ledger: ledger, color: a.color, asof: demoToday, asked: asked}
	if st.set != nil {
		st.set(b)
	}
	if err := b.runUnlessThere(st.run); err != nil {
		return 0, err
	}
	shown, left := excerpt(page.String(), st.most)
	if gap {
		fmt.Fprintln(a.out)
	}
	fmt.Fprintf(a.out, "$ boxbook %s -f %s\n%s", st.says, display.ShellWord(filepath.ToSlash(ledger)), shown)
	if left > 0 {
		fmt.Fprintf(a.out, "[%s of this page]\n", counted(left, "more line", "more lines"))
	}
	lines = strings.Count(page.String(), "\n")
	if !st.cautioned {
		return lines, nil
	}
	fmt.Fprintln(a.out)
	return lines, report.WriteText(a.out, report.Document{Caution: words.SeasonCaution}, report.TextOptions{Width: a.width, Color: a.colored()})
}

// runUnlessThere runs a step, unless the file that it would write is there: it may
// be the person's own by now.
func (a *app) runUnlessThere(run func(*app) error) error {
	if _, err := os.Lstat(a.output); a.output == "" || err != nil {
		return run(a)
	}
	_, err := fmt.Fprintf(a.out, "kept %s, which is there\n", shownName(a.output))
	return err
}

// excerpt is the beginning of a page, whole paragraphs of at most so many lines
// without a heading at the end, and how many lines are left; all of it where most
// is 0.
func excerpt(page string, most int) (shown string, left int) {
	lines := strings.SplitAfter(strings.TrimSuffix(page, "\n"), "\n")
	if most == 0 || len(lines) <= most {
		return page, 0
	}
	end := paragraphBefore(lines, most)
	if above := paragraphBefore(lines, end-1); above > 0 && end-above == 2 && !strings.HasSuffix(strings.TrimSpace(lines[end-1]), ".") {
		end = above
	}
	if end == 0 {
		end = most // one paragraph of more lines
	}
	return strings.Join(lines[:end], ""), len(lines) - end
}

// paragraphBefore is where the last paragraph that is over by a line ends, 0 where
// none is.
func paragraphBefore(lines []string, at int) int {
	for ; at > 0; at-- {
		if strings.TrimSpace(lines[at]) == "" {
			return at
		}
	}
	return 0
}

// demoTour is the tour, command by command: the pilot's pages before the coach's,
// the treasurer's, and what is handed over.
func demoTour(dir string) []step {
	book, booklet := filepath.Join(dir, "ines-2026.xlsx"), filepath.Join(dir, "ines-2026.html")
	pilot := func(b *app) { b.pilot = demoPilot }
	into := func(path string) func(*app) { return func(b *app) { b.pilot, b.output = demoPilot, path } }
	disputed := func(b *app) error { return b.runFlight([]string{"2026-09-12/yuki"}, pages.FlightOptions{}) }
	return []step{
		{says: "--pilot ines", set: pilot, run: (*app).runHome},
		{says: "check", run: func(b *app) error { return b.runCheck(checkFlags{}) }},
		{says: "flight 2026-09-12/yuki", most: 37, run: disputed},
		{says: "season ines", most: 10, set: pilot, run: (*app).runSeason},
		{says: "faults ines", most: 11, set: pilot, run: (*app).runFaults},
		{says: "drills ines", most: 15, set: pilot, run: (*app).runDrills},
		{says: "plan ines", most: 10, set: pilot, run: func(b *app) error { return b.runPlan(nil) }},
		{
			says: "ready ines", most: 10, set: pilot, cautioned: true,
			run: func(b *app) error { return b.runReady(readyOptions{policy: season.HousePolicy}) },
		},
		{says: "year 2026", most: 10, run: func(b *app) error { return b.runYear("2026", yearOptions{}) }},
		{says: "workbook ines -o " + display.ShellWord(filepath.ToSlash(book)), set: into(book), run: (*app).runWorkbook},
		{says: "booklet ines -o " + display.ShellWord(filepath.ToSlash(booklet)), set: into(booklet), run: (*app).runBooklet},
	}
}
