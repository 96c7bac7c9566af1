//go:build speed

package main

import (
	"fmt"
	"os"
	"slices"
	"text/tabwriter"

	"boxbook/season/testkit/longledger"
)

// median of one number of the rounds.
func (p *program) median(of func(longledger.Round) float64) float64 {
	var all []float64
	for _, r := range p.rounds {
		all = append(all, of(r))
	}
	slices.Sort(all)
	return (all[len(all)/2] + all[(len(all)-1)/2]) / 2
}

func seconds(r longledger.Round) float64   { return r.Seconds }
func processor(r longledger.Round) float64 { return r.Processor }
func peak(r longledger.Round) float64      { return float64(r.Peak) }
func perSecond(r longledger.Round) float64 { return float64(r.Figures) / r.Seconds }

// print writes the table: a program a line with the medians of its rounds, and the
// ratios that have limits.
func (b *beside) print() {
	t := tabwriter.NewWriter(os.Stdout, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintf(t, "program, cores\tfirst\tseconds\tof processor\tfigures/s\tMB/s of its file\tpeak memory\t\n")
	for _, p := range b.programs {
		bytes := float64(b.sizeOf(p))
		fmt.Fprintf(t, "%s\t%.3f\t%.3f\t%.3f\t%.2f M\t%.0f\t%.0f MB, %.1fx\t\n", p.name, p.rounds[0].Seconds, p.median(seconds), p.median(processor), p.median(perSecond)/1e6,
			bytes/1e6/p.median(seconds), p.median(peak)/1e6, p.median(peak)/bytes)
	}
	t.Flush()
	find := func(name string) *program {
		return b.programs[slices.IndexFunc(b.programs, func(p *program) bool { return p.name == name })]
	}
	long, short := find("boxbook, 1"), find("boxbook, 1, a tenth")
	if b.modules != "" {
		ratio := func(cores int, of func(longledger.Round) float64) float64 {
			return find(fmt.Sprintf("boxbook, %d", cores)).median(of) / find(fmt.Sprintf("DuckDB, %d", cores)).median(of)
		}
		fmt.Printf("figures per second, boxbook to DuckDB: one core %.2f (limit 1.8), two cores %.2f (limit 1.2)\n", ratio(1, perSecond), ratio(2, perSecond))
		fmt.Printf("the same by seconds of processor: one core %.2f, two cores %.2f\n", 1/ratio(1, processor), 1/ratio(2, processor))
	}
	fmt.Printf("peak memory, one core: %.1f times the file (limit 8)\n", long.median(peak)/float64(b.sizeOf(long)))
	fmt.Printf("ten times the work in %.1f times the time, %.1f of the processor's (limit 12)\n",
		long.median(seconds)/short.median(seconds), long.median(processor)/short.median(processor))
}

// sizeOf is the size of the file that a program reads, in bytes.
func (b *beside) sizeOf(p *program) int64 {
	for _, arg := range p.args[1:] {
		if info, err := os.Stat(arg); err == nil && info.Mode().IsRegular() && info.Size() > 1<<16 {
			return info.Size()
		}
	}
	return 0
}
