//go:build unix

package ledger

import (
	"syscall"
	"time"
)

// cpuTime is how long this process has had a processor: unlike the time of day
// it says nothing of who else uses the machine.
func cpuTime() time.Duration {
	var usage syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &usage); err != nil {
		return time.Duration(time.Now().UnixNano())
	}
	return time.Duration(usage.Utime.Nano() + usage.Stime.Nano())
}
