package ledger

import (
	"fmt"
	"maps"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boxbook/data"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// kindHelp is what testdata/diagnostics/kinds.txt says of a kind of diagnostic.
type kindHelp struct {
	code    Code
	example string // the name of a case, - where there is none to show
	meaning string
	right   []lineEdit
}

// lineEdit changes a line of a case's ledger: gone where there is no text, below
// where the text follows the line instead of taking its place.
type lineEdit struct {
	line        int
	text        string
	gone, below bool
}

func readKindHelp(t *testing.T) []kindHelp {
	t.Helper()
	raw, err := os.ReadFile(casePath("kinds.txt"))
	require.NoError(t, err)
	var all []kindHelp
	for _, part := range strings.Split("\n"+string(raw), "\n=== ")[1:] {
		head, rest, _ := strings.Cut(strings.TrimRight(part, "\n"), "\n")
		code, example, ok := strings.Cut(head, " ")
		require.True(t, ok, head)
		meaning, right, _ := strings.Cut(rest, "\n--- right\n")
		h := kindHelp{code: Code(code), example: example, meaning: plainly(meaning)}
		for _, line := range strings.Split(right, "\n") {
			if line != "" {
				h.right = append(h.right, readLineEdit(t, line))
			}
		}
		all = append(all, h)
	}
	return all
}

func readLineEdit(t *testing.T, line string) lineEdit {
	t.Helper()
	number, text, ok := strings.Cut(line, " ")
	number, below := strings.CutSuffix(number, "+")
	n, err := strconv.Atoi(number)
	require.NoError(t, err, line)
	return lineEdit{line: n, text: text, gone: !ok, below: below}
}

// helpLine is a line of an example; changed says that it is not as it was.
type helpLine struct {
	text    string
	changed bool
}

// edited makes the edits of a case's lines.
func edited(lines []string, edits []lineEdit) []helpLine {
	var all []helpLine
	for i, text := range lines {
		line, gone := helpLine{text: text}, false
		var below []helpLine
		for _, e := range edits {
			switch {
			case e.line != i+1:
			case e.below:
				below = append(below, helpLine{e.text, true})
			default:
				line, gone = helpLine{e.text, e.text != text}, e.gone
			}
		}
		if !gone {
			all = append(all, line)
		}
		all = append(all, below...)
	}
	return all
}

// blockAround is the block of a line, from 0: the lines from its head to the
// next one's.
func blockAround(lines []helpLine, n int) (from, to int) {
	head := func(i int) bool { return strings.Trim(lines[i].text[:min(1, len(lines[i].text))], " \t#") != "" }
	for from = n; from > 0 && !head(from); from-- {
		continue
	}
	for to = n + 1; to < len(lines) && !head(to); to++ {
		continue
	}
	for to > from+1 && strings.TrimSpace(lines[to-1].text) == "" {
		to--
	}
	return from, to
}

// TestHelpOfKinds holds the help page of every kind of diagnostic to the cases:
// the wrong example gives the diagnostic, the right one is free of it and has
// nothing else wrong; and the generated file is up to date.
func TestHelpOfKinds(t *testing.T) {
	cases := map[string]diagnosticCase{}
	for _, name := range caseFiles {
		for _, c := range readCases(t, casePath(name)) {
			cases[c.name] = c
		}
	}
	described := map[Code]kindHelp{}
	for _, h := range readKindHelp(t) {
		require.NotContains(t, described, h.code)
		described[h.code] = h
	}
	var b strings.Builder
	for _, k := range Kinds() {
		h, ok := described[k.Code]
		require.True(t, ok, "testdata/diagnostics/kinds.txt does not describe %s", k.Code)
		b.WriteString(h.page(t, k, cases))
		delete(described, k.Code)
	}
	require.Empty(t, slices.Collect(maps.Keys(described)), "no such kinds")
	if *update {
		require.NoError(t, os.WriteFile("../../data/help/kinds.txt", []byte(b.String()), 0o644))
		return
	}
	require.Equal(t, b.String(), data.Kinds, "data/help/kinds.txt is not up to date: -update rewrites it")
}

// page is the help page of one kind.
func (h kindHelp) page(t *testing.T, k Kind, cases map[string]diagnosticCase) string {
	t.Helper()
	var b strings.Builder
	fmt.Fprintf(&b, "=== %s\n%s (%s)\n\n%s", k.Code, k.Code, k.Severity, wrapped("", h.meaning))
	if h.example == "-" {
		return b.String() + "\n"
	}
	c, ok := cases[h.example]
	require.True(t, ok, "no case is called %s", h.example)
	before, _ := c.diagnose(t)
	i := slices.IndexFunc(before, func(d Diagnostic) bool { return d.Code == k.Code })
	require.GreaterOrEqual(t, i, 0, "case %s does not give %s", c.name, k.Code)
	d := before[i]
	fmt.Fprintf(&b, "\nWrong:\n\n%s\nRight:\n\n%s", wrongExample(c, d), h.rightExample(t, c, before, d))
	if len(d.Fixes) > 0 {
		b.WriteString("\nWhere there is one reading only, as here, boxbook check --fix corrects it.\n")
	}
	return strings.ReplaceAll(b.String(), "test.boxbook", "season.boxbook") + "\n"
}

// shortExample is how many lines an example may have to be shown as a whole.
const shortExample = 9

// wrongExample is the block in which a diagnostic stands, with the carets beneath
// its line and what is said.
func wrongExample(c diagnosticCase, d Diagnostic) string {
	lines := edited(linesOf(strings.TrimRight(c.files[d.File], "\n")), nil)
	from, to := blockAround(lines, d.Line-1)
	if len(lines) <= shortExample {
		from, to = 0, len(lines)
	}
	var b strings.Builder
	for i := from; i < to; i++ {
		if i == d.Line-1 {
			b.WriteString(excerpt(d))
		} else {
			b.WriteString(indented(lines[i].text))
		}
	}
	b.WriteString("\n" + wrapped("    ", bounded(string(d.Severity)+": "+d.Message)))
	if d.Hint != "" {
		b.WriteString(wrapped("    ", bounded("hint: "+d.Hint)))
	}
	return b.String()
}

// rightExample is the block, and whatever else has changed, as it should be.
func (h kindHelp) rightExample(t *testing.T, c diagnosticCase, before List, d Diagnostic) string {
	t.Helper()
	wrong := linesOf(strings.TrimRight(c.files[d.File], "\n"))
	right := edited(wrong, h.right)
	if len(d.Fixes) > 0 {
		require.Empty(t, h.right, "%s: the edit says already what is right", h.code)
		text, _ := ApplyFixes(strings.Join(wrong, "\n"), List{d})
		right = edited(linesOf(text), nil)
		right[d.Line-1].changed = true
	}
	texts := make([]string, len(right))
	for i := range right {
		texts[i] = right[i].text
	}
	c.files = maps.Clone(c.files)
	c.files[d.File] = strings.Join(texts, "\n") + "\n"
	after, _ := c.diagnose(t)
	for _, now := range after {
		was := slices.ContainsFunc(before, func(o Diagnostic) bool {
			return o.Message == now.Message && !o.same(d) || o.Code == now.Code && o.Code != d.Code
		})
		assert.True(t, was, "%s: what should be right gives %s", h.code, now.Error())
	}
	return changedBlocks(right, d.Line-1)
}

// changedBlocks are the blocks with a changed line, else the one that stands
// where the error stood; of a short example all.
func changedBlocks(lines []helpLine, at int) string {
	if len(lines) <= shortExample {
		for i := range lines {
			lines[i].changed = true
		}
	}
	if !slices.ContainsFunc(lines, func(l helpLine) bool { return l.changed }) && len(lines) > 0 {
		lines[min(at, len(lines)-1)].changed = true
	}
	var b strings.Builder
	end := 0
	for i, line := range lines {
		if !line.changed || i < end {
			continue
		}
		var from int
		from, end = blockAround(lines, i)
		for _, l := range lines[from:end] {
			b.WriteString(indented(l.text))
		}
	}
	if b.Len() == 0 {
		return "    the file without this line\n"
	}
	return b.String()
}

func indented(text string) string {
	if strings.TrimSpace(text) == "" {
		return "\n"
	}
	return "    " + strings.Map(shown, text) + "\n"
}

// helpWidth is how wide a page of help is.
const helpWidth = 78

// wrapped breaks a text into lines, each behind an indent.
func wrapped(indent, text string) string {
	var b strings.Builder
	line := indent
	for _, word := range strings.Fields(text) {
		if len([]rune(line))+len([]rune(word)) >= helpWidth && strings.TrimSpace(line) != "" {
			b.WriteString(strings.TrimRight(line, " ") + "\n")
			line = indent
		}
		line += word + " "
	}
	return b.String() + strings.TrimRight(line, " ") + "\n"
}
