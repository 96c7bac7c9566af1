package commands

import (
	"errors"
	"fmt"

	"boxbook/report/answers"

	"github.com/spf13/cobra"
)

// settlingFlags say how the payments of a year are found.
func (a *app) settlingFlags(cmd *cobra.Command, how *answers.Settling) {
	cmd.Flags().BoolVar(&how.Fewest, "fewest", false, "club and members as one pool: fewer payments, also to people they owe nothing")
	cmd.Flags().StringVar(&how.In, "in", "", "settle in one `CURRENCY`, at the year's rates")
}

// settling are the names of those flags.
var settling = []string{"fewest", "in"}

// refusedSettling says why the payments of a year cannot be found as asked of a
// command; other errors are left as they are.
func refusedSettling(year int, command string, err error) error {
	if refused := (answers.NoRateInto{}); errors.As(err, &refused) {
		return noRateInto(year, command, refused)
	}
	if large := (answers.TooLarge{}); errors.As(err, &large) {
		return &usageError{text: fmt.Sprintf("the balances of %d are too large to be settled in %s", year, large.In)}
	}
	return err
}

// noRateInto refuses a currency into which the year's rates do not convert.
func noRateInto(year int, command string, refused answers.NoRateInto) error {
	text := fmt.Sprintf("%d has no rate into %s", year, refused.In)
	if refused.Into == "" {
		return &usageError{text, fmt.Sprintf("a rate is a line such as: rate %d %s 1.04 %s", year, lacking(refused), refused.In)}
	}
	return &usageError{text + "; its rates are into " + refused.Into, fmt.Sprintf("boxbook %s %d --in %s", command, year, refused.Into)}
}

// lacking is a currency of what is open that has no rate into the one asked for, another
// one where there is none.
func lacking(refused answers.NoRateInto) string {
	for _, code := range append(refused.Of, "CHF", "EUR") {
		if code != refused.In {
			return code
		}
	}
	return ""
}
