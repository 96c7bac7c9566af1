package report

import (
	"encoding/xml"
	"io"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const hostile = `</style><script>alert(1)</script>" onload="x' & <img src=//evil.example/x>`

// hostilePage has a hostile text in every place that a document has.
func hostilePage() Document {
	return Document{
		Title: hostile, Subtitle: hostile, Caution: hostile,
		Head: Head{Program: "boxbook", Version: "1", AsOf: "2026-11-25", Chosen: []Choice{{Key: "pilot", Value: hostile, Words: hostile}}},
		Sections: []Section{
			{Blocks: []Block{&Paragraph{Text: hostile}}},
			{Heading: hostile, Folded: true, Blocks: []Block{
				&Table{Title: hostile, Key: 1, Columns: []Column{{Title: hostile}, {Title: "n", Align: Right, Bars: true}}, Rows: [][]Cell{
					{Text(hostile).Linked("javascript:alert(1)"), Num(Float(7.25), 1).Marked(hostile)},
				}, Footer: [][]Cell{{Text(hostile)}}},
				&Facts{Items: []Fact{{hostile, Text(hostile)}}},
				&Notes{Items: []Note{{hostile, hostile}}},
				&Series{Name: hostile, Points: []Point{{hostile, Float(1)}, {hostile, Float(2)}}},
			}, Parts: []Section{{Heading: hostile, Blocks: []Block{&Paragraph{Text: "deep"}, &Drawing{
				Title: hostile, Finding: hostile, Height: 20, Key: []string{hostile}, Shapes: []Shape{
					{Name: "text", Text: hostile, Attributes: []Attribute{{"data-flight", hostile}}},
				},
			}}}}},
		},
	}
}

func pageOf(t *testing.T, d Document) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, WriteHTML(&b, d))
	return b.String()
}

// elements are the names of a page's elements and all their attributes.
func elements(t *testing.T, page string) (names map[string]int, attributes map[string][]string) {
	t.Helper()
	names, attributes = map[string]int{}, map[string][]string{}
	decoder := xml.NewDecoder(strings.NewReader(page))
	decoder.Strict, decoder.AutoClose, decoder.Entity = false, []string{"meta", "br"}, xml.HTMLEntity
	for {
		token, err := decoder.Token()
		if err == io.EOF {
			return names, attributes
		}
		require.NoError(t, err)
		if start, ok := token.(xml.StartElement); ok {
			names[start.Name.Local]++
			for _, a := range start.Attr {
				attributes[a.Name.Local] = append(attributes[a.Name.Local], a.Value)
			}
		}
	}
}

func TestHostileTextStaysText(t *testing.T) {
	page := pageOf(t, hostilePage())
	names, attributes := elements(t, page)
	for _, bad := range []string{"script", "img", "a", "iframe", "link", "object"} {
		assert.Zero(t, names[bad], bad)
	}
	for name := range attributes {
		assert.NotRegexp(t, `^on|^(src|style|href)$`, name)
	}
	assert.Equal(t, 1, names["style"])
	assert.Contains(t, attributes["data-flight"], hostile)
	assert.Equal(t, page, pageOf(t, hostilePage()), "the same bytes twice")
}

// The policy allows the style sheet that is there, by its hash, and nothing else.
func TestThePageAllowsItsStylesAlone(t *testing.T) {
	page := pageOf(t, Document{Title: "Season"})
	_, attributes := elements(t, page)
	assert.Contains(t, attributes["content"], stylePolicy())
	style := regexp.MustCompile(`(?s)<style>(.*)</style>`).FindStringSubmatch(page)
	require.NotNil(t, style)
	assert.Equal(t, styleSheet, style[1], "the hash is of these bytes")
	assert.NotRegexp(t, `url\(|@import|https?:`, styleSheet)
}

func TestLinksLeadToAddressesAndRelativePathsAlone(t *testing.T) {
	for to, want := range map[string]string{
		"https://videos.example/a.mp4#t=83": "https://videos.example/a.mp4#t=83",
		"http://videos.example/":            "http://videos.example/",
		"videos/one%20two.mp4#t=3":          "videos/one%20two.mp4#t=3",
		"../a.mp4":                          "../a.mp4",
		"":                                  "",
		"javascript:alert(1)":               "",
		"JavaScript:alert(1)":               "",
		"data:text/html,x":                  "",
		"file:///etc/passwd":                "",
		"/home/ines/a.mp4":                  "",
		"//evil.example/a.mp4":              "",
		`\\server\a.mp4`:                    "",
		`C:\a.mp4`:                          "",
		"C:/a.mp4":                          "",
		"http:a":                            "",
		"java\nscript:alert(1)":             "",
	} {
		assert.Equal(t, want, safeLink(to), "%q", to)
	}
}

// A table is named, its columns and rows have headers, headings go down by one.
func TestATableSaysWhatItIs(t *testing.T) {
	page := pageOf(t, Document{Title: "Season", Sections: []Section{
		{Heading: "Flights", Blocks: []Block{&Table{Key: 2, Columns: []Column{{Title: "fig", Align: Right}, {Title: "figure"}, {}}, Rows: [][]Cell{
			{Num(Int(1), 0), Text("loop"), Num(Float(-2.345), 2).Toned(Bad)}, {Empty(), Text("positioning")},
		}}}, Parts: []Section{{Heading: "Within", Blocks: []Block{&Paragraph{Text: "one\ntwo"}}}}},
		{Heading: "Nothing in it"},
	}})
	for _, want := range []string{
		`<caption id="t1" class="unseen">Flights</caption>`, `aria-labelledby="t1"`,
		`<th scope="col" class="r">fig</th><th scope="col">figure</th><td></td>`,
		`<tr><th scope="row" class="r">1</th><td>loop</td><td class="bad">-2.35</td></tr>`,
		`<tr><td class="r"></td><th scope="row">positioning</th><td></td></tr>`,
		"<h2>Flights</h2>", "<h3>Within</h3>", "<p>one<br>two</p>",
	} {
		assert.Contains(t, page, want)
	}
	assert.NotContains(t, page, "Nothing in it")
}

// On a narrow page a table's words go beneath its numbers where several stand behind
// them; other tables stay rows and columns.
func TestNumbersStandOnANarrowPage(t *testing.T) {
	number := Column{Title: "n", Align: Right}
	for _, c := range []struct {
		columns []Column
		folds   bool
	}{
		{[]Column{{Title: "date"}, {Title: "what", Wrapped: true}, number, number, number}, true},
		{[]Column{{Title: "date"}, {Title: "what", Wrapped: true}, number, number}, false},
		{[]Column{{Title: "what", Wrapped: true}, number, number, number}, false},
		{[]Column{{Title: "date"}, {Title: "what", Wrapped: true}, number, number, number, {Title: "who"}}, false},
		{[]Column{{Title: "date"}, {Title: "what", Wrapped: true}, number, number, number, {Title: "why", Wrapped: true}}, false},
	} {
		row := make([]Cell, len(c.columns))
		row[1] = Text("a repack")
		page := pageOf(t, Document{Title: "Money", Sections: []Section{{Heading: "Lines", Blocks: []Block{&Table{Columns: c.columns, Rows: [][]Cell{row}, Footer: [][]Cell{row}}}}}})
		assert.Equal(t, c.folds, strings.Contains(page, `<table class="folds">`), c.columns)
		assert.Equal(t, c.folds, strings.Count(page, `"told">`) == 3 && strings.Contains(page, `<td class="told">a repack</td>`), page)
	}
}

// A table that is wider than a telephone has each cell behind its title there, but for what
// names the row; a second name in the row begins a line, and empty cells say nothing.
func TestAWideTableStacksOnANarrowPage(t *testing.T) {
	number := func(title string) Column { return Column{Title: title, Align: Right} }
	wide := []Column{{Title: "income"}, number("2026"), number("2025"), {Title: "costs"}, number("2026"), number("2025")}
	row := []Cell{Text("a membership"), Num(Float(1360), 2), Empty(), Text("hire of a hall"), Num(Float(1280), 2), Num(Float(1180), 2)}
	page := func(columns []Column, row []Cell) string {
		return pageOf(t, Document{Title: "Money", Sections: []Section{{Heading: "Lines", Blocks: []Block{&Table{Columns: columns, Rows: [][]Cell{row}, Footer: [][]Cell{row}}}}}})
	}
	stacked := page(wide, row)
	assert.Contains(t, stacked, `<table class="stacks">`)
	assert.Contains(t, stacked, `<th scope="row">a membership</th><td class="r" data-label="2026">1360.00</td><td class="r"></td><td class="fresh" data-label="costs">hire of a hall</td><td class="r" data-label="2026">1280.00</td>`)
	assert.Contains(t, page(append([]Column{number("fig")}, wide...), append([]Cell{Num(Int(3), 0)}, row...)), `<th scope="row" class="r" data-label="fig">3</th>`)
	for _, narrow := range []string{page(wide[:4], row[:4]), page(wide, []Cell{Text("rent"), Num(Float(1), 0), Empty(), Text("hall"), Num(Float(2), 0)})} {
		assert.NotContains(t, narrow, `class="stacks"`)
		assert.NotContains(t, narrow, `data-label="`)
	}
}

// A series drawn small is left out where a picture stands in its section.
func TestAPictureStandsForASeries(t *testing.T) {
	series := &Series{Name: "percent", Points: []Point{{"a", Float(1)}, {"b", Float(2)}}}
	assert.Contains(t, pageOf(t, Document{Sections: []Section{{Blocks: []Block{series}}}}), `class="spark"`)
	assert.NotContains(t, pageOf(t, Document{Sections: []Section{{Blocks: []Block{series, &Drawing{Title: "Percent by date"}}}}}), `class="spark"`)
}

// Short facts stand beside each other, long ones beneath each other.
func TestShortFactsStandBesideEachOther(t *testing.T) {
	facts := func(value string) string {
		return pageOf(t, Document{Sections: []Section{{Blocks: []Block{&Facts{Items: []Fact{{"points", Text("1145.13")}, {"note", Text(value)}}}}}}})
	}
	assert.Contains(t, facts("2 of 6"), `<dl class="short">`)
	assert.Contains(t, facts("the loops decide the season"), "<dl>")
}

// Writers that nest nothing write parts behind their section.
func TestPartsStandBehindTheirSection(t *testing.T) {
	d := Document{Sections: []Section{
		{Heading: "One", Parts: []Section{{Heading: "Two", Blocks: []Block{&Paragraph{Text: "deep"}}}}},
		{Heading: "Three", Blocks: []Block{&Drawing{Title: "picture"}}},
	}}
	var text, markdown strings.Builder
	require.NoError(t, WriteText(&text, d, TextOptions{}))
	require.NoError(t, WriteMarkdown(&markdown, d))
	assert.Equal(t, "One\n\nTwo\n\ndeep\n\nThree\n", text.String())
	assert.Equal(t, "## One\n\n## Two\n\ndeep\n\n## Three\n", markdown.String())
}

// A sign behind a number does not touch the words of the next column: the column of the
// number, its heading too, has room for it.
func TestMarksStandClearOfWords(t *testing.T) {
	page := pageOf(t, Document{Sections: []Section{{Blocks: []Block{&Table{
		Columns: []Column{{Title: "kind"}, {Title: "budget", Align: Right}, {Title: "costs"}, {Title: "spent", Align: Right}},
		Rows:    [][]Cell{{Text("all"), Num(Float(480), 2).Marked(" +"), Text("rent"), Num(Float(80), 2).Marked(" -")}},
	}}}}})
	assert.Contains(t, page, `<th scope="col" class="r marked">budget</th>`)
	assert.Contains(t, page, `<td class="r marked">480.00<span class="mark"> &#43;</span></td>`)
	assert.Contains(t, page, `<th scope="col" class="r">spent</th>`)
}
