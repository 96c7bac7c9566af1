package workbook

import (
	"io"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Names, labels and remarks of any length make a workbook: a row is as high as it
// may be, and the cell has the whole text.
func TestLongTextsMakeAWorkbook(t *testing.T) {
	const length = 1500
	long := func(word string) string { return strings.Repeat(word+" ", length/(len(word)+1)) + "end" }
	name := long("Halloran")
	l := parse(t, "pilot ines\n  name \""+name+"\"\n  club \""+long("Kestrel")+"\"\ncoach marek\n  name \""+long("Oduya")+"\"\n"+
		"sequence one\n  category sportsman\n  programme known\n  1 7.4.1.1:10 \""+long("loop")+"\"\n  2 5.2.1.1:17\n"+
		"contest cup 2026-04-18\n  name \""+long("Trophy")+"\"\n  panel AK BM\n"+
		"flight 2026-04-18 ines known\n  contest cup\n  sequence one\n  1 7 7 \""+long("late")+"\"\n  2 8 7\n  note \""+long("windy")+"\"\n  fault 1 radius seen by marek \""+long("tight")+"\"\n")
	book := workbookOf(t, l, "ines")
	rows, err := book.GetRows("Season")
	require.NoError(t, err)
	require.True(t, slices.ContainsFunc(rows, func(row []string) bool {
		return slices.ContainsFunc(row, func(cell string) bool { return strings.Contains(cell, name) })
	}))
	require.NoError(t, contentOf(l, of(t, l, "ines")).write(io.Discard))
}
