//go:build race

package sheetfile_test

// raceDetector says that the race detector slows everything down.
const raceDetector = true
