package main

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"boxbook/data"

	"github.com/spf13/cobra"
)

// The groups of the help page.
const (
	groupRecord   = "record"
	groupRead     = "read"
	groupHandOver = "hand-over"
	groupCare     = "care"
)

// run executes one command line and gives the exit code.
func run(args []string, s *streams) int {
	root := newRoot(s)
	root.SetArgs(args)
	if !completing(args) {
		onlyOnce(root)
	}
	err := asUsage(cmp.Or(root.Execute(), s.misspelt))
	if s.changed && err != nil && !errors.Is(err, errCheck) {
		err = &changedError{err}
	}
	if err != nil {
		complain(s.err, err)
	}
	return exitCode(err)
}

// completing reports whether a shell asks what it may offer.
func completing(args []string) bool {
	return len(args) > 0 && (args[0] == cobra.ShellCompRequestCmd || args[0] == cobra.ShellCompNoDescRequestCmd)
}

func newRoot(s *streams) *cobra.Command {
	a := &app{streams: s}
	root := &cobra.Command{
		Use:   "boxbook",
		Short: "keep and read the ledger of a competition aerobatic pilot's flights",
		Long: `boxbook keeps a plain-text ledger of contest flights: sequences with their K
factors, the judges' grades, official results, faults and drills. It turns
grades into scores, says where the points went, shows the season, and exports
a workbook for the coach.

Alone it shows a pilot's home page: what is open, the last flight, the season,
what comes back, what is ahead, and where to look next. With several pilots it
shows one row per pilot.

Use flight for one flight in full, booklet for a season to read, and workbook
for a season to calculate with.`,
		SilenceErrors: true,
		SilenceUsage:  true,
	}
	a.homeOn(root)
	root.SetIn(s.in)
	root.SetOut(s.out)
	root.SetErr(s.err)
	root.SetFlagErrorFunc(a.flagErrorAt(root))
	root.AddGroup(
		&cobra.Group{ID: groupRecord, Title: "Record"},
		&cobra.Group{ID: groupRead, Title: "Read"},
		&cobra.Group{ID: groupHandOver, Title: "Hand over"},
		&cobra.Group{ID: groupCare, Title: "Care"},
	)
	root.SetHelpCommandGroupID(groupCare)
	root.SetCompletionCommandGroupID(groupCare)
	root.AddCommand(
		newStart(a), newLog(a), newImport(a), newUndo(a),
		newFlight(a), newPilots(a), newSeason(a), newFamilies(a), newFaults(a), newDrills(a), newForecast(a), newPlan(a), newReady(a), newPanel(a), newYear(a), newStatement(a),
		newDebrief(a), newWhatIf(a),
		newBooklet(a), newExport(a), newWorkbook(a),
		newCheck(a), newTidy(a), newLsp(a), newDemo(a), newVersion(a),
		newTopic(a, "marks", "the marks of a score sheet", page(marksTopic)),
		newTopic(a, "methods", "how things are calculated, with sources", methodsTopic),
		newTopic(a, "sources", "what the numbers rest on, and where that was read", sourcesTopic),
		newLanguageTopic(a),
		newTopic(a, "changes", "what changed for users, by version", page(data.Changes)),
		newTopic(a, "editors", "boxbook in an editor: mistakes, names, colours", page(data.Editors)),
		newTopic(a, "kinds", "the kinds of fault", kindsTopic),
	)
	root.InitDefaultHelpCmd()
	root.InitDefaultCompletionCmd()
	for _, cmd := range root.Commands() {
		switch cmd.Name() {
		case "help":
			cmd.Short = "explain a command, a topic or a kind of error"
			helpOnKinds(a, cmd)
			a.wholeLanguage(cmd)
			a.pagerFlag(cmd)
		case "completion":
			completionInOurVoice(cmd)
		}
	}
	root.SetUsageTemplate(strings.ReplaceAll(root.UsageTemplate(), "Flags.FlagUsages", fmt.Sprintf("Flags.FlagUsagesWrapped %d", helpWidth)))
	a.pagedHelp(root)
	ownFlagsFirst(root)
	a.addCompletion(root)
	return root
}

// helpWidth is how wide help pages are at most, in columns.
const helpWidth = 80

func usageHint(cmd *cobra.Command) string {
	return fmt.Sprintf("usage: %s\nsee %s --help", cmd.UseLine(), cmd.CommandPath())
}

// arguments wraps cobra's check of the number of arguments: a wrong number is
// wrong usage.
func arguments(check cobra.PositionalArgs) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		switch err := check(cmd, args); {
		case err == nil:
			return nil
		case len(args) == 0:
			return &usageError{cmd.Name() + " needs one more word: " + strings.TrimSpace(strings.TrimPrefix(cmd.Use, cmd.Name())), usageHint(cmd)}
		default:
			last := args[len(args)-1]
			return &usageError{fmt.Sprintf("%q is one word too many; words that belong together go in quotes", last), usageHint(cmd)}
		}
	}
}

// asUsage turns cobra's own complaint about an unknown command into a usage
// error.
func asUsage(err error) error {
	var usage *usageError
	if err == nil || errors.As(err, &usage) || !strings.HasPrefix(err.Error(), "unknown command") {
		return err
	}
	return &usageError{err.Error(), seeHelp}
}

const seeHelp = "see boxbook --help"

// unknownCommand says that a word is no command, and which are near.
func unknownCommand(root *cobra.Command, word string) error {
	const furthest = 2 // letters that differ
	root.SuggestionsMinimumDistance = furthest
	hint := seeHelp
	if near := root.SuggestionsFor(word); len(near) > 0 {
		hint = "did you mean " + strings.Join(near, " ") + "?"
	}
	return &usageError{fmt.Sprintf("unknown command %q for %q", word, root.Name()), hint}
}

// flagErrorAt says what is wrong with a flag; before that, that the word before
// it is no command.
func (a *app) flagErrorAt(root *cobra.Command) func(*cobra.Command, error) error {
	return func(cmd *cobra.Command, err error) error {
		if unknown := a.noCommand(root, cmd); unknown != nil {
			return unknown
		}
		return flagError(cmd, err)
	}
}

// noCommand says that the first word of the whole command line is neither a
// command nor a pilot, nil where it is one or there is none.
func (a *app) noCommand(root, cmd *cobra.Command) error {
	word := root.Flags().Arg(0)
	if cmd != root || word == "" || a.namesPilot(word) {
		return nil
	}
	return unknownCommand(root, word)
}
