//go:build speed

package commands

import (
	"io"
	"math"
	"os"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/season/testkit/longledger"
)

// The questions about one pilot, and those about everybody.
var growing = []string{
	"check", "pilots", "", "year", "drills",
	"flight p1 last", "debrief p1 last", "whatif p1 last 4=7.5", "season p1", "families p1", "faults p1", "drills p1", "forecast p1 known-2026",
	"plan p1", "ready p1", "panel p1", "statement p1", "booklet p1 -o -", "export flights", "export marks", "workbook p1 -o -",
	"__complete flight ", "__complete families --contest ",
}

// The bounds on twice the other pilots' flights: n log n is a little over two, n
// squared is four.
const (
	mostAllocations = 2.3
	mostSlower      = 3.4 // processor time, on a machine that others use
)

// TestGrowth doubles the flights of the other pilots, as the pilot's own stay as
// they are: nothing may take much more than twice the allocations, which are
// counted, nor than twice the time, the least of three.
func TestGrowth(t *testing.T) {
	paths := [2]string{longFile(t, longledger.Size{Pilots: 16, Seasons: 10, Contest: 20, Last: longledger.Thirty().Last}), longFile(t, longledger.Size{Pilots: 31, Seasons: 10, Contest: 20, Last: longledger.Thirty().Last})}
	for _, command := range growing {
		least := [2]time.Duration{math.MaxInt64, math.MaxInt64}
		var counts [2]float64
		for range 3 {
			for i, path := range paths {
				took, allocations := spent(t, path, command)
				least[i], counts[i] = min(least[i], took), allocations
			}
		}
		slower, more := least[1].Seconds()/least[0].Seconds(), counts[1]/counts[0]
		t.Logf("%-32s %6.0f ms, %6.0f ms for twice the flights: %.2f times; allocations %.2f times", "boxbook "+command, 1000*least[0].Seconds(), 1000*least[1].Seconds(), slower, more)
		if more > mostAllocations || slower > mostSlower {
			t.Errorf("boxbook %s grows faster than the flights", command)
		}
	}
}

// spent is the processor's time and the allocations of a command, in process.
func spent(t *testing.T, path, command string) (time.Duration, float64) {
	at := time.Date(longledger.Thirty().Last, 11, 25, 12, 0, 0, 0, time.UTC)
	s := &streams{
		in: strings.NewReader(""), out: io.Discard, err: os.Stderr, now: func() time.Time { return at },
		env: func(string) string { return "" }, version: data.Version(), width: 80,
	}
	words := strings.Split(command, " ")
	if command == "" {
		words = nil
	}
	if strings.HasPrefix(command, "__complete") {
		s.err = io.Discard
		words = append([]string{words[0], "--ledger", path}, words[1:]...)
	} else {
		words = append([]string{"--ledger", path}, words...)
	}
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	began := processorTime()
	require.Zero(t, run(words, s), command)
	took := processorTime() - began
	runtime.ReadMemStats(&after)
	return took, float64(after.Mallocs - before.Mallocs)
}

// processorTime is what this process has used, user and system.
func processorTime() time.Duration {
	var usage syscall.Rusage
	_ = syscall.Getrusage(syscall.RUSAGE_SELF, &usage)
	return time.Duration(usage.Utime.Nano() + usage.Stime.Nano())
}
