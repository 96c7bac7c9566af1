package season

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// SideBySide does so many things, of which none leans on another, as many at a time
// as there are processors to use.
func SideBySide(things int, do func(int)) { Workers(runtime.GOMAXPROCS(0), things, do) }

// Together does what none leans on another, side by side.
func Together(do ...func()) { SideBySide(len(do), func(i int) { do[i]() }) }

// Workers does so many things with so many workers. One does them in their order.
func Workers(workers, things int, do func(int)) {
	if workers = min(workers, things); workers < 2 {
		for i := range things {
			do(i)
		}
		return
	}
	var next atomic.Int64
	var all sync.WaitGroup
	for range workers {
		all.Go(func() {
			for i := next.Add(1); int(i) <= things; i = next.Add(1) {
				do(int(i) - 1)
			}
		})
	}
	all.Wait()
}
