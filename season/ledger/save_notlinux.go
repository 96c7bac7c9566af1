//go:build !linux

package ledger

// exchange is not to be had: a save that comes between the last look at the
// ledger and the rename, a few microseconds, is written over.
func (osDisk) exchange(string, string) error { return errNoExchange }

// likeExtras keeps nothing beside owner and permissions here.
func (osTemp) likeExtras(string) (kept bool, err error) { return true, nil }
