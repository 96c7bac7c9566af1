package main

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/season"
	"boxbook/season/ledger"
)

// marks walks the sheet, by figure or by judge.
func (c *flightTalk) marks() error {
	seq := c.chosenSequence()
	if seq == nil {
		return nil
	}
	if err := c.takeMarks(seq); err != nil {
		return err
	}
	layout, err := c.ask(question{key: askLayout, asks: "marks by figure or by sheet", otherwise: "figure", check: func(text string) (string, string) {
		name, ok := choose(text, []string{"figure", "sheet"})
		if !ok {
			return "", "figure or sheet"
		}
		return name, ""
	}})
	if err != nil {
		return err
	}
	panel := panelNames(c.draft.Answers[askPanel])
	if layout == "sheet" {
		keys := rowKeys(seq)
		return c.walk("sheet", panel, func(i int) string { return fmt.Sprintf("sheet %s, %d marks", panel[i], len(keys)) },
			func(_ int, text string) string { return checkMarks(text, len(keys), "the sequence has", "lines", "") })
	}
	keys := rowKeys(seq)
	c.p.say("judges: %s", strings.Join(panel, " "))
	return c.walk("row", keys, func(i int) string { return rowPrompt(seq, keys[i], i) }, func(i int, text string) string {
		weighted := ""
		if i >= len(seq.Figures) {
			weighted = keys[i]
		}
		return checkMarks(text, len(panel), "the panel has", "judges", weighted)
	})
}

// takeMarks takes the rows or sheets that flags gave.
func (c *flightTalk) takeMarks(seq *season.Sequence) error {
	rows, sheets := c.draft.Given["row"], c.draft.Given["sheet"]
	keys := rowKeys(seq)
	switch {
	case len(rows) > 0 && len(sheets) > 0:
		return &usageError{text: "--row and --sheet are two ways to give the same marks: use one"}
	case len(rows) > len(keys):
		return &usageError{text: fmt.Sprintf("--row is given %d times, the sequence has %d lines", len(rows), len(keys))}
	case len(rows) > 0:
		c.draft.Answers[askLayout] = "figure"
	case len(sheets) > 0:
		c.draft.Answers[askLayout] = "sheet"
	}
	for i, row := range rows {
		if strings.TrimSpace(row) == "" {
			row = none
		}
		c.draft.Answers["row "+keys[i]] = row
	}
	for _, sheet := range sheets {
		judge, marks, _ := strings.Cut(strings.TrimSpace(sheet), " ")
		if !slices.Contains(panelNames(c.draft.Answers[askPanel]), judge) {
			return unknown("judge of the panel", judge, panelNames(c.draft.Answers[askPanel]))
		}
		c.draft.Answers["sheet "+judge] = strings.TrimSpace(marks)
	}
	c.draft.Given["row"], c.draft.Given["sheet"] = nil, nil
	return c.draft.save()
}

func (c *flightTalk) chosenSequence() *season.Sequence {
	return c.ledger.SequenceNamed(c.draft.Answers[askSequence])
}

// rowPrompt shows number, K and label of a line.
func rowPrompt(seq *season.Sequence, key string, i int) string {
	switch {
	case i < len(seq.Figures):
		figure := seq.Figures[i]
		label := figure.Label
		if label == "" {
			for _, e := range figure.Elements {
				label += " " + e.Code
			}
		}
		return fmt.Sprintf("%2d  K %-3d %s", i+1, figure.K, strings.TrimSpace(label))
	case key == "harmony":
		return fmt.Sprintf("    K %-3d harmony", seq.Harmony)
	default:
		return fmt.Sprintf("    K %-3d positioning", seq.Positioning)
	}
}

// walk asks for rows in order; `back` returns to the one before.
func (c *flightTalk) walk(kind string, keys []string, prompt func(int) string, check func(int, string) string) error {
	practice := c.draft.Answers[askProgramme] == string(season.Practice) && kind == "row"
	for i := 0; i < len(keys); {
		back := false
		_, err := c.ask(question{key: kind + " " + keys[i], asks: prompt(i), optional: practice, check: func(text string) (string, string) {
			if back = strings.EqualFold(text, "back"); back || text == none && practice {
				return none, ""
			}
			return text, check(i, text)
		}})
		if err != nil {
			return err
		}
		if !back {
			i++
			continue
		}
		delete(c.draft.Answers, kind+" "+keys[i])
		i = max(0, i-1)
		if earlier := c.draft.Answers[kind+" "+keys[i]]; earlier != none {
			c.draft.Typing = earlier
		}
		delete(c.draft.Answers, kind+" "+keys[i])
	}
	return nil
}

// checkMarks says what is wrong with a row of marks, "" where nothing is.
func checkMarks(text string, want int, has, what, weighted string) string {
	marks, _, problem, hint := ledger.ReadMarks(text)
	switch {
	case problem != "" && hint != "":
		return problem + "; " + hint
	case problem != "":
		return problem
	case len(marks) != want:
		return fmt.Sprintf("%s, %s %d %s", counted(len(marks), "mark", "marks"), has, want, what)
	}
	for _, m := range marks {
		if weighted != "" && m.Half == 0 && m.String() != "0.0" && m.String() != "AV" && m.String() != "-" {
			return fmt.Sprintf("%s cannot stand in the %s line, which has grades, AV or -", m, weighted)
		}
	}
	return ""
}
