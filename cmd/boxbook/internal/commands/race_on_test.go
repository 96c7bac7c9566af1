//go:build race

package commands

// raceDetector says that the race detector slows everything down.
const raceDetector = true
