package analysis_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/data/sources/testkit"
	"boxbook/season/analysis/code"
)

// No zero of any kind in the last flights, by the shipped policy, of the last one
// here.
func TestOutsideZeros(t *testing.T) {
	testkit.Outside(t, "zeros", func(t *testing.T, c testkit.Check) {
		flight := "flight 2026-09-01 ines known\n  sequence five\n  panel A B\n" +
			markRows([]string{c.Asked, "7 7", "8 8", "6 6", "9 9"})
		want := map[string]code.GateState{"yes": code.Met, "no": code.NotMet}[c.Want]
		assert.Equal(t, want, gate(ready(t, readyHead+flight+shortPolicy("zeros 0 in 1"), ""), "zeros").State, c.Where)
	})
}

// The grade that every figure should reach, by the shipped policy: 5.0 as the
// awards have it, of every figure; and as they later had it, better than 5.0, by a
// policy that a ledger can have.
func TestOutsideAwards(t *testing.T) {
	testkit.Outside(t, "awards", func(t *testing.T, c testkit.Check) {
		mark, better := strings.CutSuffix(c.Asked, " better")
		keys := []string{"floor-share 1", "floor-flights 1"}
		if better {
			keys = append(keys, "figure-floor 5.01")
		}
		flight := "flight 2026-09-01 ines known\n  sequence five\n  panel A B\n" +
			markRows([]string{fmt.Sprintf("%s %s", mark, mark), "7 7", "8 8", "6 6", "9 9"})
		want := map[string]code.GateState{"yes": code.Met, "no": code.NotMet}[c.Want]
		assert.Equal(t, want, gate(ready(t, readyHead+flight+shortPolicy(keys...), ""), "figure-floor").State, c.Where)
	})
}
