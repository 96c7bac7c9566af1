//go:build race

package main

// raceDetector says that the race detector slows everything down.
const raceDetector = true
