package ledger

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"boxbook/season"
)

// kindUse is a kind of cost or income with the lines that have it.
type kindUse struct {
	name, plain string // plain: but for capitals and hyphens
	first       *moneyLine
	lines       int
	days        map[season.Date]bool
	budgeted    bool // in every line
}

// kindsInUse are the kinds as they stand first, those of one spelling but for capitals
// together.
func (r *reader) kindsInUse() []*kindUse {
	var kinds []*kindUse
	of := map[string]*kindUse{}
	for _, line := range r.money {
		lower := strings.ToLower(line.kindName)
		if lower == "" {
			continue
		}
		k := of[lower]
		if k == nil {
			k = &kindUse{line.kindName, strings.NewReplacer("-", "", "_", "").Replace(lower), line, 0, map[season.Date]bool{}, true}
			of[lower], kinds = k, append(kinds, k)
		}
		k.lines++
		if line.cost != nil {
			k.days[line.date], k.budgeted = true, false
		}
	}
	return kinds
}

// checkNearKinds warns of a kind that differs from another by hyphens alone, or that
// stands once and differs by one letter: they would count as two.
func (r *reader) checkNearKinds() {
	kinds := r.kindsInUse()
	for i, k := range kinds {
		if !r.guesses.allow(i) {
			return
		}
		for _, other := range kinds[:i] {
			slip, meant := k, other
			if k.lines > other.lines || k.lines == other.lines && other.budgeted && !k.budgeted {
				slip, meant = other, k
			}
			by := slip.differsFrom(meant)
			if by == "" {
				continue
			}
			text := "did you mean " + strconv.Quote(meant.name) + "?"
			if by != byHyphens {
				text += " If both are right, write " + strconv.Quote(slip.name) + " in the line's remark too"
			}
			r.at(slip.first.f, slip.first.kind, kindAlmost, slip.name, meant.name, lineText(meant.first.at, slip.first.f), by).advise(hint(text))
			break
		}
	}
}

// shortestKind is the shortest kind that one letter makes no other word of, and
// shortestSwapped that two swapped letters make none of.
const (
	shortestKind    = 5
	shortestSwapped = 4
	byHyphens       = "its hyphens"
)

// differsFrom says by what a kind alone differs from one that may be meant, "" where it
// is another one, or by what was said already.
func (k *kindUse) differsFrom(other *kindUse) string {
	one, two := strings.ToLower(k.name), strings.ToLower(other.name)
	for _, form := range kindForms(one) {
		if form == two {
			return ""
		}
	}
	switch {
	case k.plain == other.plain:
		return byHyphens
	case k.lines > 1 || other.lines == 1 && k.budgeted == other.budgeted || k.usedWith(other) || k.first.remarks(one):
		return ""
	}
	letters := min(utf8.RuneCountInString(one), utf8.RuneCountInString(two))
	switch {
	case letters < shortestSwapped || !sameNumbers(one, two):
		return ""
	case swapped(one, two):
		return "two swapped letters"
	case letters >= shortestKind && oneApart(one, two):
		return "one letter"
	default:
		return ""
	}
}

// remarks reports whether the remark of a line has a word in small letters.
func (m *moneyLine) remarks(word string) bool {
	remark := ""
	switch {
	case m.cost != nil:
		remark = m.cost.Remark
	case m.budget != nil:
		remark = m.budget.Remark
	}
	return season.HasWords(strings.ToLower(remark), word)
}

// usedWith reports whether both kinds have a line of one day.
func (k *kindUse) usedWith(other *kindUse) bool {
	for day := range k.days {
		if other.days[day] {
			return true
		}
	}
	return false
}

// checkBudgets warns of a kind that is budgeted as a cost, and was only ever income.
func (r *reader) checkBudgets() {
	if len(r.out.Budgets) == 0 {
		return
	}
	only := r.out.OnlyIncome()
	for _, line := range r.money {
		if b := line.budget; b != nil && !b.Income && b.Remark == "" && only[b.Kind] != nil {
			r.at(line.f, line.kind, budgetOfIncome, b.Kind, lineText(only[b.Kind].At, line.f))
		}
	}
}
