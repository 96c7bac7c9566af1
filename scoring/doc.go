// Package scoring says what a score sheet is worth: marks, rule styles, the
// score itself, and what would explain a printed total that is another, in codes
// and numbers. It does no input or output, knows no clock, has no sentence for
// people, and keeps every amount exact (integers of half points, rationals) until
// a caller rounds it once for display.
package scoring
