package words

import (
	"fmt"

	"boxbook/report/answers"
)

// planEvidence says what a gain rests on.
func planEvidence(d answers.Plan, i answers.PlanItem) string {
	level := Range{i.LevelLow, i.Level, i.LevelHigh, d.Limits.LevelConfidence}
	text := fmt.Sprintf("%s; level over two years about %s%% (%s), %s%% of the K of %s", weakness(d, i), level.About(), level.EndsAt(), Percent(i.Share).Text(0), d.Sequence)
	if i.Last.Known() {
		text += "; " + lately(i)
	}
	if i.Rising {
		text += "; already rising against the rest"
	}
	return text
}

// weakness says whether a family is weaker than the others, what may be so with
// its chance. One distinct figure says nothing of a family.
func weakness(d answers.Plan, i answers.PlanItem) string {
	may := mayBeWeak(d, i)
	text := "cannot be told apart from the others; it only carries a lot of K"
	if fewToTell(d) {
		text = "so few flights cannot tell it apart from the others"
	}
	switch {
	case i.Weak:
		text = "weaker than the pilot's other families"
	case i.WeakOne:
		return onlyFigure(i.Of[0], i.Of) + " lies below the others, and is the only one of the family"
	case i.WeakFigure != "" && i.Different == 1:
		return onlyFigure(i.WeakFigure, i.Of) + " lies below the others, and is the only one of the family"
	case may && i.Different == 1:
		return onlyFigure(i.Of[0], i.Of) + " may be weaker than the others (a chance of " + share(i.WeakChance.Float64()) + "), and is the only one of the family"
	case may:
		text = "may be weaker than the pilot's other families (a chance of " + share(i.WeakChance.Float64()) + ")"
	}
	if i.WeakFigure != "" {
		text += ", " + FigureTitle(i.WeakFigure) + " above all"
	}
	return text
}

// onlyFigure is a figure with where else it stands, of the figures that are the same.
func onlyFigure(figure string, same []string) string {
	if len(same) == 1 {
		return FigureTitle(figure)
	}
	return FigureTitle(figure) + ", the same in " + Counted(len(same), "sequence", "sequences") + ","
}

// PlanWhy says in short why a recommendation is one.
func PlanWhy(d answers.Plan, i answers.PlanItem) string {
	may := mayBeWeak(d, i)
	only := i.Different == 1 && !i.Weak && (may || i.WeakFigure != "")
	text := "not told apart, only carries a lot of K"
	if fewToTell(d) {
		text = "too few flights to tell it apart"
	}
	switch {
	case i.Weak && hasRisen(i):
		text = fmt.Sprintf("weaker, but %s%% lately, already rising", i.Last.Text(0))
	case i.Weak:
		text = "weaker than the others"
	case only && (i.WeakOne || i.WeakFigure != ""):
		text = "its only figure lies below the others"
	case only:
		text = "its only figure may be weaker (" + share(i.WeakChance.Float64()) + ")"
	case may:
		text = "may be weaker (" + share(i.WeakChance.Float64()) + ")"
	}
	if i.Weak && hasRisen(i) && i.WeakFigure != "" {
		_, number := cutFigure(i.WeakFigure)
		return text + "; figure " + number + " above all"
	}
	if i.WeakFigure != "" && !only {
		_, number := cutFigure(i.WeakFigure)
		text += ", figure " + number + " above all"
	}
	if i.Rising && !(i.Weak && hasRisen(i)) {
		text += "; already rising"
	}
	return text
}

// hasRisen reports whether a level over all flights is one that the family has
// left: it rises already, and what it scored last is known.
func hasRisen(i answers.PlanItem) bool { return i.Rising && i.Last.Known() }

// lately says what a family scored in its last flights.
func lately(i answers.PlanItem) string {
	return fmt.Sprintf("%s%% in %s", i.Last.Text(0), theLast(i.Ends, "flight with it", "flights with it"))
}

// fewToTell reports whether the flights are too few to tell which family is weaker, by the
// rule of the families' page.
func fewToTell(d answers.Plan) bool { return d.Flights < d.Limits.Flights }

// standsOut reports whether a family, or a figure of it, lies below the others by more
// than chance.
func standsOut(i answers.PlanItem) bool { return i.Weak || i.WeakOne || i.WeakFigure != "" }

// mayBeWeak reports whether the chance that a family is weaker is worth a word: of enough
// flights.
func mayBeWeak(d answers.Plan, i answers.PlanItem) bool {
	return !fewToTell(d) && i.WeakChance.Float64() >= d.Limits.MayBeWeak.Float64()
}

// risesAlready says of a family that it rises, and what it scored last.
func risesAlready(i answers.PlanItem) string {
	if !i.Last.Known() {
		return "is already rising"
	}
	return "is already rising: " + lately(i)
}
