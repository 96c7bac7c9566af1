package commands

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// allowedModules are the modules that the program or its tests may require
// themselves, each with the reason; whatever those bring comes with them.
var allowedModules = map[string]string{
	"github.com/agext/levenshtein":    "how far a mistyped word is from a known one",
	"github.com/clipperhouse/uax29":   "what a reader sees as one character, and where a line may break",
	"github.com/creack/pty":           "tests: conversations at a pseudo-terminal",
	"github.com/creachadair/jrpc2":    "messages between an editor and `boxbook lsp`",
	"github.com/gofrs/flock":          "one writer at a time, on every system",
	"github.com/google/renameio":      "files that appear whole, with their rights",
	"github.com/jedib0t/go-pretty":    "tables for terminals and markdown",
	"github.com/mattn/go-runewidth":   "how many columns a character takes",
	"github.com/rogpeppe/go-internal": "tests: command scripts; the differences that tidy shows",
	"github.com/spf13/cobra":          "commands, flags, completion",
	"github.com/spf13/pflag":          "flags of the commands, as cobra has them",
	"github.com/stretchr/testify":     "tests: assertions",
	"github.com/xuri/excelize":        "workbooks",
	"golang.org/x/sys":                "exchange of two files in one step, extended attributes",
	"golang.org/x/term":               "the terminal's width, and typing at it",
	"golang.org/x/text":               "currencies, and encodings of foreign sheets",
	"gonum.org/v1/gonum":              "distributions, linear algebra",
	"pgregory.net/rapid":              "tests: properties and state machines",
}

var (
	requirement = regexp.MustCompile(`^\s*(?:require\s+)?([a-z0-9.]+\.[a-z]+/\S+) v\S+( // indirect)?$`)
	majorOf     = regexp.MustCompile(`/v\d+$`)
)

// requiredModules are the modules of a go.mod that are no other's.
func requiredModules(text string) []string {
	var modules []string
	for line := range strings.SplitSeq(text, "\n") {
		if m := requirement.FindStringSubmatch(line); m != nil && m[2] == "" {
			name := m[1]
			if !strings.HasPrefix(name, "gonum.org/") {
				name = majorOf.ReplaceAllString(name, "")
			}
			modules = append(modules, name)
		}
	}
	return modules
}

// TestOnlyListedModules holds go.mod to the list and the list to go.mod, and
// both to a toolchain that is named: .ci/run looks for known vulnerabilities in it.
func TestOnlyListedModules(t *testing.T) {
	raw, err := os.ReadFile("../../../../go.mod")
	require.NoError(t, err)
	var listed []string
	for name, reason := range allowedModules {
		require.NotEmpty(t, reason, name)
		listed = append(listed, name)
	}
	require.ElementsMatch(t, listed, requiredModules(string(raw)))
	require.Regexp(t, `(?m)^toolchain go1\.\d+\.\d+$`, string(raw))
	require.NotContains(t, string(raw), "replace ")
	require.Equal(t, []string{"example.org/a", "example.org/b"}, requiredModules("require (\n\texample.org/a/v2 v2.0.0\n\texample.org/c v1.0.0 // indirect\n)\nrequire example.org/b v1.2.3\n"))
}
