package entry

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"

	"boxbook/season"
	"boxbook/season/ledger"
)

func contestKind() Kind {
	return Kind{
		Name: "contest", Short: "add a contest",
		Fields: []Field{
			handleField("redbank"),
			{
				Name: "dates", Asks: "its days", Example: "2026-06-20..2026-06-21", Brief: true, Meant: daysMeant, Slip: daysSlip,
				Help:    "the first and the last day, or one day",
				Default: func(s Scene) string { return s.outer("date") },
			},
			{Name: "name", Asks: "its full name", Example: "Redbank Midsummer", Shape: Text, Optional: true, Brief: true},
			{Name: "site", Asks: "its site", Example: "Redbank", Shape: Text, Optional: true},
			{Name: "enter-by", Asks: "the last day to enter", Example: "2026-06-05", Optional: true, Meant: ledger.DateMeant, Slip: dateSlip},
			{Name: "ladder", Asks: "its ladder", Example: "us", Optional: true, Propose: Ladders},
			{Name: "rules", Asks: "its rule style", Help: "how marks become a score, in words: boxbook help methods; panel-mean if omitted", Example: "panel-mean", Optional: true, Propose: Styles, Brief: true},
			{Name: "panel", Asks: "its judges, in the order of the marks", Example: "A B C", Shape: Words, List: true, Optional: true, Brief: true, Intro: judgesBefore, Never: numberedJudges, Doubt: notJudges},
		},
		Write: func(s Scene) (Addition, error) {
			var t blockText
			t.line("contest", s.One("handle"), s.One("dates"))
			t.body("name", quoted(s.One("name"))).body("site", quoted(s.One("site")))
			for _, key := range []string{"enter-by", "ladder", "rules", "panel"} {
				t.body(key, s.One(key))
			}
			return Addition{Block: t.tidied(), Said: "contest " + s.One("handle")}, nil
		},
	}
}

// mostJudgesSaid is how many judges of earlier contests are named at the most: a line.
const mostJudgesSaid = 12

// judgesBefore names the judges of the contests that the ledger has, the last contest's
// first, since the same name is the same judge; a seat is somebody at its contest alone.
func judgesBefore(s Scene) string {
	var names []string
	for _, c := range slices.Backward(s.Ledger.Contests) {
		for _, name := range c.Panel {
			if !season.IsSeat(name) && !slices.Contains(names, name) && len(names) < mostJudgesSaid {
				names = append(names, name)
			}
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "  earlier contests had " + strings.Join(names, " ")
}

// outer is an answer of the entry on whose way this one is added.
func (s Scene) outer(name string) string {
	if s.Outer == nil {
		return ""
	}
	return s.Outer.One(name)
}

func dutyKind() Kind {
	return Kind{
		Name: "duty", Short: "add work done at a contest",
		Fields: []Field{
			contestField("the contest"),
			{Name: "role", Asks: "the duty", Example: "scribe", Propose: DutyRoles, Open: true},
			{Name: "who", Asks: "who did it", Example: "ines", Propose: People, Was: "pilot"},
			{Name: "sessions", Asks: "how many sessions", Example: "2", Optional: true},
			remarkField("both mornings"),
		},
		Write: func(s Scene) (Addition, error) {
			return s.inContest("a duty at ", joined("duty", s.One("role"), s.One("who"), s.One("sessions"), quoted(s.One("remark"))))
		},
	}
}

// inContest adds a line to the contest that was named; said is the last word
// about it, before the contest's name.
func (s Scene) inContest(said, line string) (Addition, error) {
	c := s.Ledger.ContestNamed(s.One("contest"))
	if c == nil {
		return Addition{}, s.host.Unknown("contest", s.One("contest"), Contests(s.Ledger))
	}
	return s.into(ledger.Target{File: c.At.File, Kind: "contest", Name: c.Handle}, said+c.Handle, line)
}

// resultKind is a pilot's printed result of a whole contest.
func resultKind() Kind {
	return Kind{
		Name: "result", Short: "add a pilot's overall result of a contest",
		Fields: []Field{
			contestField("the contest"), pilotField(),
			{
				Name: "total", Asks: "the overall total, as printed", Holds: "TOTAL", Example: "1105.35 of 1600", Shape: Words, Not: []string{"place"}, Optional: true,
				Help: "the total alone, or followed by `of` and the maximum",
			},
			{
				Name: "place", Asks: "the overall place", Example: "4 of 9", Shape: Words, Optional: true, Read: placeOf,
				NeededIf: func(s Scene) bool { return !s.Has("total") },
			},
			remarkField("place shared"),
		},
		Write: func(s Scene) (Addition, error) {
			return s.inContest("a result at ", joined("result", s.One("pilot"), s.One("total"), s.Behind("place", "place"), quoted(s.One("remark"))))
		},
	}
}

// entryDayKind is the last day to enter, which is often known later than the
// contest itself.
func entryDayKind() Kind {
	return Kind{
		Name: "entry-day", Short: "add a contest's last day to enter",
		Fields: []Field{
			contestField("the contest"),
			{Name: "date", Asks: "the last day to enter", Example: "2026-04-03", Meant: ledger.DateMeant, Slip: dateSlip},
		},
		Write: func(s Scene) (Addition, error) {
			return s.inContest("the last day to enter ", "enter-by "+s.One("date"))
		},
	}
}

// daysMeant is the span of days that a text can only mean: two dates in any form that
// has one reading, with whatever people put between them; one of them may say which of
// day and month comes first, and the last one the month and the year of both.
func daysMeant(text string) string {
	if date := ledger.DateMeant(text); isDate(date) {
		return date
	}
	for _, ends := range endsOf(text) {
		if first, last := ledger.DateMeant(ends[0]), ledger.DateMeant(ends[1]); isDate(first) || isDate(last) {
			first, last = hintedLike(ends[1], last, first), hintedLike(ends[0], first, last)
			if isDate(first) && isDate(last) {
				return first + ".." + last
			}
		}
	}
	return text
}

// hintedLike is a date that could be read in two ways, read like the other one, which
// was typed as a text and means one day alone.
func hintedLike(typed, other, date string) string {
	if isDate(date) || !isDate(other) || !strings.ContainsAny(typed, "./") {
		return date
	}
	return ledger.DateHinted(date)
}

// betweenDays is what people put between two days.
var betweenDays = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`\.\.+|\s*[-–—]\s*|\s+(?:to|and|until|bis)\s+|\s+`)
})

// trailingWord is such a word that is left behind the days.
var trailingWord = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`\s+(?:to|and|until|bis)$`) })

// endsOf are the ways to take two dates apart, each date with a year.
func endsOf(text string) (ends [][2]string) {
	text = trailingWord().ReplaceAllString(strings.TrimSpace(text), "")
	for _, at := range betweenDays().FindAllStringIndex(text, -1) {
		first, last := text[:at[0]], text[at[1]:]
		parts := strings.FieldsFunc(last, func(r rune) bool { return r == '.' || r == '/' })
		dot := strings.Trim(strings.Trim(last, "0123456789"), "0123456789")
		if n := len(strings.FieldsFunc(first, func(r rune) bool { return r == '.' || r == '/' })); len(parts) == 3 && n > 0 && n < 3 && dot != "" {
			first = strings.TrimRight(first, "./") + dot[:1] + strings.Join(parts[n:], dot[:1])
		}
		if first != "" && last != "" {
			ends = append(ends, [2]string{first, last})
		}
	}
	return ends
}

func isDate(text string) bool {
	_, ok := season.ParseDate(text)
	return ok
}

// daysSlip says how a span of days is written, where a text is neither that nor a day.
func daysSlip(s Scene, text string) string {
	first, last, isSpan := strings.Cut(text, "..")
	problem := ledger.DateSlip(first, s.Ledger.AsOf)
	if isSpan && problem == "" {
		return ledger.DateSlip(last, s.Ledger.AsOf)
	}
	if problem == "" {
		return ""
	}
	for _, ends := range endsOf(text) {
		first, last := cmp.Or(ledger.DateHinted(ends[0]), ends[0]), cmp.Or(ledger.DateHinted(ends[1]), ends[1])
		if isDate(first) && isDate(last) {
			return fmt.Sprintf("%q can be read in two ways; write %s..%s, if the day comes first", text, first, last)
		}
	}
	if isSpan || strings.ContainsAny(text, " -–—") {
		return fmt.Sprintf("%q is not a span of days, such as 2026-06-20..2026-06-21", text)
	}
	return problem
}
