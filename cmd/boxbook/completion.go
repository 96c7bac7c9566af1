package main

import (
	"strings"

	"boxbook/season"

	"github.com/spf13/cobra"
)

// completions are what a shell is offered, out of the ledger.
type completions = func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective)

// offer completes from the ledger's names; one with errors offers those that
// could be read, and one that cannot be read nothing: a shell's prompt is no
// place for diagnostics.
func (a *app) offer(names func(*season.Ledger) []string) completions {
	return func(_ *cobra.Command, _ []string, typed string) ([]string, cobra.ShellCompDirective) {
		result, _, err := a.read()
		if err != nil {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		var fitting []string
		for _, name := range names(result.Ledger) {
			if strings.HasPrefix(name, typed) {
				fitting = append(fitting, name)
			}
		}
		return fitting, cobra.ShellCompDirectiveNoFileComp
	}
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

// offers are the flags that the ledger completes, wherever they stand, or on one
// command where they mean something else on others.
func (a *app) offers() map[string]completions {
	words := func(list ...string) completions {
		return cobra.FixedCompletions(list, cobra.ShellCompDirectiveNoFileComp)
	}
	return map[string]completions{
		"pilot": a.offer(proposePilots), "contest": a.offer(proposeContests), "category": a.offer(proposeCategories),
		"sequence": a.offer(proposeSequences), "to": a.offer(proposeCategories), "format": words(pageFormats()...),
		"color": words("auto", "always", "never"), "flight": a.offer(proposeFlights), "by": a.offer(proposeCoaches),
		"programme": a.offer(proposeProgrammes), "prompted-by": a.offer(proposeFlights),
		"policy": a.offer(proposePolicies), "ladder": a.offer(proposeLadders),
		// A kind is of a fault there, of a cost elsewhere.
		"fault --kind": a.offer(proposeKinds), "drill --target": a.offer(proposeTargets),
	}
}

// addCompletion offers names for every flag and argument of the tree that the
// ledger can complete.
func (a *app) addCompletion(cmd *cobra.Command) error {
	for name, offer := range a.offers() {
		if of, flag, one := strings.Cut(name, " --"); one {
			if of != cmd.Name() {
				continue
			}
			name = flag
		}
		if cmd.Flags().Lookup(name) == nil {
			continue
		}
		if err := cmd.RegisterFlagCompletionFunc(name, offer); err != nil {
			return err
		}
	}
	for _, sub := range cmd.Commands() {
		if err := a.addCompletion(sub); err != nil {
			return err
		}
	}
	return nil
}
