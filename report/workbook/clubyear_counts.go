package workbook

import (
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// counts is what was in hand when it was counted, beside what should have been.
func (p *yearPage) counts() {
	if len(p.c.Counts) == 0 {
		return
	}
	text, money := xlsx.LookText, amountLook(0)
	t := p.begin(words.CountsHeading, title(words.ColumnPot, text), title(words.ColumnCurrency, xlsx.LookCentred), title(words.ColumnCountedThen, xlsx.LookDate),
		title(words.ColumnWasThen, money), title(words.ColumnMovedSince, money), title(words.ColumnInOthers, money), title(words.ColumnCountedOn, xlsx.LookDate),
		title(words.ColumnShouldBe, money), title(words.ColumnCounted, money), title(words.ColumnDifference, money), title(words.ColumnRemark, text.Indented()).goesOn())
	for _, h := range p.c.Counts {
		t.add(p.countCells(h, t.next())...)
	}
}

func (p *yearPage) countCells(h answers.CountReckoned, row int) []yearCell {
	typed := func(a answers.Amount) yearCell { return p.amountCell(h.Currency, amountValue(a), "") }
	pot, note := h.Pot, h.Remark
	switch {
	case h.All:
		pot, note = words.PotsTogether(h.Together), words.CountNote(h.InHand)
	case !h.Joined && h.Remark == "":
		note = words.CountNote(h.InHand)
	case !h.Joined && words.CountNote(h.InHand) != "":
		note += "; " + words.CountNote(h.InHand)
	}
	remark := yearCell{value: xlsx.Text(note), look: xlsx.LookText.Indented()}.goesOn()
	if h.Before == nil {
		return []yearCell{said(pot), centred(h.Currency), empty(), empty(), empty(), empty(), dated(h.Date), empty(), typed(h.Amount).strong(), empty(), remark}
	}
	at := func(column int) string { return xlsx.At(column, row) }
	moved := journalSum("money", where("money-cur", h.Currency), condition{"date", `">"&` + at(3)}, condition{"date", `"<="&` + at(7)})
	if !day(h.Since).Numeric || !day(h.Date).Numeric {
		moved = ""
	}
	formula := func(a answers.Amount, f string) yearCell { return p.amountCell(h.Currency, amountValue(a), f) }
	return []yearCell{
		said(pot), centred(h.Currency), dated(h.Since), typed(*h.Before), formula(*h.Moved, moved), typed(*h.Others), dated(h.Date),
		formula(*h.Own, at(4)+"+"+at(5)+"+"+at(6)), typed(h.Amount).strong(), formula(*h.Difference, at(9)+"-"+at(8)).strong(), remark,
	}
}
