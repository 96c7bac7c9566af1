package sheetfile

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"boxbook/season/sheetimport"

	"golang.org/x/text/encoding/charmap"
)

// readText reads text with separators: comma, semicolon or tab, whichever
// divides the lines evenly. Quotation marks are those of RFC 4180.
func readText(name string, data []byte) (sheetimport.Grid, error) {
	var g sheetimport.Grid
	text, encoding, err := plainText(name, data)
	if err != nil {
		return g, err
	}
	g.Encoding = encoding
	if isAligned(text) {
		return readAligned(name, text, g)
	}
	text, comma := separator(text)
	if n := strings.Count(text, string(comma)) + strings.Count(text, "\n"); n > maxCells {
		return g, tooManyCells(name)
	}
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.FieldsPerRecord, r.ReuseRecord = comma, -1, true
	row, ended := 0, 0 // of the record before: its number as a row, and its last line
	for {
		record, err := r.Read()
		if errors.Is(err, io.EOF) {
			return g, nil
		}
		if err != nil {
			return sheetimport.Grid{}, &RefusedError{name, brokenText(err), "save it as CSV from a spreadsheet program"}
		}
		if len(record) > sheetimport.LastColumn {
			return sheetimport.Grid{}, &RefusedError{name, fmt.Sprintf("has more columns than a sheet has, %d", sheetimport.LastColumn), ""}
		}
		line, _ := r.FieldPos(0)
		row += line - ended // lines without anything are rows too
		ended = line
		var cells []sheetimport.Cell
		for i, field := range record {
			ended += strings.Count(field, "\n")
			if value := clip(field); value != "" {
				cells = append(cells, sheetimport.Cell{Column: i + 1, Kind: sheetimport.Text, Text: strings.Clone(value)})
			}
		}
		if cells != nil {
			g.Rows = append(g.Rows, sheetimport.Row{Number: row, Cells: cells})
		}
	}
}

func tooManyCells(name string) error {
	return &RefusedError{name, fmt.Sprintf("has more than %d cells, far more than a score sheet", maxCells), ""}
}

// brokenText says what is wrong with quotation marks.
func brokenText(err error) string {
	var parse *csv.ParseError
	if !errors.As(err, &parse) {
		return "cannot be read as text with separators"
	}
	if errors.Is(parse.Err, csv.ErrBareQuote) {
		return fmt.Sprintf("has a quotation mark in the middle of a cell, in line %d", parse.Line)
	}
	return fmt.Sprintf("has quoted text that does not end well, from line %d on", parse.StartLine)
}

// byteOrderMark stands at the head of a text that some programs wrote.
const byteOrderMark = "\uFEFF"

// plainText refuses what is no text, and gives every line the same ending. What
// is not UTF-8 is read as the one byte a letter that spreadsheets of western
// languages write, where all of it can be; encoding is its name then.
func plainText(name string, data []byte) (text, encoding string, err error) {
	refuse := func(reason string) error {
		return &RefusedError{name, reason, "save it as CSV in UTF-8"}
	}
	switch {
	case bytes.HasPrefix(data, []byte{0xFF, 0xFE}), bytes.HasPrefix(data, []byte{0xFE, 0xFF}):
		return "", "", refuse("is text in UTF-16, which is not read")
	case bytes.IndexByte(data, 0) >= 0:
		if len(data)%2 == 0 && bytes.Count(data, []byte{0}) >= len(data)/4 {
			return "", "", refuse("is text in UTF-16, which is not read")
		}
		return "", "", refuse("is no text: it has zero bytes")
	case !utf8.Valid(data):
		if i := bytes.IndexFunc(data, func(r rune) bool { return r < ' ' && !strings.ContainsRune("\t\r\n\f", r) }); i >= 0 {
			return "", "", refuse(fmt.Sprintf("is no text: byte %#02x in line %d", data[i], 1+bytes.Count(data[:i], []byte{'\n'})))
		}
		encoding = charmap.Windows1252.String()
		if data, err = charmap.Windows1252.NewDecoder().Bytes(data); err != nil {
			return "", "", refuse("is not text in UTF-8")
		}
		if bytes.ContainsRune(data, utf8.RuneError) {
			line := 1 + bytes.Count(data[:bytes.IndexRune(data, utf8.RuneError)], []byte{'\n'})
			return "", "", refuse(fmt.Sprintf("is not text in UTF-8, nor in %s: line %d", encoding, line))
		}
	}
	text = strings.TrimPrefix(string(data), byteOrderMark)
	if !strings.Contains(text, "\n") {
		text = strings.ReplaceAll(text, "\r", "\n") // lines as they ended long ago
	}
	return text, encoding, nil
}

// separators, the likelier first where several divide the lines evenly: where
// semicolons or tabs do, commas are those of decimals.
var separators = []rune{'\t', ';', ','}

// sampled is how much of a text is looked at for its separator.
const sampled = 64 << 10

// separator finds what divides the cells. A first line such as sep=; settles
// it, and is no row.
func separator(text string) (string, rune) {
	for _, comma := range separators {
		if rest, found := strings.CutPrefix(text, "sep="+string(comma)); found {
			if rest = strings.TrimPrefix(rest, "\r"); rest == "" || rest[0] == '\n' {
				return strings.TrimPrefix(rest, "\n"), comma
			}
		}
	}
	sample := unquoted(text[:min(sampled, len(text))])
	best, most := ',', 0
	for _, comma := range separators {
		if lines := evenLines(sample, string(comma)); lines > most {
			best, most = comma, lines
		}
	}
	return text, best
}

// unquoted leaves quoted text out.
func unquoted(text string) string {
	var b strings.Builder
	inside := false
	for _, r := range text {
		if r == '"' {
			inside = !inside
		} else if !inside {
			b.WriteRune(r)
		}
	}
	return b.String()
}

// evenLines counts the lines with the commonest number of separators, 0 where
// that is none at all.
func evenLines(text, comma string) int {
	counts := map[int]int{}
	for line := range strings.SplitSeq(text, "\n") {
		if strings.TrimSpace(line) != "" {
			counts[strings.Count(line, comma)]++
		}
	}
	common, lines := 0, 0
	for count, n := range counts {
		if n > lines || (n == lines && count > common) {
			common, lines = count, n
		}
	}
	if common == 0 {
		return 0
	}
	return lines
}
