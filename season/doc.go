// Package season holds the model that a ledger is read into: pilots, sequences,
// contests, flights, faults and what they cost, money, and which of them are
// chosen. It reads no text and writes none: package ledger fills the model,
// package analysis asks it.
package season
