package commands

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// readyBase is a pilot with a record at sportsman, as good as the policy asks.
const readyBase = `
pilot ines
  name "Ines Halloran"
pilot yuki
coach marek
  name "Marek Oduya"
sequence five
  category sportsman
  1 7.4.1.1:10
  2 5.2.1.1:10
  3 1.2.1.1:10
  4 2.2.1.1:10
  5 8.5.2.1:10
sequence flicks
  category sportsman
  1 9.9.3.4:10
  2 9.9.2.4:10
sequence inter-known
  category intermediate
  programme known
  1 7.4.1.1:10
  2 5.2.1.1:10
  3 1.2.1.1:10
`

// readyFlight is a flight of sequence five, a mark a figure, and more lines.
func readyFlight(date, programme, grades string, more ...string) string {
	text := fmt.Sprintf("flight %s ines %s\n  sequence five\n  panel A\n", date, programme)
	for i, grade := range strings.Fields(grades) {
		text += fmt.Sprintf("  %d %s\n", i+1, grade)
	}
	return text + strings.Join(append(slices.Clone(more), ""), "\n")
}

func readySix() string {
	text := ""
	for i, date := range []string{"2026-08-23", "2026-09-06", "2026-09-20", "2026-10-04", "2026-10-18", "2026-11-01"} {
		grade := []string{"7", "6.5", "7.5", "7", "6.5", "8"}[i]
		text += readyFlight(date, "known", strings.Join(slices.Repeat([]string{grade}, 5), " "))
	}
	return text
}

const (
	readyFlicks  = "flight 2026-10-20 ines practice\n  sequence flicks\n  panel marek\n  1 6\n  2 7\n"
	readySignoff = "signoff 2026-11-10 ines intermediate by marek\n"
)

func readyBook(more ...string) string {
	return readyBase + readySix() + readyFlicks + readySignoff + strings.Join(more, "")
}

func unsigned(more ...string) string {
	return strings.Replace(readyBook(more...), readySignoff, "", 1)
}

// readyJSON is what the tests look at of the answer.
type readyJSON struct {
	From, To, Verdict string
	Missing, Off      []string
	Said              []struct{ Date, By, Text string }
	Gates             []struct {
		Gate, State, Evidence string
		Counts                *bool
	}
}

func (d readyJSON) state(gate string) string {
	for _, g := range d.Gates {
		if g.Gate == gate {
			return g.State
		}
	}
	return "not asked"
}

func (d readyJSON) evidence(gate string) string {
	for _, g := range d.Gates {
		if g.Gate == gate {
			return g.Evidence
		}
	}
	return ""
}

// readyAnswer asks a ledger; the page is in one line, of all that it can show.
func readyAnswer(t *testing.T, book string, args ...string) (d readyJSON, page string) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "book.boxbook")
	require.NoError(t, os.WriteFile(path, []byte(book), 0o600))
	args = append([]string{"ready", "ines", "-f", path, "--asof", "2026-11-25"}, args...)
	require.NoError(t, json.Unmarshal([]byte(readyOut(t, exitDone, append(args, "--format", "json")...)), &d))
	return d, strings.Join(strings.Fields(readyOut(t, exitDone, args...)), " ")
}

func readyOut(t *testing.T, exit int, args ...string) string {
	t.Helper()
	var out, complaint bytes.Buffer
	s := readmeStreams(&out)
	s.err = &complaint
	require.Equal(t, exit, run(args, s), "%v: %s", args, complaint.String())
	if exit != exitDone {
		return complaint.String()
	}
	return out.String()
}

// readyRefused is what is said where the question is wrong usage.
func readyRefused(t *testing.T, book string, args ...string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "book.boxbook")
	require.NoError(t, os.WriteFile(path, []byte(book), 0o600))
	return readyOut(t, exitUsage, append([]string{"ready", "ines", "-f", path, "--asof", "2026-11-25"}, args...)...)
}

// Before a first flight at the next category its forecast is no gate: the pilot
// can be ready, and the headline says what is not known.
func TestReadyBeforeAFirstFlightThere(t *testing.T) {
	d, page := readyAnswer(t, readyBook())
	assert.Equal(t, "ready", d.Verdict, page)
	assert.Equal(t, "cannot tell", d.state("forecast"))
	assert.Empty(t, d.Missing)
	for _, g := range d.Gates {
		require.NotNil(t, g.Counts, g.Gate)
		assert.Equal(t, g.Gate != "forecast", *g.Counts, g.Gate)
	}
	assert.Contains(t, page, "Left out of the verdict: the forecast, since no panel has graded Ines Halloran at intermediate.")
	d, page = readyAnswer(t, strings.Replace(readyBook(), "programme known", "programme free", 1))
	assert.Equal(t, "ready", d.Verdict, page)
}

// What was flown at the category asked for counts, and makes it the present one.
func TestReadyToACategoryFlown(t *testing.T) {
	flown := "flight 2026-11-08 ines known\n  sequence inter-known\n  panel A B\n  1 HZ HZ\n  2 7 7\n  3 6.5 7\n  penalty low 20\n"
	book := readyBook(flown)
	assert.Contains(t, readyRefused(t, book, "--to", "intermediate"), "intermediate")
	d, page := readyAnswer(t, book)
	assert.Equal(t, []string{"intermediate", "advanced", "not yet"}, []string{d.From, d.To, d.Verdict})
	assert.Equal(t, "not met", d.state("zeros"))
	assert.Equal(t, "not met", d.state("lows"))
	assert.Contains(t, page, "2026-11-08/ines/known figure 1 (A, B)")
	// The highest of the window is the present one, whatever was flown last.
	lower := "flight 2026-11-12 ines known\n  category primary\n  official 70 of 100\n"
	d, _ = readyAnswer(t, readyBook(lower))
	assert.Equal(t, []string{"sportsman", "intermediate"}, []string{d.From, d.To})
	d, _ = readyAnswer(t, readyBook(strings.Replace(flown, "2026-11-08", "2024-11-24", 1)))
	assert.Equal(t, "sportsman", d.From, "a day before the window")
}

// A step that is skipped is named; the present category and those below it are
// no step up.
func TestReadySkipsNoStep(t *testing.T) {
	d, page := readyAnswer(t, readyBook("signoff 2026-11-11 ines advanced by marek\n"), "--to", "advanced")
	assert.Equal(t, "not met", d.state("steps"))
	assert.Equal(t, "not yet", d.Verdict)
	assert.Contains(t, d.Missing, "steps")
	assert.Contains(t, d.evidence("steps"), "intermediate")
	assert.Contains(t, d.evidence("new-families"), "9.10", "of every step up to the one asked for")
	assert.Contains(t, d.evidence("new-families"), "(family 9.9) ")
	assert.Contains(t, page, "no step skipped not met")
	for _, to := range []string{"sportsman", "primary"} {
		assert.Contains(t, readyRefused(t, readyBook(), "--to", to), to)
	}
	d, page = readyAnswer(t, readyBook("policy move-up\n  steps off\n"), "--to", "advanced")
	assert.Equal(t, []string{"steps"}, d.Off)
	assert.Equal(t, "not asked", d.state("steps"))
	assert.Contains(t, page, "Not needed under this policy: no step skipped")
	d, _ = readyAnswer(t, readyBook())
	assert.Equal(t, "met", d.state("steps"))
}

// A gate that is off is named; what is open stands first whatever the policy says.
func TestReadyGatesOff(t *testing.T) {
	open := readyFlight("2026-11-12", "practice", "7 7 7 7 7", `  fault - loose-article "canopy catch"`)
	d, page := readyAnswer(t, readyBook(open, "policy move-up\n  current off\n  zeros off\n  safety off\n"))
	assert.Equal(t, []string{"zeros", "current"}, d.Off)
	assert.Contains(t, page, "Not needed under this policy: zeros, recency")
	assert.Equal(t, "not met", d.state("open-matters"))
	d, page = readyAnswer(t, readyBook(open, "policy move-up\n  open-matters 5\n"))
	assert.Equal(t, "met", d.state("open-matters"))
	assert.Less(t, strings.Index(page, "canopy catch"), strings.Index(page, "2026-11-12/ines/practice")+60)
	before, _, _ := strings.Cut(page, "ready for intermediate")
	assert.Contains(t, before, "canopy catch", "before the headline")
}

// A sign-off's condition is part of it, and stands in the gate and in the verdict.
func TestReadySignoffWithACondition(t *testing.T) {
	book := unsigned("signoff 2026-11-10 ines intermediate by marek \"only with me in the front seat\"\n")
	d, page := readyAnswer(t, book)
	assert.Equal(t, "ready", d.Verdict)
	assert.Contains(t, d.evidence("signoff"), "only with me in the front seat")
	headline, _, _ := strings.Cut(page, "gate ")
	assert.Contains(t, headline, "only with me in the front seat")
	assert.Contains(t, headline, "Marek Oduya, 2026-11-10")
}

// Sign-offs that do not count, and what they close: nothing.
func TestReadySignoffsThatDoNotCount(t *testing.T) {
	for name, more := range map[string]string{
		"outside the window":        "signoff 2014-11-10 ines intermediate by marek\n",
		"by the pilot":              "coach ines\nsignoff 2026-11-10 ines intermediate by ines\n",
		"by the pilot, other name":  "coach self\n  name \"Ines Halloran\"\nsignoff 2026-11-10 ines intermediate by self\n",
		"before a low in practice":  readyFlight("2026-11-12", "practice", "7 7 7 7 7", "  penalty low 20") + "signoff 2026-11-12 ines intermediate by marek\n",
		"before a low in void":      readyFlight("2026-11-12", "free", "7 7 7 7 7", "  penalty low 20", "  void \"cloud\"") + "signoff 2026-11-12 ines intermediate by marek\n",
		"for another category":      "signoff 2026-11-10 ines advanced by marek\n",
		"of another pilot":          "signoff 2026-11-10 yuki intermediate by marek\n",
		"own after one out of date": "coach ines\nsignoff 2014-11-10 ines intermediate by marek\nsignoff 2026-11-10 ines intermediate by ines\n",
	} {
		d, page := readyAnswer(t, unsigned(more))
		assert.Equal(t, "not met", d.state("signoff"), name)
		assert.Equal(t, "not yet", d.Verdict, name)
		assert.Contains(t, d.Missing, "signoff", name)
		assert.Contains(t, page, "sign-off", name)
	}
	d, _ := readyAnswer(t, unsigned("signoff 2014-11-10 ines intermediate by marek\npolicy move-up\n  window off\n"))
	assert.Equal(t, "met", d.state("signoff"), "at any time")
	open := readyFlight("2026-11-05", "practice", "7 7 7 7 7", "  fault - loose-article")
	for _, category := range []string{"intermediate", "sportsman"} {
		d, _ = readyAnswer(t, readyBook(open, "signoff 2026-11-20 ines "+category+" by marek\n"))
		assert.Equal(t, "not met", d.state("open-matters"), category)
	}
}

// The last four are the last four with marks; one without any among them or
// after them leaves the gates open.
func TestReadyLaterFlightWithoutMarks(t *testing.T) {
	bare := "flight 2026-11-08 ines known\n  sequence five\n  official 350\n"
	d, page := readyAnswer(t, readyBook(bare))
	for _, gate := range []string{"zeros", "figure-floor"} {
		assert.Equal(t, "cannot tell", d.state(gate))
		assert.Contains(t, d.evidence(gate), "2026-11-08/ines/known")
	}
	assert.Equal(t, "cannot tell", d.Verdict, page)
	d, _ = readyAnswer(t, readyBook(strings.Replace(bare, "2026-11-08", "2026-08-01", 1)))
	assert.Equal(t, "ready", d.Verdict, "an older one is none of the last four")
	dashes := "flight 2026-11-08 ines known\n  sequence five\n  panel A\n  1 -\n  2 -\n  3 -\n  4 -\n  5 -\n  official 350\n"
	d, _ = readyAnswer(t, readyBook(dashes))
	assert.Equal(t, "cannot tell", d.state("zeros"), "a sheet without a mark")
}

// A gate that looks at the last N and finds fewer cannot tell, unless what it
// found breaks it.
func TestReadyFewerThanLookedAt(t *testing.T) {
	one := readyBase + readyFlight("2026-11-01", "known", "7 7 7 7 7")
	d, _ := readyAnswer(t, one)
	assert.Equal(t, []string{"cannot tell", "cannot tell", "cannot tell"}, []string{d.state("zeros"), d.state("figure-floor"), d.state("lows")})
	assert.Contains(t, d.evidence("zeros"), "1 flight flown, of 4")
	assert.Contains(t, d.evidence("figure-floor"), "1 flight flown, of 4")
	assert.Contains(t, d.evidence("lows"), "1 flight flown, of 6")
	assert.Equal(t, []string{"not met", "not met", "not met"}, []string{d.state("flights"), d.state("new-families"), d.state("signoff")})
	d, _ = readyAnswer(t, readyBase+readyFlight("2026-11-01", "known", "HZ 7 7 7 4", "  penalty low 20"))
	assert.Equal(t, []string{"not met", "not met", "not met"}, []string{d.state("zeros"), d.state("figure-floor"), d.state("lows")})
}

// A low penalty counts in practice and in a void flight too.
func TestReadyLowsEverywhere(t *testing.T) {
	signed := "signoff 2026-11-15 ines intermediate by marek\n"
	for name, flight := range map[string]string{
		"void":     readyFlight("2026-11-12", "free", "7 7 7 7 7", "  penalty low 20", "  void \"cloud\""),
		"practice": readyFlight("2026-09-12", "practice", "7 7 7 7 7", "  penalty low 20"),
	} {
		d, _ := readyAnswer(t, readyBook(flight, signed))
		assert.Equal(t, "not met", d.state("lows"), name)
		assert.Contains(t, d.evidence("lows"), "/ines/", name)
	}
	d, _ := readyAnswer(t, readyBook(readyFlight("2026-08-12", "practice", "7 7 7 7 7", "  penalty low 20")))
	assert.Equal(t, "met", d.state("lows"), "before the oldest of the six")
}

// Matters and days look at every flight, of any category, void ones too.
func TestReadyMattersAndDaysOfEveryFlight(t *testing.T) {
	void := "flight 2026-11-20 ines free\n  category primary\n  void \"cloud\"\n  fault - loose-article\n"
	d, _ := readyAnswer(t, readyBook(void))
	assert.Equal(t, "not met", d.state("open-matters"))
	assert.Equal(t, "5 days since the last flight in the ledger, a void one", d.evidence("current"))
}

// Zeros and figures below the floor count in every category, and are named.
func TestReadyNamesZerosAndLowFigures(t *testing.T) {
	flight := "flight 2026-11-08 ines known\n  sequence five\n  category primary\n  panel AL BM CT\n  1 HZ PZ 7\n  2 4.5 4 4.5\n  3 4 4 4\n  4 7 7 7\n  5 7 7 7\n"
	d, page := readyAnswer(t, readyBook(flight))
	assert.Equal(t, "not met", d.state("zeros"))
	assert.Equal(t, "not met", d.state("figure-floor"))
	assert.Contains(t, d.evidence("zeros"), "2026-11-08/ines/known figure 1 (AL, BM)")
	assert.Contains(t, d.evidence("zeros"), "chance of one that counts in the next sequence: about")
	assert.Contains(t, d.evidence("figure-floor"), "2026-11-08/ines/known figure 1: 3.5, figure 2: 4.3, figure 3: 4.0")
	assert.Contains(t, page, "AL, BM")
}

// The pilot's own grades show nobody a new family.
func TestReadyNewFamiliesGradedByOthers(t *testing.T) {
	for panel, want := range map[string]string{"marek": "met", "ines": "not met", "yuki": "not met", "marek ines": "met", "A": "not met"} {
		marks := strings.Repeat(" 7", len(strings.Fields(panel)))
		flight := "flight 2026-10-20 ines practice\n  sequence flicks\n  panel " + panel + "\n  1" + marks + "\n  2" + marks + "\n"
		d, _ := readyAnswer(t, strings.Replace(readyBook(), readyFlicks, flight, 1))
		assert.Equal(t, want, d.state("new-families"), panel)
	}
	mixed := "flight 2026-10-20 ines practice\n  sequence flicks\n  panel ines marek\n  1 9 6\n  2 9 5.5\n"
	d, _ := readyAnswer(t, strings.Replace(readyBook(), readyFlicks, mixed, 1))
	assert.Equal(t, "not met", d.state("new-families"), "the coach's grades alone")
	own := "coach ines\n" + strings.Replace(readyFlicks, "marek", "ines", 1)
	d, _ = readyAnswer(t, strings.Replace(readyBook(), readyFlicks, own, 1))
	assert.Equal(t, "not met", d.state("new-families"), "a coach of her own")
	d, _ = readyAnswer(t, readyBook("flight 2026-10-22 ines practice\n  sequence flicks\n  panel marek\n  1 10\n  2 10\n  1 HZ\n  2 10\n"))
	assert.Equal(t, "not met", d.state("new-families"), "a zero among the last two")
	assert.Contains(t, d.evidence("new-families"), "a zero")
	d, _ = readyAnswer(t, strings.Replace(readyBook(), readyFlicks, readyFlicks+"  2 9\n", 1))
	assert.Contains(t, d.evidence("new-families"), "latest 9.0")
	assert.Contains(t, d.evidence("new-families"), "worst 6.0")
}

// What is not flown is asked for by nobody, and the category needs it.
func TestReadyNotInThisAircraft(t *testing.T) {
	book := strings.Replace(readyBook(), "pilot ines\n", "pilot ines\n  not-flown 9.9 \"engine mount\"\n", 1)
	d, page := readyAnswer(t, book)
	assert.Equal(t, "not met", d.state("new-families"))
	assert.Contains(t, d.evidence("new-families"), "not in this aircraft (engine mount)")
	assert.Contains(t, page, "not in this aircraft")
	d, _ = readyAnswer(t, strings.Replace(readyBook(), "pilot ines\n", "pilot ines\n  not-flown 9.10 6 \"engine mount\"\n", 1))
	assert.Equal(t, "ready", d.Verdict, "intermediate needs neither")
}

// An own ladder is not said to come from anywhere else.
func TestReadyOwnLadder(t *testing.T) {
	own := "ladder lakes\n  category sportsman\n  category intermediate floor 900ft new 9.9\n"
	for _, args := range [][]string{{"--ladder", "lakes"}, {"--ladder", "lakes", "--all"}} {
		d, page := readyAnswer(t, readyBook(own), args...)
		assert.Equal(t, "ready", d.Verdict)
		assert.NotContains(t, page, "published")
	}
	_, page := readyAnswer(t, readyBook(own), "--ladder", "lakes", "--all")
	assert.Contains(t, page, "900 ft")
	assert.Contains(t, page, "ladder lakes, as this ledger has it")
}

// At the top of the ladder there is no step, and the page says so.
func TestReadyAtTheTop(t *testing.T) {
	d, page := readyAnswer(t, strings.ReplaceAll(readyBook(), "sportsman", "unlimited"))
	assert.Equal(t, "cannot tell", d.Verdict)
	assert.Contains(t, page, "there is no step above it")
	assert.Contains(t, readyRefused(t, strings.ReplaceAll(readyBook(), "sportsman", "unlimited"), "--to", "advanced"), "no step above")
}

// The headline names what is missing; the coach's latest words and the pilot's
// own stand under it.
func TestReadyHeadline(t *testing.T) {
	words := "review 2026-10-18/ines/known by marek\n  note \"early\"\nreview 2026-11-01/ines/known by marek\n  note \"nothing of the next one yet\"\n" +
		readyFlight("2026-11-14", "practice", "7 7 7 7 7", `  note "tired"`)
	d, page := readyAnswer(t, unsigned(words, "policy move-up\n  current off\n"))
	assert.Equal(t, []string{"signoff"}, d.Missing)
	require.Len(t, d.Said, 2)
	assert.Equal(t, "2026-11-01 Marek Oduya nothing of the next one yet", d.Said[0].Date+" "+d.Said[0].By+" "+d.Said[0].Text)
	assert.Equal(t, "2026-11-14 Ines Halloran tired", d.Said[1].Date+" "+d.Said[1].By+" "+d.Said[1].Text)
	headline, _, _ := strings.Cut(page, "gate ")
	for _, want := range []string{"Missing: a coach's sign-off", "Not needed under this policy: recency", `Latest note of Marek Oduya, 2026-11-01: "nothing of the next one yet"`, `Latest note on a flight, 2026-11-14: "tired"`} {
		assert.Contains(t, strings.ToLower(headline), strings.ToLower(want))
	}
}

// A sign-off hides no notes of its coach's reviews, which stand before the pilot's own of
// the same flight; what is older than the policy's window is not said.
func TestReadySaysNotesOfItsWindow(t *testing.T) {
	book := strings.Replace(readyBook("review 2026-11-01/ines/known by marek\n  note \"pivots late\"\n"), readySignoff, strings.Replace(readySignoff, "marek\n", "marek \"rolling turns flown dual\"\n", 1), 1)
	book = strings.Replace(book, "flight 2026-11-01 ines known\n", "flight 2026-11-01 ines known\n  note \"wind across the box\"\n", 1)
	d, page := readyAnswer(t, book)
	require.Len(t, d.Said, 2)
	assert.Equal(t, "rolling turns flown dual", d.Said[0].Text)
	const coach, own = `Latest note of Marek Oduya, 2026-11-01: "pivots late"`, `Latest note on a flight, 2026-11-01: "wind across the box"`
	assert.Contains(t, page, coach+" "+own)
	assert.NotContains(t, page, "Latest sign-off", "the headline has it")

	book += "policy move-up\n  window 20\n"
	d, page = readyAnswer(t, book)
	require.Len(t, d.Said, 1)
	assert.NotContains(t, page, "Latest note")
	assert.NotContains(t, page, "pivots late")
}

// The demo's page is one to read: 45 lines at 80 columns; all of it on request.
func TestReadyPageOfTheDemo(t *testing.T) {
	moreMet := regexp.MustCompile(`(?m)^\w+ others +met\b`)
	screen := screenOf(t, 80, "ready", "ines", "-f", "../../../../data/demo/longmere.boxbook", "--asof", "2026-11-28")
	assert.LessOrEqual(t, strings.Count(screen, "\n"), 45, screen)
	assert.Regexp(t, moreMet, screen)
	whole := screenOf(t, 80, "ready", "ines", "-f", "../../../../data/demo/longmere.boxbook", "--asof", "2026-11-28", "--all")
	assert.NotRegexp(t, moreMet, whole)
	assert.Contains(t, whole, "What would change it")
}
