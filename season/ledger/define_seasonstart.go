package ledger

import "boxbook/season"

// seasonStart reads `season-start MM-DD`.
func (r *reader) seasonStart(b *block) { r.startOf(b, &r.out.SeasonStart) }

// yearStart reads `year-start MM-DD`, when the club's financial year begins.
func (r *reader) yearStart(b *block) { r.startOf(b, &r.out.YearStart) }

// startOf reads the day of the year on which something begins.
func (r *reader) startOf(b *block, start *season.MonthDay) {
	r.body(b)
	w := r.header(b)
	tok, ok := w.word("a day (MM-DD)")
	if !ok {
		return
	}
	text := w.text(tok)
	// 2023 is no leap year: nothing can begin on a day that most years lack.
	date, ok := season.ParseDate("2023-" + text)
	if !ok {
		w.fail(tok, badMonthDay, text)
		return
	}
	w.end()
	if first := r.blocks[b.kind][0]; first != b {
		r.at(b.f, b.headToken(0), definedTwice, b.kind, text, placeText(place(first.f, first.head)))
		return
	}
	_, month, day := date.Time().Date()
	*start = season.MonthDay{Month: int(month), Day: day}
}
