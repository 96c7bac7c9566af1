package scoring

import "math/big"

// rules finds the settings, one at a time, that give the printed total.
func (s *search) rules() []candidate {
	var found []candidate
	for _, c := range styleChanges(s.sheet.Style) {
		sheet := s.sheet
		sheet.Style = *c.style
		if s.fitsSheet(sheet) {
			found = append(found, c)
		}
	}
	for _, c := range linesLeftOut(s.sheet) {
		if s.fitsSheet(withoutLines(s.sheet, c.without)) {
			found = append(found, c)
		}
	}
	for _, c := range penaltyChanges(s.sheet) {
		if s.prints(s.score.Raw, c.penalty) {
			found = append(found, c)
		}
	}
	return s.settle(found)
}

// styleChanges are the rule styles that differ in one setting.
func styleChanges(style Style) []candidate {
	var out []candidate
	add := func(setting Setting, change func(*Style)) {
		other := style
		change(&other)
		if other != style {
			out = append(out, candidate{kind: KindRules, style: &other, setting: setting})
		}
	}
	for _, rounding := range []FillRounding{Unrounded, ToTenth, ToHalf} {
		add(SettingFillRounding, func(s *Style) { s.FillRounding = rounding })
	}
	for _, rule := range []HardZeroRule{ByMajority, AsGiven} {
		add(SettingHardZero, func(s *Style) { s.HardZero = rule })
	}
	for _, rule := range []HalfRule{HalfZero, HalfFill} {
		add(SettingHalf, func(s *Style) { s.Half = rule })
	}
	add(SettingDropExtremes, func(s *Style) { s.DropExtremes = !s.DropExtremes })
	return out
}

// linesLeftOut are the weighted lines that the sheet has, each and together.
func linesLeftOut(sheet Sheet) []candidate {
	var out []candidate
	has := map[LineKind]bool{}
	for _, line := range sheet.Lines {
		has[line.Kind] = true
	}
	add := func(kinds ...LineKind) {
		for _, kind := range kinds {
			if !has[kind] {
				return
			}
		}
		if has[Figure] {
			out = append(out, candidate{kind: KindRules, without: kinds})
		}
	}
	add(Positioning)
	add(Harmony)
	add(Positioning, Harmony)
	return out
}

// penaltyChanges are the ways in which all penalties, or one of several, may
// have been counted wrongly, the plainest way first. Ways of different penalties
// may come to the same, and all are named; equal penalties counted alike are once.
func penaltyChanges(sheet Sheet) []candidate {
	all := sheet.penalty()
	if all.Sign() == 0 {
		return nil
	}
	parts := []*big.Rat{all}
	if len(sheet.Penalties) > 1 {
		for _, p := range sheet.Penalties {
			parts = append(parts, p.Rat())
		}
	}
	n := big.NewRat(int64(sheet.Judges), 1)
	changes := penaltySet{whole: all}
	for _, way := range []struct {
		way    Deducted
		factor *big.Rat
	}{
		{DeductedNot, new(big.Rat)},
		{DeductedTwice, big.NewRat(2, 1)},
		{DeductedByJudge, n},
		{DeductedDivided, new(big.Rat).Inv(n)},
	} {
		for which, part := range parts {
			changes.add(which, part, way.way, way.factor)
		}
	}
	return changes.found
}

type penaltySet struct {
	whole *big.Rat
	found []candidate
	parts []*big.Rat // of each of them, what was counted wrongly
}

// add puts in a way to count one of the penalties, from 1, or 0 for the whole,
// unless nothing changes or as large a penalty came to the same.
func (p *penaltySet) add(which int, part *big.Rat, way Deducted, factor *big.Rat) {
	penalty := new(big.Rat).Mul(part, factor)
	penalty.Add(penalty, new(big.Rat).Sub(p.whole, part))
	if penalty.Cmp(p.whole) == 0 {
		return
	}
	for i, known := range p.found {
		if known.penalty.Cmp(penalty) == 0 && p.parts[i].Cmp(part) == 0 {
			return
		}
	}
	p.found, p.parts = append(p.found, candidate{kind: KindRules, penalty: penalty, deducted: way, part: which}), append(p.parts, part)
}

// mostOpen bounds the undecided lines whose rulings are tried one by one.
const mostOpen = 6

// mixedRulings finds the rulings for several undecided lines, some at 0 and
// some filled, that give the printed total by themselves.
func mixedRulings(sheet Sheet, score Score, printed Printed) []candidate {
	var open []int
	for i, line := range score.Lines {
		if line.Points == nil {
			open = append(open, i)
		}
	}
	if len(open) < 2 || len(open) > mostOpen {
		return nil
	}
	var found []candidate
	for mask := 1; mask < 1<<len(open)-1; mask++ {
		rulings := make([]Decision, len(sheet.Lines))
		for bit, i := range open {
			rulings[i] = RuledZero
			if mask>>bit&1 == 1 {
				rulings[i] = RuledFill
			}
		}
		way := withRulings(sheet, rulings)
		ruled := way.Score()
		if ruled.Decided() && targetOf(score, printed).gives(ruled.Points, score.Maximum) {
			found = append(found, candidate{kind: KindRules, rulings: rulings, contradicts: totalsDiffer(way, ruled.JudgeTotals, printed, new(big.Rat))})
		}
	}
	return found
}
