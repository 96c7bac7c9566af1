//go:build race

package lsp

// raceDetector says that the race detector slows everything down.
const raceDetector = true
