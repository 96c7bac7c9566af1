package scoring_test

import (
	"testing"

	"boxbook/scoring"

	"github.com/stretchr/testify/assert"
)

// The side is of the judges who gave a mark: AV and "-" are none, PZ is one.
func TestVoteOn(t *testing.T) {
	grade, hz, chz := scoring.GradeOf(14), scoring.Mark{Kind: scoring.HardZero}, scoring.Mark{Kind: scoring.ConfirmedHardZero}
	pz, av, none := scoring.Mark{Kind: scoring.PerceptionZero}, scoring.Mark{Kind: scoring.NotSeen}, scoring.Mark{Kind: scoring.Absent}
	for _, c := range []struct {
		marks []scoring.Mark
		want  scoring.Vote
	}{
		{nil, scoring.Vote{Side: scoring.Silent}},
		{[]scoring.Mark{av, none}, scoring.Vote{Side: scoring.Silent}},
		{[]scoring.Mark{grade, grade}, scoring.Vote{Given: 2}},
		{[]scoring.Mark{hz, grade, pz}, scoring.Vote{Hard: 1, Given: 3}},
		{[]scoring.Mark{hz, grade, av, none}, scoring.Vote{Hard: 1, Given: 2, Side: scoring.HalfOf}},
		{[]scoring.Mark{hz, pz}, scoring.Vote{Hard: 1, Given: 2, Side: scoring.HalfOf}},
		{[]scoring.Mark{hz, hz, grade, av}, scoring.Vote{Hard: 2, Given: 3, Side: scoring.Majority}},
		{[]scoring.Mark{chz, grade, hz}, scoring.Vote{Hard: 1, Given: 3, Confirmed: true}},
	} {
		assert.Equal(t, c.want, scoring.VoteOn(c.marks), c.marks)
	}
}
