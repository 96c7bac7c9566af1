package commands

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"os"
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
	whole bool // --all: the whole page
	*streams
	ledger   string
	forShell *shellRead
	inName   string // of the stream that is read as the ledger; "" for standard input
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
	into     string         // the file of the ledger to write into
	asked    *cobra.Command // the command that asks of a ledger
	asking   string         // the command that asks about one pilot
	ownWord  string         // what that command was given beside the pilot

	byVariable bool   // $BOXBOOK_PILOT named the pilot
	table      string // of those that export writes
	paged      bool   // a long page goes through the pager
	unpaged    bool   // --no-pager

	readPaths  []string    // every file of the ledger that was read
	ledgerName string      // the ledger that was read, as the person named it
	found      ledger.List // what reading it gave
	asOfRead   season.Date // the day that counted as today when it was read
}

const ledgerSuffix = ".boxbook"

// newLedger is what a new ledger is called where nothing is given.
const newLedger = "season" + ledgerSuffix

// warnings counts what is warned of the ledger. Where the past is asked about, what came
// after is no slip; what is still to come is.
func (a *app) warnings() int {
	n := a.found.Warnings()
	if a.asof != "" {
		n -= a.found.AheadTo(season.DateIn(a.now()))
	}
	return n
}

// today is the day that counts as today.
func (a *app) today() (season.Date, error) {
	if a.asof == "" {
		return season.DateIn(a.now()), nil
	}
	return a.dateFlag("asof", a.asof)
}

// dateFlag reads a date that a flag gives, as an answer of an entry is read; 0 where it
// gives none.
func (a *app) dateFlag(name, text string) (season.Date, error) {
	if text == "" {
		return 0, nil
	}
	if date, ok := season.ParseDate(ledger.DateMeant(text)); ok {
		return date, nil
	}
	slip := cmp.Or(ledger.DateSlip(text, season.DateIn(a.now())), fmt.Sprintf("%q is not a date: there is no such day", text))
	problem, hint, _ := strings.Cut(slip, "; ")
	return 0, &usageError{"--" + name + " " + problem, hint}
}

// ledgerPath says which ledger is meant.
func (a *app) ledgerPath() (string, error) {
	if a.ledger != "" {
		return a.orStream(a.ledger)
	}
	if path := a.env("BOXBOOK_LEDGER"); path != "" {
		return a.orStream(path)
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

// errNothingCame says that a stream is closed or empty: a ledger with nothing in
// it comes from no program.
var errNothingCame = errors.New("nothing was typed")

func (s standardInput) Read(path string) (string, error) {
	if path != stdinName {
		return s.Disk.Read(path)
	}
	text, err := ledger.ReadText(s.in, standardInputName, 0)
	if err == nil && text == "" {
		err = errNothingCame
	}
	return text, err
}

// standardInputName is what standard input is called.
const standardInputName = "standard input"

// orStream is a path, or stdinName for one that is a stream which this program
// was given open, as by <(...) in a shell: it is read in the place of standard
// input.
func (a *app) orStream(path string) (string, error) {
	if !isStream(path) {
		return path, nil
	}
	f, err := os.Open(path)
	if err != nil {
		return "", &fileError{"read " + path, err}
	}
	a.in, a.inName, a.ledger = f, path, stdinName
	return stdinName, nil
}

// isStream reports a path of a stream that is open.
func isStream(path string) bool {
	clean := filepath.ToSlash(filepath.Clean(path))
	if !strings.HasPrefix(clean, "/dev/fd/") && !strings.HasPrefix(clean, "/proc/") && clean != "/dev/stdin" {
		return false
	}
	info, err := os.Stat(path)
	return err == nil && !info.Mode().IsRegular() && !info.IsDir()
}

func (s standardInput) Locate(path string) (string, error) {
	if path == stdinName {
		return filepath.Abs(stdinName)
	}
	return s.Disk.Locate(path)
}

// readOptions say how the ledger is read.
func (a *app) readOptions(path string) (ledger.Options, error) {
	today, err := a.today()
	if err != nil {
		return ledger.Options{}, err
	}
	opts := ledger.Options{Files: ledger.Disk{}, Main: path, Builtin: data.Builtin(), AsOf: today}
	if path == stdinName {
		opts.Files, opts.Shown = standardInput{in: a.in}, cmp.Or(a.inName, standardInputName)
	}
	opts.Files = &roomy{Files: opts.Files, makeRoom: a.makeRoom}
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
		return nil, "", readError(cmp.Or(opts.Shown, path), err)
	}
	name := result.Main
	if opts.Shown != "" {
		name = opts.Shown
	}
	a.found = result.Diagnostics
	a.readPaths, a.ledgerName, a.asOfRead = result.Paths, filepath.ToSlash(name), result.Ledger.AsOf
	return result, name, a.mayPrint()
}

// open reads the ledger and refuses one with errors.
func (a *app) open() (*season.Ledger, error) {
	result, _, err := a.read()
	if err != nil {
		return nil, err
	}
	return result.Ledger, result.Diagnostics.Err()
}

// question is how every reading command begins: the ledger is read, the flags
// are turned into a selection.
func (a *app) question() (*season.Ledger, season.Selection, error) {
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

// seasonQuestion is a question about one season of one pilot, with a flight in it.
func (a *app) seasonQuestion() (*season.Ledger, season.Selection, error) {
	l, s, err := a.pilotQuestion()
	if err != nil {
		return l, s, err
	}
	if s = oneSeason(l, s); len(l.Select(s)) == 0 {
		return l, s, noFlights(l, s)
	}
	return l, s, nil
}

// selection turns the common flags into a selection.
func (a *app) selection(l *season.Ledger) (season.Selection, error) {
	s := season.Selection{Season: a.season, Category: a.category}
	var err error
	if s.Since, err = a.dateFlag("since", a.since); err != nil {
		return s, err
	}
	if s.Until, err = a.dateFlag("until", a.until); err != nil {
		return s, err
	}
	if s.Since != 0 && s.Until != 0 && s.Until < s.Since {
		return s, &usageError{text: fmt.Sprintf("--until %s is before --since %s", a.until, a.since)}
	}
	if a.pilot != "" {
		if s.Pilot = l.PilotCalled(a.pilot); s.Pilot == nil {
			return s, a.unknownPilot(l)
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
	if len(flyers) == 0 {
		flyers = l.Placed(s)
	}
	switch len(flyers) {
	case 0:
		return s, noFlights(l, s)
	case 1:
		s.Pilot = flyers[0]
		return s, nil
	default:
		return s, a.severalPilots(flyers)
	}
}

// oneSeason takes the latest season where no span was asked for.
func oneSeason(l *season.Ledger, s season.Selection) season.Selection {
	if s.Season == 0 && s.Since == 0 && s.Until == 0 && s.Contest == nil {
		s.Season = l.LatestSeason(s)
	}
	return s
}
