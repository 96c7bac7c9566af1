package commands

import (
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// shownWords are the fields of a document that hold words for people.
var shownWords = []string{
	"Document.Title", "Document.Subtitle", "Section.Heading", "Paragraph.Text",
	"Table.Title", "Column.Title", "Note.Text", "Note.Mark", "Fact.Label", "Series.Title",
}

// TestNobodyReadsWordsBack holds every package but report, which writes them, to
// reading no heading, title or sentence of a document. The workbook is one more
// writer: it takes them over into its cells, and neither compares nor cuts them.
func TestNobodyReadsWordsBack(t *testing.T) {
	t.Parallel()
	found := 0
	for _, p := range checkedPackages(t) {
		if p.path == "boxbook/report" {
			continue
		}
		for _, read := range p.reads() {
			found++
			switch place := placeOf(t, p.set, read.node.Pos()); {
			case !strings.HasPrefix(p.path, "boxbook/report/workbook"):
				t.Errorf("%s reads %s back", place, read.field)
			case p.judges(read):
				t.Errorf("%s goes by %s", place, read.field)
			}
		}
	}
	require.Positive(t, found, "the workbook takes titles over; where it does no more, this test holds nothing")
}

// checkedPackage is a package with the types of what it says.
type checkedPackage struct {
	path  string
	set   *token.FileSet
	files []*ast.File
	info  *types.Info
	above map[ast.Node]ast.Node
}

// wordRead is a place that reads a field of shownWords.
type wordRead struct {
	field string
	node  *ast.SelectorExpr
}

// checkedPackages reads the packages that use the document model, with the types
// as the compiler left them.
func checkedPackages(t *testing.T) []checkedPackage {
	t.Helper()
	out, err := exec.Command("go", "list", "-export", "-deps", "-f", "{{.ImportPath}}|{{.Export}}|{{.Dir}}|{{join .GoFiles \" \"}}|{{join .Imports \" \"}}", "boxbook/...").Output()
	require.NoError(t, err)
	exports := map[string]string{}
	set := token.NewFileSet()
	read := importer.ForCompiler(set, "gc", func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) })
	var packages []checkedPackage
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		part := strings.Split(line, "|")
		exports[part[0]] = part[1]
		if part[0] != "boxbook/report" && !slices.Contains(strings.Fields(part[4]), "boxbook/report") {
			continue
		}
		p := checkedPackage{path: part[0], set: set, above: map[ast.Node]ast.Node{}}
		for _, name := range strings.Fields(part[3]) {
			file, err := parser.ParseFile(set, part[2]+"/"+name, nil, 0)
			require.NoError(t, err)
			p.files = append(p.files, file)
		}
		p.info = &types.Info{Selections: map[*ast.SelectorExpr]*types.Selection{}, Uses: map[*ast.Ident]types.Object{}, Defs: map[*ast.Ident]types.Object{}}
		_, err := (&types.Config{Importer: read}).Check(p.path, set, p.files, p.info)
		require.NoError(t, err)
		p.findAbove()
		packages = append(packages, p)
	}
	require.Greater(t, len(packages), 4)
	return packages
}

// findAbove remembers what stands around each node.
func (p *checkedPackage) findAbove() {
	for _, file := range p.files {
		var path []ast.Node
		ast.Inspect(file, func(node ast.Node) bool {
			if node == nil {
				path = path[:len(path)-1]
				return true
			}
			if len(path) > 0 {
				p.above[node] = path[len(path)-1]
			}
			path = append(path, node)
			return true
		})
	}
}

// reads lists the places that read a field of shownWords; what is assigned to one
// is no reading.
func (p *checkedPackage) reads() []wordRead {
	var found []wordRead
	for node, selection := range p.info.Selections {
		owner := types.TypeString(selection.Recv(), nil)
		name := strings.TrimPrefix(strings.TrimPrefix(owner, "*"), "boxbook/report.") + "." + node.Sel.Name
		if selection.Kind() != types.FieldVal || !slices.Contains(shownWords, name) {
			continue
		}
		if assigned, ok := p.above[node].(*ast.AssignStmt); ok && slices.Contains(assigned.Lhs, ast.Expr(node)) && assigned.Tok == token.ASSIGN {
			continue
		}
		found = append(found, wordRead{name, node})
	}
	slices.SortFunc(found, func(a, b wordRead) int { return int(a.node.Pos()) - int(b.node.Pos()) })
	return found
}

// judges reports whether a program goes by a word that it read: compares it with
// another, switches or looks something up by it, or cuts it. A variable that holds
// the word is the word; an empty one is told from others without being read.
func (p *checkedPackage) judges(read wordRead) bool {
	if p.goesBy(read.node) {
		return true
	}
	held, ok := p.above[read.node].(*ast.AssignStmt)
	if !ok {
		return false
	}
	for i, right := range held.Rhs {
		name, ok := held.Lhs[i].(*ast.Ident)
		if right != ast.Expr(read.node) || !ok {
			continue
		}
		object := p.info.Defs[name]
		for use, of := range p.info.Uses {
			if object != nil && of == object && p.goesBy(use) {
				return true
			}
		}
	}
	return false
}

// goesBy reports whether something hangs on what an expression says.
func (p *checkedPackage) goesBy(node ast.Expr) bool {
	switch n := p.above[node].(type) {
	case *ast.BinaryExpr:
		isEmpty := func(e ast.Expr) bool { lit, ok := e.(*ast.BasicLit); return ok && lit.Value == `""` }
		return (n.Op == token.EQL || n.Op == token.NEQ) && !isEmpty(n.X) && !isEmpty(n.Y)
	case *ast.SwitchStmt, *ast.CaseClause, *ast.SliceExpr:
		return true
	case *ast.IndexExpr:
		return n.Index == node
	case *ast.CallExpr:
		name := nameOf(n.Fun)
		return strings.HasPrefix(name, "strings.") || strings.HasPrefix(name, "slices.") || strings.HasSuffix(name, ".MatchString")
	}
	return false
}
