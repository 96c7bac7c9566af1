package commands

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// roundingVerb is a verb that rounds a float as the language does, halves to even.
var roundingVerb = regexp.MustCompile(`%[-+# 0]*[\d*]*(\.[\d*]+[feEgG]|[feE])\b`)

// TestOneRounding holds every number that people see to the rounding of package
// display: no verb of package fmt and no precision of strconv rounds elsewhere.
// The statistics' own errors and the picture data of the workbook's charts are
// read by no person, nor are the tables of test kits.
func TestOneRounding(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", "{{range .GoFiles}}{{$.Dir}}/{{.}}\n{{end}}", "boxbook/...").Output()
	require.NoError(t, err)
	files := 0
	for _, file := range strings.Fields(string(out)) {
		if strings.Contains(filepath.ToSlash(file), "/season/stats/") || strings.Contains(filepath.ToSlash(file), "/testkit/") {
			continue
		}
		files++
		for _, found := range roundings(t, file) {
			assert.Fail(t, "a number is rounded beside package display", found)
		}
	}
	require.Greater(t, files, 100)
}

// roundings lists the places of a file that round a float.
func roundings(t *testing.T, file string) []string {
	set := token.NewFileSet()
	tree, err := parser.ParseFile(set, file, nil, 0)
	require.NoError(t, err)
	var found []string
	ast.Inspect(tree, func(node ast.Node) bool {
		switch n := node.(type) {
		case *ast.BasicLit:
			if n.Kind == token.STRING && roundingVerb.MatchString(n.Value) {
				found = append(found, set.Position(n.Pos()).String()+" "+n.Value)
			}
		case *ast.CallExpr:
			name, ok := n.Fun.(*ast.SelectorExpr)
			if !ok || (name.Sel.Name != "FormatFloat" && name.Sel.Name != "AppendFloat") {
				break
			}
			if precision, ok := n.Args[len(n.Args)-2].(*ast.UnaryExpr); !ok || precision.Op != token.SUB {
				found = append(found, set.Position(n.Pos()).String()+" "+name.Sel.Name)
			}
		}
		return true
	})
	return found
}
