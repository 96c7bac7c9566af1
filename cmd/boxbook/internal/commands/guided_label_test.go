package commands

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestAFaultsFigureIsSaidByItsLabel has the figure's label beside the line that would be
// written, where the sequence has one.
func TestAFaultsFigureIsSaidByItsLabel(t *testing.T) {
	const book = "language 1\npilot ines\nsequence s\n  category sportsman\n  1 K 10 7.4\n  2 K 15 8.4 \"humpty\"\nflight 2026-04-18 ines practice\n  sequence s\n  note \"flown twice\"\n"
	for figure, label := range map[string]string{"2": "(figure 2: humpty)", "1": ""} {
		dir, _ := ledgerIn(t, book)
		k := startTalk(t, dir, "log", "fault", "--flight", "last", "--figure", figure)
		k.answer("the kind of fault", "pull-rate")
		for _, question := range []string{"how much", "the code", "seen by", "where it is", "the coach", "a remark"} {
			k.answer(question, "")
		}
		k.expect("  fault " + figure + " pull-rate")
		if label != "" {
			k.expect(label)
		}
		k.answer("write it?", "y")
		require.Equal(t, exitDone, k.exit(), k.everything())
		if label == "" {
			require.NotContains(t, k.everything(), "(figure")
		}
	}
}
