package commands

import (
	"bufio"
	"cmp"
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"

	"boxbook/cmd/boxbook/internal/entry"
	"boxbook/data"
	"boxbook/report/display"

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
	root := rootFor(s, args)
	root.SetArgs(args)
	if completing(args) {
		words := bufio.NewWriter(s.out) // cobra writes each by itself
		defer words.Flush()
		root.SetOut(words)
	} else {
		onlyOnce(root)
	}
	asked, err := root.ExecuteC()
	err = ledgerAsWord(asUsage(cmp.Or(err, s.misspelt, s.unsaid)), asked)
	if s.changed && err != nil && !errors.Is(err, errCheck) {
		err = &changedError{err}
	}
	if err != nil {
		complain(s.err, err, pastedBehind(asked, s, whole), s.fixesAny)
	}
	return exitCode(err)
}

// completing reports whether a shell asks what it may offer.
func completing(args []string) bool {
	return len(args) > 0 && (args[0] == cobra.ShellCompRequestCmd || args[0] == cobra.ShellCompNoDescRequestCmd)
}

// newRoot is the whole tree of commands.
func newRoot(s *streams) *cobra.Command { return rootOf(s, func(string) bool { return true }) }

// rootFor is the tree as far as one command line needs it: a command is made with
// its flags where its name stands in the line, and all are where the line asks for
// help or a shell may complete a name. The others have their names alone, to be told from
// pilots and to be meant by a slip. Making every flag takes longer than `version`
// does otherwise.
func rootFor(s *streams, args []string) *cobra.Command {
	all := completing(args) && !namesCommand(args[1:max(1, len(args)-1)]) || slices.ContainsFunc(args, func(arg string) bool { return slices.Contains(tellsOfAll, arg) })
	return rootOf(s, func(name string) bool { return all || slices.Contains(args, name) })
}

// namesCommand reports whether a command's name stands among words.
func namesCommand(words []string) bool {
	return slices.ContainsFunc(makers(), func(m maker) bool { return slices.Contains(words, m.name) })
}

// tellsOfAll are the words of a command line that need every command.
var tellsOfAll = []string{"help", "completion", "--help", "-h"}

// maker makes a command, or a topic of help.
type maker struct {
	name  string
	make  func(a *app) *cobra.Command
	topic bool
}

// topic is a page of help.
func topic(name, short string, text func() string) maker {
	return maker{name, func(a *app) *cobra.Command { return newTopic(a, name, short, text) }, true}
}

// alone is the command with its name and nothing else.
func (m maker) alone() *cobra.Command {
	cmd := &cobra.Command{Use: m.name}
	if !m.topic {
		cmd.Run = func(*cobra.Command, []string) {} // what cannot be run is never what was meant
	}
	return cmd
}

// makers are the commands, in the order of the help page.
func makers() []maker {
	return []maker{
		{name: "start", make: newStart},
		{name: "log", make: newLog},
		{name: "import", make: newImport},
		{name: "undo", make: newUndo},
		{name: "flight", make: newFlight},
		{name: "pilots", make: newPilots},
		{name: "season", make: newSeason},
		{name: "families", make: newFamilies},
		{name: "faults", make: newFaults},
		{name: "drills", make: newDrills},
		{name: "forecast", make: newForecast},
		{name: "plan", make: newPlan},
		{name: "ready", make: newReady},
		{name: "panel", make: newPanel},
		{name: "year", make: newYear},
		{name: "statement", make: newStatement},
		{name: "debrief", make: newDebrief},
		{name: "whatif", make: newWhatIf},
		{name: "booklet", make: newBooklet},
		{name: "export", make: newExport},
		{name: "workbook", make: newWorkbook},
		{name: "check", make: newCheck},
		{name: "tidy", make: newTidy},
		{name: "lsp", make: newLsp},
		{name: "demo", make: newDemo},
		{name: "version", make: newVersion},
		topic("marks", "the marks of a score sheet", page(marksTopic)),
		topic("methods", "how things are calculated, with sources", methodsTopic),
		topic("sources", "what the numbers rest on, and where that was read", sourcesTopic),
		{"language", newLanguageTopic, true},
		topic("changes", "what changed for users, by version", page(data.Changes)),
		topic("editors", "boxbook in an editor: mistakes, names, colours", page(data.Editors)),
		topic("kinds", "the kinds of fault", kindsTopic),
		topic("money", "the club's money, from the slip to the year's page", page(data.Money)),
	}
}

// rootOf is the tree with the commands made whose names are needed.
func rootOf(s *streams, needed func(name string) bool) *cobra.Command {
	a := &app{streams: s}
	s.fixesAny = a.fixesAny
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
	for _, m := range makers() {
		if needed(m.name) {
			root.AddCommand(m.make(a))
		} else {
			root.AddCommand(m.alone())
		}
	}
	root.InitDefaultHelpCmd()
	if needed("completion") {
		root.InitDefaultCompletionCmd()
	} else {
		root.AddCommand(maker{name: "completion"}.alone())
	}
	for _, cmd := range root.Commands() {
		switch cmd.Name() {
		case "help":
			cmd.Short = "explain a command, a topic or a kind of error"
			helpOnKinds(a, cmd)
			a.wholeLanguage(cmd)
			a.pagerFlag(cmd)
		case "completion":
			if needed("completion") {
				completionInOurVoice(cmd)
			}
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

// ledgerAsWord names -f where a word that is refused is a ledger's path.
func ledgerAsWord(err error, asked *cobra.Command) error {
	var usage *usageError
	flag := flagOf(asked, "ledger")
	if flag == nil || flag.Changed || !errors.As(err, &usage) {
		return err
	}
	for _, word := range asked.Flags().Args() {
		if _, lacks := os.Stat(word); strings.HasSuffix(word, ledgerSuffix) && lacks == nil && strings.Contains(usage.text, word) {
			return &usageError{usage.text, "a ledger is given with -f: " + asked.CommandPath() + " -f " + display.ShellWord(word)}
		}
	}
	return err
}

// unknownCommand says that a word is no command, and which are near.
func unknownCommand(root *cobra.Command, word string) *usageError {
	const furthest = 2 // letters that differ
	root.SuggestionsMinimumDistance = furthest
	hint, near := seeHelp, root.SuggestionsFor(word)
	if other := elsewhere(word); other != "" {
		near = []string{other}
	} else if entry.Named(word) != nil {
		for i := range near {
			near[i] = "boxbook " + near[i]
		}
		near = append(near, "boxbook log "+word)
	}
	switch {
	case answeredElsewhere(word) != "":
		hint = answeredElsewhere(word)
	case len(near) > 0:
		hint = "did you mean " + orList(near) + "?"
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
		if kind := cmd.Flags().Arg(0); cmd.Name() == "log" && kind != "" && kind != stdinName {
			return noKind(cmd, kind)
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
