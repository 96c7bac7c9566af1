package commands

import (
	"strings"
	"testing"
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
