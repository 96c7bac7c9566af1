package analysis

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// sideBySide does so many things, as many at a time as there are processors to use.
func sideBySide(things int, do func(int)) {
	workers := min(runtime.GOMAXPROCS(0), things)
	if workers < 2 {
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
