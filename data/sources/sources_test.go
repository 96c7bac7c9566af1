package sources_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/data/sources"
	"boxbook/data/sources/testkit"
)

// top is the project's folder, from this one.
const top = "../.."

// cites are the endings of the files that may cite a source. The test of marks
// itself and the package's own words are apart: they show marks that are wrong.
var cites = []string{".go", ".txt", ".boxbook", ".json"}

// citing are the files of the project that may cite, with their text.
func citing(t *testing.T) map[string]string {
	t.Helper()
	texts := map[string]string{}
	require.NoError(t, filepath.WalkDir(top, func(path string, entry fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case entry.IsDir() && (entry.Name() == ".git" || entry.Name() == "frozen"):
			return filepath.SkipDir
		case entry.IsDir() || !slices.Contains(cites, filepath.Ext(path)):
			return nil
		case filepath.Dir(path) == filepath.Join(top, "data", "sources") && !strings.HasPrefix(filepath.Base(path), "outside"):
			return nil
		}
		raw, err := os.ReadFile(path)
		texts[path] = string(raw)
		return err
	}))
	require.Greater(t, len(texts), 300)
	return texts
}

func list(t *testing.T) []sources.Source {
	t.Helper()
	list, err := sources.List()
	require.NoError(t, err)
	require.Greater(t, len(list), 40)
	return list
}

// TestSourcesAreCited: every mark in the project names sources and places that
// there are, and every source is named by one.
func TestSourcesAreCited(t *testing.T) {
	all := []sources.Mark{}
	for path, text := range citing(t) {
		marks, err := sources.Marks(text)
		require.NoError(t, err, path)
		for _, m := range marks {
			assert.NoError(t, m.Check(list(t)), path)
		}
		all = append(all, marks...)
	}
	assert.Empty(t, sources.Uncited(list(t), all), "sources, and places in them, that nobody cites")
}

// absence is a claim that something does not stand in a source.
var absence = regexp.MustCompile(`(?i)\b(asks?|says?|has|have|names?) (nothing|no word)\b|\bnothing about\b`)

// TestAbsenceNeedsTheWhole: that a thing does not stand in a source can be said only
// of one that was seen whole.
func TestAbsenceNeedsTheWhole(t *testing.T) {
	for _, s := range list(t) {
		if strings.HasPrefix(s.Seen, "whole") {
			continue
		}
		for _, p := range s.Places {
			assert.Empty(t, absence.FindString(p.Says), "%s, %s", s.Key, p.Section)
		}
	}
	assert.Regexp(t, absence, "what was seen asks nothing about moving up")
}

// loose is a source named in prose where a mark belongs, or in a word that no mark
// has.
var loose = regexp.MustCompile(`(?i)` + strings.Join([]string{
	`[^\[]published:`, `\(published\b`, `\((derived|memory)\)`,
	`\bsources?: (as|derived|practice|memory|published)\b`,
	`(?-i:: (derived|memory)\b)`, `\b(is|are)(\s+//)?\s+from memory\b`,
	`(?-i:\[(Published|Common practice|Memory|Derived|practice|arith)\b)`,
	`(?-i:// ([^\n\[]*[.:;] )?(Practice|Memory)[:.])`, `(?-i:\bDerived([:.,]|\s+(//\s+)?by\b))`,
}, "|"))

// TestSourcesStandInMarks: nothing names its source in prose alone.
func TestSourcesStandInMarks(t *testing.T) {
	for path, text := range citing(t) {
		if !strings.Contains(filepath.ToSlash(path), "/data/help/sources.txt") {
			assert.Empty(t, loose.FindAllString(text, -1), path)
		}
	}
}

// priced are the lines of a shipped definition that are a price, a floor or a
// setting.
var priced = regexp.MustCompile(`(?m)^  (?:(?:per|at|free|zero|plain|in|hard-zero|half|fill-rounding|drop-extremes) .*|(?:next|felt)\b.*|safety\b.*|category .* (?:floor|unknowns).*|(?:flights|window|threshold|share|figure-floor|floor-share|floor-flights|zeros|lows|unknowns|new-families|forecast|signoff|current) .*)$`)

// TestSourcesOfEveryValue: every price, floor and setting that ships says where
// it is from.
func TestSourcesOfEveryValue(t *testing.T) {
	values, err := sources.Values(data.Builtin())
	require.NoError(t, err)
	count := 0
	for _, name := range []string{"faults.boxbook", "ladders.boxbook", "policy.boxbook", "rules.boxbook"} {
		raw, err := fs.ReadFile(data.Builtin(), name)
		require.NoError(t, err)
		for _, line := range priced.FindAllString(string(raw), -1) {
			marks, err := sources.Marks(line)
			require.NoError(t, err)
			said, _, _ := strings.Cut(line, "#")
			parts := sources.Parts(strings.Join(strings.Fields(said), " "))
			assert.Len(t, marks, len(parts), "%s: %s", name, line)
			count += len(parts)
		}
	}
	assert.Equal(t, len(values), count)
	assert.Greater(t, count, 90)
}

// TestTablesAndShippedValuesAgree: what a check and a shipped value both have, rests
// on the same.
func TestTablesAndShippedValuesAgree(t *testing.T) {
	values, err := sources.Values(data.Builtin())
	require.NoError(t, err)
	agree := func(c testkit.Check, file, block, line string) {
		t.Helper()
		found := 0
		for _, v := range values {
			if v.File == file && strings.HasPrefix(v.Block, block) && (v.Line == line || strings.HasPrefix(v.Line, line+" ")) {
				found++
				assert.Equal(t, []any{c.Mark.Word, c.Mark.House}, []any{v.Mark.Word, v.Mark.House}, "%s, %s: %s", file, v.Block, line)
			}
		}
		assert.Positive(t, found, line)
	}
	for _, c := range testkit.Checks(t, "policy") {
		agree(c, "policy.boxbook", "policy ", c.Asked+" "+c.Want)
	}
	for _, c := range testkit.Checks(t, "ladders") {
		if ladder, category, _ := strings.Cut(c.Asked, " "); !strings.Contains(c.Want, " ") {
			agree(c, "ladders.boxbook", "ladder "+ladder, "category "+category+" floor "+c.Want)
		}
	}
	for _, c := range testkit.Checks(t, "scores") {
		if strings.HasSuffix(c.Where, ", exactly half") {
			agree(c, "rules.boxbook", "rules ", "half undecided")
		}
	}
}

// constants are the facts of the trade, and the choices about them, that stand in
// code and not in the shipped definitions.
var constants = map[string][]string{
	"scoring/style.go":                     {"DropPanel"},
	"scoring/reconcile_penalty.go":         {"penaltyStep"},
	"scoring/reconcile_judge_k.go":         {"topSlipK"},
	"season/deduction.go":                  {"mostDegrees"},
	"season/groups.go":                     {"lastRoll"},
	"season/analysis/readinessfamilies.go": {"noZeroIn"},
}

// TestSourcesOfConstants: they say where they are from too.
func TestSourcesOfConstants(t *testing.T) {
	for file, names := range constants {
		raw, err := os.ReadFile(filepath.Join(top, filepath.FromSlash(file)))
		require.NoError(t, err)
		for _, name := range names {
			above := regexp.MustCompile(`((?:\n//[^\n]*)+)\nconst ` + name + ` = `).FindStringSubmatch(string(raw))
			require.NotNil(t, above, "%s: %s", file, name)
			marks, err := sources.Marks(above[1])
			require.NoError(t, err)
			assert.Len(t, marks, 1, "%s: %s", file, name)
		}
	}
}

// TestLoose: words in prose that a mark belongs in the place of, and some that are
// none.
func TestLoose(t *testing.T) {
	for _, text := range []string{
		"// Practice: the symbols", "the principle is\n// from memory.", "The values are right. Derived by\n// hand.", "// Derived, by hand: 1", "loses 2 (derived).",
		"// Source: as grubbs.", "of all values: derived.", "of the principle: memory.", "(published by a club)", "source: practice", "[practice]",
	} {
		assert.Regexp(t, loose, text)
	}
	for _, text := range []string{"// Practice and void flights", "from the disk, from memory and", "[derived]: 1", "values [derived: r, lm]", "// derived is arithmetic", "a figure from memory"} {
		assert.NotRegexp(t, loose, text)
	}
}

// TestMarks reads marks as code, data and pages have them.
func TestMarks(t *testing.T) {
	for text, want := range map[string][]string{
		"// [published: a, 7.1.3]":                             {"published: a, 7.1.3"},
		"# half [memory] and [common practice].":               {"memory", "common practice"},
		"[derived, a house choice: a, no\n\t// line; b, p. 1]": {"derived, a house choice: a, no line; b, p. 1"},
		"{\"line 5deg\", \"1\", \"[published: a, angles]\"},":  {"published: a, angles"},
		"marks[memory] of x[derivedFrom]":                      {"memory"},
		"nothing here [at all]":                                nil,
	} {
		marks, err := sources.Marks(text)
		require.NoError(t, err, text)
		var got []string
		for _, m := range marks {
			got = append(got, m.String())
		}
		assert.Equal(t, want, got, text)
	}
	for _, text := range []string{"[published by somebody]", "[derived, mostly]", "[memory: A Title: b]", "[published: , x]", "[published:]", "[published: a, b", "[derived: a, b [memory]"} {
		_, err := sources.Marks(text)
		assert.Error(t, err, text)
	}
}

// TestParts: a floor has a mark of its own, and so has each family after the first.
func TestParts(t *testing.T) {
	assert.Equal(t, []string{"category a floor 200m", "category a unknowns new 6"}, sources.Parts("category a floor 200m unknowns new 6"))
	assert.Equal(t, []string{"category a floor 200m", "category a unknowns new 2-rolling", "category a new 9.10"}, sources.Parts("category a floor 200m unknowns new 2-rolling 9.10"))
	assert.Equal(t, []string{"category a unknowns new 2-rolling", "category a new 9.10"}, sources.Parts("category a unknowns new 2-rolling 9.10"))
	for _, line := range []string{"category a floor 200m", "category a unknowns new 6", "unknowns 2", "per 5deg 1"} {
		assert.Equal(t, []string{line}, sources.Parts(line))
	}
}

const small = "group: G\nkey: a\ntitle: T\nby: B\nedition: E\ndate: D\naddress: W\nseen: whole\nat: 7.1 | says\n"

// TestMarksAreChecked refuses what a mark must not be.
func TestMarksAreChecked(t *testing.T) {
	known, err := sources.Read(small)
	require.NoError(t, err)
	for text, want := range map[string]string{
		"[published: a, 7.1]": "",
		"[memory]":            "",
		"[derived: a, 7.1]":   "",
		"[published]":         "[published] names no source",
		"[published: b, 7.1]": `[published: b, 7.1]: no source has the key "b"`,
		"[published: a]":      "[published: a, ]: no section of a is named",
		"[memory: a, 7.2]":    `[memory: a, 7.2]: a has no place "7.2"`,
	} {
		marks, err := sources.Marks(text)
		require.NoError(t, err, text)
		require.Len(t, marks, 1)
		got := ""
		if err := marks[0].Check(known); err != nil {
			got = err.Error()
		}
		assert.Equal(t, want, got, text)
	}
	assert.Equal(t, []string{"a"}, sources.Uncited(known, nil))
	two, err := sources.Read(small + "at: 7.2 | says too\n")
	require.NoError(t, err)
	assert.Equal(t, []string{"a, 7.2"}, sources.Uncited(two, []sources.Mark{{Cites: []sources.Cite{{Key: "a", Section: "7.1"}}}}))
	assert.Empty(t, sources.Uncited(known, []sources.Mark{{Word: sources.Derived, Cites: []sources.Cite{{Key: "a", Section: "7.1"}}}}))
}

// TestReadRefuses holds the list to its form.
func TestReadRefuses(t *testing.T) {
	for text, want := range map[string]string{
		small + small:                               "source a stands twice",
		strings.Replace(small, "by: B\n", "", 1):    "source a lacks a field",
		strings.Replace(small, "group: G\n", "", 1): "source a has no group or no place",
		small + "colour: red\n":                     `sources, line 10: no field is called "colour", or it stands twice`,
		small + "by: C\n":                           `sources, line 10: no field is called "by", or it stands twice`,
		small + "at: 7.1 | again\n":                 `sources, line 10: no field is called "at", or it stands twice`,
		small + "prose\n":                           `sources, line 10: "prose" is no field`,
		"title: T\n":                                `sources, line 1: no key before "title"`,
	} {
		_, err := sources.Read(text)
		assert.EqualError(t, err, want)
	}
}
