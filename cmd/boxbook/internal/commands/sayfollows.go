package commands

import (
	"fmt"
	"strconv"
	"strings"

	"boxbook/cmd/boxbook/internal/entry"
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/scoring"
	"boxbook/season"
)

// sayFollows says what follows from a flight or a line of money that was added by
// flags, as the prompts do before they write it; l has it.
func (a *app) sayFollows(kind string, l *season.Ledger, host *logHost, v entry.Answers) error {
	switch kind {
	case "flight", "practice":
		if err := a.sayScore(l, entry.FlightName(v)); err != nil {
			return err
		}
		return a.sayOpen(l, v)
	case "official", "penalty":
		f, err := host.Flight(l, v.One("flight"))
		if err != nil {
			return nil //nolint:nilerr // it was found when the lines were added
		}
		return a.sayScore(l, f.Name)
	}
	follows, err := host.Follows(kind, l, v)
	if err != nil || follows == "" {
		return err
	}
	_, err = fmt.Fprintln(a.out, follows)
	return err
}

// sayScore says the score of a flight that was added, whether the official total agrees,
// and which contest it may have been flown at where it names none.
func (a *app) sayScore(l *season.Ledger, name string) error {
	var said []string
	for _, f := range l.Flights {
		if f.Name != name || !f.HasMarks() && f.Official == nil {
			continue
		}
		d := words.SayFlight(answers.FlightOf(f))
		score := words.ScoreSentence(d)
		if f.Official != nil {
			score = strings.Join(words.ScoreSaid(d), " ")
		}
		said = append(said, score)
		if on := contestsOn(l, f.Date); f.Contested() && f.Contest == nil && len(on) > 0 {
			said = append(said, fmt.Sprintf("No contest is named; %s was on that day: a line `contest %s` in the flight makes it one of its flights.", words.ListInWords(on), on[0]))
		}
	}
	if len(said) == 0 {
		return nil
	}
	doc := report.Document{Bare: true}
	for _, text := range said {
		doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{&report.Paragraph{Text: a.pasted().in(text)}}})
	}
	return report.WriteText(a.out, doc, report.TextOptions{Width: a.width})
}

// sayOpen says on standard output what leftOpen says.
func (a *app) sayOpen(l *season.Ledger, v entry.Answers) error {
	said := leftOpen(l, v)
	if said == "" {
		return nil
	}
	doc := report.Document{Bare: true}
	for text := range strings.SplitSeq(a.pasted().in(said), "\n") {
		doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{&report.Paragraph{Text: text}}})
	}
	return report.WriteText(a.out, doc, report.TextOptions{Width: a.width})
}

// leftOpen says of a flight that is added which figures of practice are left out of it,
// since nobody graded them, and what would decide it where a figure is undecided; "" for
// neither.
func leftOpen(l *season.Ledger, v entry.Answers) string {
	var said []string
	if names := entry.NotGraded(l, v); len(names) > 0 {
		said = append(said, fmt.Sprintf("Nobody has a mark for %s: not graded, and left out of what is written.", words.ListInWords(names)))
	}
	for _, f := range l.Flights {
		if f.Name == entry.FlightName(v) && f.HasMarks() && !f.Score().Decided() {
			said = append(said, undecidedSaid(f))
		}
	}
	return strings.Join(said, "\n")
}

// undecidedSaid says what would decide a flight.
func undecidedSaid(f *season.Flight) string {
	var open []string
	for _, ruling := range f.Undecided() {
		key := ruling.Line.String()
		if ruling.Line == scoring.Figure {
			key = strconv.Itoa(ruling.Figure)
		}
		if scoring.HasNumber(f.MarksOf(ruling.Line, ruling.Figure), f.Sheet().Style) {
			open = append(open, fmt.Sprintf("for %s `resolve %s zero` or `resolve %s fill`", ruling.Name(), key, key))
		} else {
			open = append(open, fmt.Sprintf("for %s, which has no mark to fill from, `resolve %s zero`", ruling.Name(), key))
		}
	}
	counts := "The flight is undecided, and left out of every statistic"
	if f.Official != nil {
		counts = "The flight is undecided by its marks"
	}
	return fmt.Sprintf("%s. What decides it, as a line in the flight: %s; `boxbook log official --flight %s` adds it.", counts, words.ListInWords(open), f.Name)
}

// contestsOn are the contests that a day is one of.
func contestsOn(l *season.Ledger, day season.Date) []string {
	var on []string
	for _, c := range l.Contests {
		if c.On(day) {
			on = append(on, c.Handle)
		}
	}
	return on
}

// standsOf says what stands between the two of a settlement or an older debt once it is
// in the ledger.
func standsOf(l *season.Ledger, v entry.Answers) string {
	amount := v.One("for") // the debt, where it is paid in another currency
	if amount == "" {
		amount = v.One("amount")
	}
	from, knowsFrom := l.PartyNamed(v.One("from"))
	to, knowsTo := l.PartyNamed(v.One("to"))
	fields := strings.Fields(amount)
	if !knowsFrom || !knowsTo || len(fields) != 2 {
		return ""
	}
	return standsSaid(l, from, to, fields[1])
}

// standsSaid says who of two owes the other what in a currency, by all that is not
// after today.
func standsSaid(l *season.Ledger, a, b season.Party, currency string) string {
	sum := season.Money{}
	for _, p := range season.Postings(l) {
		switch {
		case !l.Past(p.Date) || p.Money.Currency.Code != currency:
		case p.Debtor == a && p.Creditor == b:
			sum.Minor, sum.Currency = sum.Minor+p.Money.Minor, p.Money.Currency
		case p.Debtor == b && p.Creditor == a:
			sum.Minor, sum.Currency = sum.Minor-p.Money.Minor, p.Money.Currency
		}
	}
	if sum.Minor < 0 {
		a, b, sum.Minor = b, a, -sum.Minor
	}
	if sum.Minor == 0 {
		return fmt.Sprintf("then %s and %s are even in %s", partySaid(a), partySaid(b), currency)
	}
	return fmt.Sprintf("then %s owes %s %s %s", partySaid(a), partySaid(b), sum.Text(), currency)
}

// partySaid is a party by its name in the ledger, the club as people call it.
func partySaid(p season.Party) string {
	if p.Club() {
		return words.PartyName("")
	}
	return p.Name()
}

// countOf says how a count of a pot compares with the ledger: by itself, or with the
// other pots of its currency.
func countOf(l *season.Ledger, v entry.Answers) string {
	fields := strings.Fields(v.One("amount"))
	for _, h := range l.InHand {
		if len(fields) != 2 || h.Pot != v.One("pot") || h.Date.String() != v.One("date") || h.Money.Currency.Code != fields[1] {
			continue
		}
		t, known := l.Compare(h)
		if _, before := l.OwnInHand(h); !known || !before {
			return "the first count of " + h.Pot + " in " + fields[1] + ": later ones are compared with it"
		}
		if wait := notCountedYet(h, t); wait != "" {
			return wait
		}
		stands, day := *answers.StandsOf(&t), func(date string) string { return date }
		said := ": " + words.StandsSaid(stands, fields[1], day)
		if len(t.Counts) == 1 || stands.Unsure() {
			return h.Pot + said
		}
		var pots []string
		for _, other := range t.Counts {
			pots = append(pots, other.Pot)
		}
		return words.ListInWords(pots) + " together" + said
	}
	return ""
}

// notCountedYet says of a count that is off which other pots are compared with it once
// they are counted on its day too; "" where none holds what may be off. Money between
// pots needs no line, so that one of them alone finds nothing.
func notCountedYet(h *season.InHand, t season.Compared) string {
	if t.New().Minor == 0 {
		return ""
	}
	var pots, held []string
	for _, o := range t.Counts {
		if o.Date < h.Date && o.Money.Minor != 0 {
			pots = append(pots, o.Pot)
			held = append(held, fmt.Sprintf("%s %s in %s on %s", o.Money.Text(), o.Money.Currency.Code, o.Pot, o.Date))
		}
	}
	if len(pots) == 0 {
		return ""
	}
	return fmt.Sprintf("%s is compared together with %s, once %s counted on %s too; before: %s",
		h.Pot, words.ListInWords(pots), words.PluralWord(len(pots), "that is", "those are"), h.Date, words.ListInWords(held))
}

// resultOf says what the lines of a year come to, and how what was agreed differs.
func resultOf(l *season.Ledger, v entry.Answers) string {
	fields := strings.Fields(v.One("amount"))
	for _, a := range l.Agreed {
		if len(fields) != 2 || strconv.Itoa(a.Year) != v.One("year") || a.Money.Currency.Code != fields[1] {
			continue
		}
		own := season.Money{Minor: l.ClubResult(a.Year, a.Money.Currency), Currency: a.Money.Currency}
		said := fmt.Sprintf("the lines of %d come to %s %s", a.Year, words.ProfitOrLoss(answers.AmountOf(own)), fields[1])
		off := season.Money{Minor: a.Money.Minor - own.Minor, Currency: own.Currency}
		size := words.AmountSaid(answers.AmountOf(off).Size())
		switch {
		case off.Minor == 0:
			return said + ", as agreed"
		case min(a.Money.Minor, own.Minor) < 0:
			return fmt.Sprintf("%s; agreed is %s", said, words.ProfitOrLoss(answers.AmountOf(a.Money)))
		case off.Minor < 0:
			return fmt.Sprintf("%s; agreed is %s less", said, size)
		default:
			return fmt.Sprintf("%s; agreed is %s more", said, size)
		}
	}
	return ""
}
