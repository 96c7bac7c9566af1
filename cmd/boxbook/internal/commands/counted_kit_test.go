package commands

import (
	"bytes"
	"fmt"
	"html"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// oneOfEach has one of everything: pilot, coach, figure, contest, judge, flight,
// fault, drill, cost, duty, count; and a contest and an expiry in one day.
const oneOfEach = `pilot ines
  name "Ines Halloran"
  expires medical 2026-10-01
coach marek
  name "Marek Oduya"
sequence known
  category intermediate
  programme known
  1 7.4.1.1:10 "loop"
contest tarn 2026-09-29
  panel A
  cost entry 95.00 EUR for ines by club
  duty scribe ines
  result ines 70 of 100 place 1 of 1
contest harbour 2026-10-12
  enter-by 2026-10-01
flight 2026-09-29 ines known
  contest tarn
  sequence known
  1 7.5
  penalty low 5
  official 69.00
  place 1 of 1
  field 69.00
  fault 1 radius 1x seen
  fault 1 loose-article
  reviewed by marek
drill 2026-09-29 ines radius
in-hand 2026-01-01 bank 100.00 EUR
in-hand 2026-09-30 bank 50.00 EUR
budget 2026 entry 100.00 EUR
`

// zeroed is a practice flight in front of one person, who gave a hard zero.
const zeroed = "coach dana\nflight 2026-09-20 ines practice\n  sequence known\n  panel dana\n  1 hz\n  fault 1 radius 1x\n"

// policyOfOnes asks for one of everything.
const policyOfOnes = "policy move-up\n  flights 1\n  window %d\n  zeros 1 in 1\n  lows 1 in 1\n  unknowns 1\n  new-families 1 at 6.0\n  current 1\n  floor-flights 1\n"

// fewLedgers are ledgers by name.
func fewLedgers() map[string]string {
	ones := func(days int) string { return fmt.Sprintf(policyOfOnes, days) }
	return map[string]string{
		"one of each": oneOfEach, "one of each, policy of ones": oneOfEach + ones(1),
		"none":               "pilot ines\n",
		"one figure, one":    fewFlown(1, 1, 1),
		"one figure, two":    fewFlown(2, 1, 1) + ones(400),
		"one figure, four":   fewFlown(4, 1, 2) + zeroed,
		"one figure, seven":  fewFlown(7, 1, 5) + ones(400) + zeroed,
		"two figures, nine":  fewFlown(9, 2, 3) + ones(400) + zeroed,
		"three figures, six": fewFlown(6, 3, 4) + zeroed,
	}
}

// fewFlown is a season of so many contests of one flight, a month apart, with so
// many figures and judges, a fault in the first two, and a drill.
func fewFlown(flights, figures, judges int) string {
	codes := []string{"7.4.1.1:10", "1.2.6.3:8 9.11.1.4:5", "8.5.2.1:10 9.1.4.2:4"}[:figures]
	b := strings.Builder{}
	b.WriteString("pilot ines\ncoach marek\n")
	for name, category := range map[string]string{"known": "intermediate", "next": "advanced"} {
		fmt.Fprintf(&b, "sequence %s\n  category %s\n  programme known\n", name, category)
		for i, code := range codes {
			fmt.Fprintf(&b, "  %d %s\n", i+1, code)
		}
	}
	for i := range flights {
		fmt.Fprintf(&b, "contest c%d 2026-%02d-10\n  panel %s\nflight 2026-%02d-10 ines known\n  contest c%d\n  sequence known\n", i, i+1, strings.Join([]string{"A", "B", "C", "D", "E"}[:judges], " "), i+1, i)
		for k := range codes {
			fmt.Fprintf(&b, "  %d", k+1)
			for j := range judges {
				fmt.Fprintf(&b, " %g", 5+float64((3*i+5*j+7*k+i*i*j)%8)/2)
			}
			b.WriteString("\n")
		}
		if i < 2 {
			b.WriteString("  fault 1 radius 1x\n")
		}
		b.WriteString("  reviewed by marek\n")
	}
	return b.String() + "drill 2026-03-20 ines radius\n"
}

var htmlTag = regexp.MustCompile(`<style[^>]*>[^<]*</style>|</?(?:b|i|em|strong|span|a|code)(?:\s[^>]*)?>`)

// pagesOfFew are all pages of a ledger, with what was said beside them, without
// widths; the workbooks by cell and the booklet without its marks.
func pagesOfFew(t *testing.T, text string) []shownText {
	t.Helper()
	folder := t.TempDir()
	path := filepath.Join(folder, "few.boxbook")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	var shown []shownText
	say := func(args ...string) {
		var out bytes.Buffer
		s := readmeStreams(&out)
		s.width = 1000
		run(append(args, "-f", path), s)
		shown = append(shown, shownText{strings.Join(args, " "), out.String()})
	}
	for _, page := range []string{
		"", "season", "season --all", "flight", "flight --all", "flight --rules", "debrief", "debrief --blank", "families", "families --all", "families 7", "families known/1",
		"faults", "faults --all", "drills", "drills --all", "plan", "plan --all", "forecast known --all", "forecast next --reach 70", "ready", "ready --all",
		"whatif 1=8 no-penalty", "whatif 1=hz", "whatif --reach 75", "pilots", "panel", "panel --all", "year", "year --all", "statement ines", "statement club",
	} {
		say(append(strings.Fields(page), "--asof", "2026-09-30", "--format", "markdown")...)
	}
	say("check")
	booklet, book, club := filepath.Join(folder, "season.html"), filepath.Join(folder, "book.xlsx"), filepath.Join(folder, "club.xlsx")
	say("booklet", "--asof", "2026-09-30", "-o", booklet)
	say("workbook", "--asof", "2026-09-30", "-o", book)
	say("workbook", "--club", "2026", "--asof", "2026-09-30", "-o", club)
	if raw, err := os.ReadFile(booklet); err == nil {
		plain := regexp.MustCompile(`<[^>]*>`).ReplaceAllString(htmlTag.ReplaceAllString(string(raw), ""), "\n")
		shown = append(shown, shownText{"the booklet", html.UnescapeString(plain)})
	}
	return append(append(shown, cellsOf(t, book)...), cellsOf(t, club)...)
}

// cellsOf are the texts of a workbook's cells, none where there is no workbook.
func cellsOf(t *testing.T, path string) []shownText {
	t.Helper()
	if _, err := os.Stat(path); err != nil {
		return nil
	}
	file, err := excelize.OpenFile(path)
	require.NoError(t, err)
	defer file.Close()
	var shown []shownText
	for _, sheet := range file.GetSheetList() {
		rows, err := file.GetRows(sheet)
		require.NoError(t, err)
		for _, row := range rows {
			for _, cell := range row {
				shown = append(shown, shownText{filepath.Base(path) + ", " + sheet, cell})
			}
		}
	}
	return shown
}
