package report

import (
	"crypto/sha256"
	_ "embed" // the style sheet and the page
	"encoding/base64"
	"fmt"
	"html/template"
	"io"
	"slices"
	"strings"
	"unicode/utf8"
)

var (
	//go:embed html.css
	styleSheet string
	//go:embed html.tmpl
	pageTemplate string
)

// WriteHTML writes the document as one page of HTML for a phone, a screen or
// paper: no script, nothing from outside, and a Content-Security-Policy that
// allows no source but the page's own style sheet, by its hash. What a person
// typed stays text; a cell leads on only to an http(s) address or a relative
// path. Numbers are rounded as on the screen.
func WriteHTML(w io.Writer, d Document) error {
	page, err := template.New("page").Parse(pageTemplate)
	if err != nil {
		return err
	}
	return page.Execute(w, htmlPageOf(d))
}

// htmlPage is what the template shows.
type htmlPage struct {
	Title, Name, Head, Imprint, Subtitle, Caution string
	Policy                                        string
	Paper                                         Paper
	Style                                         template.CSS
	Sections                                      []htmlSection
}

// htmlSection is a section with the rank of its heading, 2 to 6.
type htmlSection struct {
	Rank    int
	Heading string
	Folded  bool
	// Lead is a section at the head of a page that answers its question.
	Lead   bool
	Blocks []htmlBlock
	Parts  []htmlSection
}

// htmlBlock has one of its fields.
type htmlBlock struct {
	Table *htmlTable
	Facts []htmlFact
	// Short facts stand beside each other.
	Short     bool
	Paragraph []string
	Notes     []Note
	Series    *htmlSeries
	Drawing   *htmlDrawing
}

// htmlFact is a label with its value.
type htmlFact struct {
	Label string
	Cell  htmlCell
}

// long says that a fact is too long to stand beside others.
func (f htmlFact) long() bool {
	const longLabel = 30
	return utf8.RuneCountInString(f.Cell.Text) >= longText || utf8.RuneCountInString(f.Label) > longLabel
}

// htmlSeries is a series drawn small, with its ends in words.
type htmlSeries struct {
	Name, Ends string
	Drawn      template.HTML
}

// stylePolicy allows the style sheet and nothing else.
func stylePolicy() string {
	sum := sha256.Sum256([]byte(styleSheet))
	return fmt.Sprintf("default-src 'none'; style-src 'sha256-%s'; base-uri 'none'; form-action 'none'", base64.StdEncoding.EncodeToString(sum[:]))
}

func htmlPageOf(d Document) htmlPage {
	h := htmlWriter{page: d.Title}
	page := htmlPage{
		Name: printable(d.Title), Head: printable(d.Head.Words()), Imprint: printable(d.Head.Imprint()), Subtitle: printable(d.Subtitle), Caution: printable(d.Caution),
		Policy: stylePolicy(), Paper: d.Paper, Style: template.CSS(styleSheet), //nolint:gosec // the program's own file
	}
	page.Title = page.Name
	if words := printable(d.Head.Words()); words != "" && !strings.HasPrefix(words, page.Name) {
		page.Title = strings.Trim(page.Name+" · "+words, " ·")
	}
	page.Sections = h.sections(d.Sections, 2)
	for i := range page.Sections {
		if page.Sections[i].Heading != "" || slices.ContainsFunc(page.Sections[i].Blocks, func(b htmlBlock) bool { return b.Table != nil }) {
			break
		}
		page.Sections[i].Lead = true
	}
	return page
}

// htmlWriter numbers what is named within the page.
type htmlWriter struct {
	page    string
	heading string // the nearest heading above
	names   int
}

// name is the next id of the page.
func (h *htmlWriter) name(of string) string {
	h.names++
	return fmt.Sprintf("%s%d", of, h.names)
}

const lowestRank = 6

func (h *htmlWriter) sections(sections []Section, rank int) []htmlSection {
	var out []htmlSection
	for _, s := range sections {
		h.heading = s.Heading
		section := htmlSection{Rank: min(rank, lowestRank), Heading: printable(s.Heading), Folded: s.Folded}
		blocks := drawn(s.Blocks)
		pictured := slices.ContainsFunc(blocks, func(b Block) bool { _, is := b.(*Drawing); return is })
		for _, block := range blocks {
			if _, small := block.(*Series); small && pictured {
				continue // a picture of it stands beside
			}
			if b, ok := h.block(block); ok {
				section.Blocks = append(section.Blocks, b)
			}
		}
		below := rank
		if s.Heading != "" {
			below++
		}
		section.Parts = h.sections(s.Parts, below)
		if len(section.Blocks)+len(section.Parts) > 0 {
			out = append(out, section)
		}
	}
	return out
}

// block is a block as the template shows it; ok is false for one with nothing in it.
func (h *htmlWriter) block(block Block) (out htmlBlock, ok bool) {
	switch b := block.(type) {
	case *Table:
		return htmlBlock{Table: h.table(b)}, len(b.Columns) > 0
	case *Facts:
		for _, fact := range b.Items {
			out.Facts = append(out.Facts, htmlFact{printable(fact.Label), cellOf(fact.Value)})
		}
		out.Short = !slices.ContainsFunc(out.Facts, htmlFact.long)
		return out, len(out.Facts) > 0
	case *Paragraph:
		for line := range strings.SplitSeq(b.Text, "\n") {
			out.Paragraph = append(out.Paragraph, printable(line))
		}
		return out, b.Text != ""
	case *Notes:
		for _, note := range b.Items {
			out.Notes = append(out.Notes, Note{printable(note.Mark), printable(note.Text)})
		}
		return out, len(out.Notes) > 0
	case *Series:
		return htmlBlock{Series: h.series(b)}, true
	case *Drawing:
		return htmlBlock{Drawing: h.drawing(b)}, true
	}
	return out, false
}
