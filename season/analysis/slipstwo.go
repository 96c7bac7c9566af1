package analysis

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"boxbook/season"
)

// MostPairs is up to how many pairs of slips that fit are a clue, a house choice.
const MostPairs = 3

// SlipPairs are the pairs of slips that together explain exactly what is newly off in a
// count, where no slip does alone; More says that more than MostPairs do, and then none
// is kept. Tried are the pairs that there are. Of as many differences as are as round,
// and as near or within a hundred steps, Reached is how many one of the pairs explains, at
// most: where there are too many to go through, each pair counts as another difference.
type SlipPairs struct {
	Pairs       [][2]Slip
	More        bool
	Tried       int64
	Reached, Of int64
}

// Share is how often chance alone would explain a difference so, at most.
func (p SlipPairs) Share() *big.Rat { return big.NewRat(p.Reached, p.Of) }

// slipKind is what may be wrong with a line.
type slipKind uint8

const (
	neverMoved slipKind = iota
	typedTwice
	otherYear
	otherDigits
	otherMoney // in the wrong one of two currencies, of which the other's count is off too, or nothing was owed
	countDigits
	otherWay
	otherPoint
)

// maybe is one slip among those of which two are looked for: by how much it explains what
// is missing, in minor units, and of which line it is. Meant is the amount or the day that
// would be right. Slips of the same alike are of as many lines that are alike, of which the
// first two are kept.
type maybe struct {
	minor  int64
	line   int
	meant  int64
	kind   slipKind
	alike  int
	lines  int
	second bool
}

// strong reports whether more than an amount speaks for a slip: the same line stands
// before it, or another currency's count is off by as much.
func (m maybe) strong() bool { return m.kind == typedTwice || m.kind == otherMoney }

// slipSearch looks for pairs of slips that explain a count. Lines are those of the
// slips, counts of pots among them; all has the slips of a line next to each other, and
// sorted the same by what they explain.
type slipSearch struct {
	moved       moneyMoved
	missing     season.Money
	after, upTo season.Date
	lines       []Slip
	all, sorted []maybe
}

// explainByTwo says of the counts that no slip explains alone which two do together.
func explainByTwo(moved moneyMoved, counts []InHandYear) {
	for i := range counts {
		h := &counts[i]
		if !h.newlyOff() || len(h.Slips)+len(h.Untyped) > 0 {
			continue
		}
		t := *h.Compared
		s := slipSearch{moved: moved, missing: season.Money{Minor: -t.New().Minor, Currency: t.Money.Currency}, after: t.After, upTo: h.Date}
		s.gather(t, counts)
		h.Pairs = s.pairs()
	}
}

// add adds a slip of the line that was added last.
func (s *slipSearch) add(kind slipKind, minor, meant int64) {
	if minor != 0 {
		s.all = append(s.all, maybe{minor: minor, line: len(s.lines) - 1, meant: meant, kind: kind})
	}
}

// within reports whether a day is one of those that the count is about.
func (s *slipSearch) within(day season.Date) bool {
	return day > s.after && day <= s.upTo && s.moved.l.Past(day)
}

// gather lists all that may be wrong with a line or a count.
func (s *slipSearch) gather(t season.Compared, counts []InHandYear) {
	moving := s.moved.ever(s.missing.Currency)
	twice, first := doubled(s.moved.l, moving)
	elsewhere := otherCounts(counts, s.missing.Currency)
	var agreed []span
	results := resultsAgreed(s.moved.l)
	for i, line := range moving {
		s.lines = append(s.lines, line)
		if !s.within(line.Date) {
			if meant := meantDay(line.Date, s.after, s.upTo); meant != 0 {
				if agreed == nil {
					agreed = agreedSpans(s.moved.l, s.missing.Currency)
				}
				_, against := results.say(line, meant)
				if !against && !slices.ContainsFunc(agreed, func(a span) bool { return a.has(line.Date) }) {
					s.add(otherYear, -line.Moved.Minor, int64(meant))
				}
			}
			continue
		}
		switch {
		case s.addElsewhere(line, elsewhere):
		case twice[i]:
			s.add(typedTwice, line.Moved.Minor, 0)
		case first[i]:
			continue // the other of both is wrong
		default:
			s.add(neverMoved, line.Moved.Minor, 0)
		}
		if typed := line.typed(); typed.Minor != 0 {
			for _, meant := range typed.DigitsSwapped() {
				s.add(otherDigits, line.Moved.Minor/typed.Minor*(typed.Minor-meant.Minor), meant.Minor)
			}
		}
	}
	s.gatherElsewhere(elsewhere)
	s.gatherUnowed()
	for _, h := range t.Counts {
		if h.Date <= t.After {
			continue // it is what was there before as well
		}
		s.lines = append(s.lines, Slip{Date: h.Date, Moved: season.Money{Currency: h.Money.Currency}, Count: h})
		for _, meant := range h.Money.DigitsSwapped() {
			s.add(countDigits, meant.Minor-h.Money.Minor, meant.Minor)
		}
	}
	s.joinAlike()
	s.sorted = slices.Clone(s.all)
	slices.SortFunc(s.sorted, func(a, b maybe) int { return cmp.Or(cmp.Compare(a.minor, b.minor), a.line-b.line) })
}

// alikeLine is what lines of an amount have in common that nobody can tell apart by it: what
// they are for, or that they are paid to the club or by it. Others are alone.
type alikeLine struct {
	kind            string
	income, settled bool
	moved, typed    int64
	alone           int
}

// alikeOf is that of a line.
func (s *slipSearch) alikeOf(line int) alikeLine {
	l := s.lines[line]
	if l.Count != nil || l.MeantCurrency.Code != "" {
		return alikeLine{alone: line + 1}
	}
	of := alikeLine{moved: l.Moved.Minor, typed: l.typed().Minor, settled: l.Settlement != nil}
	if l.Cost != nil {
		of.kind, of.income = l.Cost.Kind, l.Cost.Income
	}
	return of
}

// joinAlike numbers the slips that are the same of lines that are alike, and leaves the first
// two of each.
func (s *slipSearch) joinAlike() {
	type sameSlip struct {
		alikeLine
		kind         slipKind
		minor, meant int64
	}
	numbers, lines, kept := map[sameSlip]int{}, []int{}, s.all[:0]
	for _, m := range s.all {
		same := sameSlip{s.alikeOf(m.line), m.kind, m.minor, m.meant}
		if m.kind == otherYear {
			same.meant = 0
		}
		number, seen := numbers[same]
		if !seen {
			number = len(lines)
			numbers[same], lines = number, append(lines, 0)
		}
		lines[number]++
		m.alike, m.second = number, lines[number] == 2
		if lines[number] <= 2 {
			kept = append(kept, m)
		}
	}
	for i := range kept {
		kept[i].lines = lines[kept[i].alike]
	}
	s.all = kept
}

// otherCounts are the counts of other currencies that are off.
func otherCounts(counts []InHandYear, c season.Currency) []*InHandYear {
	var others []*InHandYear
	for i := range counts {
		h := &counts[i]
		if h.Money.Currency != c && h.Compared != nil && h.again == 0 && h.Compared.New().Minor != 0 {
			others = append(others, h)
		}
	}
	return others
}

// addElsewhere adds a line that would explain all that another currency's count found too
// much or too little, if it was in that currency; false where there is none such.
func (s *slipSearch) addElsewhere(line Slip, others []*InHandYear) bool {
	for _, o := range others {
		if found := o.Compared.New(); line.Date > o.Compared.After && line.Date <= o.Date && line.Moved.Rat().Cmp(found.Rat()) == 0 {
			s.lines[len(s.lines)-1].MeantCurrency = found.Currency
			s.add(otherMoney, line.Moved.Minor, 0)
			return true
		}
	}
	return false
}

// gatherElsewhere adds the lines of other currencies that explain the counts of those, if
// they were in this one.
func (s *slipSearch) gatherElsewhere(others []*InHandYear) {
	for _, o := range others {
		off := o.Compared.New()
		here, kept := season.RoundMoney(off.Rat(), s.missing.Currency)
		if !kept || here.Rat().Cmp(off.Rat()) != 0 {
			continue
		}
		for _, line := range s.moved.past(off.Currency) {
			if line.Moved.Minor == -off.Minor && s.within(line.Date) && line.Date > o.Compared.After && line.Date <= o.Date {
				line.MeantCurrency = s.missing.Currency
				s.lines = append(s.lines, line)
				s.add(otherMoney, here.Minor, 0)
			}
		}
	}
}

// gatherUnowed adds the payments in other currencies, in which nothing was owed, that may
// have been in this one.
func (s *slipSearch) gatherUnowed() {
	for _, line := range s.moved.unowedIn(s.missing.Currency) {
		here, kept := season.RoundMoney(line.Moved.Rat(), s.missing.Currency)
		known := func(o Slip) bool { return o.Settlement == line.Settlement }
		if kept && here.Rat().Cmp(line.Moved.Rat()) == 0 && s.within(line.Date) && !slices.ContainsFunc(s.lines, known) {
			s.lines = append(s.lines, line)
			s.add(otherMoney, -here.Minor, 0)
		}
	}
}

// slip is a slip with its line.
func (s *slipSearch) slip(m maybe) Slip {
	line := s.lines[m.line]
	money := season.Money{Minor: m.meant, Currency: s.missing.Currency}
	if m.kind != otherMoney {
		line.MeantCurrency = season.Currency{}
	}
	switch m.kind {
	case typedTwice:
		line.Twice = true
	case otherYear:
		line.Meant = season.Date(m.meant)
	case otherDigits:
		line.Typed, line.MeantAmount = line.typed(), money
	case countDigits:
		line.Typed, line.MeantAmount = line.Count.Money, money
	}
	line.Explains = season.Money{Minor: m.minor, Currency: s.missing.Currency}
	if m.lines > 1 {
		line.Alike = m.lines
	}
	return line
}

// pairs are those with a slip for which more than its amount speaks or, where there is
// none, all; nil where none fits.
func (s *slipSearch) pairs() *SlipPairs {
	weak := s.without(maybe.strong)
	strong := s.without(func(m maybe) bool { return !m.strong() })
	if found := s.found(strong.sorted, weak); found != nil {
		return found
	}
	return s.found(s.sorted, &slipSearch{missing: s.missing})
}

// without is the search without some slips.
func (s *slipSearch) without(which func(maybe) bool) *slipSearch {
	return &slipSearch{
		missing: s.missing, all: slices.DeleteFunc(slices.Clone(s.all), which), sorted: slices.DeleteFunc(slices.Clone(s.sorted), which),
	}
}

// found are the pairs of which one is among some, which are those that the others do not
// have without them.
func (s *slipSearch) found(some []maybe, others *slipSearch) *SlipPairs {
	missing := s.missing.Minor
	fit := s.fitting(some)
	if len(fit) == 0 {
		return nil
	}
	step := roundTo(missing)
	near := max(missing, -missing, nearSteps*step)
	p := &SlipPairs{Tried: s.tried() - others.tried(), Of: 2 * (near / step), More: len(fit) > MostPairs}
	p.Reached = reachedBy(distinct(some), distinct(s.sorted), near/step, step)
	if p.Reached < 0 {
		pairs := func(a *slipSearch) int64 { return a.between(-near, near) - a.between(0, 0) }
		p.Reached = min(p.Of, pairs(s)-pairs(others))
	}
	for _, pair := range fit {
		if !p.More {
			p.Pairs = append(p.Pairs, [2]Slip{s.slip(pair[0]), s.slip(pair[1])})
		}
	}
	return p
}

// explaining is an amount that slips explain alone, and the line of them where they are all
// of one, else -1.
type explaining struct {
	minor int64
	line  int
}

// distinct are the amounts of sorted slips.
func distinct(sorted []maybe) []explaining {
	var all []explaining
	for _, m := range sorted {
		switch last := len(all) - 1; {
		case last < 0 || all[last].minor != m.minor:
			all = append(all, explaining{m.minor, m.line})
		case all[last].line != m.line:
			all[last].line = -1
		}
	}
	return all
}

// mostSums are up to how many sums are gone through, a house choice for speed.
const mostSums = 1 << 22

// reachedBy is how many differences, of up to so many steps either way, are a sum of one of
// each of two lists, in order of their amounts, of two lines; -1 where there are too many
// to go through.
func reachedBy(a, b []explaining, steps, step int64) int64 {
	if steps > mostSums {
		return -1
	}
	rest := make([][]explaining, step)
	for _, y := range b {
		at := (y.minor%step + step) % step
		rest[at] = append(rest[at], y)
	}
	from := make([]int, step)
	for i := range from {
		from[i] = len(rest[i])
	}
	seen, n, sums := make([]bool, 2*steps+1), int64(0), 0
	for _, x := range a {
		at := (-x.minor%step + step) % step
		for from[at] > 0 && x.minor+rest[at][from[at]-1].minor >= -steps*step {
			from[at]--
		}
		for _, y := range rest[at][from[at]:] {
			sum := (x.minor + y.minor) / step
			if sum > steps || n == 2*steps {
				break
			}
			if sums++; sums > mostSums {
				return -1
			}
			if oneLine := x.line == y.line && x.line >= 0; sum != 0 && !oneLine && !seen[sum+steps] {
				seen[sum+steps] = true
				n++
			}
		}
	}
	return n
}

// nearSteps are the steps within which differences count as near in any case.
const nearSteps = 100

// roundTo is how round an amount is, in minor units: pairs of round amounts come to round
// differences alone.
func roundTo(minor int64) int64 {
	for _, step := range []int64{100, 50, 10, 5} {
		if minor%step == 0 {
			return step
		}
	}
	return 1
}

// tried is how many pairs of slips of two lines there are, those of alike lines as one.
func (s *slipSearch) tried() int64 {
	slips, pairs := int64(0), int64(0)
	for _, m := range s.all {
		if m.second {
			pairs++ // both of lines that are alike
		} else {
			slips++
		}
	}
	pairs += slips * (slips - 1) / 2
	s.eachLine(func(same []maybe) {
		alone := int64(0)
		for _, m := range same {
			if m.lines == 1 {
				alone++
			}
		}
		pairs -= alone * (alone - 1) / 2
	})
	return pairs
}

// eachLine visits the slips of each line.
func (s *slipSearch) eachLine(visit func(same []maybe)) {
	for from, i := 0, 1; i <= len(s.all); i++ {
		if i == len(s.all) || s.all[i].line != s.all[from].line {
			visit(s.all[from:i])
			from = i
		}
	}
}

// between is how many pairs of slips of two lines explain from one amount up to another,
// of those that are as round as what is missing.
func (s *slipSearch) between(low, high int64) int64 {
	step := roundTo(s.missing.Minor)
	rest := make([][]int64, step)
	for _, m := range s.sorted {
		at := (m.minor%step + step) % step
		rest[at] = append(rest[at], m.minor)
	}
	ordered := int64(0)
	for at, amounts := range rest {
		ordered += sumsWithin(amounts, rest[(step-int64(at))%step], low, high)
	}
	s.eachLine(func(same []maybe) {
		for _, a := range same {
			for _, b := range same {
				if sum := a.minor + b.minor; sum >= low && sum <= high && sum%step == 0 {
					ordered--
				}
			}
		}
	})
	return ordered / 2
}

// sumsWithin is how many sums of one of each of two sorted lists lie from low to high.
func sumsWithin(a, b []int64, low, high int64) int64 {
	n, from, to := int64(0), len(b), len(b)
	for _, x := range a {
		for from > 0 && x+b[from-1] >= low {
			from--
		}
		for to > 0 && x+b[to-1] > high {
			to--
		}
		n += int64(max(0, to-from))
	}
	return n
}

// fitting are the pairs that explain all that is missing of which one is among some, each
// with the slip first for which more speaks, else with the earlier one; of lines that are
// alike the first. There are no more of them than one too many.
func (s *slipSearch) fitting(some []maybe) [][2]maybe {
	var found [][2]maybe
	for _, a := range some {
		i, _ := slices.BinarySearchFunc(s.sorted, s.missing.Minor-a.minor, func(m maybe, minor int64) int { return cmp.Compare(m.minor, minor) })
		for _, b := range s.sorted[i:] {
			if a.minor+b.minor != s.missing.Minor || len(found) > MostPairs {
				break
			}
			pair := [2]maybe{a, b}
			if b.strong() && !a.strong() || a.strong() == b.strong() && b.line < a.line {
				pair = [2]maybe{b, a}
			}
			if a.line == b.line {
				continue
			}
			same := func(o [2]maybe) bool {
				return o[0].alike == pair[0].alike && o[1].alike == pair[1].alike || o[0].alike == pair[1].alike && o[1].alike == pair[0].alike
			}
			switch at := slices.IndexFunc(found, same); {
			case at < 0:
				found = append(found, pair)
			case byLines(pair, found[at]) < 0:
				found[at] = pair
			}
		}
	}
	slices.SortFunc(found, byLines)
	return found
}

// byLines orders pairs of slips by the lines that they are of.
func byLines(a, b [2]maybe) int { return cmp.Or(a[0].line-b[0].line, a[1].line-b[1].line) }

// agreedSpans are the days of a currency that were counted and agreed.
func agreedSpans(l *season.Ledger, c season.Currency) []span {
	spans := []span{}
	for _, h := range l.InHand {
		if days, agreed := agreedSpan(l, c, h); agreed {
			spans = append(spans, days)
		}
	}
	return spans
}

// doubledDays are within how many days a line is probably another one typed twice.
const doubledDays = 14

// doubled says of lines by date which say the same, remark and all, as one a few days
// before, and which are that one.
func doubled(l *season.Ledger, lines []Slip) (twice, first map[int]bool) {
	alike := map[int64]int{} // by amount
	for _, s := range lines {
		alike[s.Moved.Minor]++
	}
	twice, first = map[int]bool{}, map[int]bool{}
	last := map[string]int{}
	for i, s := range lines {
		if alike[s.Moved.Minor] < 2 || !l.Past(s.Date) {
			continue
		}
		key := fmt.Sprint(s.said(), " ", s.receipt(), s.Moved.Minor, s.remark())
		if before, seen := last[key]; seen && s.Date-lines[before].Date <= doubledDays {
			twice[i], first[before] = true, true
		}
		last[key] = i
	}
	return twice, first
}

// remark is that of a line.
func (s Slip) remark() string {
	if s.Settlement != nil {
		return s.Settlement.Remark
	}
	return s.Cost.Remark
}
