package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"boxbook/season"
	"boxbook/season/ledger"
)

// when asks for the date.
func (c *flightTalk) when() error {
	_, err := c.ask(question{key: askDate, asks: "date", otherwise: c.ledger.AsOf.String(), check: checkDate})
	return err
}

func checkDate(text string) (string, string) {
	if _, ok := season.ParseDate(text); !ok {
		return "", fmt.Sprintf("%q is not a date (YYYY-MM-DD)", text)
	}
	return text, ""
}

// who asks for the pilot, and adds one that is new.
func (c *flightTalk) who() error {
	known := pilotHandles(c.ledger.Pilots)
	otherwise := ""
	if len(known) == 1 {
		otherwise = known[0]
	}
	handle, err := c.ask(question{key: askPilot, asks: listed("pilot", known), otherwise: otherwise, check: c.nameOrNew("pilot", known)})
	if err != nil || slices.Contains(known, handle) {
		return err
	}
	name, err := c.ask(question{key: "new pilot " + handle, asks: handle + " is new to the ledger; full name", optional: true})
	if err != nil {
		return err
	}
	var t blockText
	t.line("pilot", handle).body("name", quotedAnswer(name))
	return c.addOrAgain(t.tidied(), askPilot, c.who)
}

func quotedAnswer(answer string) string {
	if answer == none {
		return ""
	}
	return quoted(answer)
}

// where asks for the contest, and adds one that is new.
func (c *flightTalk) where() error {
	known := c.nearContests()
	otherwise := ""
	if len(known) > 0 {
		otherwise = known[0]
	}
	handle, err := c.ask(question{key: askContest, asks: listed("contest, - for none", known), otherwise: otherwise, check: c.nameOrNewOrNone("contest", contestHandles(c.ledger))})
	if err != nil || handle == none || c.ledger.ContestNamed(handle) != nil {
		return err
	}
	v := answers{"handle": {handle}}
	for _, q := range []question{
		{key: "dates", asks: handle + " is new; its days (YYYY-MM-DD..YYYY-MM-DD)", otherwise: c.draft.Answers[askDate]},
		{key: "name", asks: "its full name", optional: true},
		{key: "rules", asks: "its rule style (panel-mean, drop-extremes, as-graded)", optional: true},
		{key: "panel", asks: "its judges, in the order of the marks", optional: true},
	} {
		name := q.key
		q.key = "new contest " + handle + " " + name
		answer, err := c.ask(q)
		if err != nil {
			return err
		}
		if answer != none {
			v[name] = []string{answer}
		}
	}
	return c.addOrAgain(contestBlock(v), "new contest "+handle, c.where)
}

// nearContests lists contests on the flight's date first, then the others from
// the latest back.
func (c *flightTalk) nearContests() []string {
	date, _ := season.ParseDate(c.draft.Answers[askDate])
	var on, others []string
	for _, contest := range slices.Backward(c.ledger.Contests) {
		if date >= contest.First && date <= contest.Last {
			on = append(on, contest.Handle)
		} else {
			others = append(others, contest.Handle)
		}
	}
	if len(on) == 0 {
		return nil
	}
	return append(on, others...)
}

// what asks for programme, number and sequence.
func (c *flightTalk) what() error {
	programmes := proposeProgrammes(c.ledger)
	programme, err := c.ask(question{key: askProgramme, asks: "programme (" + strings.Join(programmes, ", ") + ")", check: func(text string) (string, string) {
		name, ok := choose(text, programmes)
		if !ok {
			return "", fmt.Sprintf("%q is not a programme", text)
		}
		return name, ""
	}})
	if err != nil {
		return err
	}
	if err := c.tellApart(programme); err != nil {
		return err
	}
	return c.sequence(season.Programme(programme))
}

// tellApart numbers a flight whose name is taken.
func (c *flightTalk) tellApart(programme string) error {
	if _, ok := c.draft.Answers[askLabel]; ok {
		return nil
	}
	base := c.draft.Answers[askDate] + "/" + c.draft.Answers[askPilot] + "/" + programme
	for n := 1; ; n++ {
		name := base
		if n > 1 {
			name = fmt.Sprintf("%s/%d", base, n)
		}
		if found := c.ledger.Matching(name, season.Selection{}); len(found) != 1 || found[0].Name != name {
			if n > 1 {
				c.p.say("  %s is there already: this one gets the number %d", base, n)
			}
			return c.keep(askLabel, fmt.Sprint(n))
		}
	}
}

func (c *flightTalk) sequence(programme season.Programme) error {
	var fitting []string
	for _, s := range slices.Backward(c.ledger.Sequences) {
		if s.Programme == programme || programme == season.Practice {
			fitting = append(fitting, s.Handle)
		}
	}
	known := proposeSequences(c.ledger)
	otherwise := ""
	if len(fitting) == 1 {
		otherwise = fitting[0]
	}
	handle, err := c.ask(question{key: askSequence, asks: listed("sequence, - for none", fitting), otherwise: otherwise, check: c.nameOrNewOrNone("sequence", known)})
	if err != nil {
		return err
	}
	if handle == none {
		_, err := c.ask(question{key: askCategory, asks: "category", optional: true, check: checkWord})
		return err
	}
	if slices.Contains(known, handle) {
		return nil
	}
	return c.newSequence(handle, programme)
}

// newSequence asks for a sequence that the ledger lacks, figure by figure.
func (c *flightTalk) newSequence(handle string, programme season.Programme) error {
	v := answers{"handle": {handle}}
	if programme != season.Practice {
		v["programme"] = []string{string(programme)}
	}
	prefix := "new sequence " + handle + " "
	category, err := c.ask(question{key: prefix + "category", asks: listed(handle+" is new; its category", c.ledger.CategoryNames()), optional: true, check: checkWord})
	if err != nil {
		return err
	}
	if category != none {
		v["category"] = []string{category}
	}
	c.p.say(`its figures, as on the form: 8.5.2.1:10 9.1.4.2:4 "half Cuban", or K 14; Enter after the last`)
	for n := 1; ; n++ {
		figure, err := c.ask(question{key: fmt.Sprintf("%s%d", prefix, n), asks: fmt.Sprintf("figure %d", n), optional: n > 1, check: checkFigure})
		if err != nil {
			return err
		}
		if figure == none {
			break
		}
		v["figure"] = append(v["figure"], figure)
	}
	for _, line := range []string{"positioning", "harmony"} {
		k, err := c.ask(question{key: prefix + line, asks: "the K of " + line, optional: true})
		if err != nil {
			return err
		}
		if k != none {
			v[line] = []string{k}
		}
	}
	return c.addOrAgain(sequenceBlock(v), prefix, func() error { return c.newSequence(handle, programme) })
}

// checkFigure refuses a figure that a sequence could not have.
func checkFigure(text string) (string, string) {
	if problem := ledger.CheckFigure(text); problem != "" {
		return "", problem
	}
	return text, ""
}

// judges asks for the panel where the contest has none.
func (c *flightTalk) judges() error {
	if c.draft.Answers[askSequence] == none {
		return c.keep(askPanel, none)
	}
	otherwise := ""
	if contest := c.ledger.ContestNamed(c.draft.Answers[askContest]); contest != nil && len(contest.Panel) > 0 {
		otherwise = strings.Join(contest.Panel, " ")
	}
	_, err := c.ask(question{key: askPanel, asks: "judges, in the order of the marks", otherwise: otherwise, check: func(text string) (string, string) {
		if len(panelNames(text)) == 0 {
			return "", "a panel needs a judge"
		}
		return text, ""
	}})
	return err
}

// panelNames are the judges whose sheets are to hand.
func panelNames(text string) []string {
	before, _, _ := strings.Cut(" "+text+" ", " missing ")
	return strings.Fields(before)
}

// rest asks for penalties, official total, place and a note.
func (c *flightTalk) rest() error {
	for _, q := range []question{
		{key: askPenalty, asks: "a penalty, such as low 20", optional: true, check: checkPenalty},
		{key: askResolve, asks: "a ruling, such as 3 zero", optional: true},
		{key: askTotals, asks: "the judges' totals, as printed", optional: true, check: checkNumbers},
	} {
		if len(c.draft.Given[q.key]) == 0 && q.key != askPenalty {
			continue
		}
		if err := c.untilNone(q); err != nil {
			return err
		}
	}
	for _, q := range []question{
		{key: askOfficial, asks: "the official total, as printed", optional: true, check: checkNumbers},
		{key: askPlace, asks: "the place, such as 3 of 9", optional: true, check: checkPlace},
		{key: askField, asks: "the field's totals, if to hand", optional: true, check: checkNumbers},
		{key: askNote, asks: "a note", optional: true},
	} {
		if q.key == askNote && len(c.draft.Given[askNote]) > 0 {
			continue
		}
		if _, err := c.ask(q); err != nil {
			return err
		}
	}
	return nil
}

// untilNone asks one question until there is no more to say.
func (c *flightTalk) untilNone(q question) error {
	key := q.key
	for n := 1; ; n++ {
		q.key = fmt.Sprintf("%s %d", key, n)
		answer, err := c.ask(q)
		if err != nil || answer == none {
			return err
		}
	}
}

func checkPenalty(text string) (string, string) {
	kind, points, _ := strings.Cut(text, " ")
	if !slices.Contains(season.PenaltyKinds, season.PenaltyKind(kind)) {
		return "", fmt.Sprintf("%q is not a penalty (low, interruption, out, time, other)", kind)
	}
	if strings.TrimSpace(points) == "" {
		return "", "how many points? " + kind + " 20"
	}
	return text, ""
}

// checkPlace takes "3" and "3 of 9".
func checkPlace(text string) (string, string) {
	text = strings.ReplaceAll(text, "/", " of ")
	rank, of, two := strings.Cut(text, " of ")
	n, err1 := strconv.Atoi(strings.TrimSpace(rank))
	m, err2 := strconv.Atoi(strings.TrimSpace(of))
	switch {
	case err1 != nil || n < 1 || (two && err2 != nil):
		return "", "a place is written 3, or 3 of 9"
	case two && n > m:
		return "", fmt.Sprintf("place %d is above the number of pilots, %d", n, m)
	}
	return strings.Join(strings.Fields(text), " "), ""
}

// checkNumbers refuses words where numbers belong.
func checkNumbers(text string) (string, string) {
	for _, word := range strings.Fields(text) {
		if word != "of" && strings.Trim(word, "0123456789.,") != "" {
			return "", fmt.Sprintf("%q is not a number", word)
		}
	}
	return text, ""
}

// flags gives the conversation's answers as the flags would.
func (c *flightTalk) flags() (flightFlags, *season.Sequence) {
	get := func(key string) string {
		if answer := c.draft.Answers[key]; answer != none {
			return answer
		}
		return ""
	}
	o := flightFlags{
		date: get(askDate), pilot: get(askPilot), contest: get(askContest), programme: get(askProgramme), label: get(askLabel),
		sequence: get(askSequence), category: get(askCategory), panel: get(askPanel),
		official: get(askOfficial), place: get(askPlace), field: get(askField),
	}
	if contest := c.ledger.ContestNamed(o.contest); contest != nil && strings.Join(contest.Panel, " ") == strings.Join(strings.Fields(o.panel), " ") {
		o.panel = ""
	}
	seq := c.chosenSequence()
	for _, key := range rowKeys(seq) {
		if _, asked := c.draft.Answers["row "+key]; asked {
			o.rows = append(o.rows, get("row "+key))
		}
	}
	for _, judge := range panelNames(c.draft.Answers[askPanel]) {
		if marks := get("sheet " + judge); marks != "" {
			o.sheets = append(o.sheets, judge+" "+marks)
		}
	}
	all := func(key string) (values []string) {
		for n := 1; get(fmt.Sprintf("%s %d", key, n)) != ""; n++ {
			values = append(values, get(fmt.Sprintf("%s %d", key, n)))
		}
		return values
	}
	o.penalties, o.resolves, o.judgeTotals = all(askPenalty), all(askResolve), strings.Join(all(askTotals), " ")
	o.notes = c.draft.Given[askNote]
	if note := get(askNote); note != "" {
		o.notes = append(o.notes, note)
	}
	return o, seq
}
