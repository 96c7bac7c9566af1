package main

import (
	"fmt"
	"strings"

	"boxbook/season"
)

// Fields that several forms have.
var (
	fieldDate   = field{name: "date", asks: "the date (YYYY-MM-DD)", propose: proposeToday}
	fieldPilot  = field{name: "pilot", asks: "the pilot", propose: proposePilots}
	fieldRemark = field{name: "remark", asks: "a remark", optional: true}
	fieldBy     = field{name: "by", asks: "the coach", optional: true, propose: proposeCoaches}
	fieldAmount = field{name: "amount", asks: "the amount with its currency (95.00 EUR)", words: true}
	fieldFlight = field{name: "flight", asks: "the flight", propose: proposeFlights}
)

// forms are the kinds of entry that are made of fields, in the order of the
// help page.
func forms() []form {
	return []form{
		{
			kind: "pilot", short: "add a pilot",
			fields: []field{
				{name: "handle", asks: "a short name for the ledger, such as ines"},
				{name: "name", asks: "the full name", optional: true},
				{name: "club", asks: "the club", optional: true},
				{name: "aircraft", asks: "the aircraft", optional: true},
			},
			build: func(_ *season.Ledger, v answers) (entry, error) {
				var t blockText
				t.line("pilot", v.one("handle")).body("name", quoted(v.one("name"))).body("club", quoted(v.one("club"))).body("aircraft", quoted(v.one("aircraft")))
				return entry{block: t.tidied(), said: "pilot " + v.one("handle")}, nil
			},
		},
		{
			kind: "coach", short: "add a coach",
			fields: []field{{name: "handle", asks: "a short name for the ledger, such as marek"}, {name: "name", asks: "the full name", optional: true}},
			build: func(_ *season.Ledger, v answers) (entry, error) {
				var t blockText
				t.line("coach", v.one("handle")).body("name", quoted(v.one("name")))
				return entry{block: t.tidied(), said: "coach " + v.one("handle")}, nil
			},
		},
		contestForm(), sequenceForm(), faultForm(), reviewForm(), drillForm(), dutyForm(), costForm(),
		moneyForm("income", "add money received", "what it was (sponsorship ...)"),
		transferForm("settle", "add a payment between people, or with the club", "who paid", "who was paid"),
		transferForm("owed", "add a debt older than the ledger", "who owes", "who is owed"),
		{
			kind: "signoff", short: "add a coach's sign-off for a category",
			fields: []field{
				fieldDate, fieldPilot,
				{name: "category", asks: "the category", propose: proposeCategories},
				{name: "by", asks: "the coach", propose: proposeCoaches},
				fieldRemark,
			},
			build: func(_ *season.Ledger, v answers) (entry, error) {
				var t blockText
				t.line("signoff", v.one("date"), v.one("pilot"), v.one("category"), "by", v.one("by"), quoted(v.one("remark")))
				return entry{block: t.tidied(), said: "the sign-off of " + v.one("pilot")}, nil
			},
		},
	}
}

func contestForm() form {
	return form{
		kind: "contest", short: "add a contest",
		fields: []field{
			{name: "handle", asks: "a short name for the ledger, such as tarn-open"},
			{name: "dates", asks: "first and last day (YYYY-MM-DD..YYYY-MM-DD)"},
			{name: "name", asks: "the full name", optional: true},
			{name: "site", asks: "the site", optional: true},
			{name: "ladder", asks: "the ladder", optional: true, propose: proposeLadders},
			{name: "rules", asks: "the rule style", optional: true, propose: proposeStyles},
			{name: "panel", asks: "the judges, in the order of the marks", optional: true, words: true},
		},
		build: func(_ *season.Ledger, v answers) (entry, error) {
			return entry{block: contestBlock(v), said: "contest " + v.one("handle")}, nil
		},
	}
}

func contestBlock(v answers) string {
	var t blockText
	t.line("contest", v.one("handle"), v.one("dates"))
	t.body("name", quoted(v.one("name"))).body("site", quoted(v.one("site"))).body("ladder", v.one("ladder"))
	t.body("rules", v.one("rules")).body("panel", v.one("panel"))
	return t.tidied()
}

func sequenceForm() form {
	return form{
		kind: "sequence", short: "add a sequence with its K factors",
		fields: []field{
			{name: "handle", asks: "a short name for the ledger, such as known-26"},
			{name: "category", asks: "the category", optional: true, propose: proposeCategories},
			{name: "programme", asks: "the programme", optional: true, propose: proposeProgrammes},
			{name: "catalogue", asks: "the catalogue word", optional: true},
			{name: "figure", asks: `a figure as on the form: 8.5.2.1:10 9.1.4.2:4 "half Cuban", or K 14`, repeat: true, words: true},
			{name: "positioning", asks: "the K of positioning", optional: true},
			{name: "harmony", asks: "the K of harmony", optional: true},
			{name: "total", asks: "the total K as printed", optional: true},
		},
		build: func(_ *season.Ledger, v answers) (entry, error) {
			return entry{block: sequenceBlock(v), said: "sequence " + v.one("handle")}, nil
		},
	}
}

func sequenceBlock(v answers) string {
	var t blockText
	t.line("sequence", v.one("handle")).body("category", v.one("category")).body("programme", v.one("programme")).body("catalogue", v.one("catalogue"))
	for i, figure := range v["figure"] {
		t.body(fmt.Sprint(i+1), figure)
	}
	for _, key := range []string{"positioning", "harmony", "total"} {
		if v.has(key) {
			t.body(key, "K", strings.TrimSpace(strings.TrimPrefix(v.one(key), "K")))
		}
	}
	return t.tidied()
}

func faultForm() form {
	return form{
		kind: "fault", short: "add a fault to a flight",
		fields: []field{
			fieldFlight,
			{name: "figure", asks: "the figure's number, or - for the whole flight"},
			{name: "kind", asks: "the kind of fault", propose: proposeKinds},
			{name: "amount", asks: "how much (10deg, 2:1, 1.5span, 1.5pt, 3x)", optional: true, words: true},
			{name: "on", asks: "the code it was on", optional: true},
			{name: "as", asks: "seen by a judge's eye, or felt", optional: true, propose: func(*season.Ledger) []string { return []string{"seen", "felt"} }},
			fieldBy, fieldRemark,
		},
		build: func(l *season.Ledger, v answers) (entry, error) {
			f, target, err := flightTarget(l, v.one("flight"))
			if err != nil {
				return entry{}, err
			}
			return entry{into: target, lines: []string{faultLine(v)}, said: "a fault of " + f.Name}, nil
		},
	}
}

// faultLine is `fault FIG KIND [AMOUNT] [on CODE] [seen|felt] [by COACH]`.
func faultLine(v answers) string {
	return remarked(v, "fault", v.one("figure"), v.one("kind"), v.one("amount"), v.behind("on", "on"), v.one("as"), v.behind("by", "by"))
}

// remarked joins words, those left out apart, and puts the remark behind them.
func remarked(v answers, words ...string) string {
	return strings.Join(strings.Fields(strings.Join(words, " ")), " ") + spacedRemark(v)
}

// spacedRemark is the remark as it ends a line, "" where there is none.
func spacedRemark(v answers) string {
	if !v.has("remark") {
		return ""
	}
	return " " + quoted(v.one("remark"))
}

func reviewForm() form {
	return form{
		kind: "review", short: "add a coach's look through the video",
		fields: []field{
			fieldFlight, fieldBy,
			{name: "fault", asks: "a fault: FIGURE KIND [AMOUNT] [on CODE] [seen|felt]", optional: true, repeat: true, words: true},
			{name: "note", asks: "a note", optional: true, repeat: true},
		},
		build: func(l *season.Ledger, v answers) (entry, error) {
			f, err := oneFlight(l, season.Selection{}, v.one("flight"))
			if err != nil {
				return entry{}, err
			}
			var t blockText
			t.line("review", f.Name, v.behind("by", "by"))
			for _, fault := range v["fault"] {
				t.body("fault", fault)
			}
			for _, note := range v["note"] {
				t.body("note", quoted(note))
			}
			return entry{block: t.tidied(), said: "a review of " + f.Name}, nil
		},
	}
}

func drillForm() form {
	return form{
		kind: "drill", short: "add a drill that was set",
		fields: []field{
			fieldDate, fieldPilot,
			{name: "target", asks: "a kind of fault, or a family", propose: func(l *season.Ledger) []string { return append(proposeKinds(l), season.Groups...) }},
			{name: "text", asks: "what is to be practised", optional: true},
			{name: "prompted-by", asks: "a flight that prompted it", optional: true, repeat: true, propose: proposeFlights},
			fieldBy,
		},
		build: func(l *season.Ledger, v answers) (entry, error) {
			var t blockText
			t.line("drill", v.one("date"), v.one("pilot"), v.one("target"), quoted(v.one("text")))
			for _, selector := range v["prompted-by"] {
				f, err := oneFlight(l, season.Selection{}, selector)
				if err != nil {
					return entry{}, err
				}
				t.body("prompted-by", f.Name)
			}
			t.body("by", v.one("by"))
			return entry{block: t.tidied(), said: "a drill for " + v.one("pilot")}, nil
		},
	}
}

func dutyForm() form {
	return form{
		kind: "duty", short: "add work done at a contest",
		fields: []field{
			{name: "contest", asks: "the contest", propose: proposeContests},
			{name: "role", asks: "the duty (judge, scribe ...)"},
			fieldPilot,
			{name: "sessions", asks: "how many sessions", optional: true},
			fieldRemark,
		},
		build: func(l *season.Ledger, v answers) (entry, error) {
			c, target, err := contestTarget(l, v.one("contest"))
			if err != nil {
				return entry{}, err
			}
			line := remarked(v, "duty", v.one("role"), v.one("pilot"), v.one("sessions"))
			return entry{into: target, lines: []string{line}, said: "a duty at " + c.Handle}, nil
		},
	}
}

func costForm() form {
	return form{
		kind: "cost", short: "add money spent",
		fields: []field{
			{name: "contest", asks: "the contest it belongs to", optional: true, propose: proposeContests},
			{name: "date", asks: "the date (YYYY-MM-DD); the contest's first day where left out", optional: true},
			{name: "kind", asks: "what it was for (entry, fuel, lodging ...)"},
			fieldAmount,
			{name: "for", asks: "who it was for, pilots or club", words: true, propose: proposeParties},
			{name: "paid-by", asks: "who paid", optional: true, propose: proposeParties},
			{name: "to-club", asks: "yes where the club received it", optional: true, check: checkYesNo},
			fieldRemark,
		},
		build: buildCost,
	}
}

func buildCost(l *season.Ledger, v answers) (entry, error) {
	toClub := ""
	if v.one("to-club") == "yes" {
		toClub = "to club"
	}
	line := remarked(v, "cost", v.one("date"), v.one("kind"), v.one("amount"), "for", v.one("for"), v.behind("by", "paid-by"), toClub)
	if !v.has("contest") {
		if !v.has("date") {
			return entry{}, &usageError{text: "a cost needs a date, or a contest to belong to: --date or --contest"}
		}
		return entry{block: line + "\n", said: "a cost"}, nil
	}
	c, target, err := contestTarget(l, v.one("contest"))
	if err != nil {
		return entry{}, err
	}
	return entry{into: target, lines: []string{line}, said: "a cost of " + c.Handle}, nil
}

func moneyForm(kind, short, what string) form {
	return form{
		kind: kind, short: short,
		fields: []field{
			fieldDate,
			{name: "kind", asks: what},
			fieldAmount,
			{name: "for", asks: "the pilot who received it, where it was not the club", optional: true, propose: proposePilots},
			fieldRemark,
		},
		build: func(_ *season.Ledger, v answers) (entry, error) {
			words := []string{kind, v.one("date"), v.one("kind"), v.one("amount")}
			if v.has("for") {
				words = append(words, "for", v.one("for"))
			}
			return entry{block: strings.Join(words, " ") + spacedRemark(v) + "\n", said: "an " + kind}, nil
		},
	}
}

func transferForm(kind, short, from, to string) form {
	return form{
		kind: kind, short: short,
		fields: []field{
			fieldDate, {name: "from", asks: from, propose: proposeParties}, {name: "to", asks: to, propose: proposeParties}, fieldAmount, fieldRemark,
		},
		build: func(_ *season.Ledger, v answers) (entry, error) {
			words := []string{kind, v.one("date"), v.one("from"), v.one("to"), v.one("amount")}
			return entry{block: strings.Join(words, " ") + spacedRemark(v) + "\n", said: "the " + kind + " line"}, nil
		},
	}
}
