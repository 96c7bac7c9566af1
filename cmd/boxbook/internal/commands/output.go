package commands

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/google/renameio/v2/maybe"

	"boxbook/report"
	"boxbook/report/tables"
)

// checkColor refuses an unknown word.
func (a *app) checkColor() error {
	if !slices.Contains(colorWords, a.color) {
		return &usageError{text: fmt.Sprintf("--color %q is not one of %s", a.color, strings.Join(colorWords, ", "))}
	}
	return nil
}

// colorWords are what --color takes.
var colorWords = []string{"auto", "always", "never"}

// head says what is shown: what was chosen, out of which ledger, as of when.
func (a *app) head(chosen []report.Choice) report.Head {
	return tables.Head(a.version, a.asOfRead, a.ledgerName, chosen)
}

// show writes a document in the format asked for, with what was chosen in its
// head.
func (a *app) show(doc report.Document, chosen []report.Choice) error {
	if !doc.Bare {
		doc.Head = a.head(chosen)
	}
	a.keepSelection(doc)
	format, ok := report.FormatNamed(a.format)
	if !ok {
		format = report.Formats[0]
	}
	options := report.TextOptions{Width: a.width, Height: a.shownHeight(), Color: a.colored(), Command: a.pasted()}
	if !a.plainText() || a.output != "" && a.output != stdinName { // it is read elsewhere
		options.Command = a.pastedElsewhere()
	}
	err := a.deliver(func(w io.Writer) error { return format.Write(w, doc, options) })
	if err != nil || a.output == "" {
		return err
	}
	return a.sayWrote(a.rowsSaid(doc, format))
}

// rowsSaid is how many rows a file for other programs has, and of which table where
// there are several to choose from; "" for a page.
func (a *app) rowsSaid(doc report.Document, format report.Format) string {
	rows := counted(doc.RowCount(), "row", "rows")
	switch {
	case a.table != "":
		return a.table + ", " + rows
	case format.Name == rowFormats()[0]:
		return rows
	default:
		return ""
	}
}

// shownHeight is the terminal's height, 0 for a file.
func (a *app) shownHeight() int {
	if a.output != "" {
		return 0
	}
	return a.height
}

// colored decides by flag, NO_COLOR and terminal; a file gets colour only
// where it was asked for by name.
func (a *app) colored() bool {
	switch a.color {
	case "always":
		return true
	case "never":
		return false
	default:
		return a.terminal && a.output == "" && a.env("NO_COLOR") == "" && a.env("TERM") != "dumb"
	}
}

// writeOutput puts a file in place of the old one as a whole, where a link
// points if it is one. What is no file, such as a pipe or a device, is written
// to, and a file that may not be written stays.
func writeOutput(path string, data []byte) error {
	info, err := os.Stat(path)
	link, _ := os.Lstat(path)
	switch {
	case err == nil && info.Mode().IsRegular():
		return replaceFile(path, data)
	case err == nil || link != nil: // a pipe or a device; a link to nowhere
		return os.WriteFile(path, data, outputMode)
	default:
		return maybe.WriteFile(path, data, outputMode)
	}
}

// The modes of a new file and of a new folder, before the user's mask.
const (
	outputMode = 0o644
	folderMode = 0o755
)

// isFolder reports whether an output is to be a folder: it is one, or ends like one.
func isFolder(path string) bool {
	if path != "" && os.IsPathSeparator(path[len(path)-1]) {
		return true
	}
	info, err := os.Stat(path)
	return path != stdinName && err == nil && info.IsDir()
}

func replaceFile(path string, data []byte) error {
	path, err := filepath.EvalSymlinks(path)
	if err != nil {
		return err
	}
	old, err := os.OpenFile(path, os.O_WRONLY, 0) // says whether it may be written
	if err != nil {
		return err
	}
	if err := old.Close(); err != nil {
		return err
	}
	return maybe.WriteFile(path, data, outputMode)
}

// mayReplace refuses to write output over a folder, a ledger (a file that ends
// in .boxbook), or anything that the command reads, links followed: every file
// of the ledger, and what standard input is.
func (a *app) mayReplace(path string) error {
	const elsewhere = "name another file with -o"
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return nil
	case info.IsDir():
		return &fileError{"write " + path, errors.New("it is a folder")}
	case a.isOfLedger(info):
		return &usageError{path + " is part of the ledger, and no output goes over it", elsewhere}
	case a.isStandardInput(info):
		return &usageError{path + " is read as standard input, and no output goes over it", elsewhere}
	case strings.HasSuffix(path, ledgerSuffix):
		return &usageError{path + " is a ledger, and no output goes over it", elsewhere}
	default:
		return nil
	}
}

// mayPrint refuses a standard output that is, by >> or >, a file of the ledger or
// what standard input is.
func (a *app) mayPrint() error {
	out, ok := a.out.(*os.File)
	if !ok {
		return nil
	}
	info, err := out.Stat()
	switch {
	case err != nil || !info.Mode().IsRegular():
		return nil
	case a.isOfLedger(info):
		return &usageError{"standard output is part of the ledger, and no output goes over it", "send it to another file"}
	case a.isStandardInput(info):
		return &usageError{"standard output is what is read as standard input, and no output goes over it", "send it to another file"}
	default:
		return nil
	}
}

// isOfLedger reports whether a file is one of the ledger's, whatever name it
// was reached by.
func (a *app) isOfLedger(file os.FileInfo) bool {
	return slices.ContainsFunc(append(slices.Clone(a.readPaths), a.ledger), func(path string) bool {
		other, err := os.Stat(path)
		return err == nil && os.SameFile(file, other)
	})
}

// isStandardInput reports whether standard input comes from a file. Devices
// and terminals lose nothing by being written to.
func (a *app) isStandardInput(file os.FileInfo) bool {
	in, ok := a.in.(*os.File)
	if !ok || !file.Mode().IsRegular() {
		return false
	}
	other, err := in.Stat()
	return err == nil && os.SameFile(file, other)
}

// deliver makes the whole output first, and only then writes it: to standard
// output, or to a file that is replaced as a whole.
func (a *app) deliver(write func(io.Writer) error) error {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return err
	}
	if a.output == "" || a.output == stdinName {
		if a.output == "" && a.tooLong(b.Bytes()) && a.page(b.Bytes()) {
			return nil
		}
		if _, err := a.out.Write(b.Bytes()); err != nil {
			return &fileError{"write the output", err}
		}
		return nil
	}
	if err := a.mayReplace(a.output); err != nil {
		return err
	}
	if isForeign(a.output, b.Bytes()) {
		return &usageError{a.output + " is there and is no page of boxbook; nothing was written", "name another file with -o, or move that one away"}
	}
	return a.writeHeld(a.output, b.Bytes())
}

// sayWrote says which file was written, and what is in it where that is more than
// its name says; nothing where all went to standard output.
func (a *app) sayWrote(what string) error {
	if a.output == stdinName {
		return nil
	}
	if what != "" {
		what = ": " + what
	}
	_, err := fmt.Fprintf(a.out, "wrote %s%s\n", shownName(a.output), what)
	return err
}
