//go:build !unix

package commands

import "os"

// stopSignals are those that ask a program to stop.
var stopSignals = []os.Signal{os.Interrupt}

// exitStopped is the exit code of a program that was stopped.
func exitStopped(os.Signal) int { return exitInterrupted }
