package commands

import (
	"strings"
	"testing"
)

// TestATalkSaysAnotherMaximum says at the question that the maximum which was typed is not
// the sequence's.
func TestATalkSaysAnotherMaximum(t *testing.T) {
	dir, _ := ledgerIn(t, strings.ReplaceAll(doubted, "  official  180.00\n  place     3 of 7\n  field     212 199.5 191.5\n", ""))
	k := startTalk(t, dir, "log", "official", "-f", "book.boxbook", "--asof", "2026-10-01")
	k.answer("the flight", "2026-05-09/mara/known")
	k.answer("the official total", "178.75 of 290")
	k.expect("the printed maximum is 290, that of the sequence 270, and the percents differ")
	k.key("\x03")
	k.exit()

	dir, _ = ledgerIn(t, doubted[:strings.Index(doubted, "flight 2026-05-09")])
	k = startTalk(t, dir, "log", "flight", "-f", "book.boxbook", "--asof", "2026-10-01", "--date", "2026-05-09", "--pilot", "mara", "--programme", "known",
		"--contest", "fenwick", "--sequence", "known", "--panel", "AL BO", "--row", "7.0 7.5", "--row", "6.5 6.0")
	k.answer("a penalty", "")
	k.answer("the official total", "178.75 of 290")
	k.expect("the printed maximum is 290, that of the sequence 270, and the percents differ")
	k.key("\x03")
	k.exit()
}
