package report

import (
	"encoding/xml"
	"io"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// longestWritten keeps fuzzing to texts that are written quickly.
const longestWritten = 2 << 10

// FuzzHTML holds what is true of a page with any texts whatever: it has the
// elements and attributes that it has with harmless ones, no more, and nothing
// in it can turn or hide text.
func FuzzHTML(f *testing.F) {
	f.Add(hostile, hostile, hostile, "javascript:alert(1)")
	f.Add("a", "</style><script>", "\x00\xff", "https://longmere.example/?a=\"b")
	f.Add("]]>", "<!--", "&#60;b&#62;", "//elsewhere.example")
	names := func(t *testing.T, title, text, label, link string) map[string]int {
		page := pageOf(t, Document{Title: title, Subtitle: text, Caution: text, Sections: []Section{{
			Heading: title, Folded: true, Blocks: []Block{
				&Paragraph{Text: text},
				&Table{Title: label, Key: 1, Columns: []Column{{Title: "a"}, {Title: label}}, Rows: [][]Cell{{Text("x" + text).Linked(link), Text(label).Marked(label)}}},
				&Facts{Items: []Fact{{label, Text(text)}}},
				&Notes{Items: []Note{{"*", text}}},
			},
		}}})
		require.True(t, utf8.ValidString(page))
		_, unseen := unseenRune(page)
		require.False(t, unseen)
		found, attributes := elements(t, page)
		for name, values := range attributes {
			require.False(t, strings.HasPrefix(name, "on"), name)
			for _, value := range values {
				require.True(t, name != "href" || leadsOn(value), "%q leads to %q", link, value)
			}
		}
		for _, varies := range []string{"br", "a", "p", "b", "h2", "span", "td", "th"} {
			delete(found, varies) // what a text that is empty, or of several lines, changes
		}
		return found
	}
	f.Fuzz(func(t *testing.T, title, text, label, link string) {
		if len(title)+len(text)+len(label)+len(link) > longestWritten {
			return
		}
		require.Equal(t, names(t, "a", "a", "a", "a"), names(t, title, text, label, link))
	})
}

// leadsOn reports whether a link is one that a page may have.
func leadsOn(to string) bool {
	head, _, _ := strings.Cut(to, "/")
	return strings.HasPrefix(to, "http://") || strings.HasPrefix(to, "https://") || !strings.Contains(head, ":") && !strings.HasPrefix(to, "//")
}

// unseenRune gives a control character that a page must not have.
func unseenRune(text string) (rune, bool) {
	for _, r := range text {
		if r < ' ' && r != '\n' || 0x7f <= r && r < 0xa0 || 0x202a <= r && r <= 0x202e || 0x2066 <= r && r <= 0x2069 {
			return r, true
		}
	}
	return 0, false
}

// FuzzDrawing holds what is true of a picture with any texts whatever: it is XML
// of the shapes that were drawn, and every text and value comes out of it again.
func FuzzDrawing(f *testing.F) {
	f.Add(hostile, hostile, hostile, "2026-05-17/ines/known")
	f.Add("a", "</svg><script>", "]]>", "\"onload=\"x")
	f.Fuzz(func(t *testing.T, title, finding, text, value string) {
		if len(title)+len(finding)+len(text)+len(value) > longestWritten {
			return
		}
		d := Drawing{Title: title, Finding: finding, Height: 20, Shapes: []Shape{
			{Name: "g", Attributes: []Attribute{{"data-flight", value}}, Shapes: []Shape{{Name: "text", Text: text}}},
		}}
		said, carried := drawnTexts(t, d.svg("p1"))
		require.Equal(t, []string{"svg", "title", printable(title), "desc", printable(finding), "g", "text", printable(text)}, said)
		require.Equal(t, printable(value), carried)
	})
}

// drawnTexts reads a picture: its elements in order, each with its text, and the
// flight that it names.
func drawnTexts(t *testing.T, picture string) (said []string, flight string) {
	t.Helper()
	decoder := xml.NewDecoder(strings.NewReader(picture))
	text := false // the element is one of a text
	for {
		token, err := decoder.Token()
		if err == io.EOF {
			return said, flight
		}
		require.NoError(t, err, picture)
		switch token := token.(type) {
		case xml.StartElement:
			if said = append(said, token.Name.Local); token.Name.Local != "svg" && token.Name.Local != "g" {
				said, text = append(said, ""), true
			}
			for _, a := range token.Attr {
				if a.Name.Local == "data-flight" {
					flight = a.Value
				}
			}
		case xml.CharData:
			if text {
				said[len(said)-1] += string(token)
			}
		case xml.EndElement:
			text = false
		}
	}
}
