//go:build !race

package sheetfile_test

const raceDetector = false
