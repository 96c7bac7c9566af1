package ledger

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"boxbook/data"
	"boxbook/season"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// spotOf reads a text in which | marks a place, and gives what may stand there.
func spotOf(t *testing.T, text string) (Spot, bool) {
	t.Helper()
	before, after, found := strings.Cut(text, "|")
	require.True(t, found, text)
	rd, err := Read(Options{Files: Memory{"a": before + after}, Main: "a", Builtin: data.Builtin()})
	require.NoError(t, err)
	line := strings.Count(before, "\n")
	return rd.At("a", line, len(before)-strings.LastIndex(before, "\n")-1)
}

// TestWhatMayStandThere asks at places of broken and whole lines.
func TestWhatMayStandThere(t *testing.T) {
	for _, c := range []struct{ text, typed, slots, words string }{
		{"flight 2026-04-18 in|", "in", "PILOT", ""},
		{"flight |", "", "DATE", ""},
		{"flight 2026-04-18 ines |", "", "PROGRAMME", ""},
		{"flight 2026-04-18 ines known\n  contest |", "", "CONTEST", ""},
		{"flight 2026-04-18 ines known\n  1 8 h|", "h", "MARK", ""},
		{"flight 2026-04-18 ines known\n  fault |", "", "FIGURE", "-"},
		{"flight 2026-04-18 ines known\n  fault 2 line-angle 10deg |", "", "SIZE COACH?", "on seen felt at by"},
		{"flight 2026-04-18 ines known\n  fault 2 line-angle by m| # x", "m", "COACH", ""},
		{"review 2026-|", "2026-", "FLIGHT", ""},
		{"cost 2026-01-01 entry 9 EUR f|", "f", "", "each for"},
		{"cost 2026-01-01 entry 9 EUR for ines |", "", "SHARE PARTY", "by to receipt"},
		{"cost 2026-01-01 entry 9 EUR for ines by club to |", "", "", "club"},
		{"contest c 2026-01-01\n  cost entry 9 EUR for |", "", "PARTY", "all"},
		{"contest c 2026-01-01\n  panel A B |", "", "JUDGE", "missing"},
		{"drill 2026-01-01 ines |", "", "TARGET", ""},
		{"policy mine\n  zeros |", "", "POINTS", "off"},
		{"policy mine\n  zeros 0 |", "", "", "in"},
		{"ladder mine\n  category a |", "", "", "floor unknowns new"},
		{"nonsense |", "", "", ""},
		{"sequence s\n  1 K |", "", "KFACTOR", ""},
	} {
		spot, ok := spotOf(t, c.text)
		require.True(t, ok, c.text)
		assert.Equal(t, c.typed, spot.Typed, c.text)
		var slots []string
		for _, slot := range spot.Slots {
			slots = append(slots, string(slot))
		}
		assert.Equal(t, strings.ReplaceAll(c.slots, " COACH?", ""), strings.Join(slots, " "), c.text)
		assert.Equal(t, c.words, strings.Join(spot.Keywords, " "), c.text)
	}
}

// TestWhatMayBeginALine asks where a line begins: keys that stand already and may
// not repeat are not offered.
func TestWhatMayBeginALine(t *testing.T) {
	spot, ok := spotOf(t, "contest c 2026-01-01\n  name \"C\"\n  |\n  panel A\n  result\n")
	require.True(t, ok)
	assert.NotContains(t, spot.Keywords, "name")
	assert.NotContains(t, spot.Keywords, "panel")
	assert.Contains(t, spot.Keywords, "result")
	assert.False(t, spot.Rows)
	spot, ok = spotOf(t, "sequence s\n  1 K 3\n  |")
	require.True(t, ok)
	assert.True(t, spot.Rows)
	for _, text := range []string{"|", "\n|", "fli|", "pilot ines\n|"} {
		spot, ok = spotOf(t, text)
		require.True(t, ok, text)
		assert.Equal(t, blockKinds, spot.Keywords, text)
	}
	for _, text := range []string{"pilot ines # a|", "pilot ines\n  name \"I|\"", "pilot ines\n  name \"I|", "# |"} {
		_, ok = spotOf(t, text)
		assert.False(t, ok, text)
	}
	spot, ok = spotOf(t, "pilot ines\n  note \"a\" |")
	require.True(t, ok, "behind a text nothing is inside it")
	assert.Empty(t, spot.Slots)
}

// apply puts another text at spans.
func apply(t *testing.T, rd *Reading, spans []Span, to string) map[string]string {
	t.Helper()
	texts := map[string]string{}
	for _, s := range rd.Sources {
		lines := strings.SplitAfter(s.Text, "\n")
		for _, span := range slices.Backward(spans) {
			if span.File == s.Name {
				line := lines[span.Line]
				lines[span.Line] = line[:span.Start] + to + line[span.End:]
			}
		}
		texts[s.Path] = strings.Join(lines, "")
	}
	return texts
}

// overTexts is the disk with other texts over it.
type overTexts struct {
	Disk
	texts map[string]string
}

func (o overTexts) Read(path string) (string, error) {
	if text, ok := o.texts[path]; ok {
		return text, nil
	}
	return o.Disk.Read(path)
}

// TestRenamedLedgersSayTheSame renames everything with a name in the demo and the
// samples: the ledger then reads without an error, with as many warnings, and the
// old name stands nowhere.
func TestRenamedLedgersSayTheSame(t *testing.T) {
	renamed := 0
	for _, main := range []string{"../../data/demo/longmere.boxbook", "../../testdata/ledgers/language-tour.boxbook", "../../testdata/ledgers/version-1.boxbook"} {
		opts := Options{Files: Disk{}, Main: main, Builtin: data.Builtin()}
		rd, err := Read(opts)
		require.NoError(t, err)
		for name := range definedIn(rd) {
			to := "zz-new"
			if name.Kind == JudgeName && season.IsSeat(name.Name) {
				to = "Z"
			}
			spans, err := rd.Rename(name, to)
			if err != nil {
				assert.Contains(t, err.Error(), "ships", "%v", name)
				continue
			}
			renamed++
			opts.Files = overTexts{texts: apply(t, rd, spans, to)}
			after, err := Read(opts)
			require.NoError(t, err)
			require.NoError(t, after.Diagnostics.Err(), "%v: %v", name, after.Diagnostics)
			assert.Len(t, after.Diagnostics, len(rd.Diagnostics), "%v", name)
			assert.Empty(t, after.Uses(name), "%v", name)
			now := name
			now.Name = to
			assert.Len(t, after.Uses(Name{now.Kind, to, now.In}), len(spans), "%v", name)
		}
	}
	assert.Greater(t, renamed, 60)
}

// definedIn are the names that a ledger's own files define, flights apart.
func definedIn(rd *Reading) map[Name]bool {
	names := map[Name]bool{}
	for _, f := range rd.r.files {
		for n := range f.lines {
			for _, u := range rd.uses(f.reads(int32(n))) {
				if u.Defines && u.Kind != FlightName && !f.shipped {
					names[u.Name] = true
				}
			}
		}
	}
	return names
}

// TestNamesThatCannotBe refuses what is no name, taken, shipped or a word of the
// language.
func TestNamesThatCannotBe(t *testing.T) {
	rd, err := Read(Options{Files: Disk{}, Main: "../../data/demo/longmere.boxbook", Builtin: data.Builtin()})
	require.NoError(t, err)
	person := func(name string) Name { return Name{Kind: PersonName, Name: name} }
	for _, c := range []struct {
		name     Name
		to, said string
	}{
		{person("ines"), "tobias", `"tobias" is taken`},
		{person("ines"), "rolf", `"rolf" is taken`},
		{person("ines"), "2ines", "is not a name"},
		{person("ines"), "", "is not a name"},
		{person("ines"), "in es", "is not a name"},
		{person("ines"), "club", "is the club itself"},
		{person("ines"), "by", "is a word of the language"},
		{person("ines"), "all", "is a word of the language"},
		{person("ines"), "ines", "it is called"},
		{person("nobody"), "somebody", "no person is called"},
		{person("marek"), "M", "would be a seat"},
		{Name{Kind: KindName, Name: "radius"}, "roundness", "a name that boxbook ships"},
		{Name{Kind: KindName, Name: "drift"}, "slide", "a name that boxbook ships"},
		{Name{Kind: CategoryName, Name: "intermediate"}, "middle", "a name that boxbook ships"},
		{Name{Kind: SequenceName, Name: "sportsman-known-26"}, "tobias-free-26", "is taken"},
	} {
		_, err := rd.Rename(c.name, c.to)
		var refused *RenameError
		require.ErrorAs(t, err, &refused, "%v", c)
		assert.Contains(t, err.Error(), c.said)
	}
}

// TestPlacesOfNames asks what stands at a place, and where else.
func TestPlacesOfNames(t *testing.T) {
	text := "pilot ines\ncoach marek\nsequence s\n  1 K 3\ncontest c 2026-04-18\n  panel A marek\nflight 2026-04-18 ines known\n  contest c\n  sequence s\n  sheet A 7\n  sheet marek 8\n" +
		"contest d 2026-05-18\n  panel A\nreview 2026-04-18/ines/known by marek\n"
	rd, err := Read(Options{Files: Memory{"a": text}, Main: "a", Builtin: data.Builtin()})
	require.NoError(t, err)
	require.Empty(t, rd.Diagnostics.Err())
	uses := func(line, column int) string {
		var said []string
		for _, name := range rd.NamesAt("a", line, column) {
			said = append(said, fmt.Sprint(name.Kind, " ", name.Name, " ", name.In, ":"))
			for _, u := range rd.Uses(name) {
				said = append(said, fmt.Sprint(u.Line))
			}
		}
		return strings.Join(said, " ")
	}
	assert.Equal(t, "person ines : 0 6 13", uses(0, 7))
	assert.Equal(t, "person marek : 1 5 10 13", uses(1, 7))
	assert.Equal(t, "judge A c: 5 9", uses(5, 8), "a seat is of one contest")
	assert.Equal(t, "judge A d: 12", uses(12, 9))
	assert.Equal(t, "flight 2026-04-18/ines/known : 6 13 person ines : 0 6 13", uses(13, 20))
	assert.Equal(t, "flight 2026-04-18/ines/known : 6 13", uses(13, 8))
	assert.Empty(t, uses(3, 2))
	assert.Empty(t, uses(99, 0))
}

// TestAWordIsKeptApart puts a word in right before quoted text or a comment, in the place
// of neither, and keeps it apart from them.
func TestAWordIsKeptApart(t *testing.T) {
	for text, apart := range map[string]bool{
		"sequence s\n  1 7.4.1.1:10 |\"loop\"": true, "sequence s\n  1 |\"loop\"": true, "flight 2026-04-18 ines known\n  official 200 |# x": true,
		"|# x": true, "sequence s\n  1 7.4.1.1:10 | \"loop\"": false, "sequence s\n  1 7.4.1.1:10| \"loop\"": false, "sequence s\n  |1 7.4.1.1:10": false,
	} {
		spot, ok := spotOf(t, text)
		require.True(t, ok, text)
		assert.Equal(t, apart, spot.Close, text)
		if apart {
			assert.Equal(t, spot.Replaced.Start, spot.Replaced.End, text)
		}
	}
}
