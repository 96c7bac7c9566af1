//go:build speed

// Command sidebyside times whole processes of boxbook, each beside another, in
// turn, and prints a table: what a command takes beyond `boxbook version`.
//
//	go run -tags speed ./season/testkit/longledger/sidebyside -rounds 31
//	go run -tags speed ./season/testkit/longledger/sidebyside -only drills -against OTHER/boxbook
//
// Milliseconds of the wall, the median of the rounds and the least; the processor's
// are user and system together, the least. On a machine that others use, the least
// is nearer to the truth.
package main

import (
	"cmp"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"

	"boxbook/season/testkit/longledger"
)

// empty is the program that does nothing, with the same libraries.
const empty = "an empty program"

// bench is where programs and ledgers lie.
type bench struct {
	binary, empty string
	folder        string
	rounds        int
}

func main() {
	b := bench{}
	var only, against string
	flag.StringVar(&b.binary, "binary", "", "the boxbook to time; built if omitted")
	flag.StringVar(&against, "against", "", "another boxbook: each command beside the same of that one")
	flag.StringVar(&only, "only", "", "commands that match this expression")
	flag.IntVar(&b.rounds, "rounds", 31, "rounds of each pair")
	flag.Parse()
	match, err := regexp.Compile(only)
	must(err)
	b.folder, err = os.MkdirTemp("", "sidebyside")
	must(err)
	defer os.RemoveAll(b.folder)
	if b.binary == "" {
		b.binary = b.build("./cmd/boxbook")
	}
	b.empty = b.build("-tags=speed", "./season/testkit/longledger/empty")
	fmt.Printf("%-26s %-36s %-16s %8s %8s %8s %8s %7s %8s %8s\n", "ledger", "command", "beside",
		"median", "beyond", "least", "beyond", "ratio", "cpu", "beyond")
	for _, c := range commands {
		if !match.MatchString(c.line) {
			continue
		}
		path := b.ledger(c.of)
		a, beside, than := b.words(path, c.line), b.words(path, cmp.Or(c.than, "version")), cmp.Or(c.than, "version")
		switch {
		case against != "":
			beside, than = slices.Clone(a), "the other"
			beside[0] = against
		case c.than == empty:
			beside = []string{b.empty}
		}
		x, y := b.inTurn(a, beside)
		fmt.Printf("%-26s %-36s %-16s %8.2f %8.2f %8.2f %8.2f %7.2f %8.2f %8.2f\n", c.of.name, "boxbook "+c.line, than,
			x.wall(half), x.wall(half)-y.wall(half), x.wall(0), x.wall(0)-y.wall(0), x.wall(0)/y.wall(0), x.cpu(0), x.cpu(0)-y.cpu(0))
	}
}

func must(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func (b bench) build(args ...string) string {
	path := filepath.Join(b.folder, filepath.Base(args[len(args)-1])+"-program")
	build := exec.Command("go", append([]string{"build", "-o", path}, args...)...)
	build.Stderr = os.Stderr
	must(build.Run())
	return path
}

// ledger writes a book, if it is not there yet.
func (b bench) ledger(of book) string {
	path := filepath.Join(b.folder, strings.ReplaceAll(of.name, " ", "-")+".boxbook")
	if _, err := os.Stat(path); err != nil && of.name != "" {
		must(os.WriteFile(path, []byte(longledger.Text(of.size)), 0o600))
	}
	return path
}

// words are the program and its words. A shell that completes sends an empty last
// word.
func (b bench) words(ledger, line string) []string {
	words := strings.Split(line, " ")
	if line == "" {
		words = nil
	}
	if line == "version" {
		return []string{b.binary, line}
	}
	at := 0
	if len(words) > 0 && words[0] == "__complete" {
		at = 1
	}
	return append([]string{b.binary}, slices.Insert(words, at, "--ledger", ledger)...)
}

// runs are what the rounds of a command took.
type runs struct{ walls, cpus []time.Duration }

// half is the place of the median.
const half = 0.5

func (r runs) wall(share float64) float64 { return at(r.walls, share) }
func (r runs) cpu(share float64) float64  { return at(r.cpus, share) }

// at is a place among times, in milliseconds.
func at(of []time.Duration, share float64) float64 {
	sorted := slices.Sorted(slices.Values(of))
	return float64(sorted[int(share*float64(len(sorted)-1))]) / float64(time.Millisecond)
}

// inTurn runs two commands in turn, after one of each that does not count.
func (b bench) inTurn(a, beside []string) (x, y runs) {
	once(a, &runs{})
	once(beside, &runs{})
	for range b.rounds {
		once(a, &x)
		once(beside, &y)
	}
	return x, y
}

func once(words []string, into *runs) {
	c := exec.Command(words[0], words[1:]...)
	c.Stdout, c.Stderr = io.Discard, os.Stderr
	if slices.Contains(words, "__complete") {
		c.Stderr = nil // says what the shell is told
	}
	began := time.Now()
	err := c.Run()
	took := time.Since(began)
	if err != nil {
		must(fmt.Errorf("%s: %w", strings.Join(words, " "), err))
	}
	into.walls = append(into.walls, took)
	into.cpus = append(into.cpus, c.ProcessState.UserTime()+c.ProcessState.SystemTime())
}
