package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/require"
)

// badWord is a word that no screen uses, and what stands in its place. The list
// with its reasons is in DEVELOPERS.md; it is of style alone.
type badWord struct {
	is     string // a pattern
	use    string
	except string // a pattern of what may stand all the same
}

var badWords = []badWord{
	{`percentage points?`, "percentage points", ``},
	{`\d+ %`, "65% without a space", ``},
	{`% sure`, "90% confidence", ``},
	{`\bshrunken\b|\bshrinkage\b`, "adjusted", `"shrunken"`},
	{`cannot tell`, "cannot tell", ``},
	{`\bflights? (with a )?records?\b|with a record`, "counted results", ``},
	{`\bspeaks against\b|what speaks`, "evidence against", ``},
	{`\ba row an? |\ba column an? |\ba line an? `, "one row per", ``},
	{`\bwatched\b|\bgone through\b|\blooked through\b`, "reviewed", ``},
	{`check it through|\bhold a ledger against`, "check the ledger for mistakes", ``},
	{`where (nothing|none) is given|if omitted|if omitted`, "if omitted", ``},
	{`official less|less the official|official - `, "official minus calculated", ``},
	{`enters no figure|out of every figure`, "left out of every statistic", ``},
	{`\bappears twice\b|\bappears twice\b|is given a second time`, "appears twice", ``},
	{`\bline judges?\b`, "boundary judge", ``},
	{`\bhammerheads?\b`, "stall turns (hammerheads), the second word in brackets and once", `stall turns \(hammerheads\)`},
	{`\bsnap rolls?\b`, "flick (snap) rolls", ``},
	{`\bsafe\b`, "never", ``},
	{`\bcould not be known\b|\bis not to be known\b`, "is not known", ``},
}

// shownText is a text that a person may see, and where it stands.
type shownText struct{ where, text string }

// TestNoBadWords reads every golden screen, every help page, every message and
// every sentence of the program.
func TestNoBadWords(t *testing.T) {
	for _, shown := range everythingShown(t) {
		for _, bad := range badWords {
			text := shown.text
			if bad.except != "" {
				text = regexp.MustCompile(bad.except).ReplaceAllString(text, "")
			}
			for _, found := range regexp.MustCompile(`(?i)`+bad.is).FindAllString(text, 1) {
				t.Errorf("%s: %q: use %s", shown.where, found, bad.use)
			}
		}
	}
}

// TestBadWordsAreFound holds that the test can fail.
func TestBadWordsAreFound(t *testing.T) {
	for _, text := range []string{"up 4 percentage points", "65%", "90% sure", "shrunken", "it cannot tell", "8 flights with a record", "one row per flight"} {
		found := false
		for _, bad := range badWords {
			found = found || regexp.MustCompile(`(?i)`+bad.is).MatchString(text)
		}
		require.True(t, found, text)
	}
}

// everythingShown is each line of the golden screens, of the help pages and of
// what is made into messages.
func everythingShown(t *testing.T) []shownText {
	var all []shownText
	lines := func(where, text string) {
		for n, line := range strings.Split(text, "\n") {
			all = append(all, shownText{fmt.Sprintf("%s:%d", where, n+1), line})
		}
	}
	for _, pattern := range []string{"../../testdata/script/*.txtar", "../../testdata/diagnostics/*.txt", "../../data/help/*", "../../data/template.boxbook", "../../data/builtin/*", "../../README.md"} {
		paths, err := filepath.Glob(pattern)
		require.NoError(t, err)
		require.NotEmpty(t, paths, pattern)
		for _, path := range paths {
			raw, err := os.ReadFile(path)
			require.NoError(t, err)
			lines(strings.TrimPrefix(path, "../../"), string(raw))
		}
	}
	for _, cmd := range everyCommand(newRoot(&streams{})) {
		lines(cmd.CommandPath()+" --help", cmd.Short+"\n"+cmd.Long+"\n"+cmd.Example+"\n"+cmd.Flags().FlagUsagesWrapped(0))
	}
	for _, room := range []string{"../../report", "../../season/ledger", "../../cmd", "../../season/sheetimport", "../../scoring"} {
		all = append(all, literalsOf(t, room)...)
	}
	return all
}

// everyCommand is a command and all under it.
func everyCommand(cmd *cobra.Command) []*cobra.Command {
	all := []*cobra.Command{cmd}
	for _, sub := range cmd.Commands() {
		all = append(all, everyCommand(sub)...)
	}
	return all
}

// literalsOf are the texts in a room's code, tests, kits and tags of fields apart.
func literalsOf(t *testing.T, room string) []shownText {
	var all []shownText
	require.NoError(t, filepath.WalkDir(room, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") || strings.Contains(path, "testkit") {
			return err
		}
		set := token.NewFileSet()
		file, err := parser.ParseFile(set, path, nil, 0)
		if err != nil {
			return err
		}
		tags := map[*ast.BasicLit]bool{}
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.Field:
				if n.Tag != nil {
					tags[n.Tag] = true
				}
			case *ast.BasicLit:
				if text, err := strconv.Unquote(n.Value); n.Kind == token.STRING && err == nil && !tags[n] {
					all = append(all, shownText{strings.TrimPrefix(set.Position(n.Pos()).String(), "../../"), text})
				}
			}
			return true
		})
		return nil
	}))
	return all
}
