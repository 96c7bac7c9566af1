// Package sheetfile reads score sheets that other programs wrote, text with
// separators and workbooks (xlsx), into grids of cells.
//
// The files are not trusted. Whatever a file holds, reading it takes bounded
// time and memory: its size, its unpacked size, the number of its cells and
// what is looked at on the way have limits, each far above any score sheet.
// Formulas are not calculated, links are not followed, and nothing but the
// chosen sheet is kept. The writing library reads a whole sheet at once, or
// without telling a formula or a date from a number; so the few parts that
// matter here are read as a stream instead.
package sheetfile

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"boxbook/season/sheetimport"
)

// The limits.
const (
	maxFile     = 8 << 20   // bytes of a file
	maxUnpacked = 64 << 20  // bytes of a workbook's parts together
	maxPart     = 16 << 20  // bytes of one part
	maxParts    = 2000      // parts of a workbook
	maxCells    = 50_000    // cells, and rows, of the chosen sheet
	maxTokens   = 1_000_000 // tags, texts and attributes of the parts that are read
	maxRead     = 32 << 20  // bytes of the parts that are read
	maxTag      = 256 << 10 // bytes between two tags
	maxMerged   = 10_000
	maxSheets   = 1000
	maxBook     = 30 // sheets that are read together, a judge each
	maxHidden   = 1000
	maxText     = 200       // characters kept of a cell
	maxRow      = 1_048_576 // the last row that spreadsheets have
)

// RefusedError says in one sentence why a file is not read as a score sheet.
// Hint is what to do about it, "" where there is nothing to say.
type RefusedError struct {
	Name   string
	Reason string // "has 9.4 MB; ..."
	Hint   string
}

func (e *RefusedError) Error() string { return e.Name + " " + e.Reason }

// ChoiceError says that a workbook does not settle which of its sheets is
// meant: it has several, or none of the name asked for.
type ChoiceError struct {
	Name   string
	Asked  string // "" where none was asked for
	Sheets []string
}

func (e *ChoiceError) Error() string {
	if e.Asked == "" {
		return fmt.Sprintf("%s has several sheets: %s", e.Name, listed(e.Sheets))
	}
	return fmt.Sprintf("%s has no sheet %q, it has %s", e.Name, shortened(e.Asked), listed(e.Sheets))
}

func listed(names []string) string {
	const most = 12
	var shown []string
	for _, name := range names[:min(most, len(names))] {
		shown = append(shown, fmt.Sprintf("%q", shortened(name)))
	}
	text := strings.Join(shown, ", ")
	if more := len(names) - most; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return text
}

// shortened keeps the beginning of a text that is too long to be shown.
func shortened(text string) string {
	const most = 40
	runes := []rune(text)
	if len(runes) > most {
		return string(runes[:most]) + "…"
	}
	return text
}

// Load reads a file from disk. sheet names a worksheet, "" the only one. The
// error is a *RefusedError, a *ChoiceError or a file error.
func Load(path, sheet string) (sheetimport.Grid, error) {
	data, err := readBounded(path)
	if err != nil {
		return sheetimport.Grid{}, err
	}
	return Parse(filepath.ToSlash(path), sheet, data)
}

// LoadAll reads a file from disk with all its worksheets, hidden ones too: one
// where a single one shows. They share the limits of one. The errors are those
// of Load.
func LoadAll(path string) ([]sheetimport.Grid, error) {
	data, err := readBounded(path)
	if err != nil {
		return nil, err
	}
	return parse(filepath.ToSlash(path), "", data, (*workbook).all)
}

// Choice is the error of a file whose sheets do not settle which is meant.
func Choice(path string, grids []sheetimport.Grid) error {
	e := &ChoiceError{Name: filepath.ToSlash(path)}
	for _, g := range grids {
		if !g.Hidden {
			e.Sheets = append(e.Sheets, g.Name)
		}
	}
	return e
}

// readBounded reads a plain file that is not too large. The size is looked at
// before anything is read, and again while reading.
func readBounded(path string) ([]byte, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	name := filepath.ToSlash(path)
	switch {
	case info.IsDir():
		return nil, &fs.PathError{Op: "read", Path: path, Err: errors.New("it is a folder, not a sheet")}
	case !info.Mode().IsRegular():
		return nil, &fs.PathError{Op: "read", Path: path, Err: errors.New("it is not a plain file")}
	case info.Size() > maxFile:
		return nil, tooLarge(name, info.Size())
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, maxFile+1))
	if err == nil && len(data) > maxFile {
		err = tooLarge(name, int64(len(data)))
	}
	return data, err
}

func tooLarge(name string, size int64) error {
	return &RefusedError{name, fmt.Sprintf("has %s; a score sheet of more than %s is not read", megabytes(size), megabytes(maxFile)), ""}
}

// megabytes says a size, rounded up so that what is too large never reads as
// the limit.
func megabytes(size int64) string {
	const tenth = (1 << 20) / 10
	tenths := (size + tenth - 1) / tenth
	if size%(1<<20) == 0 {
		return fmt.Sprintf("%d MB", size>>20)
	}
	return fmt.Sprintf("%d.%d MB", tenths/10, tenths%10)
}

// The first bytes of files that are no text.
var (
	zipStart = []byte("PK\x03\x04")
	oleStart = []byte{0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1}
	pdfStart = []byte("%PDF-")
)

// Parse reads a file's bytes; name is for messages. What the file is, its
// bytes say, not its name.
func Parse(name, sheet string, data []byte) (sheetimport.Grid, error) {
	grids, err := parse(name, sheet, data, func(w *workbook) ([]worksheet, error) {
		chosen, err := w.choose(sheet)
		return []worksheet{chosen}, err
	})
	if err != nil {
		return sheetimport.Grid{}, err
	}
	return grids[0], nil
}

// parse reads text, which is one grid, or the sheets of a workbook that choice
// picks.
func parse(name, sheet string, data []byte, choice func(*workbook) ([]worksheet, error)) ([]sheetimport.Grid, error) {
	switch {
	case len(data) > maxFile:
		return nil, tooLarge(name, int64(len(data)))
	case bytes.HasPrefix(data, zipStart):
		return readWorkbook(name, data, choice)
	case bytes.HasPrefix(data, oleStart):
		return nil, &RefusedError{name, "is a workbook of the old kind, or one with a password", "save it as .xlsx without a password, or as CSV"}
	case bytes.HasPrefix(data, pdfStart):
		return nil, &RefusedError{name, "is a PDF, which has no cells", "paste its text into a file and import that, or type the marks: boxbook log flight"}
	case strings.EqualFold(filepath.Ext(name), ".xlsx"):
		return nil, &RefusedError{name, "is no workbook, though its name says so", ""}
	case sheet != "":
		return nil, &RefusedError{name, "is text, which has no sheets to choose from", ""}
	}
	grid, err := readText(name, data)
	return []sheetimport.Grid{grid}, err
}

// clip keeps what a mark, a heading or a label can need of a cell's text.
func clip(text string) string {
	if len(text) <= maxText {
		return strings.TrimSpace(text)
	}
	n := 0
	for i := range text {
		if n == maxText {
			return strings.TrimSpace(strings.Clone(text[:i])) + "…"
		}
		n++
	}
	return strings.TrimSpace(text)
}
