// Package testkit has ledgers and small readings of answers for the tests of the
// model and of the analysis.
package testkit
