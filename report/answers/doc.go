// Package answers is the JSON contract as types: all that a page, a sheet or a
// picture may show, and nothing hidden beside it. Each answer asks season/analysis
// itself, and carries the thresholds that its sentences name (Limits) and the
// reason where something is not known, so that whoever shows it needs neither.
//
// An answer is made of numbers, names, days and codes (package code). Where the
// contract has a sentence as well, such as a gate's evidence or why there is no
// forecast, the builder leaves it empty: words.SayReady, words.SayForecast and
// their like fill it from the answer's own numbers and codes. The pages, and with
// them JSON and the workbook, take the answer through that one function, so that
// a sentence is the same wherever it stands and no number is read back out of one.
package answers
