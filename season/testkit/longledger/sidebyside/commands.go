//go:build speed

package main

import "boxbook/season/testkit/longledger"

// book is a ledger that commands are asked about.
type book struct {
	name string
	size longledger.Size
}

var (
	thirty = book{"thirty seasons", longledger.Thirty()}
	one    = book{"ten seasons", longledger.Ten(1)}
	three  = book{"ten seasons, three pilots", longledger.Ten(3)}
	five   = book{"ten seasons, five pilots", longledger.Ten(5)}
	long   = book{"7,500 contest flights", longledger.Size{Pilots: 1, Seasons: 375, Contest: 20, Last: longledger.Thirty().Last}}
	short  = book{"25 contest flights", longledger.Size{Pilots: 1, Seasons: 1, Contest: 25, Last: longledger.Thirty().Last}}
	none   = book{}
)

// command is one that is timed, and what it is held against.
type command struct {
	of   book
	line string
	than string // the command beside it; "version" for ""
}

// commands are every reading command of a long ledger, completion and home too,
// and those that have limits of their own.
var commands = []command{
	{none, "version", empty},
	{thirty, "check", ""},
	{thirty, "", ""},
	{thirty, "pilots", ""},
	{thirty, "flight last", ""},
	{thirty, "flight last", "check"},
	{thirty, "debrief last", ""},
	{thirty, "whatif last 1=7.5", ""},
	{thirty, "season", ""},
	{thirty, "season --since 1000-01-01", ""},
	{thirty, "families", ""},
	{thirty, "families --since 1000-01-01", ""},
	{thirty, "faults", ""},
	{thirty, "drills", ""},
	{thirty, "forecast known-2026", ""},
	{thirty, "plan", ""},
	{thirty, "ready", ""},
	{thirty, "panel", ""},
	{thirty, "year", ""},
	{thirty, "statement p1", ""},
	{thirty, "booklet -o -", ""},
	{thirty, "export flights", ""},
	{thirty, "__complete flight ", ""},
	{thirty, "__complete families --contest ", ""},
	{one, "", ""},
	{one, "pilots", ""},
	{three, "", ""},
	{three, "pilots", ""},
	{five, "pilots", ""},
	{short, "workbook -o /dev/null", ""},
	{long, "check", ""},
	{long, "season --since 1000-01-01", "check"},
	{long, "families --since 1000-01-01", "check"},
}
