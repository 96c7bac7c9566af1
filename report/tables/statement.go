package tables

import (
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// StatementBlocks are a party's statement: its lines by currency, what is its alone,
// and the payments; of the club its cash book.
func StatementBlocks(d answers.Statements, s answers.Statement) []report.Block {
	var blocks []report.Block
	for _, a := range s.Accounts {
		lines := linesIn(s, a.Currency)
		switch {
		case s.IsClub():
			blocks = append(blocks, cashTable(a, lines))
		case len(lines) > 0 || !a.Closing.IsNothing():
			blocks = append(blocks, statementTable(a, lines))
		}
	}
	notes := &report.Notes{}
	switch {
	case s.IsClub():
		for _, a := range s.Accounts {
			AddNote(notes, "%s", words.CashSince(a))
		}
		AddNote(notes, "%s", words.CashBalance(s.Year))
		notes.Items = append(notes.Items, Notes(words.CashExplained(d, s)).Items...)
	case len(blocks) > 0:
		AddNote(notes, "%s", words.StatementBalance(
			slices.ContainsFunc(s.Postings, func(p answers.StatementPosting) bool { return p.In != nil && !p.Alone }),
			slices.ContainsFunc(s.Postings, func(p answers.StatementPosting) bool { return p.Entry == answers.EntryOwed })))
		notes.Items = append(notes.Items, Notes(append(words.StatementTwice(s), words.WithClubSaid(s)...)).Items...)
	}
	notes.Items = append(notes.Items, Notes(words.BetweenSaid(d, s)).Items...)
	blocks = append(blocks, notes)
	if table := aloneTable(s); len(table.Rows) > 0 {
		blocks = append(blocks, table)
	}
	if len(s.Settle) > 0 {
		blocks = append(blocks, settleTable(s), Notes(words.StatementPayments(d, s)))
	}
	return blocks
}

// linesIn are the lines of a currency that somebody else has a part in, and of the
// club all.
func linesIn(s answers.Statement, currency string) []answers.StatementPosting {
	var lines []answers.StatementPosting
	for _, p := range s.Postings {
		if p.Currency == currency && !p.Alone {
			lines = append(lines, p)
		}
	}
	return lines
}

// someAmount is nothing for an amount that is none.
func someAmount(a *answers.Amount) report.Cell {
	if a == nil {
		return report.Empty()
	}
	return amountCell(*a)
}

// statementTable has a line a posting, from what was carried in to what is carried
// out.
func statementTable(a answers.StatementAccount, lines []answers.StatementPosting) *report.Table {
	received := slices.ContainsFunc(lines, func(p answers.StatementPosting) bool { return p.In != nil })
	t := &report.Table{Title: a.Currency, Key: 2, Columns: []report.Column{
		{Title: words.ColumnDate},
		{Title: words.ColumnWhat, Wrapped: true, Min: 20},
		{Title: words.ColumnYourShare, Align: report.Right},
		{Title: words.ColumnPaidOut, Align: report.Right},
		{Title: words.ColumnReceived, Align: report.Right},
		{Title: words.ColumnBalance, Align: report.Right},
	}}
	row := func(date, what string, share, out, in, balance report.Cell) []report.Cell {
		cells := []report.Cell{report.Text(date), report.Text(what), share, out, in, balance}
		if !received {
			cells = slices.Delete(cells, 4, 5)
		}
		return cells
	}
	if !received {
		t.Columns = slices.Delete(t.Columns, 4, 5)
	}
	none := report.Empty()
	t.Rows = append(t.Rows, row("", words.ColumnCarriedIn, none, none, none, balanceCell(a.Opening)))
	for _, p := range lines {
		t.Rows = append(t.Rows, row(p.Date, words.PostingSaid(p), someAmount(p.Share), someAmount(p.Out), someAmount(p.In), balanceCell(p.Running)))
	}
	t.Footer = [][]report.Cell{row("", words.ColumnCarriedOut, someAmount(a.Share), amountCell(a.Out), amountCell(a.In), balanceCell(a.Closing))}
	return t
}

// cashTable has a line a movement of the club's money and a count of it, each with a
// box to tick off.
func cashTable(a answers.StatementAccount, lines []answers.StatementPosting) *report.Table {
	t := &report.Table{Title: a.Currency, Key: 3, Columns: []report.Column{
		{Title: words.ColumnDate},
		{Title: words.ColumnOther, Wrapped: true, Min: 10},
		{Title: words.ColumnWhat, Wrapped: true, Min: 16},
		{Title: words.ColumnIn, Align: report.Right},
		{Title: words.ColumnOut, Align: report.Right},
		{Title: words.ColumnBalance, Align: report.Right},
		{},
	}}
	t.Rows = append(t.Rows, []report.Cell{report.Empty(), report.Empty(), report.Text(words.ColumnCarriedIn), report.Empty(), report.Empty(), amountCell(a.Opening)})
	for _, p := range lines {
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(p.Date), report.Text(words.WhomSaid(p)), report.Text(words.CashSaid(p)), someAmount(p.In), someAmount(p.Out), amountCell(p.Running), report.Text(words.TickBox),
		})
	}
	t.Footer = [][]report.Cell{{report.Empty(), report.Empty(), report.Text(words.ColumnCarriedOut), amountCell(a.In), amountCell(a.Out), amountCell(a.Closing)}}
	return t
}

// aloneTable has what a party paid for itself and received from outside.
func aloneTable(s answers.Statement) *report.Table {
	t := &report.Table{Key: 2, Columns: []report.Column{
		{Title: words.ColumnDate},
		{Title: words.ColumnWhat, Wrapped: true, Min: 20},
		{Title: words.ColumnPaidOut, Align: report.Right},
		{Title: words.ColumnReceived, Align: report.Right},
		{Title: words.ColumnCurrency},
	}}
	received := false
	for _, p := range s.Postings {
		if p.Alone {
			received = received || p.In != nil
			t.Rows = append(t.Rows, []report.Cell{report.Text(p.Date), report.Text(words.PostingSaid(p)), someAmount(p.Out), someAmount(p.In), report.Text(p.Currency)})
		}
	}
	for _, a := range s.Accounts {
		if a.Own != nil || a.Income != nil {
			t.Footer = append(t.Footer, []report.Cell{report.Empty(), report.Text(words.ColumnSum), someAmount(a.Own), someAmount(a.Income), report.Text(a.Currency)})
		}
	}
	t.Title = words.AloneTitle(received)
	if !received {
		t.Columns = slices.Delete(t.Columns, 3, 4)
		for _, rows := range [][][]report.Cell{t.Rows, t.Footer} {
			for i := range rows {
				rows[i] = slices.Delete(rows[i], 3, 4)
			}
		}
	}
	return t
}

// settleTable lists what the party pays and gets.
func settleTable(s answers.Statement) *report.Table {
	t := &report.Table{Title: words.SettleTitle, Key: 2, Columns: []report.Column{
		{Title: words.ColumnPays, Wrapped: true, Min: 12},
		{Title: words.ColumnGets, Wrapped: true, Min: 12},
		{Title: words.ColumnAmount, Align: report.Right},
		{Title: words.ColumnCurrency},
	}}
	for _, p := range s.Settle {
		t.Rows = append(t.Rows, []report.Cell{report.Text(words.PartyName(p.FromName)), report.Text(words.PartyName(p.ToName)), amountCell(p.Amount), report.Text(p.Currency)})
	}
	return t
}

// statementColumns are those of the one table for other programs, named as in JSON.
var statementColumns = []struct {
	name string
	cell func(p answers.StatementPosting) report.Cell
}{
	{"date", func(p answers.StatementPosting) report.Cell { return report.Text(p.Date) }},
	{"entry", func(p answers.StatementPosting) report.Cell { return report.Text(string(p.Entry)) }},
	{"contest", func(p answers.StatementPosting) report.Cell { return report.Text(p.Contest) }},
	{"kind", func(p answers.StatementPosting) report.Cell { return report.Text(p.Kind) }},
	{"whom", func(p answers.StatementPosting) report.Cell { return report.Text(p.Whom) }},
	{"remark", func(p answers.StatementPosting) report.Cell { return report.Text(p.Remark) }},
	{"receipt", func(p answers.StatementPosting) report.Cell { return report.Text(p.Receipt) }},
	{"pot", func(p answers.StatementPosting) report.Cell { return report.Text(p.Pot) }},
	{"currency", func(p answers.StatementPosting) report.Cell { return report.Text(p.Currency) }},
	{"amount", func(p answers.StatementPosting) report.Cell { return plainAmount(&p.Amount) }},
	{"share", func(p answers.StatementPosting) report.Cell { return plainAmount(p.Share) }},
	{"in", func(p answers.StatementPosting) report.Cell { return plainAmount(p.In) }},
	{"out", func(p answers.StatementPosting) report.Cell { return plainAmount(p.Out) }},
	{"difference", func(p answers.StatementPosting) report.Cell { return plainAmount(offLedger(p, false)) }},
	{"differenceTogether", func(p answers.StatementPosting) report.Cell { return plainAmount(offLedger(p, true)) }},
	{"change", func(p answers.StatementPosting) report.Cell { return plainAmount(&p.Change) }},
	{"running", func(p answers.StatementPosting) report.Cell { return plainAmount(&p.Running) }},
	{"file", func(p answers.StatementPosting) report.Cell { return report.Text(p.File) }},
	{"line", func(p answers.StatementPosting) report.Cell {
		if p.Line == 0 {
			return report.Empty()
		}
		return CountCell(p.Line)
	}},
}

// plainAmount is an amount with all the currency's places and nothing else.
func plainAmount(a *answers.Amount) report.Cell {
	if a == nil {
		return report.Empty()
	}
	return report.Text(a.Text())
}

// StatementRows has a row a posting of every party, behind one for what it carried
// in: the changes of a party and currency sum to what it carries out.
func StatementRows(d answers.Statements) *report.Table {
	t := &report.Table{Columns: []report.Column{{Title: "party"}}}
	for _, c := range statementColumns {
		t.Columns = append(t.Columns, report.Column{Title: c.name})
	}
	for _, s := range d.Statements {
		add := func(p answers.StatementPosting) {
			row := []report.Cell{report.Text(s.Party)}
			for _, c := range statementColumns {
				row = append(row, c.cell(p))
			}
			t.Rows = append(t.Rows, row)
		}
		for _, a := range s.Accounts {
			add(answers.StatementPosting{Date: d.First, Entry: words.ColumnCarriedIn, Currency: a.Currency, Amount: a.Opening, Change: a.Opening, Running: a.Opening})
		}
		for _, p := range s.Postings {
			add(p)
		}
	}
	return t
}

// offLedger is by how much a count is off the cash book's balance, with the last count of
// a currency on a day; nil elsewhere. What several pots are off together is no pot's own.
func offLedger(p answers.StatementPosting, together bool) *answers.Amount {
	if p.Stands == nil || together != (p.Together != nil) {
		return nil
	}
	return &p.Stands.Difference
}
