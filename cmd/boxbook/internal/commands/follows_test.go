package commands

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// What a member pays is a payment or a fee: an income that names somebody says so
// before it is written.
func TestIncomeOfAMemberSaysWhatAPaymentIs(t *testing.T) {
	dir, path := ledgerIn(t, "pilot ines\n  name \"Ines Halloran\"\n")
	k := startTalk(t, dir, "log", "income", "--date", "2026-03-05", "--kind", "donation", "--asof", "2026-05-01")
	k.answer("the amount", "20.00 EUR")
	k.answer("who received it", "")
	k.answer("the receipt's number", "")
	k.answer("a remark", "from Ines Halloran")
	k.expect("what ines pays of a debt is boxbook log settle --from ines --to club")
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	require.Contains(t, textOf(t, path), "income 2026-03-05 donation 20.00 EUR \"from Ines Halloran\"\n")
}
