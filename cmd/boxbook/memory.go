package main

import (
	"os"
	"runtime"
	"runtime/debug"
	"runtime/metrics"

	"boxbook/season/ledger"
)

// collected is garbage, to be told when garbage was collected.
type collected struct{ _ [16]byte }

// collectSeldom sets by how much a command's memory may grow before garbage is
// looked for. A command lives for milliseconds: most end before they have used
// the 64 MB that this allows at first. A ledger with a million errors would take
// three times what it needs so, and with a limit of memory it would do little
// else than look: what is large grows in smaller steps.
func collectSeldom() {
	debug.SetGCPercent(1600)
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
	case held > 8<<20:
		debug.SetGCPercent(400)
	}
	runtime.SetFinalizer(&collected{}, stepsBySize)
}

// From how much text on room is made, and how much: less than collectSeldom
// allows at first.
const (
	roomFrom = 128 << 10
	roomFor  = 48 << 20
)

// roomy reads files, and makes room in memory before it reads more than a little.
type roomy struct {
	ledger.Files
	read int64
	made bool
}

// Read gives the whole text of a path.
func (r *roomy) Read(path string) (string, error) {
	if info, err := os.Stat(path); err == nil && info.Mode().IsRegular() {
		r.read += info.Size()
	}
	if r.read >= roomFrom && !r.made {
		r.made = true
		makeRoom()
	}
	return r.Files.Read(path)
}

// makeRoom prepares memory. A command on a long ledger touches thousands of
// fresh pages of it, and each first touch goes to the system, which on a virtual
// machine takes longer than reading what goes there: the room is asked for in
// large pages and given back to the collector, which hands out its parts. Only
// what is used is ever filled. Where the system has no large pages to give,
// nothing changes.
func makeRoom() {
	if inLargePages(make([]byte, roomFor)) {
		runtime.GC()
	}
}
