package commands

import (
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// freezeAnswers writes what this version answers about the frozen ledgers that
// have no answer yet; what stands there is never written again.
var freezeAnswers = flag.Bool("freeze-answers", false, "write the answers about frozen ledgers that are not there yet")

// frozenQuestions are asked about each ledger of version 1 of the language.
var frozenQuestions = []string{
	"check", "export flights", "export elements", "export faults", "export drills", "export money",
	"pilots", "panel", "year", "flight PILOT", "debrief PILOT", "season PILOT", "families PILOT", "faults PILOT", "drills PILOT", "plan PILOT", "ready PILOT",
}

const frozenAnswers = "../../../../testdata/ledgers/frozen/version1/"

// corrected are the answers of then that were wrong, by file and question: the
// fields that are left out, by their names and places, and why.
var corrected = map[string]struct {
	fields []string
	why    string
}{
	"longmere.boxbook season PILOT": {
		[]string{"trend detectable", "trends 0 detectable", "beside trend detectable", "beside trends 0 detectable"},
		"changes of 61 and 174 percentage points were sums cut short: only a rise in every pair of those flights would have shown, whatever its size",
	},
	"longmere.boxbook plan PILOT": {
		[]string{"items 0 fault", "items 0 seen", "items 0 exposed"},
		"what comes back there was what comes back most in all families, a long line for loops",
	},
	"longmere.boxbook faults PILOT": {
		[]string{"kinds"},
		"a kind that can show on one element alone of its figure was counted as of no family",
	},
	"longmere.boxbook ready PILOT": {
		[]string{"gates 4 numbers zeroRisk"},
		"a judge's zero that was dropped as the lowest mark was taken for one that counts",
	},
	"language-tour.boxbook plan PILOT": {[]string{"why"}, ofTwoYears},
	"version-1.boxbook plan PILOT":     {[]string{"why"}, ofTwoYears},
	"longmere.boxbook panel":           {giveOrTake(11), ownScatter},
	"language-tour.boxbook panel":      {giveOrTake(10), ownScatter},
	"version-1.boxbook panel":          {giveOrTake(3), ownScatter},
	"check-values.boxbook panel":       {append(giveOrTake(38), apart(2, 5, 8, 11, 14, 17)...), ownScatter},
}

// ofTwoYears is why a plan that is lacking says other words now.
const ofTwoYears = "it is of the flights of two years, and was said as if of all"

// ownScatter is why the give or take of a leniency is another now.
const ownScatter = "one scatter was taken for all judges, so that a scattered one stood apart by chance in a season of four"

// apart are the judges who stood apart in an answer.
func apart(judges ...int) []string {
	var fields []string
	for _, i := range judges {
		fields = append(fields, fmt.Sprintf("judges %d apart", i))
	}
	return fields
}

// giveOrTake are the standard errors of so many judges in an answer.
func giveOrTake(judges int) []string {
	var fields []string
	for i := range judges {
		fields = append(fields, fmt.Sprintf("judges %d se", i))
	}
	return fields
}

// takeOut takes a field out of an answer, by names and places, and gives its value.
func takeOut(answer any, path ...string) any {
	switch answer := answer.(type) {
	case map[string]any:
		if len(path) == 1 {
			value := answer[path[0]]
			delete(answer, path[0])
			return value
		}
		return takeOut(answer[path[0]], path[1:]...)
	case []any:
		at, err := strconv.Atoi(path[0])
		if err != nil || at >= len(answer) {
			return nil
		}
		return takeOut(answer[at], path[1:]...)
	}
	return nil
}

// TestFrozenAnswers holds every later version to what version 1 answered about
// its ledgers: diagnostics with their codes and places, scores, and the JSON of
// each question. A field of then is there now, and equal to 1e-9; new ones may
// stand beside it.
func TestFrozenAnswers(t *testing.T) {
	t.Parallel()
	ledgers, err := filepath.Glob(frozenAnswers + "*.boxbook")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(ledgers), 3)
	for _, path := range ledgers {
		pilot := "ines"
		for _, question := range frozenQuestions {
			words := strings.Fields(strings.ReplaceAll(question, "PILOT", pilot))
			goal := strings.TrimSuffix(path, ".boxbook") + "." + strings.ReplaceAll(strings.TrimSuffix(question, " PILOT"), " ", "-") + ".json"
			printed, said, code := process{}.run(t, append(words, "--format", "json", "-f", path, "--asof", "2026-11-25")...)
			now := map[string]any{"code": float64(code), "said": strings.ReplaceAll(said, filepath.Dir(path)+"/", "")}
			if printed != "" {
				var answer any
				require.NoError(t, json.Unmarshal([]byte(strings.ReplaceAll(printed, filepath.Dir(path)+"/", "")), &answer))
				now["answer"] = answer
			}
			raw, err := os.ReadFile(goal)
			if os.IsNotExist(err) && *freezeAnswers {
				raw, err = json.Marshal(now)
				require.NoError(t, err)
				require.NoError(t, os.WriteFile(goal, append(raw, '\n'), 0o644))
			}
			require.NoError(t, err)
			var then map[string]any
			require.NoError(t, json.Unmarshal(raw, &then))
			delete(then, "said") // words may become better
			for _, field := range corrected[filepath.Base(path)+" "+question].fields {
				path := append([]string{"answer"}, strings.Fields(field)...)
				require.NotEmpty(t, lost(takeOut(then, path...), takeOut(now, path...)), "%s is as it was", field)
			}
			require.Empty(t, lost(then, now), "%s of %s", question, filepath.Base(path))
		}
	}
}

// sayings are the fields with sentences, which may become better.
var sayings = map[string]bool{
	"message": true, "hint": true, "says": true, "caution": true, "words": true, "text": true, "note": true, "version": true, "fixes": true,
	"agenda": true, "against": true, "brief": true, "evidence": true, "asked": true, "wants": true, "needs": true, "lacks": true, "shown": true,
}

// lost gives the first thing of an old answer that a new one lacks or changes.
func lost(then, now any) string {
	switch then := then.(type) {
	case map[string]any:
		fields, ok := now.(map[string]any)
		if !ok {
			return "no object any more"
		}
		for name, value := range then {
			if found := lost(value, fields[name]); found != "" && !sayings[name] {
				return name + ": " + found
			}
		}
	case []any:
		items, ok := now.([]any)
		if !ok || len(items) != len(then) {
			return fmt.Sprintf("%d items, now %d", len(then), len(items))
		}
		for i := range then {
			if found := lost(then[i], items[i]); found != "" {
				return fmt.Sprintf("%d: %s", i, found)
			}
		}
	case float64:
		number, ok := now.(float64)
		if !ok || math.Abs(number-then) > 1e-9*max(1, math.Abs(then)) {
			return fmt.Sprintf("%v, now %v", then, now)
		}
	default:
		if then != now {
			return fmt.Sprintf("%v, now %v", then, now)
		}
	}
	return ""
}

// TestLost holds the comparison to its work.
func TestLost(t *testing.T) {
	then := map[string]any{"a": 1., "b": []any{"x"}, "c": nil}
	require.Empty(t, lost(then, map[string]any{"a": 1 + 1e-12, "b": []any{"x"}, "c": nil, "new": true}))
	for _, now := range []any{
		nil, map[string]any{"a": 1.1, "b": []any{"x"}}, map[string]any{"b": []any{"x"}}, map[string]any{"a": 1., "b": []any{}}, map[string]any{"a": 1., "b": []any{"y"}},
	} {
		require.NotEmpty(t, lost(then, now))
	}
}
