//go:build unix

package commands

import (
	"os"
	"syscall"
)

// stopSignals are those that ask a program to stop.
var stopSignals = []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP}

// exitStopped is the exit code of a program that a signal stopped: the shell's
// convention, 128 and the signal's number (POSIX.1-2017, Shell, 2.8.2).
func exitStopped(s os.Signal) int {
	if n, ok := s.(syscall.Signal); ok {
		return 128 + int(n)
	}
	return exitInterrupted
}
