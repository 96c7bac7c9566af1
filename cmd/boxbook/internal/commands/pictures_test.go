package commands

import (
	"encoding/json"
	"html"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// readBack are the numbers of a page's pictures: the data attributes of every
// group that has the first of those named.
func readBack(page string, names ...string) [][]string {
	var rows [][]string
	for _, group := range regexp.MustCompile(`<g [^>]*data-`+names[0]+`="[^>]*>`).FindAllString(page, -1) {
		row := make([]string, len(names))
		for i, name := range names {
			if found := regexp.MustCompile(`data-` + name + `="([^"]*)"`).FindStringSubmatch(group); found != nil {
				row[i] = html.UnescapeString(found[1])
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// dataOf is a page's JSON, its numbers as they are written there.
func dataOf(t *testing.T, args ...string) map[string]any {
	t.Helper()
	decoder := json.NewDecoder(strings.NewReader(screenOf(t, 80, append(args, "--format", "json")...)))
	decoder.UseNumber()
	var data map[string]any
	require.NoError(t, decoder.Decode(&data))
	return data
}

// listed are fields of the rows of a list that fit, "" where one has none.
func listed(rows any, fits func(row map[string]any) bool, names ...string) [][]string {
	var out [][]string
	for _, r := range rows.([]any) {
		fields := r.(map[string]any)
		if !fits(fields) {
			continue
		}
		row := make([]string, len(names))
		for i, name := range names {
			switch v := fields[name].(type) {
			case json.Number:
				row[i] = v.String()
			case string:
				row[i] = v
			}
		}
		out = append(out, row)
	}
	return out
}

// Every number that a picture shows is the JSON's.
func TestPicturesShowTheNumbersOfTheJSON(t *testing.T) {
	page := func(args ...string) string { return screenOf(t, 80, append(args, "--format", "html")...) }
	all := func(map[string]any) bool { return true }
	ask := func(text string) []string {
		return append(strings.Fields(text), "-f", "../../../../data/demo/longmere.boxbook")
	}

	args := ask("season ines")
	flights := listed(dataOf(t, args...)["flights"], func(f map[string]any) bool { return f["enters"] == true }, "flight", "date", "programme", "percent", "noise")
	require.Len(t, flights, 8)
	assert.Equal(t, flights, readBack(page(args...), "flight", "date", "programme", "percent", "noise"))

	args = ask("families ines")
	families := dataOf(t, args...)
	groups := listed(families["groups"], all, "group", "shrunken", "low", "high")
	require.NotEmpty(t, groups)
	assert.Equal(t, groups, readBack(page(args...), "group", "level", "low", "high"))
	assert.Equal(t, [][]string{{families["percent"].(json.Number).String()}}, readBack(page(args...), "mean"))

	args = ask("faults ines")
	kinds := listed(dataOf(t, args...)["kinds"], all, "kind", "group", "points")
	drawn := readBack(page(args...), "kind", "group", "points")
	require.Len(t, drawn, 8)
	assert.Equal(t, kinds[:8], drawn)

	args = ask("drills ines")
	var sides [][]string // before and after, a drill after the other
	for _, d := range dataOf(t, args...)["drills"].([]any) {
		for _, side := range []string{"before", "after"} {
			s := d.(map[string]any)[side].(map[string]any)
			sides = append(sides, []string{s["seen"].(json.Number).String(), s["flights"].(json.Number).String()})
		}
	}
	drills := func(sides [][]string) [][][]string { return slices.Collect(slices.Chunk(sides, 2)) }
	assert.ElementsMatch(t, drills(sides), drills(readBack(page(args...), "seen", "flights")), "the picture has open ones first")

	args = ask("flight 2026-09-12/ines/known")
	losses := dataOf(t, args...)["lost"].(map[string]any)
	lost := listed(losses["figures"], all, "number", "lost")
	lost = append(lost, []string{"", losses["positioning"].(map[string]any)["lost"].(json.Number).String()})
	assert.ElementsMatch(t, lost, readBack(page(args...), "figure", "lost"))
}

// A picture has a title and a sentence for who does not see it.
func TestPicturesSayTheirFinding(t *testing.T) {
	for _, name := range htmlPages {
		page := screenOf(t, 80, append(strings.Fields(name), "-f", "../../../../data/demo/longmere.boxbook", "--format", "html")...)
		for _, picture := range regexp.MustCompile(`(?s)<svg class="picture".*?</desc>`).FindAllString(page, -1) {
			assert.Regexp(t, `role="img" aria-labelledby="(p\d+)t p\d+d".*<title id="p\d+t">\w[^<]+</title><desc id="p\d+d">[^<]{20,}\.</desc>`, picture, name)
		}
	}
}
