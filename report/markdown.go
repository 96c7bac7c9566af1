package report

import (
	"fmt"
	"io"
	"slices"
	"strings"
)

// WriteMarkdown writes the document as Markdown: headings, pipe tables with
// numbers aligned right, lists. Numbers are rounded as on the screen.
func WriteMarkdown(w io.Writer, d Document) error {
	m := &markdownWriter{}
	if d.Title != "" {
		m.paragraph("# " + markdownText(d.Title))
	}
	m.paragraph(markdownText(d.Head.Line()))
	if d.Subtitle != "" {
		m.paragraph(markdownText(d.Subtitle))
	}
	for _, section := range flat(d.Sections) {
		if section.Heading != "" {
			m.paragraph("## " + markdownText(section.Heading))
		}
		for _, block := range section.Blocks {
			m.block(block)
		}
	}
	m.paragraph(markdownText(d.Caution))
	_, err := io.WriteString(w, m.b.String())
	return err
}

// markdownWriter collects paragraphs with a blank line between them.
type markdownWriter struct{ b strings.Builder }

func (m *markdownWriter) paragraph(text string) {
	if text == "" {
		return
	}
	if m.b.Len() > 0 {
		m.b.WriteString("\n")
	}
	m.b.WriteString(text + "\n")
}

func (m *markdownWriter) block(block Block) {
	switch b := block.(type) {
	case *Table:
		m.table(b)
	case *Facts:
		m.facts(b)
	case *Paragraph:
		m.paragraph(markdownLines(b.Text))
	case *Notes:
		m.notes(b)
	case *Series:
		m.series(b)
	}
}

func (m *markdownWriter) table(t *Table) {
	if len(t.Columns) == 0 {
		return
	}
	var lines []string
	if t.Title != "" {
		m.paragraph("**" + markdownText(t.Title) + "**")
	}
	titles, rules := make([]string, len(t.Columns)), make([]string, len(t.Columns))
	for i, c := range t.Columns {
		titles[i], rules[i] = markdownText(c.Title), ":--"
		if c.Align == Right {
			rules[i] = "--:"
		}
	}
	lines = append(lines, markdownRow(titles), markdownRow(rules))
	for i, row := range slices.Concat(t.Rows, t.Footer) {
		cells := make([]string, len(row))
		for j, cell := range row {
			cells[j] = markdownCell(cell)
		}
		lines = append(lines, markdownRow(cells))
		if i < min(len(t.Rows), len(t.Below)) && t.Below[i] != "" {
			below := make([]string, len(t.Columns))
			below[min(max(t.Key, 1), len(below))-1] = markdownText(t.Below[i])
			lines = append(lines, markdownRow(below))
		}
	}
	m.paragraph(strings.Join(lines, "\n"))
}

func markdownRow(cells []string) string { return "| " + strings.Join(cells, " | ") + " |" }

func markdownCell(c Cell) string { return markdownText(c.String() + c.Mark) }

func (m *markdownWriter) facts(f *Facts) {
	var lines []string
	for _, fact := range f.Items {
		lines = append(lines, fmt.Sprintf("- %s: %s", markdownText(fact.Label), markdownCell(fact.Value)))
	}
	m.paragraph(strings.Join(lines, "\n"))
}

func (m *markdownWriter) notes(n *Notes) {
	var lines []string
	for _, note := range n.Items {
		text := markdownText(note.Text)
		if note.Mark != "" {
			text = markdownText(note.Mark) + " " + text
		}
		lines = append(lines, "- "+text)
	}
	m.paragraph(strings.Join(lines, "\n"))
}

// series writes a series as the screen does: name, sparkline, first and last
// known value.
func (m *markdownWriter) series(s *Series) {
	drawn, whole := s.sparkline(len(s.Points))
	text := s.Name + ":"
	if drawn != "" {
		text += " " + drawn
	}
	m.paragraph(markdownText(text + " " + whole.ends()))
}

// markdownLines is a text whose line ends stay: two spaces before one are a break.
func markdownLines(text string) string {
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		lines[i] = markdownText(line)
	}
	return strings.Join(lines, "  \n")
}

// markdownText makes a text harmless in Markdown: what would be markup is
// shown as typed, a line end is a space.
func markdownText(text string) string {
	var b strings.Builder
	for _, r := range printable(text) {
		if strings.ContainsRune("\\`*_[]<>|~&", r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}
