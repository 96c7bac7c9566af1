//go:build !unix

package ledger

import "time"

// cpuTime is the time of day where the processor's is not to be had.
func cpuTime() time.Duration { return time.Duration(time.Now().UnixNano()) }
