package commands

import (
	"encoding/json"
	"html"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// cautionEnd ends the caution of every page that advises.
const cautionEnd = "The rules in force, the aircraft's manual and licensed instruction come before anything here"

// A page that advises says once what its numbers cannot, in every format, and
// each in words of its own; a page that does not advise says nothing of it.
func TestEveryPageThatAdvisesKeepsItsCautionInEveryFormat(t *testing.T) {
	formats := pageFormats()
	words := map[string]string{}
	for _, page := range []string{"faults", "drills", "plan", "forecast advanced-known-26", "ready", "season", "families", "panel"} {
		advises := page != "season" && page != "families" && page != "panel"
		for _, pilot := range []string{"ines", "tobias"} {
			for _, format := range formats {
				args := append(strings.Fields(page), "--pilot", pilot, "--format", format, "-f", "../../../../data/demo/longmere.boxbook")
				out := screenOf(t, 80, args...)
				want := 0
				if advises {
					want = 1
				}
				assert.Equal(t, want, strings.Count(strings.Join(strings.Fields(html.UnescapeString(out)), " "), cautionEnd), args)
				if format == "json" && advises {
					var document struct{ Caution string }
					require.NoError(t, json.Unmarshal([]byte(out), &document))
					assert.Contains(t, document.Caution, cautionEnd, args)
					words[page] = document.Caution
				}
			}
		}
	}
	said := map[string]string{}
	for page, caution := range words {
		assert.Empty(t, said[caution], page)
		said[caution] = page
	}
	assert.NotContains(t, words["forecast advanced-known-26"], "fault")
}

// Where no drill is set the page still has its caution.
func TestDrillsWithoutADrillKeepTheirCaution(t *testing.T) {
	for _, format := range pageFormats() {
		out := screenOf(t, 80, "drills", "--pilot", "yuki", "--format", format, "-f", "../../../../data/demo/longmere.boxbook")
		assert.Equal(t, 1, strings.Count(strings.Join(strings.Fields(html.UnescapeString(out)), " "), cautionEnd), format)
	}
}

// The home page and that of all pilots judge a step, so they say in a few words who
// decides, and in JSON all of the caution.
func TestPagesThatJudgeAStepSayWhoDecides(t *testing.T) {
	for _, page := range []string{"--pilot ines", "--pilot tobias", "--pilot yuki", "pilots"} {
		for _, format := range pageFormats() {
			args := append(strings.Fields(page), "--format", format, "-f", "../../../../data/demo/longmere.boxbook")
			flat := strings.Join(strings.Fields(html.UnescapeString(screenOf(t, 80, args...))), " ")
			switch {
			case format == "json":
				assert.Equal(t, 1, strings.Count(flat, cautionEnd), args)
			case format != "csv" || page != "pilots": // a table of pilots alone
				assert.Equal(t, 1, strings.Count(flat, "rules, manual and coach decide"), args)
			}
		}
	}
}
