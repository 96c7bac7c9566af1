// Command boxbook keeps a plain-text ledger of a competition aerobatic pilot's
// flights and answers questions about it.
package main

import (
	"os"
	"runtime/debug"
)

func main() {
	// A command lives for milliseconds: collecting garbage twice as seldom costs
	// a few megabytes and saves a tenth of its time.
	debug.SetGCPercent(garbagePercent)
	debug.SetMemoryLimit(seldomUpTo)
	os.Exit(run(os.Args[1:], systemStreams()))
}

// garbagePercent is how much a command's memory may grow before it is looked
// through.
const garbagePercent = 400

// seldomUpTo is the memory up to which it is looked through so seldom: a ledger
// with a million errors would take three times what it needs.
const seldomUpTo = 768 << 20
