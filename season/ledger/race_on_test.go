//go:build race

package ledger

// raceDetector says that the race detector slows everything down.
const raceDetector = true
