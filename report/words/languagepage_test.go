package words_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/report/words"
	"boxbook/season"
	"boxbook/season/ledger"
)

// languagePage is the page on the whole of the language, with the tables that
// it was filled from.
func languagePage(t *testing.T) (string, ledger.Specification) {
	t.Helper()
	tables, err := ledger.Specify(data.Builtin())
	require.NoError(t, err)
	page, err := words.LanguagePage(data.Specification, tables)
	require.NoError(t, err)
	return page, tables
}

// hasWord reports a word of the language, not a part of another.
func hasWord(text, word string) bool {
	return regexp.MustCompile(`(^|[^a-zA-Z0-9-])` + regexp.QuoteMeta(word) + `([^a-zA-Z0-9-]|$)`).MatchString(text)
}

// Every keyword and every line of a block stands in what is written about the
// language, and not in the table alone that is made from the reader's.
func TestLanguagePageHasEveryKeyword(t *testing.T) {
	page, tables := languagePage(t)
	for _, block := range tables.Blocks {
		assert.True(t, hasWord(data.Specification, block.Keyword), block.Keyword)
		for _, key := range block.Keys {
			text := data.Specification
			if block.Keyword == "policy" {
				text = page
			}
			assert.True(t, hasWord(text, key), "%s %s", block.Keyword, key)
		}
	}
	assert.Greater(t, len(tables.Blocks), 20)
}

// Every kind of diagnostic, mark, unit, programme, penalty and group is there.
func TestLanguagePageHasEveryWord(t *testing.T) {
	page, tables := languagePage(t)
	for _, kind := range tables.Kinds {
		assert.True(t, hasWord(page, string(kind.Code)), kind.Code)
	}
	for _, list := range [][]string{tables.Programmes, tables.Penalties, tables.Marks, tables.Groups, tables.Units} {
		require.NotEmpty(t, list)
		for _, word := range list {
			assert.True(t, hasWord(page, word), word)
		}
	}
	for _, kind := range tables.Shipped.FaultKinds {
		assert.True(t, hasWord(page, kind.Name), kind.Name)
	}
	assert.NotContains(t, page, "{{")
	assert.Empty(t, regexp.MustCompile(`%[a-zA-Z#]`).FindAllString(page, -1), "places for words, shown as they are")
}

// casesOf are the names of the cases of a file of testdata/diagnostics.
func casesOf(t *testing.T, file string) string {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join("../../testdata/diagnostics", file+".txt"))
	require.NoError(t, err)
	return "\n" + string(raw)
}

var namedCases = regexp.MustCompile(`(?s)\n  \[([^\]]*)\]`)

// Every case that the page names is there to be read.
func TestLanguagePageNamesCasesThatAreThere(t *testing.T) {
	page, _ := languagePage(t)
	found := 0
	for _, group := range namedCases.FindAllStringSubmatch(page, -1) {
		for _, name := range strings.Fields(group[1]) {
			file, of, ok := strings.Cut(name, ":")
			require.True(t, ok, name)
			assert.Contains(t, casesOf(t, file), "\n=== "+of+"\n", name)
			found++
		}
	}
	assert.Greater(t, found, 500)
}

// ruled is a rule with what follows it up to its cases, or up to the next rule.
var ruled = regexp.MustCompile(`(?m)^- .*\n(?:(?:  [^\[\n].*)?\n)*(.*)`)

// Every rule names a case that holds it, what may change (section 1) apart.
func TestLanguagePageRulesNameCases(t *testing.T) {
	page, _ := languagePage(t)
	_, rules, ok := strings.Cut(page, "\n2  ")
	require.True(t, ok)
	all := ruled.FindAllStringSubmatch(rules, -1)
	assert.Greater(t, len(all), 80)
	for _, rule := range all {
		assert.True(t, strings.HasPrefix(rule[1], "  ["), rule[0])
	}
}

// examplesOf are the examples of the page, by the file that they are of.
func examplesOf(page string) ledger.Memory {
	files, name := ledger.Memory{}, ""
	for _, line := range strings.Split(page, "\n") {
		switch example, indented := strings.CutPrefix(line, "    "); {
		case line == "Example:":
			name = "longmere.boxbook"
		case strings.HasPrefix(line, "Example, the file "):
			name = strings.TrimSuffix(strings.TrimPrefix(line, "Example, the file "), ":")
		case line == "", indented:
			files[name] += example + "\n"
		default:
			name = ""
		}
	}
	delete(files, "")
	return files
}

// The examples of the page are a ledger, and one that nothing is said of.
func TestLanguagePageExamplesAreALedger(t *testing.T) {
	page, tables := languagePage(t)
	files := examplesOf(page)
	require.Len(t, files, 2)
	today, _ := season.ParseDate("2026-11-25")
	for main := range files {
		result, err := ledger.Load(ledger.Options{Files: files, Main: main, Builtin: data.Builtin(), AsOf: today})
		require.NoError(t, err)
		assert.Empty(t, result.Diagnostics, main)
		assert.Len(t, result.Ledger.Flights, 4)
	}
	for _, block := range tables.Blocks {
		assert.Regexp(t, `(?m)^`+block.Keyword+` `, strings.Join([]string{files["longmere.boxbook"], files["coach/marek.boxbook"]}, ""), "an example of every block")
	}
}

// Nothing on the page is wider than a terminal.
func TestLanguagePageFitsATerminal(t *testing.T) {
	page, _ := languagePage(t)
	for i, line := range strings.Split(page, "\n") {
		assert.LessOrEqual(t, len([]rune(line)), 80, "line %d: %s", i+1, line)
	}
}
