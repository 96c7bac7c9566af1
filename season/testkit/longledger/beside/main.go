//go:build speed

// Command beside writes an archive and reads it in turn with boxbook and with
// DuckDB, which gets the same marks as csv, on one core and on two, and prints a
// table of the medians with their ratios. Each is a process that reads its file
// from the disk's cache once a round, waiting for its turn; starting is in no
// figure. In its first round a process gets its memory, which is a column of its
// own.
//
//	npm install --prefix MODULES @duckdb/node-api
//	go run -tags speed ./season/testkit/longledger/beside -modules MODULES
package main

import (
	"encoding/json"
	"flag"
	"fmt"
	"io"
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
	b.measure(*rounds)
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

	command *exec.Cmd
	turns   io.WriteCloser
	said    *json.Decoder
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
	own := begin("", slices.Insert(args, 1, "-points"))
	other := begin("", b.peer("short", 1))
	own.round()
	other.round()
	own.end()
	other.end()
	if a, b := own.rounds[0], other.rounds[0]; a.Flights != b.Flights || a.Figures != b.Figures || math.Abs(a.Points-b.Points) > 1e-6*a.Points {
		fail(fmt.Errorf("the two differ: %+v, %+v", a, b))
	}
}

// measure runs every program in turn, so many rounds.
func (b *beside) measure(rounds int) {
	add := func(name string, args []string) { b.programs = append(b.programs, begin(name, args)) }
	for _, cores := range []int{1, 2} {
		add(fmt.Sprintf("boxbook, %d", cores), b.boxbook("long", cores))
		if b.modules != "" {
			add(fmt.Sprintf("DuckDB, %d", cores), b.peer("long", cores))
		}
	}
	add("boxbook, 1, a tenth", b.boxbook("short", 1))
	for range rounds {
		for _, p := range b.programs {
			p.round()
		}
	}
	for _, p := range b.programs {
		p.end()
	}
}

// begin starts a program, which waits for its first turn.
func begin(name string, args []string) *program {
	p := &program{name: name, args: args, command: exec.Command(args[0], args[1:]...)}
	p.command.Stderr = os.Stderr
	turns, err := p.command.StdinPipe()
	fail(err)
	out, err := p.command.StdoutPipe()
	fail(err)
	fail(p.command.Start())
	p.turns, p.said = turns, json.NewDecoder(out)
	return p
}

// round gives a program its turn.
func (p *program) round() {
	_, err := fmt.Fprintln(p.turns)
	fail(err)
	var r longledger.Round
	fail(p.said.Decode(&r))
	p.rounds = append(p.rounds, r)
}

func (p *program) end() {
	fail(p.turns.Close())
	fail(p.command.Wait())
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
