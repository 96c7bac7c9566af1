package pages

import (
	"encoding/json"
	"fmt"
	"html"
	"math"
	"math/big"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/analysis"
)

// soundHead is what every random book begins with: people, sequences with and
// without codes in two categories, contests of two ladders, one whose category
// is in none.
const soundHead = `
pilot ines
  name "Ines Halloran"
pilot yuki
  name "Yuki Lindqvist"
coach marek
  name "Marek Oduya"
sequence coded
  category sportsman
  programme known
  1 7.4.1.1:10           "loop"
  2 5.2.1.1:17           "stall turn"
  3 1.2.1.1:8 9.1.2.4:10 "roll on the forty-five up"
  4 2.2.1.1:4
  5 K 14 2-rolling 9.1   "rolling turn"
  positioning K 10
sequence steps
  category intermediate
  1 1.2.6.3:8 9.11.1.4:5 "one-turn spin"
  2 7.4.3.1:14           "square loop"
  3 8.4.1.1:13 9.1.1.2:8
  4 1.1.1.1:2 9.9.3.4:11 "flick"
  harmony K 5
sequence plain
  category sportsman
  1 K 10
  2 K 12
  3 K 7
  4 K 9
sequence advanced-known
  category advanced
  programme known
  1 2.2.3.1:22
  2 1.1.1.1:2 9.10.3.4:13
  3 K 20
contest cup 2026-04-01..2026-09-30
  ladder us
  result ines 1000 of 1600 place 2 of 5
contest trophy 2026-04-01..2026-09-30
  ladder uk
  rules drop-extremes
contest show 2026-04-01..2026-09-30
  ladder lakes
  rules as-graded
ladder lakes
  category lakesman
  category sportsman new 7 9.9
`

var soundPanels = []string{"A", "A B", "AK BM CT", "A BM J3 DW", "AK BM CT DW EV"}

// soundMarks are weighted towards ordinary grades.
var soundMarks = rapid.SampledFrom([]string{"5", "5.5", "6", "6.5", "6.5", "7", "7", "7.5", "7.5", "8", "8.5", "0", "10", "HZ", "CHZ", "PZ", "AV", "-"})

// soundFlight is one random flight; i makes its name one of a kind.
func soundFlight(r *rapid.T, i int) string {
	sequences := map[string]int{"coded": 5, "steps": 4, "plain": 4}
	programme := rapid.SampledFrom([]string{"known", "free", "unknown", "practice"}).Draw(r, "programme")
	name := rapid.SampledFrom([]string{"coded", "coded", "steps", "plain"}).Draw(r, "sequence")
	if name == "coded" && programme != "practice" {
		programme = "known"
	}
	pilot := rapid.SampledFrom([]string{"ines", "ines", "ines", "yuki"}).Draw(r, "pilot")
	var b strings.Builder
	fmt.Fprintf(&b, "flight 2026-%02d-%02d %s %s\n  sequence %s\n", 4+i/3, 3+8*(i%3), pilot, programme, name)
	for _, line := range []string{
		"  contest cup\n", "  contest trophy\n", "  contest show\n", "  category lakesman\n", "  void \"cloud\"\n", "  reviewed by marek\n",
		"  penalty low 20\n", "  official 300\n", "  place 2 of 7\n  field 310 300 290\n", "  fault 1 radius\n", "  fault 2 line-angle 10deg\n  fault 1 radius felt\n",
		"  fault - loose-article \"canopy catch not latched\"\n", "  closed loose-article\n",
	} {
		if rapid.IntRange(0, 4).Draw(r, line) == 0 && (!strings.Contains(line, "contest") || !strings.Contains(b.String(), "contest")) {
			b.WriteString(line)
		}
	}
	if rapid.IntRange(0, 7).Draw(r, "sheet") == 0 {
		b.WriteString("  note \"no sheet\"\n")
		return b.String()
	}
	panel := rapid.SampledFrom(soundPanels).Draw(r, "panel")
	judges := len(strings.Fields(panel))
	fmt.Fprintf(&b, "  panel %s\n", panel)
	row := func(key string) {
		fmt.Fprintf(&b, "  %s %s\n", key, strings.Join(rapid.SliceOfN(soundMarks, judges, judges).Draw(r, "row"), " "))
	}
	for figure := range sequences[name] {
		row(fmt.Sprint(figure + 1))
	}
	if weighted := map[string]string{"coded": "positioning", "steps": "harmony"}[name]; weighted != "" {
		grades := rapid.SliceOfN(rapid.SampledFrom([]string{"5", "7.5", "AV"}), judges, judges).Draw(r, "weighted")
		fmt.Fprintf(&b, "  %s %s\n", weighted, strings.Join(grades, " "))
	}
	return b.String()
}

// soundBook is a small random ledger.
func soundBook(r *rapid.T) string {
	book := soundHead
	for i := range rapid.IntRange(0, 9).Draw(r, "flights") {
		book += soundFlight(r, i)
	}
	for _, line := range []string{
		"drill 2026-05-15 ines radius \"four loops a leg\"\n", "drill 2026-06-07 ines 7\n", "drill 2026-05-15 yuki 9.1\n",
		"signoff 2026-06-15 ines intermediate by marek\n",
		"policy move-up\n  threshold 62.5\n  zeros 1 in 4\n  lows off\n", "policy move-up\n  flights 1\n  window 200\n  signoff off\n  forecast 99.5\n",
	} {
		if rapid.Bool().Draw(r, line) && (!strings.HasPrefix(line, "policy") || !strings.Contains(book, "policy")) {
			book += line
		}
	}
	return book
}

// cautions are what stands once at the foot of pages that advise.
var cautions = []string{words.FaultsCaution, words.DrillsCaution, words.PlanCaution, words.ForecastCaution, words.ReadyCaution}

// page is a document and the caution it must end with, "" for none.
type page struct {
	name    string
	doc     report.Document
	caution string
}

// everyPage asks everything of a ledger.
func everyPage(t require.TestingT, l *season.Ledger) []page {
	var pages []page
	add := func(caution, name string, doc report.Document) { pages = append(pages, page{name, doc, caution}) }
	for _, f := range l.Flights {
		if f.HasMarks() {
			changes := []analysis.Change{scoring.Sheet.WithoutPenalties, scoring.Sheet.WithoutZeros}
			target := &analysis.Goal{Percent: big.NewRat(80, 1)}
			add("", "what if "+f.Name, WhatIf(answers.WhatIfOf(f, changes, []answers.WhatChange{{Change: "no-penalty", Kind: answers.ChangeNoPenalty}, {Change: "no-zeros", Kind: answers.ChangeNoZeros}}, target), true))
		}
		add(words.DebriefCaution, "debrief "+f.Name, Debrief(answers.DebriefOf(l, f)))
		add("", f.Name, Flight(answers.FlightOf(f), FlightOptions{Rules: true}))
		add("", "all of "+f.Name, Flight(answers.FlightOf(f), FlightOptions{All: true}))
	}
	add("", "panel", Panel(answers.PanelOf(l, season.Selection{}), true))
	add(words.DrillsCaution, "all drills", Drills(answers.DrillsOf(l, season.Selection{}), true))
	year, err := answers.YearOf(l, 2026)
	require.NoError(t, err)
	add("", "year", Year(year, true))
	for _, who := range [][]season.Party{nil, {{}}, l.Parties()[:1]} {
		statements, err := answers.StatementsOf(l, 2026, answers.Settling{}, who...)
		require.NoError(t, err)
		add("", "statements", Statements(statements))
	}
	for _, p := range l.Pilots {
		s := season.Selection{Pilot: p}
		add("", "season "+p.Handle, Season(answers.SeasonOf(l, s), true))
		add("", "families "+p.Handle, Families(answers.FamiliesOf(l, s), true))
		for _, group := range []string{"7", "hesitation"} {
			key := analysis.FamilyKey{Group: group}
			add(words.PracticeCaution, "family "+group+" "+p.Handle, Family(answers.FamilyOf(l, s, key, group), true))
		}
		add(words.FaultsCaution, "faults "+p.Handle, Faults(answers.FaultsOf(l, s), false))
		add(words.FaultsCaution, "all faults "+p.Handle, Faults(answers.FaultsOf(l, s), true))
		add(words.DrillsCaution, "drills "+p.Handle, Drills(answers.DrillsOf(l, s), false))
		add(words.PlanCaution, "plan "+p.Handle, Plan(answers.PlanOf(l, s, nil), true))
		for _, seq := range []*season.Sequence{l.Sequences[0], l.Sequences[3]} {
			add(words.ForecastCaution, "forecast "+seq.Handle, Forecast(answers.ForecastOf(l, p, seq, nil), true))
		}
		for _, to := range []string{"", "lakesman"} {
			for _, policy := range l.Policies {
				add(words.ReadyCaution, "ready "+to, Ready(answers.ReadyOf(l, p, policy, nil, to), ReadyOptions{All: to == ""}))
			}
		}
	}
	return pages
}

// oneLine writes text as one line with single spaces.
func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

var safeWord = regexp.MustCompile(`(?i)\b(un)?safe(ly)?\b`)

// requireSound holds a page to what every page must keep: numbers only, lines
// that fit, the caution once and last, no judgement of safety.
func requireSound(t require.TestingT, p page) {
	var text, data, markdown, csv, page strings.Builder
	require.NoError(t, report.WriteText(&text, p.doc, report.TextOptions{Width: 80}), p.name)
	require.NoError(t, report.WriteJSON(&data, p.doc), p.name)
	require.NoError(t, report.WriteMarkdown(&markdown, p.doc), p.name)
	require.NoError(t, report.WriteCSV(&csv, p.doc), p.name)
	require.NoError(t, report.WriteHTML(&page, p.doc), p.name)
	shown := html.UnescapeString(page.String())
	for _, out := range []string{text.String(), data.String(), markdown.String(), csv.String(), page.String()} {
		for _, bad := range []string{"NaN", "Inf", "%!", "\x1b", "e+", "<nil>"} {
			require.NotContains(t, out, bad, p.name)
		}
		require.True(t, utf8.ValidString(out) && !strings.ContainsRune(out, utf8.RuneError), p.name)
		require.NotRegexp(t, safeWord, out, p.name)
	}
	for _, line := range strings.Split(text.String(), "\n") {
		require.LessOrEqual(t, utf8.RuneCountInString(line), 80, "%s: %s", p.name, line)
	}
	screen := oneLine(text.String())
	for _, caution := range cautions {
		want := 0
		if caution == p.caution {
			want = 1
			require.True(t, strings.HasSuffix(screen, caution), "%s ends with its caution:\n%s", p.name, text.String())
		}
		for _, out := range []string{screen, data.String(), markdown.String(), csv.String(), shown} {
			require.Equal(t, want, strings.Count(out, caution), "%s: %s", p.name, out)
		}
	}
	requireCellsInData(t, p, data.String())
}

// dataNumbers are all numbers of a page's data, by their shortest form, amounts
// written as strings among them. Where the program shows a share as percent,
// the share times 100 counts too.
func dataNumbers(t require.TestingT, data string) map[float64]bool {
	var tree any
	decoder := json.NewDecoder(strings.NewReader(data))
	require.NoError(t, decoder.Decode(&tree))
	found := map[float64]bool{}
	var walk func(string, any)
	walk = func(key string, node any) {
		switch v := node.(type) {
		case float64:
			found[v] = true
			if key == "share" {
				found[100*v] = true
			}
		case string:
			if amount, ok := new(big.Rat).SetString(v); ok && v != "" {
				value, _ := amount.Float64()
				found[value] = true
			}
		case []any:
			for _, item := range v {
				walk(key, item)
			}
		case map[string]any:
			for k, item := range v {
				walk(k, item)
			}
		}
	}
	walk("", tree)
	return found
}

// requireCellsInData: every number of a table or fact that is shown with
// decimals is one of the data's, unrounded. Sums and differences made for
// people alone are named here, by column or row.
func requireCellsInData(t require.TestingT, p page, data string) {
	found := dataNumbers(t, data)
	check := func(cell report.Cell, where string) {
		number, ok := cell.Number()
		if !ok || !number.Known() || !strings.Contains(cell.String(), ".") {
			return
		}
		value := number.Float64()
		for v := range found {
			if math.Abs(v-value) <= 1e-12*math.Max(1, math.Abs(value)) {
				return
			}
		}
		require.Fail(t, "not in the data", "%s: %s: %v", p.name, where, value)
	}
	for _, section := range p.doc.Sections {
		for _, block := range section.Blocks {
			switch b := block.(type) {
			case *report.Facts:
				for _, fact := range b.Items {
					check(fact.Value, fact.Label)
				}
			case *report.Table:
				for _, row := range append(append([][]report.Cell{}, b.Rows...), b.Footer...) {
					if len(row) > 1 && (strings.HasSuffix(row[0].String(), " more") || strings.HasSuffix(row[1].String(), " more") || row[1].String() == "all") {
						continue // a sum of rows that stand in the data
					}
					for i, cell := range row {
						title := b.Columns[i].Title
						if title == "difference" || title == "share %" && row[1].String() == "" {
							continue // expected minus given
						}
						check(cell, fmt.Sprintf("%s of %s", title, row[0].String()))
					}
				}
			}
		}
	}
}

// Whatever small ledger, every page of it is sound.
func TestEveryPageIsSound(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		for _, p := range everyPage(r, faultBook(t, soundBook(r))) {
			requireSound(r, p)
		}
	})
}
