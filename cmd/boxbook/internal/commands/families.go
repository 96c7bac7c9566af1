package commands

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/ledger"
)

func newFamilies(a *app) *cobra.Command {
	var key string
	cmd := &cobra.Command{
		Use: "families", Short: "show figure families: level, trend, points lost", GroupID: groupRead,
		Long: `Show the figure families of a pilot's contest flights in one category (the one
flown last if omitted): percent, how it compares with the rest of the same
flights, what it costs, and whether it is weak or moving. --all adds the
adjusted percent, which allows for chance, and the tests.

With KEY, a family or SEQUENCE/FIGURE, show that one over time instead: one row
per flight of any season, practice too, with its own grades, the best result,
the faults noted on it and the drills; the latest flights, or all with --all.

` + words.FamilyKeys(),
		Example: "  boxbook families\n  boxbook families ines spins\n  boxbook families known-26/4 --season 2026",
		RunE: func(*cobra.Command, []string) error {
			if key != "" {
				return a.runFamily(key)
			}
			return a.runFamilies()
		},
	}
	a.pilotWord(cmd, elseOnlyPilot)
	cmd.Use += " [KEY]"
	cmd.Args = arguments(cobra.MaximumNArgs(2))
	cmd.ValidArgsFunction = a.offerFamilies()
	// The last word may be a key; what is left of the words names the pilot.
	named := cmd.PreRunE
	cmd.PreRunE = func(cmd *cobra.Command, args []string) error {
		if last := len(args) - 1; last == 1 || last == 0 && isFamilyKey(args[0]) {
			key, args = args[last], args[:last]
		}
		return named(cmd, args)
	}
	a.choosingFlags(cmd)
	a.pageFlags(cmd)
	a.everythingFlag(cmd)
	return cmd
}

func (a *app) runFamilies() error {
	l, s, err := a.pilotQuestion()
	if err != nil {
		return err
	}
	s = oneSeason(l, s)
	d := answers.FamiliesOf(l, s)
	s.Category = d.Category
	return a.show(pages.Families(d, a.whole), tables.PeriodChoices(s))
}

// runFamily follows one family or figure.
func (a *app) runFamily(named string) error {
	l, s, err := a.pilotQuestion()
	if err != nil {
		return err
	}
	key, err := familyKey(l, named)
	if err != nil {
		return err
	}
	chosen := append(tables.PeriodChoices(s), report.Choice{Key: "key", Value: named})
	return a.show(pages.Family(answers.FamilyOf(l, s, key, named), a.whole), chosen)
}

// isFamilyKey reports whether a word names a family or a figure, and no pilot: no
// pilot's name has a slash, and none begins with a digit.
func isFamilyKey(word string) bool {
	return season.IsGroup(word) || strings.Contains(word, "/") || word != "" && word[0] >= '0' && word[0] <= '9'
}

// familyKey finds the family or the figure that a word names.
func familyKey(l *season.Ledger, named string) (analysis.FamilyKey, error) {
	if season.IsGroup(named) {
		return analysis.FamilyKey{Group: named}, nil
	}
	handle, number, ok := strings.Cut(named, "/")
	if !ok {
		if group := season.GroupOf(named); group != "" {
			return analysis.FamilyKey{}, &usageError{fmt.Sprintf("no family is called %q", named), fmt.Sprintf("%s is in the family %s: boxbook families %s", named, group, group)}
		}
		if near := ledger.Nearest(named, season.Groups); near != "" {
			return analysis.FamilyKey{}, unknown("family", named, season.Groups)
		}
		return analysis.FamilyKey{}, &usageError{
			fmt.Sprintf("no family is called %q", named), "families: " + strings.Join(season.Groups, ", ") + "\na figure is SEQUENCE/NUMBER",
		}
	}
	sequence := l.SequenceNamed(handle)
	if sequence == nil {
		return analysis.FamilyKey{}, unknown("sequence", handle, proposeSequences(l))
	}
	figure, err := strconv.Atoi(number)
	if err != nil || figure < 1 || figure > len(sequence.Figures) {
		return analysis.FamilyKey{}, &usageError{fmt.Sprintf("no figure %s: %s has %d", number, handle, len(sequence.Figures)), ""}
	}
	return analysis.FamilyKey{Sequence: sequence, Figure: figure}, nil
}

// offerFamilies offers pilots first, then families and figures.
func (a *app) offerFamilies() completions {
	keys := func(l *season.Ledger) []string {
		offered := append([]string{}, season.Groups...)
		for _, s := range l.Sequences {
			for i := range s.Figures {
				offered = append(offered, s.Handle+"/"+strconv.Itoa(i+1))
			}
		}
		return offered
	}
	both := a.offer(func(l *season.Ledger) []string { return append(proposePilots(l), keys(l)...) })
	return func(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
		switch {
		case len(args) == 0:
			return both(cmd, args, typed)
		case len(args) == 1 && !isFamilyKey(args[0]):
			return a.offer(keys)(cmd, args, typed)
		default:
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
	}
}
