package report

import (
	"bytes"
	"encoding/json"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// cautioned is a document that advises.
func cautioned(sections ...Section) Document {
	return Document{Title: "Plan", Sections: sections, Data: struct {
		Pilot string `json:"pilot"`
	}{"ines"}, Caution: "Scores say little; the coach decides."}
}

// writers are all of the package.
var writers = map[string]func(io.Writer, Document) error{
	"text":     func(w io.Writer, d Document) error { return WriteText(w, d, TextOptions{}) },
	"markdown": WriteMarkdown,
	"csv":      WriteCSV,
	"json":     WriteJSON,
}

// No writer drops a document's caution, whatever else the document has, and
// none makes one up.
func TestEveryWriterWritesTheCautionOnce(t *testing.T) {
	table := &Table{Columns: []Column{{Title: "who"}}, Rows: [][]Cell{{Text("ines")}}}
	for name, write := range writers {
		for what, sections := range map[string][]Section{
			"nothing":        nil,
			"one table":      {{Blocks: []Block{table}}},
			"a sentence":     {{Blocks: []Block{&Paragraph{Text: "Loops first."}}}},
			"its own word":   {{Heading: "caution", Blocks: []Block{&Paragraph{Text: "Loops first."}}}},
			"table and note": {{Heading: "Gates", Blocks: []Block{table, &Notes{Items: []Note{{Text: "a note"}}}}}},
		} {
			d := cautioned(sections...)
			var out bytes.Buffer
			require.NoError(t, write(&out, d))
			assert.Equal(t, 1, strings.Count(out.String(), d.Caution), "%s, %s:\n%s", name, what, out.String())
			assert.True(t, name == "csv" || strings.Contains(last(out.String()), d.Caution), "%s, %s: at the foot:\n%s", name, what, out.String())
			d.Caution = ""
			out.Reset()
			require.NoError(t, write(&out, d))
			assert.NotContains(t, out.String(), "decides", "%s, %s", name, what)
			assert.NotContains(t, out.String(), `"caution"`, "%s, %s", name, what)
		}
	}
}

// last is the last line that says anything.
func last(text string) string {
	lines := strings.Split(strings.TrimRight(text, "\n}"), "\n")
	return lines[len(lines)-1]
}

func TestCautionInEachFormat(t *testing.T) {
	d := cautioned(Section{Blocks: []Block{&Table{Columns: []Column{{Title: "who"}}, Rows: [][]Cell{{Text("ines")}}}}})
	got := map[string]string{}
	for name, write := range writers {
		var out bytes.Buffer
		require.NoError(t, write(&out, d))
		got[name] = out.String()
	}
	assert.Equal(t, map[string]string{
		"text":     "Plan\n\nwho\n────\nines\n\nScores say little; the coach decides.\n",
		"markdown": "# Plan\n\n| who |\n| :-- |\n| ines |\n\nScores say little; the coach decides.\n",
		"csv":      "who,caution\nines,Scores say little; the coach decides.\n",
		"json":     "{\n  \"pilot\": \"ines\",\n  \"caution\": \"Scores say little; the coach decides.\"\n}\n",
	}, got)
}

// JSON has the caution as a field of the document's object, with any signs in
// it; data that has no room for it, or one of its own, is refused.
func TestCautionInJSON(t *testing.T) {
	var out bytes.Buffer
	d := Document{Data: struct{}{}, Caution: "a \"quoted\" <word> & 山田\n"}
	require.NoError(t, WriteJSON(&out, d))
	var back map[string]string
	require.NoError(t, json.Unmarshal(out.Bytes(), &back))
	assert.Equal(t, map[string]string{"caution": d.Caution}, back)
	assert.Contains(t, out.String(), "<word> &")

	for name, data := range map[string]any{"a list": []int{1}, "a number": 1, "nothing": (*struct{})(nil), "its own": map[string]string{"caution": "x"}} {
		out.Reset()
		require.Error(t, WriteJSON(&out, Document{Data: data, Caution: "c"}), name)
		assert.Empty(t, out.String(), name)
	}
}
