package report

import (
	"io"
	"slices"
)

// Format is one way to write a document. A new format is a writer and its row
// in Formats: commands, help, completion and the endings of files follow.
type Format struct {
	// Name is how a person asks for it; Ending is that of its files, with the dot.
	Name, Ending string
	// Rows says that other programs read it row by row.
	Rows bool
	// Write writes a document; options are heeded by what a person reads.
	Write func(io.Writer, Document, TextOptions) error
}

// Formats are all formats, that of the terminal first.
var Formats = []Format{
	{Name: "text", Ending: ".txt", Write: WriteText},
	{Name: "json", Ending: ".json", Rows: true, Write: unlaid(WriteJSON)},
	{Name: "csv", Ending: ".csv", Rows: true, Write: unlaid(WriteCSV)},
	{Name: "markdown", Ending: ".md", Write: read(WriteMarkdown)},
	{Name: "html", Ending: ".html", Write: read(WriteHTML)},
}

// unlaid is a writer that heeds neither width nor colour.
func unlaid(write func(io.Writer, Document) error) func(io.Writer, Document, TextOptions) error {
	return func(w io.Writer, d Document, _ TextOptions) error { return write(w, d) }
}

// read is a writer for a person that lays nothing out: it has commands as they may be
// pasted.
func read(write func(io.Writer, Document) error) func(io.Writer, Document, TextOptions) error {
	return func(w io.Writer, d Document, options TextOptions) error {
		return write(w, d.runnable(options.Command))
	}
}

// FormatNamed finds a format by its name.
func FormatNamed(name string) (Format, bool) {
	return findFormat(func(f Format) bool { return f.Name == name })
}

// FormatOf finds the format of a file's ending.
func FormatOf(ending string) (Format, bool) {
	return findFormat(func(f Format) bool { return f.Ending == ending })
}

func findFormat(fits func(Format) bool) (Format, bool) {
	if i := slices.IndexFunc(Formats, fits); i >= 0 {
		return Formats[i], true
	}
	return Format{}, false
}
