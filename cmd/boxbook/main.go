// Command boxbook keeps a plain-text ledger of a competition aerobatic pilot's
// flights and answers questions about it.
package main

import (
	"os"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
)

func main() {
	collectSeldom()
	os.Exit(run(os.Args[1:], systemStreams()))
}

// collected is garbage, to be told when garbage was collected.
type collected struct{ _ [16]byte }

// collectSeldom sets by how much a command's memory may grow before garbage is
// looked for. A command lives for milliseconds: twice as seldom as by default
// costs a few megabytes and saves a tenth of its time. A ledger with a million
// errors would take three times what it needs so, and with a limit of memory it
// would do little else than look: what is large grows in smaller steps.
func collectSeldom() {
	debug.SetGCPercent(400)
	runtime.SetFinalizer(&collected{}, stepsBySize)
}

// stepsBySize sets the steps by what was held when garbage was collected.
func stepsBySize(*collected) {
	live := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	metrics.Read(live)
	switch held := live[0].Value.Uint64(); {
	case held > 384<<20:
		debug.SetGCPercent(30)
		return
	case held > 96<<20:
		debug.SetGCPercent(100)
	}
	runtime.SetFinalizer(&collected{}, stepsBySize)
}
