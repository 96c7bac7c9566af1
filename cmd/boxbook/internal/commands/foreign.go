package commands

import (
	"archive/zip"
	"bytes"
	"io"
	"os"
	"slices"
	"strings"
)

// signRead is how much of a file is searched for the program's name.
const signRead = 1 << 20

// isForeign reports whether a file holds something that is not an output of this
// program: a page says which version wrote it, a workbook whose it is, and a table
// has the heads that the new one has. A score sheet or notes that somebody typed
// would be gone, and undo knows only the ledger.
func isForeign(path string, output []byte) bool {
	info, err := os.Stat(path)
	if err != nil || !info.Mode().IsRegular() || info.Size() == 0 {
		return false
	}
	file, err := os.Open(path)
	if err != nil {
		return false // what cannot be read is refused or kept when it is written
	}
	defer file.Close()
	old := make([]byte, min(signRead, info.Size()))
	if n, err := io.ReadFull(file, old); err != nil {
		old = old[:n]
	}
	if isZip(old) {
		return !isOwnWorkbook(file, info.Size())
	}
	return !slices.ContainsFunc(pageSigns, func(sign string) bool { return bytes.Contains(old, []byte(sign)) }) && !sameHeads(old, output)
}

// pageSigns are what a page has somewhere: its head in words, or as JSON.
var pageSigns = []string{"boxbook ", `"boxbook":`}

// sameHeads reports whether two tables for other programs have the same heads.
func sameHeads(a, b []byte) bool {
	first := func(table []byte) []byte {
		line, _, _ := bytes.Cut(table, []byte("\n"))
		return bytes.TrimSpace(line)
	}
	return len(first(a)) > 0 && bytes.Equal(first(a), first(b))
}

func isZip(data []byte) bool { return bytes.HasPrefix(data, []byte("PK\x03\x04")) }

// isOwnWorkbook reports whether a workbook's properties name this program.
func isOwnWorkbook(file io.ReaderAt, size int64) bool {
	archive, err := zip.NewReader(file, size)
	if err != nil {
		return false
	}
	return slices.ContainsFunc(archive.File, func(part *zip.File) bool {
		if !strings.HasPrefix(part.Name, "docProps/") {
			return false
		}
		r, err := part.Open()
		if err != nil {
			return false
		}
		defer r.Close()
		said, err := io.ReadAll(io.LimitReader(r, signRead))
		return err == nil && bytes.Contains(said, []byte("boxbook"))
	})
}
