package workbook

import "runtime/debug"

// Tests have memory to spare and little time: garbage is looked for seldom.
func init() { debug.SetGCPercent(400) }
