package ledger

import (
	"fmt"
	"math/big"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"boxbook/season"

	"github.com/stretchr/testify/require"
)

// TestFacts holds what the cases say of a reading: not only what is wrong with a
// text, but what it means.
func TestFacts(t *testing.T) {
	checked := 0
	for _, name := range caseFiles {
		for _, c := range readCases(t, casePath(name)) {
			if len(c.facts) == 0 {
				continue
			}
			t.Run(c.name, func(t *testing.T) {
				f := factReader{t: t, c: c, result: c.read(t)}
				f.l = f.result.Ledger
				for _, fact := range c.facts {
					f.check(fact)
					checked++
				}
			})
		}
	}
	require.Greater(t, checked, 300)
}

// factReader holds facts against a reading.
type factReader struct {
	t      *testing.T
	c      diagnosticCase
	result *Result
	l      *season.Ledger
}

// check requires one fact: what the model says of its first words must be the
// rest, in any order where a fact names one of several things.
func (f factReader) check(fact string) {
	words := strings.Fields(fact)
	say, known := factsOf[words[0]]
	require.True(f.t, known, "nobody knows what %q says", fact)
	require.Contains(f.t, say(f, words[1:]), strings.Join(words[1:], " "), fact)
}

// factsOf gives, for the words of a fact, all that the model says of its subject
// in the same words.
var factsOf = map[string]func(f factReader, w []string) []string{
	"language": func(f factReader, _ []string) []string { return []string{strconv.Itoa(f.l.Language)} },
	"reads":    func(f factReader, _ []string) []string { return []string{filepath.ToSlash(f.result.Main)} },
	"writes":   func(f factReader, _ []string) []string { return []string{f.c.main} },
	"year": func(f factReader, w []string) []string {
		return []string{fmt.Sprint(w[0], " ", f.l.YearOf(day(f.t, w[0])))}
	},
	"season": func(f factReader, w []string) []string {
		return []string{fmt.Sprint(w[0], " ", f.l.SeasonStart.Season(day(f.t, w[0])))}
	},
	"share": func(f factReader, w []string) (all []string) {
		for _, c := range f.costsAt(w[0]) {
			for i, share := range c.Shares() {
				all = append(all, fmt.Sprint(w[0], " ", c.For[i].Name(), " ", season.Money{Minor: share, Currency: c.Money.Currency}.Text(), " ", c.Money.Currency.Code))
			}
			require.Len(f.t, all, f.count("share "+w[0]+" "), "all shares are listed")
		}
		return all
	},
	"paid": func(f factReader, w []string) []string {
		return f.ofCost(w, func(c *season.Cost) string { return c.By.Name() })
	},
	"to-club": func(f factReader, w []string) []string {
		return f.ofCost(w, func(c *season.Cost) string { return yesNo(c.ToClub) })
	},
	"receipt": func(f factReader, w []string) []string {
		all := f.ofCost(w, func(c *season.Cost) string { return orDash(c.Receipt) })
		return append(all, f.ofSettlement(w, func(s *season.Settlement) string { return orDash(s.Receipt) })...)
	},
	"remark": func(f factReader, w []string) []string {
		all := f.ofCost(w, func(c *season.Cost) string { return quotedOrDash(c.Remark) })
		return append(all, f.ofSettlement(w, func(s *season.Settlement) string { return quotedOrDash(s.Remark) })...)
	},
	"balance": func(f factReader, w []string) []string { return f.standing(w, func(season.Party) bool { return true }) },
	"with-club": func(f factReader, w []string) []string {
		return f.standing(w, func(other season.Party) bool { return other.Club() })
	},
	"result": func(f factReader, w []string) []string {
		unit := season.Currency{Code: w[2], Decimals: 2}
		year, err := strconv.Atoi(w[0])
		require.NoError(f.t, err)
		return []string{fmt.Sprint(w[0], " ", season.Money{Minor: f.l.ClubResult(year, unit), Currency: unit}.Text(), " ", w[2])}
	},
	"budget": func(f factReader, _ []string) (all []string) {
		for _, b := range f.l.Budgets {
			side := map[bool]string{false: "cost", true: "income"}[b.Income]
			all = append(all, fmt.Sprint(b.Year, " ", b.Kind, " ", b.Money.Text(), " ", b.Money.Currency.Code, " ", side))
		}
		return all
	},
	"agreed": func(f factReader, _ []string) (all []string) {
		for _, a := range f.l.Agreed {
			all = append(all, fmt.Sprint(a.Year, " ", a.Money.Text(), " ", a.Money.Currency.Code))
		}
		return all
	},
	"in-hand": func(f factReader, _ []string) (all []string) {
		for _, h := range f.l.InHand {
			said := "-"
			if own, ok := f.l.OwnInHand(h); ok {
				said = own.Text()
			}
			all = append(all, fmt.Sprint(h.At.Line, " ", said))
		}
		return all
	},
	"expires": func(f factReader, w []string) (all []string) {
		for _, e := range f.l.PilotNamed(w[0]).Expires {
			all = append(all, fmt.Sprint(w[0], " ", e.What, " ", e.Date))
		}
		require.Len(f.t, all, f.count("expires "+w[0]+" "), "all are listed")
		return all
	},
	"not-flown": func(f factReader, w []string) (all []string) {
		for _, n := range f.l.PilotNamed(w[0]).NotFlown {
			for _, g := range n.Groups {
				all = append(all, fmt.Sprint(w[0], " ", g, " ", quotedOrDash(n.Reason)))
			}
		}
		require.Len(f.t, all, f.count("not-flown "+w[0]+" "), "all are listed")
		return all
	},
	"party": func(f factReader, w []string) []string {
		_, ok := f.l.PartyNamed(w[0])
		require.True(f.t, ok)
		kinds := w[:1:1]
		if f.l.PilotNamed(w[0]) != nil {
			kinds = append(kinds, "pilot")
		}
		if slices.ContainsFunc(f.l.Coaches, func(c *season.Coach) bool { return c.Handle == w[0] }) {
			kinds = append(kinds, "coach")
		}
		if slices.ContainsFunc(f.l.Persons, func(p *season.Person) bool { return p.Handle == w[0] }) {
			kinds = append(kinds, "person")
		}
		return []string{strings.Join(kinds, " ")}
	},
	"no-party": func(f factReader, w []string) []string {
		if p, ok := f.l.PartyNamed(w[0]); ok && !p.Club() {
			return nil
		}
		return w
	},
	"duty": func(f factReader, _ []string) (all []string) {
		for _, c := range f.l.Contests {
			for _, d := range c.Duties {
				all = append(all, fmt.Sprint(c.Handle, " ", d.Role, " ", d.Who.Name(), " ", d.Sessions))
			}
		}
		return all
	},
	"enter-by": func(f factReader, w []string) []string {
		said := "-"
		if by := f.l.ContestNamed(w[0]).EnterBy; by != 0 {
			said = by.String()
		}
		return []string{w[0] + " " + said}
	},
	"open": func(f factReader, w []string) (all []string) {
		open, _ := season.Matters(f.l, f.l.PilotNamed(w[0]), day(f.t, w[1]))
		for _, m := range open {
			all = append(all, strings.Join([]string{w[0], w[1], m.Fault.Kind.Name, m.Flight.Name}, " "))
		}
		if len(all) == 0 {
			return []string{w[0] + " " + w[1] + " -"}
		}
		require.Len(f.t, all, f.count(fmt.Sprintf("open %s %s ", w[0], w[1])), "all that stands open is listed")
		return all
	},
	"signoff": func(f factReader, _ []string) (all []string) {
		for _, s := range f.l.Signoffs {
			all = append(all, fmt.Sprint(s.Pilot.Handle, " ", s.Category, " ", s.Date, " ", s.By.Handle, " ", quotedOrDash(s.Remark)))
		}
		return all
	},
	"drill": func(f factReader, _ []string) (all []string) {
		for _, d := range f.l.Drills {
			ended := "-"
			if d.Ended != 0 {
				ended = d.Ended.String()
			}
			all = append(all, fmt.Sprint(d.Pilot.Handle, " ", d.Target, " ", d.Date, " ", ended, " ", quotedOrDash(d.EndedRemark)))
		}
		return all
	},
	"video": func(f factReader, w []string) (all []string) {
		for _, v := range f.flight(w[0]).Videos {
			all = append(all, w[0]+" "+Quote(v))
		}
		require.Len(f.t, all, f.count("video "+w[0]+" "))
		return all
	},
	"review-video": func(f factReader, w []string) (all []string) {
		for _, r := range f.flight(w[0]).Reviewed {
			for _, v := range r.Videos {
				all = append(all, w[0]+" "+r.By.Handle+" "+Quote(v))
			}
		}
		return all
	},
	"at":    func(f factReader, w []string) []string { return f.ofFault(w, atText) },
	"fault": func(f factReader, w []string) []string { return f.ofFault(w, factOfFault) },
	"deduction": func(f factReader, w []string) []string {
		return f.ofFault(w, func(fault season.Fault) string { return exact(fault.Deduction()) })
	},
	"expected": func(f factReader, w []string) (all []string) {
		for _, g := range f.flight(w[0]).ExpectedGrades() {
			all = append(all, fmt.Sprint(w[0], " ", g.Figure, " ", g.Expected.FloatString(1)))
		}
		return all
	},
	"exposed": func(f factReader, w []string) []string {
		kind := kindOfName(f.t, f.l, w[1])
		return []string{w[0] + " " + w[1] + " " + yesNo(f.flight(w[0]).CouldShow(kind))}
	},
	"figure": func(f factReader, w []string) []string {
		number, err := strconv.Atoi(w[1])
		require.NoError(f.t, err)
		fl := f.flight(w[0])
		line := fl.Score().Lines[slices.Index(fl.Flown(), number-1)]
		return []string{fmt.Sprint(w[0], " ", number, " ", line.Mean.FloatString(2), " ", fl.Times(number))}
	},
	"score": func(f factReader, w []string) []string {
		score := f.flight(w[0]).Score()
		return []string{fmt.Sprint(w[0], " ", score.Points.FloatString(2), " ", score.Maximum)}
	},
	"gate": func(f factReader, w []string) []string {
		key, ok := f.l.PolicyNamed(w[0]).Key(w[1])
		require.True(f.t, ok, w)
		return []string{w[0] + " " + w[1] + " " + gateText(key)}
	},
	"groups": func(f factReader, w []string) []string {
		number, err := strconv.Atoi(w[1])
		require.NoError(f.t, err)
		said := []string{w[0], w[1]}
		for _, e := range f.l.SequenceNamed(w[0]).Figures[number-1].Elements {
			said = append(said, e.Group)
		}
		return []string{strings.Join(said, " ")}
	},
}

// count is how many facts of the case begin so.
func (f factReader) count(prefix string) int {
	n := 0
	for _, fact := range f.c.facts {
		if strings.HasPrefix(strings.Join(strings.Fields(fact), " ")+" ", prefix) {
			n++
		}
	}
	return n
}

func (f factReader) flight(name string) *season.Flight { return flightOf(f.t, f.l, name) }

// costsAt are the costs of a line of the main file.
func (f factReader) costsAt(line string) (found []*season.Cost) {
	for _, c := range f.l.Costs {
		if strconv.Itoa(c.At.Line) == line && c.At.File == "test.boxbook" {
			found = append(found, c)
		}
	}
	return found
}

func (f factReader) ofCost(w []string, say func(*season.Cost) string) (all []string) {
	for _, c := range f.costsAt(w[0]) {
		all = append(all, w[0]+" "+say(c))
	}
	return all
}

func (f factReader) ofSettlement(w []string, say func(*season.Settlement) string) (all []string) {
	for _, s := range f.l.Settlements {
		if strconv.Itoa(s.At.Line) == w[0] {
			all = append(all, w[0]+" "+say(s))
		}
	}
	return all
}

// ofFault says something of the fault on a line, found by the order of the lines
// that begin with fault.
func (f factReader) ofFault(w []string, say func(season.Fault) string) (all []string) {
	lines := strings.Split(f.c.files["test.boxbook"], "\n")
	line, err := strconv.Atoi(w[0])
	require.NoError(f.t, err)
	at := 0
	for _, text := range lines[:line-1] {
		if strings.HasPrefix(strings.TrimSpace(text), "fault ") {
			at++
		}
	}
	var faults []season.Fault
	for _, fl := range f.l.Flights {
		faults = append(faults, fl.Faults...)
	}
	require.Less(f.t, at, len(faults))
	return []string{w[0] + " " + say(faults[at])}
}

// standing is what a party is owed by the others that fit.
func (f factReader) standing(w []string, fits func(season.Party) bool) []string {
	party, ok := f.l.PartyNamed(w[0])
	require.True(f.t, ok, w)
	unit := season.Currency{Code: w[2], Decimals: 2}
	standing := season.Standing{}
	for _, p := range season.Postings(f.l) {
		if f.l.Past(p.Date) {
			standing.Post(p)
		}
	}
	sum := int64(0)
	for _, other := range f.l.Parties() {
		if fits(other) {
			sum += standing.Owes(other, party, unit)
		}
	}
	return []string{fmt.Sprint(w[0], " ", season.Money{Minor: sum, Currency: unit}.Text(), " ", w[2])}
}

func atText(fault season.Fault) string {
	if fault.At == nil {
		return "no place"
	}
	return fmt.Sprint(int(*fault.At), " ", quotedOrDash(fault.Video))
}

func factOfFault(fault season.Fault) string {
	seen := map[bool]string{false: "seen", true: "felt"}[fault.Felt]
	return strings.Join([]string{fault.Kind.Name, orDash(fault.Amount.Text), seen}, " ")
}

func gateText(key season.PolicyKey) string {
	values := make([]string, len(key.Values))
	for i, v := range key.Values {
		values[i] = v.String()
	}
	switch {
	case key.Off:
		return "off"
	case len(values) == 0:
		return yesNo(key.Yes)
	case key.Key == "new-families":
		return strings.Join(values, " at ")
	default:
		return strings.Join(values, " in ")
	}
}

func exact(r *big.Rat) string {
	if r.IsInt() {
		return r.RatString()
	}
	return r.FloatString(1)
}

func yesNo(yes bool) string { return map[bool]string{false: "no", true: "yes"}[yes] }

func orDash(text string) string {
	if text == "" {
		return "-"
	}
	return text
}

func quotedOrDash(text string) string {
	if text == "" {
		return "-"
	}
	return Quote(text)
}
