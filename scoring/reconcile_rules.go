package scoring

import (
	"math/big"
	"strconv"
)

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
	add := func(words string, change func(*Style)) {
		other := style
		change(&other)
		if other != style {
			out = append(out, candidate{kind: KindRules, style: &other, words: words})
		}
	}
	add("filled marks unrounded give", func(s *Style) { s.FillRounding = Unrounded })
	add("filled marks rounded to 0.1 give", func(s *Style) { s.FillRounding = ToTenth })
	add("filled marks rounded to 0.5 give", func(s *Style) { s.FillRounding = ToHalf })
	add("hard zeros decided by the majority of the panel give", func(s *Style) { s.HardZero = ByMajority })
	add("each hard zero counted as given gives", func(s *Style) { s.HardZero = AsGiven })
	add("a figure with a hard zero from exactly half of the panel counted as 0 gives", func(s *Style) { s.Half = HalfZero })
	add("hard zeros from exactly half of the panel filled give", func(s *Style) { s.Half = HalfFill })
	if style.DropExtremes {
		add("no mark dropped gives", func(s *Style) { s.DropExtremes = false })
	}
	add("the highest and the lowest mark of each line dropped give", func(s *Style) { s.DropExtremes = true })
	return out
}

// linesLeftOut are the weighted lines that the sheet has, each and together.
func linesLeftOut(sheet Sheet) []candidate {
	var out []candidate
	has := map[LineKind]bool{}
	for _, line := range sheet.Lines {
		has[line.Kind] = true
	}
	add := func(words string, kinds ...LineKind) {
		for _, kind := range kinds {
			if !has[kind] {
				return
			}
		}
		if has[Figure] {
			out = append(out, candidate{kind: KindRules, without: kinds, words: words})
		}
	}
	add("positioning left out gives", Positioning)
	add("harmony left out gives", Harmony)
	add("positioning and harmony left out give", Positioning, Harmony)
	return out
}

// penaltyChanges are the ways in which all penalties, or one of several, may
// have been counted wrongly; no two come to the same.
func penaltyChanges(sheet Sheet) []candidate {
	all := sheet.penalty()
	if all.Sign() == 0 {
		return nil
	}
	changes := penaltySet{whole: all, seen: []*big.Rat{all}}
	if len(sheet.Penalties) > 1 {
		changes.add("the penalties", "", all, sheet.Judges)
		for _, p := range sheet.Penalties {
			changes.add("the penalty of "+p.String(), "s", p.Rat(), sheet.Judges)
		}
		return changes.found
	}
	changes.add("the penalty", "s", all, sheet.Judges)
	return changes.found
}

type penaltySet struct {
	whole *big.Rat
	seen  []*big.Rat
	found []candidate
}

// add puts in the ways to count one part of the whole penalty; verb is the
// ending that "give" takes.
func (p *penaltySet) add(name, verb string, part *big.Rat, judges int) {
	rest := new(big.Rat).Sub(p.whole, part)
	n := big.NewRat(int64(judges), 1)
	ways := []struct {
		words  string
		factor *big.Rat
	}{
		{"not deducted", new(big.Rat)},
		{"deducted twice", big.NewRat(2, 1)},
		{"deducted " + strconv.Itoa(judges) + " times, once for each judge,", n},
		{"divided by the number of judges", new(big.Rat).Inv(n)},
	}
	for _, way := range ways {
		penalty := new(big.Rat).Mul(part, way.factor)
		p.put(penalty.Add(penalty, rest), name+" "+way.words+" give"+verb)
	}
}

func (p *penaltySet) put(penalty *big.Rat, words string) {
	for _, known := range p.seen {
		if known.Cmp(penalty) == 0 {
			return
		}
	}
	p.seen = append(p.seen, penalty)
	p.found = append(p.found, candidate{kind: KindRules, penalty: penalty, words: words})
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
		ruled := withRulings(sheet, rulings).Score()
		if ruled.Decided() && Agrees(ruled.Points, printed.Points) {
			found = append(found, candidate{kind: KindRules, rulings: rulings, contradicts: totalsDiffer(ruled.JudgeTotals, printed)})
		}
	}
	return found
}
