// Package answers is the JSON contract as types: all that a page, a sheet or a
// picture may show, and nothing hidden beside it. Each answer asks season/analysis
// itself, and carries the thresholds that its sentences name (Limits) and the
// reason where something is not known, so that whoever shows it needs neither.
package answers
