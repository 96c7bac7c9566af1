//go:build !race

package commands

const raceDetector = false
