//go:build speed

// Command write prints a long invented ledger: the files that speed is measured
// on.
//
//	go run -tags speed ./season/testkit/longledger/write -pilots 5 -seasons 10 > ten.boxbook
package main

import (
	"flag"
	"fmt"

	"boxbook/season/testkit/longledger"
)

func main() {
	size := longledger.Thirty()
	flag.IntVar(&size.Pilots, "pilots", size.Pilots, "pilots")
	flag.IntVar(&size.Seasons, "seasons", size.Seasons, "seasons")
	flag.IntVar(&size.Contest, "contest", size.Contest, "contest flights of a pilot in a season")
	flag.IntVar(&size.Practice, "practice", size.Practice, "practice flights of a pilot in a season")
	flag.IntVar(&size.Last, "last", size.Last, "the last season")
	flag.Parse()
	fmt.Print(longledger.Text(size))
}
