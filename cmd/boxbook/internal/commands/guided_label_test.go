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

// TestAContestsQuestionNamesTheJudgesBefore has the names of earlier judges before the
// question for a contest's judges, and no seats: with another name a judge is another one.
func TestAContestsQuestionNamesTheJudgesBefore(t *testing.T) {
	const (
		first  = "language 1\npilot ines\ncontest may 2026-05-02\n  panel A B J3\n"
		second = "contest june 2026-06-06\n  panel AK BM\ncontest july 2026-07-04\n  panel BM EV\n"
	)
	for book, said := range map[string]string{first: "", first + second: "earlier contests had BM EV AK"} {
		dir, _ := ledgerIn(t, book)
		k := startTalk(t, dir, "log", "contest", "--handle", "autumn", "--rules", "panel-mean", "--name", "Autumn", "--site", "here", "--enter-by", "2026-08-01", "--ladder", "us")
		k.answer("its days", "2026-08-28")
		if said != "" {
			k.expect(said)
		}
		k.answer("its judges", "")
		k.answer("write it?", "y")
		require.Equal(t, exitDone, k.exit(), k.everything())
		if said == "" {
			require.NotContains(t, k.everything(), "earlier contests")
		}
	}
}
