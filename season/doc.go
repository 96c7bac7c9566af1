// Package season holds the model that a ledger is read into (pilots,
// sequences, contests, flights, money) and answers the questions asked of it
// over time. It reads no text and writes none: package ledger fills the model,
// package report shows the answers.
package season
