//go:build speed

// Command read reads an archive, checks it and scores every flight, so many times
// over, and prints one line of JSON a round: seconds from the file's name to the
// last score, seconds of processor, the peak of memory so far in bytes.
//
//	go run -tags speed ./season/testkit/longledger/read -workers 1 -rounds 7 archive.boxbook
package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"math/big"
	"os"
	"runtime"
	"runtime/pprof"
	"time"

	"boxbook/data"
	"boxbook/season"
	"boxbook/season/ledger"
	"boxbook/season/testkit/longledger"
)

func main() {
	workers := flag.Int("workers", 1, "processors to use")
	rounds := flag.Int("rounds", 1, "how often to read")
	points := flag.Bool("points", false, "add up what the rows of figures are worth, outside the time")
	profile := flag.String("profile", "", "write a profile of the processor's time")
	flag.Parse()
	runtime.GOMAXPROCS(*workers)
	if *profile != "" {
		out, err := os.Create(*profile)
		fail(err)
		fail(pprof.StartCPUProfile(out))
		defer pprof.StopCPUProfile()
	}
	for range *rounds {
		fail(json.NewEncoder(os.Stdout).Encode(round(flag.Arg(0), *points)))
	}
}

// round reads the archive once.
func round(path string, points bool) longledger.Round {
	runtime.GC()
	begin, cpu := time.Now(), longledger.ProcessorTime()
	result, err := ledger.Load(ledger.Options{Files: ledger.Disk{}, Main: path, Builtin: data.Builtin()})
	fail(err)
	fail(result.Diagnostics.Err())
	r := longledger.Round{Flights: len(result.Ledger.Flights)}
	for _, f := range result.Ledger.Flights {
		r.Figures += len(f.Rows)
		if f.Score().Decided() {
			r.Decided++
		}
	}
	r.Seconds, r.Processor = time.Since(begin).Seconds(), (longledger.ProcessorTime() - cpu).Seconds()
	r.Peak = longledger.PeakMemory()
	if points {
		r.Points = figurePoints(result.Ledger)
	}
	return r
}

// figurePoints adds up K x mean of all rows of figures.
func figurePoints(l *season.Ledger) float64 {
	sum := new(big.Rat)
	for _, f := range l.Flights {
		for i := range f.Rows {
			sum.Add(sum, f.FigureScore(i).Points)
		}
	}
	total, _ := sum.Float64()
	return total
}

func fail(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
