package main

import (
	"slices"

	"boxbook/report/pages"
	"boxbook/season"

	"github.com/spf13/cobra"
)

// readyOptions are the flags of ready.
type readyOptions struct{ to, policy, ladder string }

// defaultPolicy is the policy where none is named.
const defaultPolicy = "move-up"

func newReady(a *app) *cobra.Command {
	var o readyOptions
	cmd := &cobra.Command{
		Use: "ready", Short: "list the evidence for and against moving up", GroupID: groupRead,
		Long: `List the evidence for and against moving up a category: the gates of a policy,
each met, not met or cannot tell, with what it rests on and what would change
it. The values are the house's, or a policy's in the ledger; no rule book gives
a formula. The verdict is about the record only.`,
		Args: arguments(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error { return a.runReady(o) },
	}
	cmd.Flags().StringVar(&o.to, "to", "", "the `CATEGORY` to move up to (default: the next of the ladder)")
	cmd.Flags().StringVar(&o.policy, "policy", defaultPolicy, "the `POLICY` whose gates are asked")
	cmd.Flags().StringVar(&o.ladder, "ladder", "", "the `LADDER` (default: that of the latest contest flown)")
	return cmd
}

func (a *app) runReady(o readyOptions) error {
	l, s, err := a.question()
	if err != nil {
		return err
	}
	if s.Pilot == nil && len(l.Pilots) == 1 {
		s.Pilot = l.Pilots[0]
	}
	if s, err = a.onePilot(l, s); err != nil {
		return err
	}
	policy, err := namedPolicy(l, o.policy)
	if err != nil {
		return err
	}
	ladder, err := namedLadder(l, o.ladder)
	if err != nil {
		return err
	}
	if known := l.CategoryNames(); o.to != "" && !slices.Contains(known, o.to) {
		return unknown("category", o.to, known)
	}
	return a.show(pages.Ready(l.ReadinessOf(s.Pilot, policy, ladder, o.to)))
}

func namedPolicy(l *season.Ledger, name string) (*season.Policy, error) {
	var known []string
	for _, p := range l.Policies {
		if p.Name == name {
			return p, nil
		}
		known = append(known, p.Name)
	}
	return nil, unknown("policy", name, known)
}

// namedLadder finds a ladder; "" is none.
func namedLadder(l *season.Ledger, name string) (*season.Ladder, error) {
	var known []string
	for _, ladder := range l.Ladders {
		if ladder.Name == name {
			return ladder, nil
		}
		known = append(known, ladder.Name)
	}
	if name == "" {
		return nil, nil
	}
	return nil, unknown("ladder", name, known)
}
