//go:build speed

// Command beside writes an archive and reads it in turn with boxbook and with
// DuckDB, which gets the same marks as csv, on one core and on two, each round in a
// process of its own, and prints a table of the medians with their ratios. Both
// read their files from the disk's cache; starting a process is in no figure.
//
//	npm install --prefix MODULES @duckdb/node-api
//	go run -tags speed ./season/testkit/longledger/beside -modules MODULES
package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"

	"boxbook/season/testkit/longledger"
)

const folder = "season/testkit/longledger"

func main() {
	size := flag.Int64("archive", 50, "million bytes of the archive")
	modules := flag.String("modules", "", "where @duckdb/node-api is installed; without it boxbook is measured alone")
	rounds := flag.Int("rounds", 7, "rounds")
	flag.Parse()
	work, err := os.MkdirTemp("", "archive")
	fail(err)
	defer os.RemoveAll(work)
	b := beside{work: work, modules: *modules}
	fail(run(exec.Command("go", "build", "-tags", "speed", "-o", b.path("read"), "./"+folder+"/read")))
	b.write("long", *size*1e6)
	b.write("short", *size*1e5)
	b.compare()
	fail(b.measure(*rounds))
	b.print()
}

// beside is a comparison under way.
type beside struct {
	work, modules string
	programs      []*program
}

// program is one that reads, and its rounds so far.
type program struct {
	name   string
	args   []string
	rounds []longledger.Round
}

func (b *beside) path(name string) string { return filepath.Join(b.work, name) }

func (b *beside) write(name string, size int64) {
	text, err := os.Create(b.path(name + ".boxbook"))
	fail(err)
	table, err := os.Create(b.path(name + ".csv"))
	fail(err)
	fail(longledger.Archive(text, table, size))
	fail(text.Close())
	fail(table.Close())
}

func (b *beside) boxbook(name string, workers int) []string {
	return []string{b.path("read"), "-workers", strconv.Itoa(workers), b.path(name + ".boxbook")}
}

func (b *beside) peer(name string, threads int) []string {
	return []string{"node", folder + "/peer.mjs", b.modules, b.path(name + ".csv"), strconv.Itoa(threads)}
}

// compare holds the two programs' sums against each other, on the short archive.
func (b *beside) compare() {
	if b.modules == "" {
		return
	}
	args := b.boxbook("short", 1)
	own, err := read(slices.Insert(args, 1, "-points"))
	fail(err)
	other, err := read(b.peer("short", 1))
	fail(err)
	if own.Flights != other.Flights || own.Figures != other.Figures || math.Abs(own.Points-other.Points) > 1e-6*own.Points {
		fail(fmt.Errorf("the two differ: %+v, %+v", own, other))
	}
}

// measure runs every program in turn, so many rounds.
func (b *beside) measure(rounds int) error {
	add := func(name string, args []string) { b.programs = append(b.programs, &program{name: name, args: args}) }
	for _, cores := range []int{1, 2} {
		add(fmt.Sprintf("boxbook, %d", cores), b.boxbook("long", cores))
		if b.modules != "" {
			add(fmt.Sprintf("DuckDB, %d", cores), b.peer("long", cores))
		}
	}
	add("boxbook, 1, a tenth", b.boxbook("short", 1))
	for range rounds {
		for _, p := range b.programs {
			r, err := read(p.args)
			if err != nil {
				return fmt.Errorf("%s: %w", p.name, err)
			}
			p.rounds = append(p.rounds, r)
		}
	}
	return nil
}

// read runs a program for one round.
func read(args []string) (longledger.Round, error) {
	var r longledger.Round
	command := exec.Command(args[0], args[1:]...)
	command.Stderr = os.Stderr
	out, err := command.Output()
	if err != nil {
		return r, err
	}
	return r, json.Unmarshal(out, &r)
}

func run(command *exec.Cmd) error {
	command.Stdout, command.Stderr = os.Stdout, os.Stderr
	return command.Run()
}

func fail(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
