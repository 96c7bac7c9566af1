package analysis_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// contractWords are the codes that are words of the JSON contract, and the parts
// of a stratum's name.
var contractWords = []string{
	"not met", "cannot tell", "not yet", "too few flights to tell", "may be improving", "may be declining", "may have worked", "too few to tell",
	" ", " unknowns", " programme ",
}

// The model, the scoring and the analysis say nothing in words: no text in it has a blank, as every sentence
// has, errors and the codes of the contract apart.
func TestNoProse(t *testing.T) {
	for _, pattern := range []string{"*.go", "code/*.go", "../*.go", "../../scoring/*.go"} {
		files, err := filepath.Glob(pattern)
		require.NoError(t, err)
		require.NotEmpty(t, files, pattern)
		for _, name := range files {
			if !strings.HasSuffix(name, "_test.go") {
				holdNoProse(t, name)
			}
		}
	}
}

func holdNoProse(t *testing.T, name string) {
	t.Helper()
	files := token.NewFileSet()
	parsed, err := parser.ParseFile(files, name, nil, parser.SkipObjectResolution)
	require.NoError(t, err)
	ast.Inspect(parsed, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CallExpr:
			return !makesAnError(n)
		case *ast.BasicLit:
			if n.Kind == token.STRING {
				text, err := strconv.Unquote(n.Value)
				require.NoError(t, err)
				assert.True(t, !strings.Contains(strings.TrimSpace(text), " ") || slices.Contains(contractWords, text), "%s: %q", files.Position(n.Pos()), text)
			}
		}
		return true
	})
}

// makesAnError reports whether a call is fmt.Errorf or errors.New.
func makesAnError(call *ast.CallExpr) bool {
	f, ok := call.Fun.(*ast.SelectorExpr)
	return ok && (f.Sel.Name == "Errorf" || f.Sel.Name == "New")
}
