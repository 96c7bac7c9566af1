package commands

import (
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestAConfirmedPanelIsKeptByEnter goes back to a panel that was doubted and confirmed in a
// conversation before: Enter keeps it.
func TestAConfirmedPanelIsKeptByEnter(t *testing.T) {
	dir, _ := ledgerIn(t, strings.Replace(twoFigures, "panel A B", "panel A B C D", 1))
	flight := []string{"log", "flight", "--date", "2026-04-18", "--programme", "known", "--contest", "spring", "--sequence", "s", "--pilot", "ines"}
	k := startTalk(t, dir, flight...)
	k.answer("[A B C D]: ", "A B")
	k.expect("has 4 judges, and this names 2 (type it again if it is right)")
	k.answer("[A B C D]: ", "A B")
	k.answer("[figure]: ", "")
	k.answer(" 1  K 10  loop: ", "8 7")
	k.expect(" 2  K 12  roll: ")
	k.key("\x03")
	k.exit()

	k = startTalk(t, dir, "log", "flight")
	k.answer("continue with it?", "")
	k.answer(" 2  K 12  roll: ", "back")
	k.answer(" 1  K 10  loop: 8 7", "back")
	k.answer("[figure]: figure", "back")
	k.answer("[A B C D]: A B", "")
	k.answer("[figure]: figure", "")
	k.answer(" 1  K 10  loop: 8 7", "")
}

// TestRowsOfFlagsOutliveAHangUp finds the rows that flags gave in the draft of a terminal
// that hung up at its first question, and those that are offered again.
func TestRowsOfFlagsOutliveAHangUp(t *testing.T) {
	dir, path := ledgerIn(t, twoFigures)
	flight := []string{"log", "flight", "--date", "2026-04-18", "--programme", "known", "--contest", "spring", "--sequence", "s", "--row", "8 7", "--row", "7 7"}
	k := startTalk(t, dir, flight...)
	k.expect("the pilot [ines]: ")
	require.NoError(t, k.cmd.Process.Signal(syscall.SIGHUP))
	k.exit()
	k = startTalk(t, dir, "log", "flight")
	k.expect("2026-04-18 known, 2 rows")
	k.answer("continue with it?", "")
	k.answer("the pilot [ines]: ", "")
	k.answer("[A B]: ", "")
	k.nothingMore()
	k.expect("write it?")
	require.NoError(t, k.cmd.Process.Signal(syscall.SIGHUP))
	k.exit()
	k = startTalk(t, dir, "log", "flight")
	k.expect("2026-04-18 ines known, 2 rows")
	require.NotContains(t, textOf(t, path), "flight")

	dir, _ = ledgerIn(t, twoFigures)
	k = startTalk(t, dir, flight[:len(flight)-4]...)
	k.answer("the pilot [ines]: ", "")
	k.answer("[A B]: ", "")
	k.answer("[figure]: ", "")
	k.answer(" 1  K 10  loop: ", "8 7")
	k.answer(" 2  K 12  roll: ", "back")
	k.answer(" 1  K 10  loop: 8 7", "back")
	k.expect("[figure]: figure")
	require.NoError(t, k.cmd.Process.Signal(syscall.SIGHUP))
	k.exit()
	k = startTalk(t, dir, "log", "flight")
	k.expect("2026-04-18 ines known, 1 row")
}
