package words

import (
	"fmt"
	"strings"

	"boxbook/report/answers"
)

// FilledText says what the sign of a filled mark means.
func FilledText(style answers.RuleStyle) string {
	text := "filled with the mean of the other marks of the row, "
	if style.FillRounding == answers.Unrounded {
		return text + "filled marks unrounded"
	}
	return text + "rounded to " + style.FillRounding
}

// What the other signs behind a mark mean.
const (
	OverruledText = "overruled: the figure is 0 from every judge"
	DroppedText   = "highest or lowest of the row, left out of the mean"
)

// RulingText says why a line counts as it does, "" where every mark stands.
func RulingText(style answers.RuleStyle, line answers.Line) string {
	switch line.Ruling {
	case answers.RulingFilled:
		return filledText(style, line)
	case answers.RulingZeroed:
		return zeroedText(voteOf(line))
	case answers.RulingUndecided:
		if vote := voteOf(line); vote.Side != answers.Silent {
			return zerosText(vote) + ", exactly half: undecided until `resolve` records the chief judge's ruling"
		}
		return "no judge gave a mark: undecided, from 0 to full marks, until `resolve` rules it zero"
	case answers.RulingResolved:
		return resolvedText(line)
	default:
		return ""
	}
}

// voteOf is the line's vote on hard zeros, none where nobody put one.
func voteOf(line answers.Line) answers.Vote {
	if line.Vote == nil {
		return answers.Vote{Side: answers.MinorityOf}
	}
	return *line.Vote
}

func zerosText(vote answers.Vote) string {
	if vote.HardZeros == vote.Given {
		return "hard zero from " + PluralWord(vote.Given, "the only judge", "every judge") + " who gave a mark"
	}
	return fmt.Sprintf("hard zero from %d of the %s who gave a mark", vote.HardZeros, Counted(vote.Given, "judge", "judges"))
}

func zeroedText(vote answers.Vote) string {
	switch {
	case vote.Confirmed:
		return "confirmed hard zero: 0 from every judge"
	case vote.Side == answers.HalfOf:
		return zerosText(vote) + ", exactly half: the rule style makes it 0"
	default:
		if vote.HardZeros == vote.Given {
			return zerosText(vote)
		}
		return zerosText(vote) + ", more than half: 0 from every judge"
	}
}

// filledText says why marks were filled: for hard zeros where these do not count
// as given, and for marks that are not there.
func filledText(style answers.RuleStyle, line answers.Line) string {
	var reasons []string
	overruled, vote := style.HardZero == answers.Majority, voteOf(line)
	switch {
	case overruled && vote.Side == answers.HalfOf:
		reasons = append(reasons, zerosText(vote)+", exactly half, which the rule style fills")
	case overruled && vote.HardZeros > 0:
		reasons = append(reasons, zerosText(vote)+", a minority")
	}
	if n := marksOfKind(line, answers.NotSeen); n > 0 {
		reasons = append(reasons, "not seen by "+Counted(n, "judge", "judges"))
	}
	if n := marksOfKind(line, answers.NoMark); n > 0 {
		reasons = append(reasons, "no mark on the sheet of "+Counted(n, "judge", "judges"))
	}
	return fmt.Sprintf("%s: filled with %s", strings.Join(reasons, "; "), line.Fill.Text(MeanDecimals))
}

func marksOfKind(line answers.Line, kind answers.MarkKind) int {
	n := 0
	for _, cell := range line.Cells {
		if cell.Kind == kind {
			n++
		}
	}
	return n
}

func resolvedText(line answers.Line) string {
	vote := voteOf(line)
	reason := zerosText(vote) + ", exactly half"
	if vote.Side == answers.Silent {
		reason = "no judge gave a mark"
	}
	text := reason + "; ruled a zero"
	if line.Decision != answers.RuledZero {
		text = fmt.Sprintf("%s; ruled to be filled, with %s", reason, line.Fill.Text(MeanDecimals))
	}
	if line.DecisionRemark != "" {
		text += fmt.Sprintf("; noted: %q", line.DecisionRemark)
	}
	return text
}

// ScoreNotes say what a person must know beside the numbers of the score.
func ScoreNotes(d answers.Flight) []string {
	var notes []string
	add := func(format string, args ...any) { notes = append(notes, fmt.Sprintf(format, args...)) }
	if d.Void != "" {
		add("void: %s; the flight is left out of every statistic", d.Void)
	}
	if len(d.Missing) > 0 && d.Points.Known() {
		add("the calculated total rests on the sheets to hand, without %s's", strings.Join(d.Missing, "'s and "))
	}
	if d.Record != nil && d.Record.Source == answers.FromOfficial && d.Points.Known() {
		add("the counted result, which season and trend use, is the official total as typed")
	}
	return append(append(append(notes, scoreNeeds(d)...), d.Notes...), closesNotes(d)...)
}

// scoreNeeds are the notes of a score that no page leaves out: what is undecided,
// what a penalty was for.
func scoreNeeds(d answers.Flight) []string {
	var notes []string
	add := func(format string, args ...any) { notes = append(notes, fmt.Sprintf(format, args...)) }
	if d.Undecided {
		add("undecided: the score is a range until a ruling is recorded; without an official total the flight is left out of every statistic of the season")
	}
	for _, p := range d.Penalties {
		if p.Remark != "" {
			add("penalty, %s: %s", p.Kind, p.Remark)
		}
	}
	return notes
}
