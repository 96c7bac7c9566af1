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

// Readiness, forecast and plan say nothing in words: no text in them has a blank,
// as every sentence has.
func TestNoProse(t *testing.T) {
	for _, pattern := range []string{"readiness*.go", "forecast.go", "plan.go", "code/*.go"} {
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
		literal, ok := n.(*ast.BasicLit)
		if !ok || literal.Kind != token.STRING {
			return true
		}
		text, err := strconv.Unquote(literal.Value)
		require.NoError(t, err)
		states := []string{"not met", "cannot tell", "not yet"} // of the contract
		assert.True(t, !strings.Contains(text, " ") || slices.Contains(states, text), "%s: %q", files.Position(literal.Pos()), text)
		return true
	})
}
