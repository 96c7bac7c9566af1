package commands

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os/exec"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// goFilesOf lists the product's Go files of packages, tests apart.
func goFilesOf(t *testing.T, packages ...string) []string {
	t.Helper()
	args := append([]string{"list", "-f", "{{range .GoFiles}}{{$.Dir}}/{{.}}\n{{end}}"}, packages...)
	out, err := exec.Command("go", args...).Output()
	require.NoError(t, err)
	files := strings.Fields(string(out))
	require.NotEmpty(t, files)
	return files
}

// parsed reads a Go file.
func parsed(t *testing.T, file string) (*token.FileSet, *ast.File) {
	t.Helper()
	set := token.NewFileSet()
	tree, err := parser.ParseFile(set, file, nil, 0)
	require.NoError(t, err)
	return set, tree
}

// placeOf is a place of a file as a reader of the project writes it.
func placeOf(t *testing.T, set *token.FileSet, pos token.Pos) string {
	t.Helper()
	at := set.Position(pos)
	root, err := filepath.Abs(top)
	require.NoError(t, err)
	name, err := filepath.Rel(root, at.Filename)
	require.NoError(t, err)
	return fmt.Sprintf("%s:%d", filepath.ToSlash(name), at.Line)
}

// prose is a text of two words or more, or of one beside something filled in.
var prose = regexp.MustCompile(`\pL+[,;:]? +(\pL|%)|%\S* +\pL`)

// proseAllowed are the files beneath package report that hold words of people,
// with the reason.
var proseAllowed = map[string]string{
	"season/groups.go": "names of families, the catalogue's terms, which diagnostics of a ledger need as well",
}

// codesAllowed are the texts of two words that are codes of the JSON contract.
var codesAllowed = []string{
	"too few flights to tell", "may be improving", "may be declining", "cannot tell", // season.trend.word
	"may have worked", "too few to tell", // drills.word
	"no family",          // flight.lost.groups.group
	"not met", "not yet", // ready.gates.state, ready.verdict
}

// TestNoProseBelowReport leaves words for people to the packages of report:
// scoring, the model, the analysis and the statistics give numbers and codes. Go
// errors and panics apart, which programmers read.
func TestNoProseBelowReport(t *testing.T) {
	for _, file := range goFilesOf(t, "boxbook/scoring", "boxbook/season", "boxbook/season/analysis/...", "boxbook/season/stats") {
		set, tree := parsed(t, file)
		for _, lit := range proseIn(tree) {
			place := placeOf(t, set, lit.Pos())
			name, _, _ := strings.Cut(place, ":")
			if proseAllowed[name] == "" {
				t.Errorf("%s: words for people: %s", place, lit.Value)
			}
		}
	}
}

// proseIn lists the texts of a file that hold prose: what errors and panics are
// made of and the codes of the JSON apart.
func proseIn(tree *ast.File) []*ast.BasicLit {
	var found []*ast.BasicLit
	ast.Inspect(tree, func(node ast.Node) bool {
		switch n := node.(type) {
		case *ast.CallExpr:
			return !slices.Contains([]string{"errors.New", "fmt.Errorf", "panic"}, nameOf(n.Fun))
		case *ast.Field:
			return n.Tag == nil // a field's tag is for programs
		case *ast.ImportSpec:
			return false
		case *ast.FuncDecl:
			return n.Name.Name != "Error"
		case *ast.BasicLit:
			text, err := strconv.Unquote(n.Value)
			if n.Kind == token.STRING && err == nil && prose.MatchString(text) && !slices.Contains(codesAllowed, text) {
				found = append(found, n)
			}
		}
		return true
	})
	return found
}

// nameOf writes a function's name as it is called.
func nameOf(f ast.Expr) string {
	switch n := f.(type) {
	case *ast.Ident:
		return n.Name
	case *ast.SelectorExpr:
		return nameOf(n.X) + "." + n.Sel.Name
	}
	return ""
}

// TestAnswersHideNothing holds every field of every type of an answer to be in
// the JSON: exported, with a name of its own there. A value that writes itself, as
// an amount of money does, is one of JSON's own.
func TestAnswersHideNothing(t *testing.T) {
	fields := 0
	itself := writingThemselves(t, "boxbook/report/answers")
	names := regexp.MustCompile(`^[a-z][A-Za-z0-9]*$`)
	for _, file := range goFilesOf(t, "boxbook/report/answers") {
		set, tree := parsed(t, file)
		ast.Inspect(tree, func(node ast.Node) bool {
			switch n := node.(type) {
			case *ast.FuncDecl:
				return false // what a function keeps for itself is no answer
			case *ast.TypeSpec:
				return !itself[n.Name.Name]
			}
			of, ok := node.(*ast.StructType)
			if !ok {
				return true
			}
			for _, field := range of.Fields.List {
				fields++
				place := placeOf(t, set, field.Pos())
				tag := ""
				if field.Tag != nil {
					raw, err := strconv.Unquote(field.Tag.Value)
					require.NoError(t, err)
					tag, _, _ = strings.Cut(reflect.StructTag(raw).Get("json"), ",")
				}
				if len(field.Names) == 0 && tag == "" {
					continue // embedded: its own fields are the answer's
				}
				for _, name := range field.Names {
					assert.True(t, name.IsExported(), "%s: %s is hidden", place, name)
				}
				assert.Regexp(t, names, tag, "%s: %v has no name in the JSON", place, field.Names)
			}
			return true
		})
	}
	require.Greater(t, fields, 200)
}

// writingThemselves are the types of a package with a way of their own into JSON.
func writingThemselves(t *testing.T, pkg string) map[string]bool {
	t.Helper()
	types := map[string]bool{}
	for _, file := range goFilesOf(t, pkg) {
		_, tree := parsed(t, file)
		for _, decl := range tree.Decls {
			if method, ok := decl.(*ast.FuncDecl); ok && method.Recv != nil && method.Name.Name == "MarshalJSON" {
				receiver := method.Recv.List[0].Type
				if pointer, ok := receiver.(*ast.StarExpr); ok {
					receiver = pointer.X
				}
				types[nameOf(receiver)] = true
			}
		}
	}
	return types
}

// mayNotName are the packages that a room does not name itself, whatever those it
// does name lean on.
var mayNotName = map[string][]string{
	"boxbook/report/words":    {"boxbook/season/analysis", "boxbook/scoring"},
	"boxbook/report/tables":   {"boxbook/season/analysis", "boxbook/scoring"},
	"boxbook/report/pages":    {"boxbook/season/analysis", "boxbook/scoring"},
	"boxbook/report/workbook": {"boxbook/report/pages", "boxbook/season/analysis", "boxbook/scoring", "boxbook/season"},
}

// TestRoomsNameTheirOwn keeps the analysis behind the answers: what shows an
// answer asks for nothing else.
func TestRoomsNameTheirOwn(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", "{{.ImportPath}}: {{join .Imports \" \"}}", "boxbook/...").Output()
	require.NoError(t, err)
	seen := 0
	for _, line := range strings.Split(strings.TrimSpace(string(out)), "\n") {
		pkg, imports, _ := strings.Cut(line, ": ")
		for room, refused := range mayNotName {
			if pkg != room && !strings.HasPrefix(pkg, room+"/") {
				continue
			}
			seen++
			for _, one := range strings.Fields(imports) {
				assert.False(t, slices.Contains(refused, one), "%s names %s", pkg, one)
			}
		}
	}
	require.GreaterOrEqual(t, seen, len(mayNotName))
}
