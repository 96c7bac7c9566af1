//go:build speed

// Command write prints a long invented ledger: the files that speed is measured
// on.
//
//	go run -tags speed ./season/testkit/longledger/write -pilots 5 -seasons 10 > ten.boxbook
//	go run -tags speed ./season/testkit/longledger/write -archive 50 > archive.boxbook
package main

import (
	"flag"
	"fmt"
	"io"
	"os"

	"boxbook/season/testkit/longledger"
)

func main() {
	size := longledger.Thirty()
	archive := flag.Int64("archive", 0, "an archive of so many million bytes, instead of a book")
	flag.IntVar(&size.Pilots, "pilots", size.Pilots, "pilots")
	flag.IntVar(&size.Seasons, "seasons", size.Seasons, "seasons")
	flag.IntVar(&size.Contest, "contest", size.Contest, "contest flights of a pilot in a season")
	flag.IntVar(&size.Practice, "practice", size.Practice, "practice flights of a pilot in a season")
	flag.IntVar(&size.Last, "last", size.Last, "the last season")
	flag.Parse()
	if *archive == 0 {
		fmt.Print(longledger.Text(size))
		return
	}
	if err := longledger.Archive(os.Stdout, io.Discard, *archive*1e6); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
