//go:build !race

package ledger

const raceDetector = false
