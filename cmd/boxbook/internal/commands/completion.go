package commands

import (
	"maps"
	"slices"
	"strings"

	"boxbook/cmd/boxbook/internal/entry"
	"boxbook/season"
	"boxbook/season/ledger"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// completions are what a shell is offered, out of the ledger.
type completions = func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective)

// offer completes from the ledger's names; one with errors offers those that
// could be read, and one that cannot be read nothing: a shell's prompt is no
// place for diagnostics.
func (a *app) offer(names func(*season.Ledger) []string) completions {
	return a.offerOf(func(r *ledger.Result) []string { return names(r.Ledger) })
}

// offerOf completes from what was read.
func (a *app) offerOf(names func(*ledger.Result) []string) completions {
	return func(_ *cobra.Command, _ []string, typed string) ([]string, cobra.ShellCompDirective) {
		result, err := a.readForShell()
		if err != nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		var fitting []string
		for _, name := range names(result) {
			if strings.HasPrefix(name, typed) {
				fitting = append(fitting, name)
			}
		}
		return fitting, cobra.ShellCompDirectiveNoFileComp
	}
}

// shellRead is a ledger read to complete a word.
type shellRead struct {
	result *ledger.Result
	err    error
}

// readForShell reads the ledger for a shell, once: several lists are of it.
func (a *app) readForShell() (*ledger.Result, error) {
	if a.forShell == nil {
		result, _, err := a.read()
		a.forShell = &shellRead{result, err}
	}
	return a.forShell.result, a.forShell.err
}

// first offers names for a command's first argument alone.
func first(offer completions) completions {
	return func(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return offer(cmd, args, typed)
	}
}

// behind offers one thing for a command's first argument and another for its second.
func behind(one, other completions) completions {
	return func(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
		switch len(args) {
		case 0:
			return one(cmd, args, typed)
		case 1:
			return other(cmd, args, typed)
		default:
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
	}
}

// notOthers leaves the flights of other pilots out of names.
func notOthers(names []string, pilot string) []string {
	return slices.DeleteFunc(slices.Clone(names), func(name string) bool {
		parts := strings.Split(name, "/")
		const ofFlight = 3 // day, pilot, programme
		return pilot != "" && len(parts) >= ofFlight && parts[1] != pilot
	})
}

// offers are the flags that the ledger completes, wherever they stand; those of
// an entry are completed by the table's own fields.
func (a *app) offers() map[string]completions {
	words := func(list ...string) completions {
		return cobra.FixedCompletions(list, cobra.ShellCompDirectiveNoFileComp)
	}
	return map[string]completions{
		"pilot": a.offer(proposePilots), "contest": a.offer(proposeContests), "category": a.offer(proposeCategories),
		"sequence": a.offer(proposeSequences), "to": a.offer(proposeCategories), "format": words(pageFormats()...),
		"color": words("auto", "always", "never"), "programme": a.offer(proposeProgrammes),
		"policy": a.offer(proposePolicies), "ladder": a.offer(proposeLadders),
		"season": a.offer(proposeSeasons), "beside": a.offer(proposeSeasons), "year": a.offer(proposeYears),
		"in": a.offer(entry.Currencies), "layout": a.offerLayouts,
	}
}

// offersOf are the offers for a command's flags: some have another sense in one.
func (a *app) offersOf(cmd *cobra.Command) map[string]completions {
	all := a.offers()
	switch cmd.CommandPath() {
	case "boxbook log rate":
		all["from"], all["to"] = a.offer(entry.Currencies), a.offer(entry.Currencies)
	case "boxbook year":
		all["beside"] = a.offer(proposeYears)
	}
	return all
}

// filesOf are the flags and commands whose values are files: a shell offers those by itself.
var filesOf = map[string]bool{"ledger": true, "output": true, "draft": true, "video": true, "import": true, "start": true, "demo": true}

// addCompletion offers names for every flag and argument of the tree that the
// ledger can complete, and no files where none are meant.
func (a *app) addCompletion(cmd *cobra.Command) {
	offers := a.offersOf(cmd)
	cmd.Flags().VisitAll(func(f *pflag.Flag) {
		_, its := cmd.GetFlagCompletionFunc(f.Name)
		offer := offers[f.Name]
		switch {
		case its, f.NoOptDefVal != "", filesOf[f.Name]:
		case offer != nil:
			complete(cmd, f.Name, offer)
		default:
			complete(cmd, f.Name, cobra.NoFileCompletions)
		}
	})
	if cmd.ValidArgsFunction == nil && cmd.Runnable() && !cmd.HasSubCommands() && !filesOf[cmd.Name()] {
		cmd.ValidArgsFunction = cobra.NoFileCompletions
	}
	for _, sub := range cmd.Commands() {
		a.addCompletion(sub)
	}
}

// offerLayouts offers the layouts that were remembered beside the ledger.
func (a *app) offerLayouts(_ *cobra.Command, _ []string, typed string) ([]string, cobra.ShellCompDirective) {
	var fitting []string
	if path, err := a.ledgerPath(); err == nil {
		layouts, _ := loadLayouts(path) // one that cannot be read offers nothing
		for _, name := range slices.Sorted(maps.Keys(layouts)) {
			if strings.HasPrefix(name, typed) {
				fitting = append(fitting, name)
			}
		}
	}
	return fitting, cobra.ShellCompDirectiveNoFileComp
}

// complete has a shell offer what a flag may hold.
func complete(cmd *cobra.Command, flag string, offer completions) {
	if err := cmd.RegisterFlagCompletionFunc(flag, offer); err != nil {
		panic(err) // no such flag, or given twice: a slip in this program
	}
}
