package words

import (
	"fmt"
	"slices"
	"strconv"

	"boxbook/report/answers"
)

// What a plan says of nothing, and what of one thing twice.

// planWithout says which families a plan leaves out.
func planWithout(d answers.Plan) []string {
	var said []string
	for _, text := range notFlownWords(d.NotFlown) {
		said = append(said, "not planned: "+text)
	}
	if len(d.Uncoded) > 0 {
		said = append(said, uncodedWords(d))
	}
	if len(d.Unseen) > 0 {
		said = append(said, "not graded in these flights, so nothing is said of it: "+groupTitles(d.Unseen))
	}
	return said
}

// uncodedWords says which figures a plan says nothing of, what such figures lose, and
// how they get a family.
func uncodedWords(d answers.Plan) string {
	text := bareWords(d.Uncoded) + " of " + d.Sequence + ", so nothing is said of " + PluralWord(len(d.Uncoded), "it", "them")
	if d.UncodedLost.Known() && d.UncodedLost.Float64() > 0 {
		text += fmt.Sprintf("; such figures have %s%% of the points lost in these flights", Percent(d.UncodedLost).Text(0))
	}
	return text + "; a family behind the K names it, as in K 14 2-rolling"
}

// alikeItems says which recommendations nothing, or only a few figures, can tell from
// another family.
func alikeItems(d answers.Plan) []string {
	var groups []answers.Group
	for _, i := range slices.Concat(d.Items, d.Folded) {
		groups = append(groups, answers.Group{Group: i.Group, Alike: i.Alike, Weak: i.Weak, Of: i.Of, Different: i.Different, LowWith: i.LowWith})
	}
	families := answers.Families{Groups: groups}
	return slices.Concat(SameFigures(families), WithinFigures(families), lowTogether(groups))
}

// sameFigure names the recommendations that rest on one and the same figure: its
// practice is gained once.
func sameFigure(d answers.Plan) []string {
	var said []string
	done := map[string]bool{}
	for _, i := range d.Items {
		var ranks []string
		for n, other := range d.Items {
			if i.WeakFigure != "" && other.WeakFigure == i.WeakFigure {
				ranks = append(ranks, strconv.Itoa(n+1))
			}
		}
		if len(ranks) > 1 && !done[i.WeakFigure] {
			said = append(said, ListInWords(ranks)+" rest on the same figure above all, "+FigureTitle(i.WeakFigure))
		}
		done[i.WeakFigure] = true
	}
	return said
}
