package main

import (
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"boxbook/data"
	"boxbook/season"
	"boxbook/season/ledger"

	"github.com/spf13/cobra"
)

// app is what every command shares: the streams and the common flags.
type app struct {
	*streams
	ledger   string
	pilot    string
	season   int
	since    string
	until    string
	category string
	contest  string
	format   string
	output   string
	color    string
	asof     string

	readPaths  []string    // every file of the ledger that was read
	ledgerName string      // the ledger that was read, as the person named it
	today      season.Date // the day that counted as today when it was read
}

const ledgerSuffix = ".boxbook"

// newLedger is what a new ledger is called where nothing is given.
const newLedger = "season" + ledgerSuffix

func (a *app) commonFlags(root *cobra.Command) {
	flags := root.PersistentFlags()
	flags.StringVarP(&a.ledger, "ledger", "f", "", "ledger `FILE`; else $BOXBOOK_LEDGER, else the one here")
	flags.StringVar(&a.pilot, "pilot", "", "only this `PILOT`")
	flags.IntVar(&a.season, "season", 0, "only the season that begins in this `YEAR`")
	flags.StringVar(&a.since, "since", "", "only from this `DATE` on")
	flags.StringVar(&a.until, "until", "", "only up to this `DATE`")
	flags.StringVar(&a.category, "category", "", "only this `CATEGORY`")
	flags.StringVar(&a.contest, "contest", "", "only this `CONTEST`")
	flags.StringVar(&a.format, "format", formatText, "write `FORMAT`: text, json, csv or markdown")
	flags.StringVarP(&a.output, "output", "o", "", "write to this `FILE`")
	flags.StringVar(&a.color, "color", "auto", "use colour `WHEN`: auto, always or never")
	flags.StringVar(&a.asof, "asof", "", "the `DATE` that counts as today (default: today)")
}

// asOf is the day that counts as today.
func (a *app) asOf() (season.Date, error) {
	if a.asof == "" {
		return season.DateIn(a.now()), nil
	}
	return dateFlag("asof", a.asof)
}

// dateFlag reads a date that a flag gives; 0 where it gives none.
func dateFlag(name, text string) (season.Date, error) {
	if text == "" {
		return 0, nil
	}
	date, ok := season.ParseDate(text)
	if !ok {
		return 0, &usageError{text: fmt.Sprintf("--%s %q is not a date (YYYY-MM-DD)", name, text)}
	}
	return date, nil
}

// ledgerPath says which ledger is meant.
func (a *app) ledgerPath() (string, error) {
	if a.ledger != "" {
		return a.ledger, nil
	}
	if path := a.env("BOXBOOK_LEDGER"); path != "" {
		return path, nil
	}
	seen, err := filepath.Glob("*" + ledgerSuffix)
	if err != nil {
		return "", &fileError{"look for a ledger", err}
	}
	switch len(seen) {
	case 0:
		return "", errNoLedger
	case 1:
		return seen[0], nil
	default:
		slices.Sort(seen)
		return "", severalLedgers(seen)
	}
}

// standardInput is a ledger on standard input; what it includes is read from
// the current folder.
type standardInput struct {
	ledger.Disk
	in io.Reader
}

const stdinName = "-"

func (s standardInput) Read(path string) (string, error) {
	if path == stdinName {
		return ledger.ReadText(s.in, "standard input", 0)
	}
	return s.Disk.Read(path)
}

func (s standardInput) Locate(path string) (string, error) {
	if path == stdinName {
		return filepath.Abs(stdinName)
	}
	return s.Disk.Locate(path)
}

// readOptions say how the ledger is read.
func (a *app) readOptions(path string) (ledger.Options, error) {
	today, err := a.asOf()
	if err != nil {
		return ledger.Options{}, err
	}
	opts := ledger.Options{Files: ledger.Disk{}, Main: path, Builtin: data.Builtin(), AsOf: today}
	if path == stdinName {
		opts.Files, opts.Shown = standardInput{in: a.in}, "standard input"
	}
	return opts, nil
}

// read reads the ledger, whatever is wrong with it.
func (a *app) read() (*ledger.Result, string, error) {
	path, err := a.ledgerPath()
	if err != nil {
		return nil, "", err
	}
	opts, err := a.readOptions(path)
	if err != nil {
		return nil, "", err
	}
	result, err := ledger.Load(opts)
	if err != nil {
		return nil, "", readError(path, err)
	}
	name := path
	if opts.Shown != "" {
		name = opts.Shown
	}
	a.readPaths, a.ledgerName, a.today = result.Paths, filepath.ToSlash(name), result.Ledger.AsOf
	return result, name, nil
}

// open reads the ledger and refuses one with errors.
func (a *app) open() (*season.Ledger, error) {
	result, _, err := a.read()
	if err != nil {
		return nil, err
	}
	return result.Ledger, result.Diagnostics.Err()
}

// question is how every reading command begins: the format is checked, the
// ledger read, the flags turned into a selection.
func (a *app) question() (*season.Ledger, season.Selection, error) {
	if err := a.checkFormat(); err != nil {
		return nil, season.Selection{}, err
	}
	l, err := a.open()
	if err != nil {
		return nil, season.Selection{}, err
	}
	s, err := a.selection(l)
	return l, s, err
}

// pilotQuestion is a question about one pilot.
func (a *app) pilotQuestion() (*season.Ledger, season.Selection, error) {
	l, s, err := a.question()
	if err != nil {
		return l, s, err
	}
	s, err = a.onePilot(l, s)
	return l, s, err
}

// selection turns the common flags into a selection.
func (a *app) selection(l *season.Ledger) (season.Selection, error) {
	s := season.Selection{Season: a.season, Category: a.category}
	var err error
	if s.Since, err = dateFlag("since", a.since); err != nil {
		return s, err
	}
	if s.Until, err = dateFlag("until", a.until); err != nil {
		return s, err
	}
	if s.Since != 0 && s.Until != 0 && s.Until < s.Since {
		return s, &usageError{text: fmt.Sprintf("--until %s is before --since %s", a.until, a.since)}
	}
	if a.pilot != "" {
		if s.Pilot = l.PilotNamed(a.pilot); s.Pilot == nil {
			return s, unknown("pilot", a.pilot, pilotHandles(l.Pilots))
		}
	}
	if a.contest != "" {
		if s.Contest = l.ContestNamed(a.contest); s.Contest == nil {
			return s, unknown("contest", a.contest, contestHandles(l))
		}
	}
	if known := l.CategoryNames(); a.category != "" && !slices.Contains(known, a.category) {
		return s, unknown("category", a.category, known)
	}
	return s, nil
}

// onePilot settles which pilot a question is about.
func (a *app) onePilot(l *season.Ledger, s season.Selection) (season.Selection, error) {
	if s.Pilot != nil {
		return s, nil
	}
	flyers := l.Flyers(s)
	switch len(flyers) {
	case 0:
		return s, noFlights(l)
	case 1:
		s.Pilot = flyers[0]
		return s, nil
	default:
		return s, &usageError{
			"several pilots have flights: " + strings.Join(pilotHandles(flyers), ", "), "name one with --pilot",
		}
	}
}

// oneSeason takes the latest season where no span was asked for.
func oneSeason(l *season.Ledger, s season.Selection) season.Selection {
	if s.Season == 0 && s.Since == 0 && s.Until == 0 && s.Contest == nil {
		s.Season = l.LatestSeason(s)
	}
	return s
}

// refuseChoice complains where a common flag chose among the flights of a
// question that takes all of them; hint says what to use.
func (a *app) refuseChoice(what, hint string) error {
	flags := []struct {
		name string
		set  bool
	}{
		{"--season", a.season != 0},
		{"--since", a.since != ""},
		{"--until", a.until != ""},
		{"--category", a.category != ""},
		{"--contest", a.contest != ""},
	}
	for _, f := range flags {
		if f.set {
			return &usageError{what + " takes no " + f.name, hint}
		}
	}
	return nil
}

// selectionTitle says what a page over a selection is about.
func selectionTitle(what string, s season.Selection) string {
	if s.Pilot != nil {
		what += ", " + s.Pilot.Name
	}
	if s.Contest != nil {
		what += ", " + s.Contest.Name
	}
	if s.Season != 0 {
		what += fmt.Sprintf(", season %d", s.Season)
	}
	return what
}

// The formats of a reading command.
const (
	formatText     = "text"
	formatJSON     = "json"
	formatCSV      = "csv"
	formatMarkdown = "markdown"
)

// formats are what --format takes.
var formats = []string{formatText, formatJSON, formatCSV, formatMarkdown}

// checkFormat refuses an unknown format before anything is read.
func (a *app) checkFormat() error {
	if !slices.Contains(formats, a.format) {
		return &usageError{text: fmt.Sprintf("--format %q is not one of %s", a.format, strings.Join(formats, ", "))}
	}
	if !slices.Contains([]string{"auto", "always", "never"}, a.color) {
		return &usageError{text: fmt.Sprintf("--color %q is not one of auto, always, never", a.color)}
	}
	return nil
}
