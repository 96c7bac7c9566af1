package oracle

import "math/big"

// rulesCandidates tries each other setting of the style alone, weighted lines
// left out, and penalties not deducted, deducted twice, once a judge, or
// divided by the number of judges.
func rulesCandidates(sheet Sheet) []Candidate {
	t := tries(SlipRules, sheet)
	for _, style := range otherStyles(sheet.Style) {
		other := sheet
		other.Style = style
		t.sheet(other, "style %+v", style)
	}
	weightedLeftOut(t, sheet)
	own, all := Score(sheet), sum(sheet.Penalties)
	parts := append([]*big.Rat{all}, sheet.Penalties...)
	for _, part := range parts {
		for _, factor := range []*big.Rat{whole(0), whole(2), whole(sheet.Judges), big.NewRat(1, int64(sheet.Judges))} {
			penalty := new(big.Rat).Sub(all, part)
			penalty.Add(penalty, new(big.Rat).Mul(part, factor))
			if penalty.Cmp(all) != 0 {
				t.points(lessPenalty(own.Raw, penalty), "penalties of %s", penalty.RatString())
			}
		}
	}
	return t.list
}

func otherStyles(style Style) []Style {
	var others []Style
	add := func(other Style) {
		if other != style {
			others = append(others, other)
		}
	}
	for _, rounding := range []string{"none", "0.1", "0.5"} {
		other := style
		other.FillRounding = rounding
		add(other)
	}
	for _, rule := range []string{Majority, AsGiven} {
		other := style
		other.HardZero = rule
		add(other)
	}
	for _, half := range []string{Zero, Fill} {
		other := style
		other.Half = half
		add(other)
	}
	other := style
	other.DropExtremes = !style.DropExtremes
	add(other)
	return others
}

// weightedLeftOut tries the sheet without each weighted line and without all of
// them, where it has figures.
func weightedLeftOut(t *tried, sheet Sheet) {
	var weighted, figures []int
	for i, line := range sheet.Lines {
		if line.Weighted {
			weighted = append(weighted, i)
		} else {
			figures = append(figures, i)
		}
	}
	if len(figures) == 0 {
		return
	}
	for _, left := range weighted {
		other := sheet
		other.Lines = append(append([]Line{}, sheet.Lines[:left]...), sheet.Lines[left+1:]...)
		t.sheet(other, "without line %d", left)
	}
	if len(weighted) > 1 {
		other := sheet
		other.Lines = sheet.Lines[:weighted[0]]
		t.sheet(other, "without weighted lines")
	}
}
