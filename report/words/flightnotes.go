package words

import (
	"fmt"
	"strings"

	"boxbook/report/answers"
	"boxbook/scoring"
	"boxbook/season"
)

func RoundingText(f *season.Flight) string {
	switch f.Style.FillRounding {
	case scoring.ToTenth:
		return "rounded to 0.1"
	case scoring.ToHalf:
		return "rounded to 0.5"
	default:
		return "filled marks unrounded"
	}
}

// RulingText says why a line counts as it does, "" where every mark stands.
func RulingText(f *season.Flight, line answers.Line, marks []scoring.Mark) string {
	vote := scoring.VoteOn(marks)
	zeros := fmt.Sprintf("hard zero from %d of the %s who gave a mark", vote.Hard, season.Counted(vote.Given, "judge", "judges"))
	switch scoring.Ruling(line.Ruling) {
	case scoring.Filled:
		return filledText(line, marks, vote, zeros, f.Style.HardZero == scoring.ByMajority)
	case scoring.Zeroed:
		switch {
		case vote.Confirmed:
			return "confirmed hard zero: 0 from every judge"
		case vote.Side == scoring.HalfOf:
			return zeros + ", exactly half: the rule style makes it 0"
		}
		return zeros + ", more than half: 0 from every judge"
	case scoring.Undecided:
		if vote.Side == scoring.Silent {
			return "no judge gave a mark: undecided, from 0 to full marks, until `resolve` records a ruling"
		}
		return zeros + ", exactly half: undecided until `resolve` records the chief judge's ruling"
	case scoring.Resolved:
		return resolvedText(line, zeros, vote)
	default:
		return ""
	}
}

// filledText says why marks were filled; overruled that hard zeros were, which
// do not count as given.
func filledText(line answers.Line, marks []scoring.Mark, vote scoring.Vote, zeros string, overruled bool) string {
	var reasons []string
	switch {
	case overruled && vote.Side == scoring.HalfOf:
		reasons = append(reasons, zeros+", exactly half, which the rule style fills")
	case overruled && vote.Hard > 0:
		reasons = append(reasons, zeros+", a minority")
	}
	for _, kind := range []struct {
		kind scoring.MarkKind
		text string
	}{{scoring.NotSeen, "not seen by %s"}, {scoring.Absent, "no mark on the sheet of %s"}} {
		n := 0
		for _, m := range marks {
			if m.Kind == kind.kind {
				n++
			}
		}
		if n > 0 {
			reasons = append(reasons, fmt.Sprintf(kind.text, season.Counted(n, "judge", "judges")))
		}
	}
	return fmt.Sprintf("%s: filled with %s", strings.Join(reasons, "; "), line.Fill.Text(MeanDecimals))
}

func resolvedText(line answers.Line, zeros string, vote scoring.Vote) string {
	reason := zeros + ", exactly half"
	if vote.Side == scoring.Silent {
		reason = "no judge gave a mark"
	}
	if line.Points.Known() && line.Points.Float64() == 0 && !line.Fill.Known() {
		return reason + "; ruled a zero"
	}
	return fmt.Sprintf("%s; ruled to be filled, with %s", reason, line.Fill.Text(MeanDecimals))
}
