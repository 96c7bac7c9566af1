package commands

import (
	"errors"
	"fmt"
	"strings"

	"boxbook/season/ledger"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// A flag stands only on the commands that heed it. Each function here gives a
// command the flags of one matter; a command calls those that it heeds, after
// its own.

// ledgerFlag says which ledger is read.
func (a *app) ledgerFlag(cmd *cobra.Command) {
	cmd.Flags().StringVarP(&a.ledger, "ledger", "f", "", "ledger `FILE`; else $BOXBOOK_LEDGER, else the one here")
	before(cmd, func([]string) error {
		a.asked = cmd
		return nil
	})
}

// intoFlag says which of the ledger's files is written into.
func (a *app) intoFlag(cmd *cobra.Command) {
	cmd.Flags().StringVar(&a.into, "into", "", "write into this `FILE` of the ledger, such as a coach's own")
	complete(cmd, "into", a.offerOf(func(r *ledger.Result) []string { return r.Paths }))
}

// asOfFlag says which day is today.
func (a *app) asOfFlag(cmd *cobra.Command) {
	cmd.Flags().StringVar(&a.asof, "asof", "", "the `DATE` that counts as today (default: today)")
}

// outputFlag sends what is written into a file.
func (a *app) outputFlag(cmd *cobra.Command, usage string) {
	cmd.Flags().StringVarP(&a.output, "output", "o", "", usage)
}

// colorFlag says when colour is used.
func (a *app) colorFlag(cmd *cobra.Command) {
	cmd.Flags().StringVar(&a.color, "color", "auto", "colour `WHEN`: auto, always or never")
	before(cmd, func([]string) error { return a.checkColor() })
}

// formatFlags choose the format, one of those named, the first where nothing is
// said, and the file.
func (a *app) formatFlags(cmd *cobra.Command, formats []string) {
	cmd.Flags().StringVar(&a.format, "format", "", "the `FORMAT`: "+orList(append([]string{formats[0] + " (default)"}, formats[1:]...)))
	complete(cmd, "format", cobra.FixedCompletions(formats, cobra.ShellCompDirectiveNoFileComp))
	a.outputFlag(cmd, "write to `FILE`; its ending chooses the format")
	before(cmd, func([]string) error { return a.settleFormat(cmd, formats) })
}

// pageFlags are those of every page: a ledger, a day, a format, a file, colour, a
// pager.
func (a *app) pageFlags(cmd *cobra.Command) {
	a.ledgerFlag(cmd)
	a.asOfFlag(cmd)
	a.formatFlags(cmd, pageFormats())
	a.colorFlag(cmd)
	a.pagerFlag(cmd)
}

// everythingFlag shows how a page was reached as well: tests, intervals, every row.
func (a *app) everythingFlag(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&a.whole, "all", false, "every row and number, with tests and intervals")
}

// periodFlags choose the days.
func (a *app) periodFlags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.Var(yearFlag{&a.season}, "season", "only the season that begins in this `YEAR`")
	f.StringVar(&a.since, "since", "", "only from this `DATE` on")
	f.StringVar(&a.until, "until", "", "only up to this `DATE`, as it was known then")
}

// choosingFlags choose among flights, the pilot apart.
func (a *app) choosingFlags(cmd *cobra.Command) {
	a.periodFlags(cmd)
	cmd.Flags().StringVar(&a.category, "category", "", "only this `CATEGORY`")
	cmd.Flags().StringVar(&a.contest, "contest", "", "only this `CONTEST`")
}

// before adds a check to those that come before a command runs.
func before(cmd *cobra.Command, check func(args []string) error) {
	earlier := cmd.PreRunE
	cmd.PreRunE = func(cmd *cobra.Command, args []string) error {
		if earlier != nil {
			if err := earlier(cmd, args); err != nil {
				return err
			}
		}
		return check(args)
	}
}

// instead says what to do instead of giving a command flags that other commands
// have.
func instead(cmd *cobra.Command, hint string, flags ...string) {
	if cmd.Annotations == nil {
		cmd.Annotations = map[string]string{}
	}
	for _, name := range flags {
		cmd.Annotations["instead of "+name] = hint
	}
}

// choosing are the names of those flags.
var choosing = []string{"season", "since", "until", "category", "contest"}

// ownFlagsFirst leaves the flags of the tree's commands in the order in which
// they were given to them.
func ownFlagsFirst(cmd *cobra.Command) {
	cmd.Flags().SortFlags = false
	for _, sub := range cmd.Commands() {
		ownFlagsFirst(sub)
	}
}

// onlyOnce makes every flag of the tree that holds one value refuse a second.
// It is not for completion, which reads its line several times.
func onlyOnce(cmd *cobra.Command) {
	cmd.Flags().VisitAll(func(f *pflag.Flag) {
		if _, several := f.Value.(answerFlag); !several {
			f.Value = &once{Value: f.Value}
		}
	})
	for _, sub := range cmd.Commands() {
		onlyOnce(sub)
	}
}

// once is a flag's value that can be given once.
type once struct {
	pflag.Value
	given bool
}

var errTwice = errors.New("it is given twice")

func (o *once) Set(text string) error {
	if o.given {
		return errTwice
	}
	o.given = true
	return o.Value.Set(text)
}

// flagError says in words what was wrong with a flag.
func flagError(cmd *cobra.Command, err error) error {
	name := strings.TrimPrefix(cmd.CommandPath(), cmd.Root().Name()+" ")
	var unknown *pflag.NotExistError
	var invalid *pflag.InvalidValueError
	switch {
	case errors.As(err, &invalid) && errors.Is(err, errTwice):
		return &usageError{fmt.Sprintf("--%s is given twice, and it can stand only once", invalid.GetFlag().Name), usageHint(cmd)}
	case errors.As(err, &invalid) && errors.Is(err, errNoYear):
		return &usageError{fmt.Sprintf("--%s %q is not a year (2026)", invalid.GetFlag().Name, invalid.GetValue()), usageHint(cmd)}
	case errors.As(err, &unknown):
		if flag := commonName(newRoot(&streams{}), unknown.GetSpecifiedName()); flag != "" {
			hint := cmd.Annotations["instead of "+flag]
			if hint == "" {
				hint = usageHint(cmd)
			}
			return &usageError{name + " takes no --" + flag, hint}
		}
	}
	return &usageError{err.Error(), usageHint(cmd)}
}

// commonName is the whole name of a flag, or of a letter that stands for one,
// of any command of the tree; "" where none has it.
func commonName(cmd *cobra.Command, name string) string {
	if f := cmd.Flags().Lookup(name); f != nil {
		return f.Name
	}
	if f := cmd.Flags().ShorthandLookup(name[:1]); len(name) == 1 && f != nil {
		return f.Name
	}
	for _, sub := range cmd.Commands() {
		if found := commonName(sub, name); found != "" {
			return found
		}
	}
	return ""
}

// orList joins words: "a, b or c".
func orList(words []string) string {
	n := len(words)
	if n < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:n-1], ", ") + " or " + words[n-1]
}
