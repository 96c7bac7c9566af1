//go:build !race

package lsp

const raceDetector = false
