package report

import (
	"io"
	"strings"

	"boxbook/report/display"
)

// TextOptions say how WriteText writes.
type TextOptions struct {
	// Width is the number of display columns to stay within: 0 means 80, and
	// anything else below 40 means 40.
	Width int
	// Height is the number of lines of the terminal, 0 where it is none: a longer
	// table has its heading again for each.
	Height int
	// Color allows ANSI colour.
	Color bool
	// Command gives a command to run as whoever reads the text may paste it, which
	// no line is broken within; nil: as it stands.
	Command func(command string) string
}

// WriteText writes the document for a person at a terminal: no line is wider
// than the width (other than a single word that cannot be broken) or ends in
// white space, and running text is wrapped at 100 columns at most. Control
// characters in the document's texts are replaced. Nothing is written before
// everything is laid out; the error is that of w.
func WriteText(w io.Writer, d Document, options TextOptions) error {
	writer := textWriter{width: options.Width, height: options.Height, color: options.Color, command: options.Command}
	if writer.width == 0 {
		writer.width = defaultWidth
	}
	writer.width = max(writer.width, narrowest)
	writer.prose = min(writer.width, proseWidth)
	writer.document(d)
	_, err := io.WriteString(w, writer.out.String())
	return err
}

// textWriter collects the output of one document.
type textWriter struct {
	out    strings.Builder
	width  int
	height int // for tables
	prose  int // for running text
	color  bool

	command func(string) string // see TextOptions.Command
}

func (t *textWriter) document(d Document) {
	head := t.heading(d.Title)
	for _, line := range wrap(printable(d.Head.Line()), t.prose) {
		head = append(head, paint(line, Faint, t.color))
	}
	t.paragraph(append(head, wrap(printable(d.Subtitle), t.prose)...))
	for _, section := range flat(d.Sections) {
		t.paragraph(t.heading(section.Heading))
		t.blocks(section.Blocks)
	}
	t.paragraph(wrap(printable(d.Caution), t.prose))
}

// heading wraps a heading, and makes it stand out where colour is on.
func (t *textWriter) heading(heading string) []string {
	lines := wrap(printable(heading), t.prose)
	for i := range lines {
		lines[i] = paint(lines[i], Strong, t.color)
	}
	return lines
}

// blocks writes blocks with a blank line between them; series that follow each
// other make one block.
func (t *textWriter) blocks(blocks []Block) {
	for i := 0; i < len(blocks); i++ {
		switch block := blocks[i].(type) {
		case *Table:
			lines := wrap(printable(block.Title), t.prose)
			t.paragraph(append(lines, barredGrid(block, t.width).lines(t.width, t.height, t.color)...))
		case *Facts:
			t.paragraph(t.facts(block))
		case *Paragraph:
			t.paragraph(t.wrapLines(block.Text))
		case *Notes:
			t.paragraph(t.notes(block))
		case *Series:
			run := []*Series{block}
			for i+1 < len(blocks) {
				next, ok := blocks[i+1].(*Series)
				if !ok {
					break
				}
				run = append(run, next)
				i++
			}
			t.paragraph(t.series(run))
		}
	}
}

// paragraph writes lines, with a blank line before them if they are not the
// first of the output.
func (t *textWriter) paragraph(lines []string) {
	if len(lines) == 0 {
		return
	}
	if t.out.Len() > 0 {
		t.out.WriteByte('\n')
	}
	for _, line := range lines {
		t.out.WriteString(strings.ReplaceAll(line, held, " ") + "\n")
	}
}

// facts writes each value beside its label. A label that takes more than half
// of the line has its value beneath.
func (t *textWriter) facts(facts *Facts) []string {
	indent := gap
	for _, fact := range facts.Items {
		if label := display.Width(printable(fact.Label)); label <= t.prose/2-gap {
			indent = max(indent, label+gap)
		}
	}
	wholes := 0
	for _, fact := range facts.Items {
		wholes = max(wholes, wholeWidth(newShown(fact.Value)))
	}
	var lines []string
	for _, fact := range facts.Items {
		value, shift := newShown(fact.Value), 0
		value.text = t.commands(value.text)
		if value.whole { // decimal points stand beneath each other
			shift = wholes - wholeWidth(value)
		}
		tint := func(line string) string { return paint(line, value.tone, t.color) }
		lines = append(lines, hang(printable(fact.Label), value.text+value.mark, indent+shift, t.prose, tint)...)
	}
	return lines
}

// wholeWidth is the width of a number before its decimal point, 0 for text.
func wholeWidth(value shown) int {
	if !value.whole {
		return 0
	}
	whole, _, _ := strings.Cut(value.text, ".")
	return display.Width(whole)
}

// untinted leaves a line as it is.
func untinted(line string) string { return line }

// notes writes each remark beside its mark; one without a mark gets a dash.
func (t *textWriter) notes(notes *Notes) []string {
	indent := 0
	marks := make([]string, len(notes.Items))
	for i, note := range notes.Items {
		if marks[i] = printable(note.Mark); marks[i] == "" {
			marks[i] = "-"
		}
		indent = max(indent, display.Width(marks[i])+1)
	}
	var lines []string
	for i, note := range notes.Items {
		lines = append(lines, hang(marks[i], t.commands(printable(note.Text)), indent, t.prose, untinted)...)
	}
	return lines
}

// series writes each series on a line: name, sparkline, first and last value.
// What does not fit beside the sparkline goes beneath it.
func (t *textWriter) series(run []*Series) []string {
	indent := 0
	names := make([]string, len(run))
	for i, series := range run {
		names[i] = Shorten(printable(series.Name), t.prose/3)
		indent = max(indent, display.Width(names[i])+gap)
	}
	var lines []string
	for i, series := range run {
		drawn, tail := series.sparkline(t.prose - indent)
		line := names[i] + strings.Repeat(" ", indent-display.Width(names[i])) + drawn
		between := gap
		if drawn == "" {
			between = 0
		}
		if beside := line + strings.Repeat(" ", between) + tail.ends(); display.Width(beside) <= t.prose {
			lines = append(lines, beside)
			continue
		}
		lines = append(lines, trimEnd(line))
		lines = append(lines, hang("", tail.ends(), indent, t.prose, untinted)...)
	}
	return lines
}

// paint puts the colour of a tone around a text, if colour is on.
func paint(text string, tone Tone, color bool) string {
	code := ""
	switch tone {
	case Good:
		code = "32"
	case Bad:
		code = "31"
	case Faint:
		code = "2"
	case Strong:
		code = "1"
	}
	if !color || code == "" || text == "" {
		return text
	}
	return "\x1b[" + code + "m" + text + "\x1b[0m"
}
