//go:build speed

// Command read reads an archive, checks it and scores every flight, so many times
// over, and prints one line of JSON a round: seconds from the file's name to the
// last score, seconds of processor, the peak of memory so far in bytes.
//
//	go run -tags speed ./season/testkit/longledger/read -workers 1 -rounds 7 archive.boxbook
package main

import (
	"bufio"
	"encoding/json"
	"flag"
	"fmt"
	"math/big"
	"os"
	"runtime"
	"runtime/pprof"
	"sync"
	"time"

	"boxbook/data"
	"boxbook/season"
	"boxbook/season/ledger"
	"boxbook/season/testkit/longledger"
)

func main() {
	workers := flag.Int("workers", 1, "processors to use")
	rounds := flag.Int("rounds", 0, "how often to read; 0 for once for each line of input")
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
	lines := bufio.NewScanner(os.Stdin)
	for n := 0; n < *rounds || *rounds == 0 && lines.Scan(); n++ {
		fail(json.NewEncoder(os.Stdout).Encode(round(flag.Arg(0), *workers, *points)))
	}
}

// round reads the archive once.
func round(path string, workers int, points bool) longledger.Round {
	runtime.GC()
	begin, cpu := time.Now(), longledger.ProcessorTime()
	result, err := ledger.Load(ledger.Options{Files: ledger.Disk{}, Main: path, Builtin: data.Builtin(), Workers: workers})
	fail(err)
	fail(result.Diagnostics.Err())
	r := score(result.Ledger.Flights, workers)
	r.Seconds, r.Processor = time.Since(begin).Seconds(), (longledger.ProcessorTime() - cpu).Seconds()
	r.Peak = longledger.PeakMemory()
	if points {
		r.Points = figurePoints(result.Ledger)
	}
	return r
}

// score works out what every flight comes to, side by side.
func score(flights []*season.Flight, workers int) longledger.Round {
	parts := make([]longledger.Round, workers)
	var wait sync.WaitGroup
	for n := range workers {
		wait.Go(func() {
			var r longledger.Round
			for _, f := range flights[len(flights)*n/workers : len(flights)*(n+1)/workers] {
				r.Flights++
				r.Figures += f.Rows.Len()
				if f.Total().Decided() {
					r.Decided++
				}
			}
			parts[n] = r
		})
	}
	wait.Wait()
	var all longledger.Round
	for _, r := range parts {
		all.Flights, all.Figures, all.Decided = all.Flights+r.Flights, all.Figures+r.Figures, all.Decided+r.Decided
	}
	return all
}

// figurePoints adds up K x mean of all rows of figures.
func figurePoints(l *season.Ledger) float64 {
	sum := new(big.Rat)
	for _, f := range l.Flights {
		for i := range f.Rows.Len() {
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
