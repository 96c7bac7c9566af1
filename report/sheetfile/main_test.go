package sheetfile_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"boxbook/report/sheetfile"
	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/ledger"
	"boxbook/season/sheetimport"
)

// childFile names the file that a child process of these tests reads, so that
// its time and memory can be measured apart.
const childFile = "SHEETFILE_CHILD"

func TestMain(m *testing.M) {
	if path := os.Getenv(childFile); path != "" {
		readAsChild(path)
		return
	}
	os.Exit(m.Run())
}

// readAsChild reads a file as `import` does, and prints what came of it.
func readAsChild(path string) {
	g, err := sheetfile.Load(path, "")
	defer func() { fmt.Fprintln(os.Stderr, peakMemory()) }()
	if err != nil {
		fmt.Println(err)
		return
	}
	r := recognised(g)
	cells := 0
	for _, row := range g.Rows {
		cells += len(row.Cells)
	}
	fmt.Printf("%d cells, %d errors\n", cells, len(r.Problems)+r.More)
}

// peakMemory is the most memory that this process has held, in KiB; 0 where the
// system does not tell it in this way.
func peakMemory() int {
	status, err := os.ReadFile("/proc/self/status")
	if err != nil {
		return 0
	}
	_, rest, _ := strings.Cut(string(status), "VmHWM:")
	peak := 0
	_, _ = fmt.Sscan(rest, &peak) // 0 where there is no such line
	return peak
}

// recognised looks for a sequence of ten figures, of judges not known before.
func recognised(g sheetimport.Grid) sheetimport.Result {
	seq := season.Sequence{Figures: make([]season.Figure, 10), Positioning: 10}
	return sheetimport.Recognise(g, sheetimport.Options{
		Sequence: "known-26", Lines: sheetimport.LinesOf(&seq), ReadMark: func(text string) (scoring.Mark, string, string) {
			marks, _, problem, hint := ledger.ReadMarks(text)
			if problem == "" && len(marks) == 1 {
				return marks[0], "", ""
			}
			return scoring.Mark{}, "not a mark" + problem, hint
		},
	})
}
