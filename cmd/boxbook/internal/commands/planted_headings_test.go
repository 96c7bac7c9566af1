//go:build planted

package commands

import (
	"archive/zip"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// titled is a heading or a column's title in the sources: the string literal
// between two places of a file.
type titled struct {
	file       string
	start, end int
	text       string
}

// renamed puts the title another way, as nobody else spells it.
func (w titled) renamed() string { return strconv.Quote(w.text + " anew") }

// titleFields are the fields of package report that hold a title.
var titleFields = []string{"Title", "Heading", "Subtitle", "Label"}

// titleNames are what variables and functions are called that carry one.
var titleNames = regexp.MustCompile(`(?i)(title|heading|column|label)s?$`)

// titlesOf lists the titles of the packages that make documents: literals given
// to a field, a variable or a constant that holds a title, in a list of them, or
// as a section's name, and every constant text of package words.
func titlesOf(t *testing.T) []titled {
	t.Helper()
	var found []titled
	for _, folder := range []string{"report/words", "report/tables", "report/pages"} {
		for _, file := range sourcesIn(t, filepath.Join(top, folder)) {
			found = append(found, titlesIn(t, file, folder == "report/words")...)
		}
	}
	return found
}

func titlesIn(t *testing.T, file string, constants bool) []titled {
	t.Helper()
	set := token.NewFileSet()
	tree, err := parser.ParseFile(set, file, nil, 0)
	require.NoError(t, err)
	seen := map[token.Pos]bool{}
	var found []titled
	var take func(node ast.Node)
	take = func(node ast.Node) {
		ast.Inspect(node, func(n ast.Node) bool {
			if pair, ok := n.(*ast.KeyValueExpr); ok {
				take(pair.Value) // what a text stands for is a code
				return false
			}
			lit, ok := n.(*ast.BasicLit)
			if !ok || lit.Kind != token.STRING || seen[lit.Pos()] {
				_, isCall := n.(*ast.CallExpr)
				return !isCall // what a call is given is no title
			}
			text, err := strconv.Unquote(lit.Value)
			if err == nil && regexp.MustCompile(`[a-z]{2}|^p$`).MatchString(text) {
				seen[lit.Pos()] = true
				found = append(found, titled{file, set.Position(lit.Pos()).Offset, set.Position(lit.End()).Offset, text})
			}
			return true
		})
	}
	ast.Inspect(tree, func(node ast.Node) bool {
		switch n := node.(type) {
		case *ast.KeyValueExpr:
			if key, ok := n.Key.(*ast.Ident); ok && slices.Contains(titleFields, key.Name) {
				take(n.Value)
			}
		case *ast.AssignStmt:
			for i, left := range n.Lhs {
				if name, ok := left.(*ast.Ident); ok && titleNames.MatchString(name.Name) && i < len(n.Rhs) {
					take(n.Rhs[i])
				}
			}
		case *ast.ValueSpec:
			for i, name := range n.Names {
				if i < len(n.Values) && (constants || titleNames.MatchString(name.Name)) {
					take(n.Values[i])
				}
			}
		case *ast.CallExpr:
			if name, ok := n.Fun.(*ast.Ident); ok && len(n.Args) > 0 && regexp.MustCompile(`^(add|section|AddFact)$`).MatchString(name.Name) {
				for _, arg := range n.Args[:min(2, len(n.Args))] {
					if lit, ok := arg.(*ast.BasicLit); ok {
						take(lit)
					}
				}
			}
		}
		return true
	})
	return found
}

// withTitles are the texts of the files in which titles are renamed.
func withTitles(t *testing.T, titles ...titled) map[string]string {
	t.Helper()
	texts := map[string]string{}
	slices.SortFunc(titles, func(a, b titled) int { return b.start - a.start }) // from the end, so that places keep
	for _, w := range titles {
		if texts[w.file] == "" {
			raw, err := os.ReadFile(w.file)
			require.NoError(t, err)
			texts[w.file] = string(raw)
		}
		texts[w.file] = texts[w.file][:w.start] + w.renamed() + texts[w.file][w.end:]
	}
	return texts
}

// holding is what a workbook holds beside its words: by sheet the rows with
// something in them, the numbers, the formulas, what is drawn.
func holding(t *testing.T, by asking) map[string]string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "book.xlsx")
	by(t, "workbook", "ines", "-f", "../../../../data/demo/longmere.boxbook", "-o", file)
	holds := map[string]string{}
	sheets := sheetsOf(t, file)
	formula := wordless(sheets)
	for i, s := range sheets {
		numbers, formulas := 0, []string{}
		for _, c := range s.cells {
			if c.number {
				numbers++
			}
			if c.formula != "" {
				formulas = append(formulas, c.at()+" "+formula(c.formula))
			}
		}
		name := fmt.Sprintf("sheet %d", i+1)
		holds[name+", rows"] = fmt.Sprint(len(s.rows()))
		holds[name+", cells"] = fmt.Sprint(len(s.cells))
		holds[name+", numbers"] = fmt.Sprint(numbers)
		holds[name+", formulas"] = strings.Join(formulas, "\n")
	}
	maps.Copy(holds, drawings(t, file))
	return holds
}

// wordless writes a formula with the numbers of sheets in place of their names,
// and says of each text in it whether some cell says the same: what a formula
// looks for must be in the formula what it is in the cell.
func wordless(sheets []sheet) func(formula string) string {
	said := map[string]bool{}
	var names []string
	for i, s := range sheets {
		number := fmt.Sprintf("sheet%d!", i+1)
		names = append(names, "'"+strings.ReplaceAll(s.name, "'", "''")+"'!", number, s.name+"!", number)
		for _, row := range s.rows() {
			for _, c := range row {
				said[c.value] = said[c.value] || !areTitles(row) // no formula looks for a column's title
			}
		}
	}
	sheetNames := strings.NewReplacer(names...)
	texts := regexp.MustCompile(`"([^"]+)"`)
	return func(formula string) string {
		return texts.ReplaceAllStringFunc(sheetNames.Replace(formula), func(text string) string {
			return fmt.Sprintf("<said %v>", said[strings.Trim(text, `"`)])
		})
	}
}

// drawn are the marks in a part of a workbook of what is drawn or checked there.
var drawn = regexp.MustCompile(`<(c:ser|c:f|c:errBars|c:pt|x14:sparkline|cfRule|dataValidation|mergeCell|autoFilter|hyperlink|tablePart|pane)[ >/]`)

// drawings counts by part of the file what is drawn there.
func drawings(t *testing.T, file string) map[string]string {
	t.Helper()
	archive, err := zip.OpenReader(file)
	require.NoError(t, err)
	defer archive.Close()
	counts := map[string]string{}
	for _, part := range archive.File {
		if !strings.HasPrefix(part.Name, "xl/worksheets/") && !strings.HasPrefix(part.Name, "xl/charts/") && !strings.HasPrefix(part.Name, "xl/drawings/") {
			continue
		}
		reader, err := part.Open()
		require.NoError(t, err)
		raw, err := io.ReadAll(reader)
		require.NoError(t, err)
		n := map[string]int{}
		for _, m := range drawn.FindAllSubmatch(raw, -1) {
			n[string(m[1])]++
		}
		counts["part "+part.Name] = fmt.Sprint(n)
	}
	return counts
}

// sampled is the share of titles that are renamed one at a time: each so many-th.
const sampled = 40

// TestPlantedHeadings renames titles of pages and tables: all of them at once; so
// many of them that of any two one is renamed and the other is not, by the bits of
// their numbers; and some alone. The workbook holds what it held: no sheet goes by
// a page's words, and no two places have to spell a title alike. Where it fails,
// the titles at fault are renamed in each run that fails and in no other.
//
//	go test -tags planted -run TestPlantedHeadings -v ./cmd/boxbook/internal/commands
func TestPlantedHeadings(t *testing.T) {
	titles := titlesOf(t)
	require.Greater(t, len(titles), 100)
	whole := holding(t, asIs)
	require.Greater(t, len(whole), 40)
	run := func(name string, renamed ...titled) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			holdWorkbook(t, whole, renamed...)
		})
	}
	run("all", slices.Clone(titles)...)
	for bit := 0; 1<<bit < len(titles); bit++ {
		var some []titled
		for i, w := range titles {
			if i>>bit&1 == 1 {
				some = append(some, w)
			}
		}
		run(fmt.Sprintf("bit %d", bit), some...)
	}
	for i := 0; i < len(titles); i += sampled {
		run(filepath.Base(titles[i].file)+" "+titles[i].text, titles[i])
	}
}

func holdWorkbook(t *testing.T, whole map[string]string, titles ...titled) {
	t.Helper()
	binary, refused := builtWith(t, withTitles(t, titles...))
	require.Empty(t, refused)
	holds := holding(t, built(binary))
	for _, what := range slices.Sorted(maps.Keys(whole)) {
		if strings.HasSuffix(what, ", formulas") {
			was, is := strings.Split(whole[what], "\n"), strings.Split(holds[what], "\n")
			assert.Len(t, is, len(was), "%s", what)
			for i := range min(len(was), len(is)) {
				if was[i] != is[i] {
					t.Errorf("%s: %s is now %s", what, was[i], is[i])
					break
				}
			}
			continue
		}
		assert.Equal(t, whole[what], holds[what], what)
	}
	assert.Equal(t, slices.Sorted(maps.Keys(whole)), slices.Sorted(maps.Keys(holds)))
}
