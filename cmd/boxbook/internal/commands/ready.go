package commands

import (
	"slices"

	"github.com/spf13/cobra"

	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/tables"
	"boxbook/season"
)

// readyOptions are the flags of ready.
type readyOptions struct {
	to, policy, ladder string
	all                bool
}

func newReady(a *app) *cobra.Command {
	var o readyOptions
	cmd := &cobra.Command{
		Use: "ready", Short: "list the evidence for and against moving up", GroupID: groupRead,
		Long: `List the evidence for and against moving up a category: the gates of a policy,
each met, not met or cannot tell, with its evidence. Open matters come first,
whatever the policy needs. The values are house defaults, or a policy's in the
ledger; no rule book gives a formula. The present category is the highest
flown in contests within the policy's window, up to today; --asof sets another
day. Under the verdict stand the latest notes of each coach's reviews, then the
pilot's own latest of a flight, where they are of that window too. The verdict
is about the ledger only.`,
		RunE: func(*cobra.Command, []string) error { return a.runReady(o) },
	}
	cmd.Flags().StringVar(&o.to, "to", "", "the `CATEGORY` to move up to (default: the next of the ladder)")
	cmd.Flags().StringVar(&o.policy, "policy", season.HousePolicy, "the `POLICY` whose gates apply")
	cmd.Flags().StringVar(&o.ladder, "ladder", "", "the `LADDER` (default: that of the latest contest flown)")
	cmd.Flags().BoolVar(&o.all, "all", false, "every gate with its evidence, and what would change it")
	a.pilotWord(cmd, elseOnlyPilot)
	a.pageFlags(cmd)
	instead(cmd, "--to names the category, --asof another day, and a policy's window the days that count", choosing...)
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
	policy := l.PolicyNamed(o.policy)
	if policy == nil {
		return unknown("policy", o.policy, proposePolicies(l))
	}
	ladder := l.LadderNamed(o.ladder)
	if ladder == nil && o.ladder != "" {
		return unknown("ladder", o.ladder, proposeLadders(l))
	}
	if known := l.CategoryNames(); o.to != "" && !slices.Contains(known, o.to) {
		return unknown("category", o.to, known)
	}
	if from, up := answers.StepsUp(l, s.Pilot, policy, ladder, o.to); o.to != "" && !up {
		return notAStepUp(o.to, from)
	}
	d := answers.ReadyOf(l, s.Pilot, policy, ladder, o.to)
	return a.show(pages.Ready(d, pages.ReadyOptions{All: o.all}), append(tables.Choices(s), tables.ReadyChoices(d)...))
}
