package ledger

import (
	"slices"

	"boxbook/season"
)

// yearLine is a year as a line of the books names it.
type yearLine struct {
	f      *file
	tok    token
	year   int
	agreed bool // of a result as agreed, not of a budget or a rate
}

// namesYear keeps a year that a line names.
func (r *reader) namesYear(b *block, tok token, year int) {
	r.yearLines = append(r.yearLines, yearLine{b.f, tok, year, b.kind == "agreed"})
}

// checkYears warns of an agreed result, a budget or a rate of a year in which the ledger
// has no money at all, and says which year is probably meant. The year before the first
// may be the last of the book before this one. A budget or a rate may be ahead of its
// money: of the year after the latest, of this one or of the next.
func (r *reader) checkYears() {
	years := r.moneyYears()
	if len(years) == 0 {
		return
	}
	before, ahead := years[0]-1, append(slices.Clone(years), years[len(years)-1]+1)
	if r.opts.AsOf != 0 {
		now := r.out.YearOf(r.opts.AsOf)
		ahead = append(ahead, now, now+1)
	}
	for _, line := range r.yearLines {
		fits := ahead
		if line.agreed {
			fits = years
		}
		if slices.Contains(fits, line.year) || line.year == before {
			continue
		}
		meant, _ := season.YearMeant(line.year, fits)
		r.at(line.f, line.tok, yearNoMoney, line.year).hinted(messages[yearNoMoney].hint, meant)
	}
}

// moneyYears are the club's years in which the ledger has money, in order.
func (r *reader) moneyYears() []int {
	var years []int
	for _, line := range r.money {
		if line.date != 0 {
			years = append(years, r.out.YearOf(line.date))
		}
	}
	slices.Sort(years)
	return slices.Compact(years)
}
