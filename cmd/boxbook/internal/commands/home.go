package commands

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"boxbook/cmd/boxbook/internal/entry"
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/season"
	"boxbook/season/ledger"
)

// homeOn makes `boxbook` without a command show the home page, of the pilot whose
// name is its only word.
func (a *app) homeOn(root *cobra.Command) {
	root.Use += " [PILOT]"
	root.Args = func(cmd *cobra.Command, args []string) error {
		if len(args) < 2 {
			return nil
		}
		if result, _, err := a.read(); err == nil && result.Ledger.PilotNamed(args[0]) != nil {
			hint := "one pilot's page: boxbook " + args[0] + "; all of them: boxbook pilots"
			if asked := a.askedOf(args[0], args[1]); asked != "" {
				hint = "the command goes first: " + asked
			}
			return &usageError{fmt.Sprintf("%q is one word too many", args[1]), hint}
		}
		return unknownCommand(cmd, args[0])
	}
	root.ValidArgsFunction = first(a.offer(proposePilots))
	var version bool
	root.RunE = func(cmd *cobra.Command, args []string) error {
		switch {
		case version && len(args) == 1:
			return &usageError{text: "--version stands alone", hint: seeHelp}
		case version:
			return a.showVersion()
		case len(args) == 1:
			return a.runHomeOf(cmd, args[0])
		default:
			return a.runHome()
		}
	}
	a.pilotFlag(root, elseOnlyPilot)
	a.pageFlags(root)
	root.Flags().BoolVar(&version, "version", false, "show the version of boxbook, and nothing else")
}

// askedOf is the command of a name as it is asked about a pilot, "" where there is none
// that is.
func (a *app) askedOf(pilot, name string) string {
	for _, m := range makers() {
		if m.name != name || m.topic {
			continue
		}
		cmd := m.make(&app{streams: a.streams})
		switch {
		case strings.Contains(cmd.Use, "[PILOT]"):
			return "boxbook " + name + " " + pilot
		case cmd.Flags().Lookup("pilot") != nil && !cmd.Flags().Lookup("pilot").Hidden:
			return "boxbook " + name + " --pilot " + pilot
		}
	}
	return ""
}

// runHomeOf shows the home page of the pilot that a word names. Any other word is
// a command that there is not, near to others and to pilots; where there is a ledger that
// cannot be read, and no command is near, that is what is wrong.
func (a *app) runHomeOf(cmd *cobra.Command, word string) error {
	result, _, err := a.read()
	no := unknownCommand(cmd, word)
	isNear := no.hint != seeHelp
	switch {
	case err != nil && (isNear || errors.Is(err, errNoLedger)):
		return no
	case err != nil:
		return err
	}
	if result.Ledger.PilotNamed(word) == nil {
		near := pilotsNear(result.Ledger.Pilots, word)
		begun := len(near) > 0 && strings.HasPrefix(near[0], word)
		for i := range near {
			near[i] = "boxbook " + near[i]
		}
		if len(near) > 0 && (begun || !isNear || handleMeant(result.Ledger.Pilots, word) != "") {
			no.hint = "did you mean " + orList(near) + "?"
		}
		return no
	}
	if err := a.takePilot(word); err != nil {
		return err
	}
	if err := result.Diagnostics.Err(); err != nil {
		return err
	}
	return a.showHome(result.Ledger)
}

// pilotsNear are the handles that a word may be meant for: the one whose first name it is,
// else those that are near.
func pilotsNear(pilots []*season.Pilot, word string) []string {
	if handle := handleMeant(pilots, word); handle != "" {
		return []string{handle}
	}
	return slices.Clone(ledger.Near(word, pilotHandles(pilots)))
}

// runHome shows the home page of the pilot named or the only one, the table of
// pilots where there are several, and how to begin where there is no ledger.
func (a *app) runHome() error {
	if err := a.takePilot(""); err != nil {
		return err
	}
	l, err := a.open()
	switch {
	case errors.Is(err, errNoLedger) && a.plainText() && a.output == "":
		_, err := io.WriteString(a.out, howToBegin)
		return err
	case err != nil:
		return err
	}
	return a.showHome(l)
}

// showHome shows the home page of the pilot named or the only one, else the table
// of pilots.
func (a *app) showHome(l *season.Ledger) error {
	s, err := a.selection(l)
	if err != nil {
		return err
	}
	var club *answers.ClubHome
	if s.Pilot == nil {
		if club, err = answers.ClubHomeOf(l); err != nil {
			return err
		}
		if s.Pilot = l.OnlyFlyer(); s.Pilot == nil {
			return a.showPilots(l, club, a.drafts())
		}
	}
	d, err := answers.HomeOf(l, s.Pilot)
	if err != nil {
		return err
	}
	d.Warnings, d.Drafts, d.Club = a.warnings(), a.drafts(), club
	// The title has the name.
	return a.show(pages.Home(d), []report.Choice{{Key: "pilot", Value: s.Pilot.Handle}})
}

func newPilots(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "pilots", Short: "show one row per pilot: what is waiting, what comes back", GroupID: groupRead,
		Long: `Show one row per pilot: the flights to review, open matters, category, contest
flights, when last flown, trend, what comes back most and the open drill, which
gates to the next category are not met, and what expires soon.`,
		Args: arguments(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error {
			l, err := a.open()
			if err != nil {
				return err
			}
			return a.showPilots(l, nil, nil)
		},
	}
	a.pageFlags(cmd)
	instead(cmd, "the page has every pilot; one pilot's is: boxbook --pilot NAME", "pilot")
	return cmd
}

// drafts are the entries begun beside the ledger and not written. A page in a file, or for
// a browser, is read elsewhere and says nothing of them.
func (a *app) drafts() []answers.Draft {
	if a.output != "" || a.format == bookletFormat {
		return nil
	}
	path, err := a.ledgerPath()
	if err != nil || path == stdinName {
		return nil
	}
	var drafts []answers.Draft
	for _, left := range entry.Drafts(path) {
		drafts = append(drafts, answers.Draft{
			Kind: left.Kind, Typed: season.DateIn(left.Typed).String(), Flight: left.Flight, Date: left.Date, Pilot: left.Pilot, Aside: left.Aside,
		})
	}
	return drafts
}

// showPilots shows a row a pilot, or the club's home page where there is one.
func (a *app) showPilots(l *season.Ledger, club *answers.ClubHome, drafts []answers.Draft) error {
	d := answers.PilotsOf(l)
	d.Warnings, d.Drafts, d.Club = a.warnings(), drafts, club
	return a.show(pages.Pilots(d), nil)
}
