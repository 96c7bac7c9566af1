package main

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"

	"boxbook/report"
	answer "boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/season"
	"boxbook/season/ledger"
)

// flightTalk is the conversation of `log flight`.
type flightTalk struct {
	app    *app
	p      *prompter
	path   string
	ledger *season.Ledger // with the blocks added on the way
	draft  *draft
	block  string // what is to be written, "" where the person said no
	name   string
}

// question is one thing asked. check gives the answer as it is to be kept, or
// what is wrong with it.
type question struct {
	key, asks string
	otherwise string // what Enter takes, "" where an answer is needed
	optional  bool   // Enter takes none
	check     func(string) (answer, problem string)
}

// Questions of the conversation, which are the keys of a draft's answers.
const (
	askDate      = "date"
	askPilot     = "pilot"
	askContest   = "contest"
	askProgramme = "programme"
	askLabel     = "number"
	askSequence  = "sequence"
	askCategory  = "category"
	askPanel     = "panel"
	askLayout    = "layout"
	askPenalty   = "penalty"
	askOfficial  = "official"
	askPlace     = "place"
	askField     = "field"
	askNote      = "note"
)

// none is the answer that a question does not apply.
const none = "-"

func (c *flightTalk) run(kind string, o flightFlags) error {
	if err := c.begin(kind, o); err != nil {
		return err
	}
	for _, step := range []func() error{c.when, c.who, c.where, c.what, c.judges, c.marks, c.rest} {
		if err := step(); err != nil {
			return err
		}
	}
	return c.lastLook()
}

// begin offers a draft that is there, and takes what the flags gave.
func (c *flightTalk) begin(kind string, o flightFlags) error {
	old, err := readDraft(c.path)
	if err != nil {
		return err
	}
	c.draft = newDraft(c.path, kind)
	if old != nil && old.Kind == kind {
		c.p.say("there is a draft: %s", draftSummary(old))
		answer, err := c.p.read("go on with it? (yes, no) [yes]: ", "")
		if err != nil {
			return err
		}
		if answer == "" || strings.HasPrefix("yes", strings.ToLower(answer)) {
			c.draft = old
			return c.readWith(old.Blocks)
		}
	}
	for key, value := range map[string]string{
		askDate: o.date, askPilot: o.pilot, askContest: o.contest, askProgramme: o.programme, askLabel: o.label,
		askSequence: o.sequence, askCategory: o.category, askPanel: o.panel, askOfficial: o.official, askPlace: o.place, askField: o.field,
	} {
		if value != "" {
			c.draft.Answers[key] = value
		}
	}
	if kind == "practice" {
		c.draft.Answers[askContest] = none
	}
	return nil
}

func draftSummary(d *draft) string {
	text := strings.TrimSpace(d.Answers[askDate] + " " + d.Answers[askPilot] + " " + d.Answers[askProgramme])
	rows := 0
	for key := range d.Answers {
		if strings.HasPrefix(key, "row ") || strings.HasPrefix(key, "sheet ") {
			rows++
		}
	}
	return fmt.Sprintf("%s, %s", text, counted(rows, "row", "rows"))
}

// readWith reads the ledger with blocks of the draft's own at its end.
func (c *flightTalk) readWith(blocks []string) error {
	result, err := c.app.preview(c.path, strings.Join(blocks, "\n"))
	if err != nil {
		return err
	}
	if err := result.Diagnostics.Err(); err != nil {
		return err
	}
	c.ledger = result.Ledger
	return nil
}

// ask asks one question, unless it is answered already, and keeps the answer.
func (c *flightTalk) ask(q question) (string, error) {
	if answer, ok := c.draft.Answers[q.key]; ok {
		if q.check == nil || (q.optional && answer == none) {
			return answer, nil
		}
		if checked, problem := q.check(answer); problem == "" {
			return checked, nil
		}
		delete(c.draft.Answers, q.key)
	}
	typed := c.draft.Typing
	for {
		text, err := c.p.read(q.prompt(), typed)
		if err != nil {
			return "", c.stop(text, err)
		}
		c.draft.Typing, typed = "", ""
		if text == "" && q.otherwise != "" {
			text = q.otherwise
		}
		switch {
		case text == "" && q.optional:
			text = none
		case text == "":
			c.p.say("  this is needed")
			continue
		case q.check != nil:
			answer, problem := q.check(text)
			if problem != "" {
				c.p.say("  %s", problem)
				continue
			}
			text = answer
		}
		return text, c.keep(q.key, text)
	}
}

func (q question) prompt() string {
	switch {
	case q.otherwise != "":
		return fmt.Sprintf("%s [%s]: ", q.asks, q.otherwise)
	case q.optional:
		return q.asks + ", or Enter for none: "
	default:
		return q.asks + ": "
	}
}

// keep saves an answer in the draft.
func (c *flightTalk) keep(key, answer string) error {
	c.draft.Answers[key] = answer
	return c.draft.save()
}

// stop keeps the line under the cursor, and passes the interruption on.
func (c *flightTalk) stop(typing string, err error) error {
	c.draft.Typing = typing
	if saveErr := c.draft.save(); saveErr != nil {
		return saveErr
	}
	return err
}

// nameOrNew takes a known name, the beginning of one, or a new name; a name
// that is nearly a known one is taken for a slip.
func (c *flightTalk) nameOrNew(kind string, known []string) func(string) (string, string) {
	return func(text string) (string, string) {
		if strings.ContainsAny(text, " \t\"#") {
			return "", fmt.Sprintf("%q is not a name: one word, a letter first", text)
		}
		name, ok := choose(text, known)
		switch {
		case ok:
			return name, ""
		case name != "" && c.draft.Answers["refused "+text] == "":
			c.draft.Answers["refused "+text] = "yes"
			return "", fmt.Sprintf("no %s is called %q; did you mean %q? (type it again if it is new)", kind, text, name)
		default:
			return text, ""
		}
	}
}

func (c *flightTalk) nameOrNewOrNone(kind string, known []string) func(string) (string, string) {
	named := c.nameOrNew(kind, known)
	return func(text string) (string, string) {
		if text == none {
			return none, ""
		}
		return named(text)
	}
}

// checkWord refuses what can be no name.
func checkWord(text string) (string, string) {
	if strings.Trim(text, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ") == text || strings.ContainsAny(text, " \t\"#") {
		return "", fmt.Sprintf("%q is not a name: one word, a letter first", text)
	}
	return text, ""
}

// add keeps a block that the flight needs, if the ledger can be read with it.
func (c *flightTalk) add(block string) error {
	blocks := append(slices.Clone(c.draft.Blocks), block)
	if err := c.readWith(blocks); err != nil {
		return err
	}
	c.draft.Blocks = blocks
	return c.draft.save()
}

// addOrAgain adds a block; where the ledger cannot be read with it, the person
// hears why and is asked again.
func (c *flightTalk) addOrAgain(block, prefix string, again func() error) error {
	err := c.add(block)
	var invalid *ledger.InvalidError
	if !errors.As(err, &invalid) {
		return err
	}
	c.sayErrors(invalid.List)
	for key := range c.draft.Answers {
		if strings.HasPrefix(key, prefix) {
			delete(c.draft.Answers, key)
		}
	}
	return again()
}

// sayErrors says what is wrong, without where: the text is not in a file yet.
func (c *flightTalk) sayErrors(list ledger.List) {
	for _, d := range list {
		if d.Severity == ledger.Error {
			c.p.say("  %s", d.Message)
		}
	}
}

// askRestAgain says what is wrong with the flight as a whole, and asks again
// for everything after the marks: those were checked one by one.
func (c *flightTalk) askRestAgain(list ledger.List) error {
	c.sayErrors(list)
	for key := range c.draft.Answers {
		if strings.HasPrefix(key, askPenalty+" ") || slices.Contains([]string{askOfficial, askPlace, askField, askNote}, key) {
			delete(c.draft.Answers, key)
		}
	}
	c.p.say("  again, please:")
	if err := c.rest(); err != nil {
		return err
	}
	return c.lastLook()
}

// lastLook shows the score and asks before it writes.
func (c *flightTalk) lastLook() error {
	flags, seq := c.flags()
	block := strings.Join(append(slices.Clone(c.draft.Blocks), flightBlock(flags, seq)), "\n")
	result, err := c.app.preview(c.path, block)
	if err != nil {
		return err
	}
	if err := result.Diagnostics.Err(); err != nil {
		return c.askRestAgain(result.Diagnostics)
	}
	c.name = flightTitleOf(flags)
	for _, f := range result.Ledger.Matching(c.name, season.Selection{}) {
		var page bytes.Buffer
		if err := report.WriteText(&page, pages.Flight(answer.FlightOf(f), pages.FlightOptions{}), report.TextOptions{Width: c.app.width}); err != nil {
			return err
		}
		c.p.say("\n%s", page.String())
	}
	for {
		answer, err := c.p.read("write it? (yes, no): ", "")
		if err != nil {
			return c.stop("", err)
		}
		switch {
		case answer != "" && strings.HasPrefix("yes", strings.ToLower(answer)):
			c.block = block
			return nil
		case answer != "" && strings.HasPrefix("no", strings.ToLower(answer)):
			c.p.say("not written; the draft is kept")
			return c.draft.save()
		}
	}
}
