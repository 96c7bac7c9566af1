package ledger

import "boxbook/season"

// seasonStart reads `season-start MM-DD`.
func (r *reader) seasonStart(b *block) {
	r.body(b)
	w := r.header(b)
	tok, ok := w.word("a day (MM-DD)")
	if !ok {
		return
	}
	text := w.text(tok)
	// 2023 is no leap year: a season cannot begin on a day that most years lack.
	date, ok := season.ParseDate("2023-" + text)
	if !ok {
		w.fail(tok, badMonthDay, text)
		return
	}
	w.end()
	if first := r.blocks["season-start"][0]; first != b {
		r.at(b.f, b.headToken(0), definedTwice, "season-start", text, placeText(place(first.f, first.head)))
		return
	}
	_, month, day := date.Time().Date()
	r.out.SeasonStart = season.MonthDay{Month: int(month), Day: day}
}
