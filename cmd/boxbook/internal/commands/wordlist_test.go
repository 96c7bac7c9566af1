package commands

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/require"
)

// badWord is a word that no screen uses, and what stands in its place. The list
// with its reasons is in DEVELOPERS.md; it is of style alone.
type badWord struct {
	near   string // what is looked for first: texts with a stroke between them, one of which each match has
	is     string // a pattern of small letters, which capitals match too
	use    string
	except string // a pattern of what may stand all the same
}

var badWords = []badWord{
	{"percent point", `percent points?`, "percentage points", ``},
	{" %", `\d %( |$|[.,;:)])`, "65% without a space", ``},
	{"sure", `% sure\b|how sure it is`, "at 90% confidence", ``},
	{"shrun|shrink", `\bshrunken\b|\bshrinkage\b`, "adjusted", `"shrunken"|\{shrunken\}|^shrunken$`},
	{"cannot be told", `cannot be told\b`, "cannot tell, or cannot be told apart", `cannot be told apart`},
	{"record", `with a record\b|\bthe record (is|was|counts)|\b(percent|points) of the record`, "counted result", ``},
	{"speaks against", `what speaks against|^speaks against`, "evidence against", ``},
	{"a row a|a column a|a line a", `\b(a row|a column|a line) an? (flight|figure|family|pilot|judge|fault|mark|kind|drill|gate|posting|thing)\b`, "one row per flight", ``},
	{"watched|gone through|went through|look", `\bwatched\b|\bgone through\b|\bwent through\b|\blooked through\b|look through the video`, "reviewed", ``},
	{"check it|hold a|what is wrong", `check it through|hold a ledger against|what is wrong with the ledger`, "check the ledger for mistakes", ``},
	{"given|left out", `where (nothing|none) is given|if left out\b|where it is left out\b`, "if omitted", ``},
	{"less", `official (total )?less|less the official|points less theirs|given less|expected less`, "official minus calculated", ``},
	{"enter|out of every", `enters? no figure|out of every figure`, "left out of every statistic", ``},
	{"twice|second time", `(stands|is there) twice|is given a second time`, "appears twice", ``},
	{"line judge", `\bline judges?\b`, "boundary judge", ``},
	{"hammerhead", `\bhammerheads?\b`, "stall turns, both words only on the page of family keys", `stall turns \(hammerheads\)|^hammerheads$`},
	{"snap roll", `\bsnap rolls?\b`, "flick rolls, both words only on the page of family keys", `\((positive|negative) snap rolls\)|^(positive|negative) snap rolls$`},
	{"asked", `\b(these|what|who|values?|gates?) (are|is) asked\b|; asked:|not asked by this policy`, "needed", ``},
	{"safe", `\bsafe\b`, "no such word: nothing here can know it", ``},
	{"known", `\bcould not be known\b|\bis not to be known\b`, "is not known", ``},
	{"dearest", `\bdearest\b`, "the one that costs most", ``},
	{"what speaks", `what speaks`, "the evidence against", ``},
	{"worked out", `worked out (by|from|without)`, "calculated", ``},
	{"much k|no measure", `carries much K|no measure of (it|each other)`, "carries a lot of K; cannot be compared", ``},
	{"drawn towards", `\bdrawn towards (0|the)`, "moved towards", ``},
	{"at the ", `at the (least|most)\b`, "at least, at most", ``},
	{"a flight", `points a flight\b|lost a flight\b|faults a flight\b`, "per flight", ``},
	{"points", `\b(change|drift|gain|gap)s?\b[^.;]* \d+ points\b`, "percentage points", ``},
	{"by chance", `by about (%s|[\d.]+) by chance`, "percentage points by chance", ``},
	{"not yet told", `not yet told`, "cannot tell", ``},
	{"missing to move up", `missing to move up`, "not met to move up: a low penalty is nothing to obtain", ``},
	{"not judged: the", `not judged: the`, "left out of the verdict", ``},
	{"none open on", `none open on`, "have no open drill", ``},
	{"the own", `\bthe own total is\b|above the own\b`, "the calculated total, the flight's own", ``},
	{"beside", `flights beside the|\b(money|persons) beside\b|of its own beside\b|and more beside\b`, "besides, where it adds and does not compare", ``},
	{"their trend", `points by their trend`, "by the trend of these flights", ``},
	{"season in|once in|at least", `\b(one season|once) in [1-9]\b|at least [1-9] flights at \d`, "numbers up to ten in words", ``},
	{"in about", `in about \d+ seasons`, "about one season in seven", ``},
	{"with a score", `flights? with a score`, "a counted result", ``},
	{"had any", `flights? had any`, "had one", ``},
	{"wide because", `wide because of that`, "wider because of that", ``},
	{"omitted, the", `is omitted, the`, "if omitted, it is the", ``},
	{"next points are", `where the next points are`, "where practice pays", ``},
	{" in ", `(graded the pilot|grades given) in (\S+ )?(primary|sportsman|intermediate|advanced|unlimited)\b|(graded the pilot|grades given) in (%s|$)`, "at a category", ``},
	{"of figures", `at most (%s|\d+%) of figures`, "up to so many not ruled out", ``},
}

// badPattern is a bad word made ready to look for.
type badPattern struct {
	badWord
	near       []string
	is, except *regexp.Regexp
}

// badPatterns are the bad words, each compiled once.
func badPatterns() []badPattern {
	all := make([]badPattern, len(badWords))
	for i, bad := range badWords {
		all[i] = badPattern{badWord: bad, near: strings.Split(bad.near, "|"), is: regexp.MustCompile(bad.is)}
		if bad.except != "" {
			all[i].except = regexp.MustCompile(bad.except)
		}
	}
	return all
}

// in is the first such word in a text, "" where there is none.
func (p badPattern) in(text string) string {
	text = strings.ToLower(text)
	if !slices.ContainsFunc(p.near, func(near string) bool { return strings.Contains(text, near) }) {
		return ""
	}
	found := p.is.FindString(text)
	if found != "" && p.except != nil {
		found = p.is.FindString(p.except.ReplaceAllString(text, ""))
	}
	return found
}

// shownText is a text that a person may see, and where it stands.
type shownText struct{ where, text string }

// TestNoBadWords reads every golden screen, every help page, every message and
// every sentence of the program.
func TestNoBadWords(t *testing.T) {
	patterns, seen := badPatterns(), map[string]bool{}
	for _, shown := range everythingShown(t) {
		if seen[shown.text] {
			continue
		}
		seen[shown.text] = true
		for _, bad := range patterns {
			if found := bad.in(shown.text); found != "" {
				t.Errorf("%s: %q: use %s", shown.where, found, bad.use)
			}
		}
	}
}

// TestBadWordsAreFound holds that the test can fail, and that the words in their
// place pass.
func TestBadWordsAreFound(t *testing.T) {
	patterns := badPatterns()
	found := func(text string) bool {
		return slices.ContainsFunc(patterns, func(p badPattern) bool { return p.in(text) != "" })
	}
	for _, text := range []string{
		"up 4 percent points", "65 % of flights", "90% sure", "the shrunken percent", "it cannot be told", "8 flights with a record", "a row a flight",
		"flights watched", "own points less theirs", "enters no figure", "stands twice", "line judge", "hammerheads first", "snap rolls", "the dearest fault",
		"by about 1.2 by chance", "not yet told: level", "the own total is that of the sheets to hand", "4 practice flights beside the contest flights", "one season in 5",
		"at least 4 flights at 3 contests", "no panel has graded the pilot in advanced", "2 of 15 flights had any",
	} {
		require.True(t, found(text), text)
	}
	for _, text := range []string{
		"up 4 percentage points", "65% of flights", "at 90% confidence", "adjusted", "cannot tell", "cannot be told apart", "8 counted results",
		"one row per flight", "flights reviewed", "official minus calculated", "appears twice", "stall turns (hammerheads)",
		"by about 1.2 percentage points by chance", "the official total beside the marks", "one season in 50", "graded the pilot at advanced",
	} {
		require.False(t, found(text), text)
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
	for _, pattern := range []string{"../../../../testdata/script/*.txtar", "../../../../testdata/diagnostics/*.txt", "../../../../data/help/*", "../../../../data/template.boxbook", "../../../../data/builtin/*", "../../../../data/sources/*.txt", "../../../../README.md"} {
		paths, err := filepath.Glob(pattern)
		require.NoError(t, err)
		require.NotEmpty(t, paths, pattern)
		for _, path := range paths {
			raw, err := os.ReadFile(path)
			require.NoError(t, err)
			lines(strings.TrimPrefix(path, "../../../../"), string(raw))
		}
	}
	for _, cmd := range everyCommand(newRoot(&streams{})) {
		lines(cmd.CommandPath()+" --help", cmd.Short+"\n"+cmd.Long+"\n"+cmd.Example+"\n"+cmd.Flags().FlagUsagesWrapped(0))
	}
	for _, room := range []string{"../../../../report", "../../../../season/ledger", "../../../../cmd", "../../../../season/sheetimport", "../../../../scoring"} {
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
					all = append(all, shownText{strings.TrimPrefix(set.Position(n.Pos()).String(), "../../../../"), text})
				}
			}
			return true
		})
		return nil
	}))
	return all
}
