package commands

import (
	"strings"

	"boxbook/season"
	"boxbook/season/ledger"

	"github.com/spf13/cobra"
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
	}
}

// addCompletion offers names for every flag and argument of the tree that the
// ledger can complete.
func (a *app) addCompletion(cmd *cobra.Command) {
	for name, offer := range a.offers() {
		if cmd.Flags().Lookup(name) == nil {
			continue
		}
		if _, its := cmd.GetFlagCompletionFunc(name); !its {
			complete(cmd, name, offer)
		}
	}
	for _, sub := range cmd.Commands() {
		a.addCompletion(sub)
	}
}

// complete has a shell offer what a flag may hold.
func complete(cmd *cobra.Command, flag string, offer completions) {
	if err := cmd.RegisterFlagCompletionFunc(flag, offer); err != nil {
		panic(err) // no such flag, or given twice: a slip in this program
	}
}
