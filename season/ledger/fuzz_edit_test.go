package ledger

import (
	"errors"
	"fmt"
	"math/big"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// blockTargets are the blocks of a text that lines can be added to.
func blockTargets(text string) []Target {
	r, f := alone("x", text)
	var targets []Target
	for _, kind := range []string{"pilot", "coach", "contest", "sequence", "flight", "review", "drill"} {
		for _, b := range r.blocks[kind] {
			l, words := f.lines[b.head], []string{}
			for _, tok := range f.tokens[l.first+1 : l.last] {
				words = append(words, f.word(tok))
			}
			most := map[string]int{"flight": 4, "drill": 3}[kind]
			targets = append(targets, Target{"x", kind, strings.Join(words[:min(max(most, 1), len(words))], "/")})
		}
	}
	return targets
}

// onlyTwice reports whether all that an error says is that a line of a block
// appears twice: that is a matter of the ledger, which the reader says, not of the
// edit, which puts a line beneath the last of its key.
func onlyTwice(err error) bool {
	var invalid *InvalidError
	return errors.As(err, &invalid) && !slices.ContainsFunc(invalid.List, func(d Diagnostic) bool {
		return d.Severity == Error && d.Code != keyTwice
	})
}

// FuzzEdit holds what is true of any edit of any text whatever: what is appended
// stands behind all that was there, a line that is added leaves every other one,
// and a line that is renewed changes no other; what was of the language stays so.
func FuzzEdit(f *testing.F) {
	for i, text := range fewSeeds(f) {
		f.Add(text, []string{"note \"x\"", "place 2", "expires medical 2027-01-01", "3 K 5"}[i%4], "cost 2026-01-05 fuel 10,00 EUR for club\n", i)
	}
	f.Fuzz(func(t *testing.T, text, line, blocks string, n int) {
		if len(text)+len(blocks) > longestFuzzed {
			return
		}
		appended := Append(text, blocks)
		require.True(t, strings.HasPrefix(appended, text))
		require.Zero(t, lostLine(text, appended))
		targets := blockTargets(text)
		if len(targets) == 0 {
			return
		}
		to := targets[within(n, len(targets))]
		if added, err := AddLines(text, to, line); err == nil {
			require.Zero(t, lostLine(text, added), "%q became %q", text, added)
			require.Equal(t, lineCount(text)+1, lineCount(added), "%q became %q", text, added)
			_, err = Tidy("x", added)
			require.True(t, err == nil || onlyTwice(err), "%v\n%s", err, added)
		}
		if renewed, err := RenewLine(text, to, line); err == nil {
			require.LessOrEqual(t, linesChanged(text, renewed), 1, "%q became %q", text, renewed)
		}
	})
}

// lineCount counts lines, with an open one at the end.
func lineCount(text string) int {
	text = strings.TrimPrefix(text, "\ufeff")
	n := strings.Count(text, "\n")
	if text != "" && !strings.HasSuffix(text, "\n") {
		n++
	}
	return n
}

// linesChanged counts the lines that two texts of as many lines differ in.
func linesChanged(before, after string) int {
	old, now := strings.Split(before, "\n"), strings.Split(after, "\n")
	if len(old) != len(now) {
		return len(old) + len(now)
	}
	n := 0
	for i := range old {
		if old[i] != now[i] {
			n++
		}
	}
	return n
}

// plainAmount is an amount with its currency as the language has it.
var plainAmount = regexp.MustCompile(`^(-?)(\d{1,18})(?:[.,](\d{1,9}))? (EUR|USD|JPY|KWD)$`)

// FuzzAmount holds what is true of any amount whatever: what is read has the
// value of its digits, keeps it when it is printed and read again, and an amount
// is refused only where it has more decimals than its currency, or is too large.
func FuzzAmount(f *testing.F) {
	for _, text := range []string{"10,00 EUR", "-3 JPY", "-0.00 EUR", "0 EUR", "-12,5 EUR", "-999999999999 USD", "0.125 KWD", "1.234 EUR", "999999999999 USD", "95EUR", "1 000 EUR", "10.00 EUR each", "--1 EUR", "1,5.0 USD", "٣ EUR"} {
		f.Add(text)
	}
	decimals := map[string]int{"EUR": 2, "USD": 2, "JPY": 0, "KWD": 3}
	f.Fuzz(func(t *testing.T, text string) {
		parts := plainAmount.FindStringSubmatch(text)
		minor, printed, read := readAmount(t, text)
		if parts == nil {
			if read {
				require.True(t, !strings.ContainsAny(text, "\n\r"))
			}
			return
		}
		want, ok := new(big.Rat).SetString(parts[1] + parts[2] + "." + parts[3] + "0")
		require.True(t, ok)
		places := decimals[parts[4]]
		want.Mul(want, new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)))
		tooLarge := new(big.Rat).Abs(want).Cmp(new(big.Rat).SetInt64(maxMinor)) > 0
		if len(parts[3]) > places || tooLarge {
			require.False(t, read, text)
			return
		}
		require.True(t, read, text)
		require.Zero(t, want.Cmp(new(big.Rat).SetInt64(minor)), "%s was read as %d", text, minor)
		again, _, read := readAmount(t, printed+" "+parts[4])
		require.True(t, read && again == minor, "%s was printed as %s", text, printed)
	})
}

// readAmount reads a cost of an amount, in the currency's smallest unit.
func readAmount(t *testing.T, text string) (minor int64, printed string, read bool) {
	t.Helper()
	if strings.ContainsAny(text, "\n\r") {
		return 0, "", false
	}
	ledger := fmt.Sprintf("pilot ines\ncost 2026-01-05 fuel %s for ines by club\n", text)
	result, err := Load(Options{Files: Memory{"x": ledger}, Main: "x", AsOf: day(t, casesToday)})
	require.NoError(t, err)
	costs := result.Ledger.Costs
	if result.Diagnostics.Err() != nil || len(costs) != 1 {
		return 0, "", false
	}
	require.False(t, slices.ContainsFunc(result.Diagnostics, func(d Diagnostic) bool { return d.Severity == Error }))
	return costs[0].Money.Minor, costs[0].Money.Text(), true
}
