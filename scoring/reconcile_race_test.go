//go:build race

package scoring

const raceDetector = true
