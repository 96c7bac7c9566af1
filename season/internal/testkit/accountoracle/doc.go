// Package accountoracle keeps the accounts of a ledger once more, slowly and
// from the rules alone, so that tests can hold the program's accounts against
// it. It reads the money lines of a ledger text itself, counts in big.Int, and
// imports nothing of the program.
//
// It knows the lines that tests write: no include, no quoted name with a
// quotation mark in it.
package accountoracle
