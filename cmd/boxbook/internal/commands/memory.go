package commands

import (
	"os"
	"runtime"
	"runtime/debug"

	"boxbook/season/ledger"
)

// collected is garbage, to be told when garbage was collected.
type collected struct{ _ [16]byte }

// The steps in percent of what is held, at first and where that is large.
const (
	seldom = 1600
	larger = 400
	large  = 100
	huge   = 30
)

// collectSeldom sets by how much a command's memory may grow before garbage is
// looked for. A command lives for milliseconds: most end before they have used
// the 64 MB that this allows at first. A ledger with a million errors would take
// three times what it needs so, and with a limit of memory it would do little
// else than look: what is large grows in smaller steps.
func collectSeldom() { collectBy(seldom) }

// collectBy sets the steps, until garbage was collected.
func collectBy(percent int) {
	debug.SetGCPercent(percent)
	if percent > huge {
		runtime.SetFinalizer(&collected{}, func(*collected) { collectBy(stepFor(percent)) })
	}
}

// stepFor is the next step after one of so many percent, by what was held when
// garbage was collected: the collector's next size, less the step. (What
// runtime/metrics tells outright costs every start most of a millisecond.)
func stepFor(percent int) int {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	switch held := m.NextGC / (1 + uint64(percent)/100); {
	case held > 384<<20:
		return huge
	case held > 96<<20:
		return large
	case held > 8<<20:
		return larger
	}
	return percent
}

// From how much text on room is made for a ledger, and how much: less than
// collectSeldom allows at first.
const (
	roomFrom = 128 << 10
	roomFor  = 48 << 20
)

// makeRoom prepares memory, once, for a command that will use much of it. It
// touches thousands of fresh pages, and each first touch goes to the system,
// which on a virtual machine takes longer than what the page is for: the room is
// asked for in large pages and given back to the collector, which hands out its
// parts. Only what is used is ever filled. Where the system has no large pages
// to give, nothing changes. A short command on a short ledger is quicker without.
func (s *streams) makeRoom() {
	if s.room != nil {
		s.room()
		s.room = nil
	}
}

// roomInLargePages makes the room. The collection that hands it over sweeps some
// hundred small pieces and lets others run between any two: with processors idle it
// would wake one each time, for nothing.
func roomInLargePages() {
	if inLargePages(make([]byte, roomFor)) {
		processors := runtime.GOMAXPROCS(1)
		runtime.GC()
		runtime.GOMAXPROCS(processors)
	}
}

// roomy reads files, and makes room in memory before it has read more than a
// little.
type roomy struct {
	ledger.Files
	read     int64
	makeRoom func()
}

// Read gives the whole text of a path.
func (r *roomy) Read(path string) (string, error) {
	if info, err := os.Stat(path); err == nil && info.Mode().IsRegular() {
		r.read += info.Size()
	}
	if r.read >= roomFrom {
		r.makeRoom()
	}
	return r.Files.Read(path)
}
