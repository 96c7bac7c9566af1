package commands

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"math/big"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode"
	"unicode/utf8"

	"boxbook/data"
	"boxbook/season"
	"boxbook/season/ledger"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// screen is one reading command and whether it must end with a caution.
type screen struct {
	args    []string
	caution string
}

// The beginnings of the cautions at the foot of every page that advises.
const (
	faultsFoot   = "A count of faults says nothing about height,"
	drillsFoot   = "The outcome of a drill says nothing about height,"
	planFoot     = "A list of what to practise says nothing about height,"
	forecastFoot = "A forecast of scores says nothing about height,"
	practiceFoot = "Fault counts and the outcome of drills say nothing about height,"
	debriefFoot  = "Grades and noted faults say nothing about height,"
	readyFoot    = "Scores and fault counts say nothing about height,"
)

// screensOf lists every reading command of a ledger, for every pilot, flight
// and year in it; a forecast of its last sequence.
func screensOf(l *season.Ledger) []screen {
	screens := []screen{{[]string{"panel"}, ""}, {[]string{"drills"}, drillsFoot}, {[]string{"pilots"}, ""}}
	years := map[int]bool{}
	for _, f := range l.Flights {
		screens = append(screens, screen{[]string{"flight", f.Name}, ""}, screen{[]string{"flight", f.Name, "--all"}, ""})
		if f.HasMarks() {
			screens = append(screens, screen{[]string{"whatif", f.Name, fmt.Sprintf("%d=7.5", f.Flown()[0]+1), "no-penalty", "--reach", "80"}, ""})
		}
		screens = append(screens, screen{[]string{"debrief", f.Name}, debriefFoot})
		if f.Sequence != nil {
			screens = append(screens, screen{[]string{"debrief", f.Name, "--blank"}, debriefFoot})
		}
		years[f.Date.Year()] = true
	}
	if len(l.Flights) > 0 {
		screens = append(screens, screen{[]string{"flight", l.Flights[0].Name, "--rules"}, ""})
	}
	for _, year := range slices.Sorted(maps.Keys(years)) {
		screens = append(screens, screen{[]string{"year", fmt.Sprint(year)}, ""}, screen{[]string{"panel", "--season", fmt.Sprint(year)}, ""})
	}
	for _, p := range l.Parties() {
		screens = append(screens, screen{[]string{"statement", p.Name()}, ""}, screen{[]string{"statement", p.Name(), "2025"}, ""})
	}
	screens = append(screens, screen{[]string{"statement", "all", "--fewest"}, ""})
	for _, p := range l.Flyers(season.Selection{}) {
		for _, s := range []screen{
			{[]string{}, ""},
			{[]string{"season"}, ""},
			{[]string{"season", "--season", "2025"}, ""},
			{[]string{"season", "--all"}, ""},
			{[]string{"families"}, ""},
			{[]string{"families", "--all"}, ""},
			{[]string{"panel"}, ""},
			{[]string{"panel", "--all"}, ""},
			{[]string{"faults"}, faultsFoot},
			{[]string{"drills"}, drillsFoot},
			{[]string{"plan"}, planFoot},
			{[]string{"plan", "--all"}, planFoot},
			{[]string{"ready"}, readyFoot},
			{[]string{"ready", "--to", "unlimited"}, readyFoot},
			{[]string{"ready", "--all"}, readyFoot},
			{[]string{"season", "--since", "2020-01-01"}, ""},
		} {
			screens = append(screens, screen{append(slices.Clone(s.args), "--pilot", p.Handle), s.caution})
		}
		for _, f := range l.Select(season.Selection{Pilot: p})[:1] {
			if f.Sequence != nil {
				screens = append(screens, screen{[]string{"families", p.Handle, f.Sequence.Handle + "/1"}, practiceFoot})
			}
		}
		last := l.Sequences[len(l.Sequences)-1].Handle
		screens = append(screens, screen{[]string{"forecast", last, "--pilot", p.Handle}, forecastFoot})
	}
	return screens
}

// screenOf is what a command prints at a width, as it stands in a pipe. The ledger and
// the day that -f and --asof give come by $BOXBOOK_LEDGER and the clock: what a page
// may take is meant without the flags, which its printed commands would repeat.
func screenOf(t testing.TB, width int, args ...string) string {
	t.Helper()
	var out, complaint bytes.Buffer
	s := readmeStreams(&out)
	s.err, s.width = &complaint, width
	given := func(flag string) string {
		at := slices.Index(args, flag)
		if at < 0 {
			return ""
		}
		value := args[at+1]
		args = slices.Concat(args[:at], args[at+2:])
		return value
	}
	if path := given("-f"); path != "" {
		s.env = func(name string) string { return map[string]string{"BOXBOOK_LEDGER": path}[name] }
	}
	if day, err := time.Parse(time.DateOnly, given("--asof")); err == nil {
		s.now = func() time.Time { return day }
	}
	require.Equal(t, exitDone, run(args, s), "%v: %s", args, complaint.String())
	require.Empty(t, complaint.String(), args)
	return out.String()
}

var (
	notNumbers = []string{"NaN", "Inf", "%!", "<nil>", "\x1b"}
	// "safety" is a term of the trade; "safe" would be a judgement.
	safeWord = regexp.MustCompile(`(?i)\b(un)?safe(ly|r|st)?\b`)
)

// TestScreens runs every reading command on the sample ledgers and the demo, at
// 80 and 140 columns and as JSON.
func TestScreens(t *testing.T) {
	t.Parallel()
	for _, path := range []string{
		"../../../../testdata/ledgers/language-tour.boxbook", "../../../../testdata/ledgers/check-values.boxbook",
		"../../../../testdata/ledgers/glider-silver.boxbook", "../../../../data/demo/longmere.boxbook",
	} {
		t.Run(strings.TrimSuffix(filepath.Base(path), ledgerSuffix), func(t *testing.T) {
			today, _ := season.ParseDate("2026-11-25")
			result, err := ledger.Load(ledger.Options{Files: ledger.Disk{}, Main: path, Builtin: data.Builtin(), AsOf: today})
			if err != nil || result.Diagnostics.Err() != nil {
				t.Skipf("%s does not load", path)
			}
			for _, s := range screensOf(result.Ledger) {
				holdScreen(t, s, append(slices.Clone(s.args), "-f", path))
			}
		})
	}
}

func holdScreen(t *testing.T, s screen, args []string) {
	t.Helper()
	raw := screenOf(t, 80, append(slices.Clone(args), "--format", "json")...)
	known := knownNumbers(t, raw)
	for _, width := range []int{80, 140} {
		text := screenOf(t, width, args...)
		for _, out := range []string{text, raw} {
			for _, bad := range notNumbers {
				assert.NotContains(t, out, bad, s.args)
			}
			assert.NotRegexp(t, safeWord, out, s.args)
		}
		for _, line := range strings.Split(text, "\n") {
			assert.LessOrEqual(t, utf8.RuneCountInString(line), width, "%v at %d: %s", s.args, width, line)
			for _, number := range decimalsOf(line) {
				assert.True(t, known.has(number, line), "%v: %s is the rounding of no number of the JSON, in:\n%s", s.args, number, line)
			}
		}
		holdHead(t, s.args, text, raw)
		holdCaution(t, s, strings.Join(strings.Fields(text), " "))
	}
}

// holdHead holds a page to saying what was chosen, as of when, by which version,
// in text and in JSON alike.
func holdHead(t *testing.T, args []string, text, raw string) {
	t.Helper()
	var page struct {
		Boxbook struct {
			Version, AsOf, Ledger string
			Selection             map[string]any
		}
	}
	require.NoError(t, json.Unmarshal([]byte(raw), &page))
	head := page.Boxbook
	assert.Equal(t, data.Version(), head.Version, args)
	assert.Equal(t, "2026-11-25", head.AsOf, args)
	assert.True(t, strings.HasSuffix(head.Ledger, ledgerSuffix), args)
	flat := strings.Join(strings.Fields(text), " ")
	assert.Contains(t, flat, "boxbook "+head.Version+", as of "+head.AsOf, args)
	for key, value := range head.Selection {
		if key != "pilot" && key != "contest" && key != "party" { // which people know by their names
			assert.Contains(t, flat[:strings.Index(flat, "boxbook "+head.Version)], fmt.Sprint(value), args)
		}
	}
}

func holdCaution(t *testing.T, s screen, text string) {
	t.Helper()
	for _, caution := range []string{faultsFoot, drillsFoot, planFoot, forecastFoot, readyFoot} {
		want := 0
		if s.caution == caution {
			want = 1
			assert.Regexp(t, regexp.QuoteMeta(caution)+`[^.]*\.[^.]*\.[^.]*before anything here\.$`, text, s.args)
		}
		assert.Equal(t, want, strings.Count(text, caution), "%v: %s", s.args, caution)
	}
}

// decimalsOf lists the numbers with decimals of a line, thousands not set off: dates, catalogue
// numbers of three parts and more, and amounts with a unit are none.
func decimalsOf(line string) []string {
	var found []string
	line = groupedThousands.ReplaceAllStringFunc(line, func(n string) string { return strings.ReplaceAll(n, ",", "") })
	for _, at := range runOfDigits.FindAllStringIndex(line, -1) {
		token := strings.TrimRight(line[at[0]:at[1]], ".")
		after, _ := utf8.DecodeRuneInString(line[at[0]+len(token):])
		before, _ := utf8.DecodeLastRuneInString(line[:at[0]])
		if strings.Count(token, ".") == 1 && !isLetter(before) && !isLetter(after) && after != '…' {
			found = append(found, token)
		}
	}
	return found
}

var (
	runOfDigits      = regexp.MustCompile(`[0-9][0-9.]*`)
	groupedThousands = regexp.MustCompile(`\b[0-9]{1,3}(,[0-9]{3})+\b`)
)

func isLetter(r rune) bool { return unicode.IsLetter(r) }

// numbers are what a page's JSON knows: every number, every number inside a
// text, and the few sums and differences that a page of a flight makes for people.
type numbers struct {
	values []float64
	texts  string
	// shown are the values' sizes as printed, by decimals.
	shown map[int]map[string]bool
}

// has reports whether a number as printed is the rounding of one that is
// known, its sign apart. Words that explain name limits and half points; they
// stand in notes.
func (n numbers) has(printed, line string) bool {
	_, fraction, _ := strings.Cut(printed, ".")
	if n.shown[len(fraction)] == nil {
		n.shown[len(fraction)] = map[string]bool{}
		for _, v := range n.values {
			n.shown[len(fraction)][rounded(math.Abs(v), len(fraction))] = true
		}
	}
	if n.shown[len(fraction)][printed] {
		return true
	}
	if regexp.MustCompile(`(^|[^0-9.])` + regexp.QuoteMeta(printed) + `($|[^0-9.]|\.($|[^0-9]))`).MatchString(n.texts) {
		return true
	}
	return slices.Contains([]string{"0.0", "0.1", "0.5", "0.10"}, printed) && !strings.Contains(line, "  ")
}

// rounded is half away from zero, from the shortest decimal form.
func rounded(v float64, decimals int) string {
	exact, _ := new(big.Rat).SetString(fmt.Sprint(v))
	return exact.FloatString(decimals)
}

func knownNumbers(t *testing.T, raw string) numbers {
	t.Helper()
	var tree map[string]any
	require.NoError(t, json.Unmarshal([]byte(raw), &tree))
	n := numbers{shown: map[int]map[string]bool{}}
	n.walk("", tree)
	n.lost(tree)
	n.expected(tree)
	return n
}

func (n *numbers) walk(key string, node any) {
	switch v := node.(type) {
	case float64:
		n.values = append(n.values, v)
		if key == "share" {
			n.values = append(n.values, 100*v) // shown in percent
		}
		if key == "tau2" || key == "tau2Figure" {
			n.values = append(n.values, math.Sqrt(v)) // shown as a standard deviation
		}
	case string:
		n.texts += v + "\n"
	case []any:
		for _, item := range v {
			n.walk(key, item)
		}
	case map[string]any:
		if mean, ok := v["mean"].(float64); ok && key == "reach" {
			n.values = append(n.values, math.Ceil(mean*100-1e-9)/100) // what it takes is rounded up
		}
		for k, item := range v {
			n.walk(k, item)
		}
	}
}

// lost adds the rows "n more" of where the points went: what is left of the
// total after the five greatest, and its share.
func (n *numbers) lost(tree map[string]any) {
	lost, ok := tree["lost"].(map[string]any)
	if !ok {
		return
	}
	total := lost["total"].(float64)
	if total == 0 {
		return
	}
	for _, list := range []string{"figures", "elements", "groups"} {
		parts := []float64{}
		for _, item := range lost[list].([]any) {
			parts = append(parts, item.(map[string]any)["lost"].(float64))
		}
		for _, weighted := range []string{"positioning", "harmony"} {
			if part, ok := lost[weighted].(map[string]any); ok {
				parts = append(parts, part["lost"].(float64))
			}
		}
		slices.Sort(parts)
		rest := 0.0
		for _, part := range parts[:max(0, len(parts)-5)] {
			rest += part
		}
		n.values = append(n.values, rest, 100*rest/total)
	}
	n.values = append(n.values, 100) // the foot of the table: all of it
	rest := restOfFigures(tree, lost)
	n.values = append(n.values, rest, 100*rest/total)
}

// restOfFigures is the row "n more" of the losses beside the faults: what was lost
// on the lines that are neither among the three that lost most nor have a fault.
func restOfFigures(tree, lost map[string]any) float64 {
	noted := map[float64]bool{}
	for _, item := range tree["faults"].([]any) {
		figure, _ := item.(map[string]any)["figure"].(float64)
		noted[figure] = true
	}
	type part struct{ figure, lost float64 }
	parts := []part{}
	for _, item := range lost["figures"].([]any) {
		figure := item.(map[string]any)
		parts = append(parts, part{figure["number"].(float64), figure["lost"].(float64)})
	}
	for _, weighted := range []string{"positioning", "harmony"} {
		if line, ok := lost[weighted].(map[string]any); ok {
			parts = append(parts, part{-1, line["lost"].(float64)})
		}
	}
	slices.SortStableFunc(parts, func(a, b part) int { return cmp.Compare(b.lost, a.lost) })
	rest := 0.0
	for _, p := range parts[min(3, len(parts)):] {
		if !noted[p.figure] {
			rest += p.lost
		}
	}
	return rest
}

// expected adds expected minus given, by figure and on average.
func (n *numbers) expected(tree map[string]any) {
	sum, count := 0.0, 0.0
	list, _ := tree["expected"].([]any)
	for _, item := range list {
		figure := item.(map[string]any)
		if given, ok := figure["given"].(float64); ok {
			difference := math.Round(1e9*(figure["expected"].(float64)-given)) / 1e9
			n.values = append(n.values, difference)
			sum, count = sum+difference, count+1
		}
	}
	if count > 0 {
		n.values = append(n.values, math.Round(1e9*sum/count)/1e9)
	}
}
