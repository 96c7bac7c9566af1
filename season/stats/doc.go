// Package stats answers questions put to few, irregular, clustered numbers: is
// there a trend, how steep, which column of a table lies high, which value
// stands alone, what comes next, did a change help. It knows numbers only, not
// where they come from or what they are called.
//
// Every function takes finite values of at most 1e75 in size (squares and their
// weighted sums must stay finite) and answers with finite numbers, an error from
// the list in errors.go, or a false ok. It neither panics nor returns NaN. An
// infinite bound is returned only where a comment says so.
//
// Where numbers and formulas are from stands in marks, those of data/sources:
// published is what was seen in a publication or in test files that quote it,
// derived is arithmetic, enumeration or computed by the program that is named,
// memory names a publication that was not seen.
package stats
