package words

import (
	"fmt"

	"boxbook/scoring"
)

func HardZeroWords(s scoring.Style) string {
	if s.HardZero == scoring.AsGiven {
		return "a hard zero (HZ) counts as a 0 on its own sheet, whatever the other judges saw"
	}
	return "a hard zero (HZ) from more than half of the judges who gave a mark makes the figure 0 from every judge; from fewer it is filled like AV"
}

func HalfWords(s scoring.Style) string {
	switch {
	case s.HardZero == scoring.AsGiven:
		return "a hard zero from exactly half of the judges is counted as given, like any other"
	case s.Half == scoring.HalfZero:
		return "a hard zero from exactly half of them makes the figure 0"
	case s.Half == scoring.HalfFill:
		return "a hard zero from exactly half of them is filled"
	default:
		return "a hard zero from exactly half of them leaves the figure undecided until a `resolve` line records the chief judge's ruling"
	}
}

func FillWords(r scoring.FillRounding) string {
	text := "a mark that is not there (AV or -) is filled with the mean of the other marks of the row, "
	switch r {
	case scoring.ToTenth:
		return text + "rounded half up to 0.1"
	case scoring.ToHalf:
		return text + "rounded half up to 0.5"
	default:
		return text + "unrounded"
	}
}

func DropWords(drop bool, judges int) string {
	switch {
	case !drop:
		return "no mark is left out of the mean"
	case judges >= scoring.DropPanel:
		return fmt.Sprintf("one highest and one lowest mark of each line is left out of the mean, on this panel of %d; a judge's own total still counts all", judges)
	default:
		return fmt.Sprintf("one highest and one lowest mark of each line would be left out of the mean with %d judges or more; this panel has %d, so none is", scoring.DropPanel, judges)
	}
}
