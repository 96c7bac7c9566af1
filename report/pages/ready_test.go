package pages

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season"
	"boxbook/season/analysis/code"
)

func readyPage(t testing.TB, book, to string) (string, answers.Ready) {
	t.Helper()
	l := faultBook(t, book)
	policy := l.PolicyNamed(season.HousePolicy)
	require.NotNil(t, policy)
	doc := Ready(answers.ReadyOf(l, l.Pilots[0], policy, nil, to), ReadyOptions{All: true})
	return oneLine(textOf(t, doc)), doc.Data.(answers.Ready)
}

// The verdict, the gates with their evidence, what would change it, the floor
// with what it rests on, the caution.
func TestReadyPage(t *testing.T) {
	text, d := readyPage(t, familyHead+flownRows(sixRows...), "")
	assert.Contains(t, text, "Readiness for intermediate policy move-up; its values are in no rule book")
	assert.Equal(t, "us", d.Ladder)
	assert.Equal(t, code.NotYet, d.Verdict)
	assert.Contains(t, text, "Not yet. Missing: a coach's sign-off; ")
	for _, g := range d.Gates {
		assert.Contains(t, text, words.GateTitle(g.Gate)+" "+string(g.State)+": "+g.Evidence+"; needed: "+g.Asked)
		assert.NotEmpty(t, g.Asked, g.Gate)
		if g.Needs != "" {
			assert.Contains(t, text, "- "+words.GateTitle(g.Gate)+": "+g.Needs)
		}
	}
	assert.Contains(t, text, "floor of intermediate in ladder us: 1200 ft; figures from published pages of various years, the rules in force decide")
	assert.True(t, strings.HasSuffix(text, words.ReadyCaution))
	require.NotEmpty(t, d.Against)
	_, against, _ := strings.Cut(text, "Evidence against")
	against, _, found := strings.Cut(against, "What would change it")
	require.True(t, found)
	for _, line := range d.Against {
		assert.Contains(t, against, "- "+line)
	}
}

// As csv a gate is a row, also one that is met and has nothing to say: the page for
// people tells those in one.
func TestReadyTableHasARowAGate(t *testing.T) {
	l := faultBook(t, familyHead+flownRows(sixRows...))
	d := answers.ReadyOf(l, l.Pilots[0], l.PolicyNamed(season.HousePolicy), nil, "")
	for _, all := range []bool{false, true} {
		doc := Ready(d, ReadyOptions{All: all})
		var gates, want []string
		for _, row := range doc.Main.Rows {
			require.Len(t, row, len(doc.Main.Columns))
			gates = append(gates, row[0].String())
			require.NotEmpty(t, row[2].String(), row[0].String())
		}
		for _, g := range d.Gates {
			want = append(want, words.GateTitle(g.Gate))
		}
		assert.ElementsMatch(t, want, gates)
	}
}

// A page with nothing against has no such section.
func TestReadyPageWithNothingAgainst(t *testing.T) {
	text, d := readyPage(t, familyHead+flownRows(sixRows...)+"policy move-up\n  new-families off\n  forecast off\n  current 1000\n  figure-floor off\ncoach marek\nsignoff 2026-11-01 ines intermediate by marek\n", "")
	require.Empty(t, d.Against)
	assert.NotContains(t, text, "Evidence against")
	assert.NotContains(t, text, "What would change")
}

// The sentence of the page and the verdict of the JSON are one, also where no
// step above is known, or nothing was flown.
func TestReadyVerdictIsOne(t *testing.T) {
	lastStep := strings.ReplaceAll(familyHead, "sportsman", "unlimited") + flownRows(sixRows...)
	for name, test := range map[string]struct{ book, to, want string }{
		"no flight":            {familyHead, "", "Not yet: no contest flight with a category in the window."},
		"no flight, a step":    {familyHead, "advanced", "Not yet: no contest flight with a category in the window."},
		"the last step":        {lastStep, "", "Cannot tell: unlimited is the last category of ladder us, there is no step above it."},
		"a category of none":   {strings.ReplaceAll(familyHead, "sportsman", "lakesman") + flownRows(sixRows...), "", ": no category above lakesman is known"},
		"the last step, named": {lastStep, "advanced", "advanced is no step above unlimited"},
	} {
		text, d := readyPage(t, test.book, test.to)
		assert.Contains(t, text, words.Sentence(string(d.Verdict)), name)
		assert.Contains(t, text, test.want, name)
		assert.NotEqual(t, code.Ready, d.Verdict, name)
		assert.NotContains(t, text, "Readiness for policy", name)
		assert.NotContains(t, text, "floor of  in", name)
	}
	text, _ := readyPage(t, familyHead, "advanced")
	assert.True(t, strings.HasPrefix(text, "Readiness for advanced policy"), text)
}

// What has run out stands beside the verdict, whatever the gates say; what runs
// out soon is in the JSON.
func TestReadySaysWhatHasRunOut(t *testing.T) {
	book := strings.Replace(familyHead, "pilot ines\n", "pilot ines\n  expires medical EXPIRES\n", 1)
	require.Contains(t, book, "EXPIRES")
	for day, want := range map[string]string{
		"2026-11-01": "Expired: medical 2026-11-01, 30 days ago. No gate looks at it.",
		"2026-12-10": "",
		"2028-01-01": "",
	} {
		text, d := readyPage(t, strings.Replace(book, "EXPIRES", day, 1)+flownRows(sixRows...), "")
		assert.Equal(t, day < "2028", len(d.Expires) > 0, day)
		assert.Equal(t, want != "", strings.Contains(text, "No gate looks at it."), day)
		assert.Contains(t, text, want)
	}
}
