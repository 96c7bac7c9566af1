// Package ledger is the ledger language: it scans and reads ledger text into
// the season model and says what is wrong with it, by file, line and column.
// Nobody else reads or writes ledger text.
//
// A text becomes lines of tokens (scan.go), lines become blocks (blocks.go),
// and blocks are read in the order in which they lean on each other: ladders
// and rules first, then people, sequences, contests, flights, and what speaks
// of flights (reader.go). The order of blocks in a file is therefore free, and
// every name is known when it is met. Lines keep their exact text, so that an
// edit leaves everything else as it stands.
package ledger
