// Command boxbook keeps a plain-text ledger of a competition aerobatic pilot's
// flights and answers questions about it.
package main

import (
	"io"
	"os"

	"boxbook/cmd/boxbook/internal/commands"
	_ "boxbook/cmd/boxbook/internal/early" // runs most command lines, and ends the process
	"boxbook/cmd/boxbook/internal/lsp"
	"boxbook/report/answers"
	"boxbook/report/workbook"
)

func main() { os.Exit(commands.Run(later())) }

// later is what started too late for most command lines.
func later() commands.Later {
	return commands.Later{
		Workbook: func(w io.Writer, book answers.Book, o commands.BookOptions) error {
			return workbook.Write(w, book, workbook.Options(o))
		},
		ClubWorkbook: func(w io.Writer, book answers.ClubBook, o commands.BookOptions) error {
			return workbook.WriteClub(w, book, workbook.Options(o))
		},
		Editor: func(in io.Reader, out io.WriteCloser, o commands.EditorOptions) error {
			return lsp.Serve(in, out, lsp.Options(o))
		},
	}
}
