package lsp

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/cmd/boxbook/internal/entry"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season"
	"boxbook/season/ledger"
)

// offered is a word that may stand at a place, and what is known of it.
type offered struct {
	word, detail string
	kind         int
}

func (s *server) completion(p placeParams) (any, error) {
	items := []completionItem{}
	v, ok := s.view(p.TextDocument)
	if !ok {
		return items, nil
	}
	rd := v.book.rd
	if files, named := s.ledgerNames(v, p.Position.Line, byteAt(rd, v.name, p.Position)); named {
		return files, nil
	}
	spot, ok := rd.At(v.name, p.Position.Line, byteAt(rd, v.name, p.Position))
	if !ok {
		return items, nil
	}
	at, seen, apart := spanRange(rd, spot.Replaced), map[string]bool{}, ""
	if spot.Close {
		apart = " "
	}
	for _, o := range (completer{v, spot}).all() {
		if seen[o.word] || !strings.HasPrefix(strings.ToLower(o.word), strings.ToLower(spot.Typed)) {
			continue
		}
		seen[o.word] = true
		items = append(items, completionItem{o.word, o.kind, o.detail, sorted(len(items)), textEdit{at, o.word + apart}})
	}
	return items, nil
}

// sorted keeps the order of what is offered.
func sorted(n int) string { return fmt.Sprintf("%05d", n) }

// completer offers what may stand at a place of a ledger.
type completer struct {
	view
	ledger.Spot
}

// all are the rows and keywords that may stand there, then what its slots hold.
func (c completer) all() []offered {
	var all []offered
	if c.Rows {
		all = append(all, c.rows()...)
	}
	for _, slot := range c.Slots {
		all = append(all, c.slot(slot)...)
	}
	for _, word := range c.Keywords {
		if !c.Rows || c.hasLine(word) {
			all = append(all, offered{word: word, kind: itemKeyword})
		}
	}
	return all
}

// hasLine reports whether the flight's sequence has a weighted line of that name,
// for any other keyword that it may stand there.
func (c completer) hasLine(word string) bool {
	s := c.blockIn().sequence
	if s == nil || c.Block != "flight" {
		return true
	}
	return word != "positioning" && word != "harmony" || word == "positioning" && s.Positioning > 0 || word == "harmony" && s.Harmony > 0
}

// rows are the figures that have no row yet: in a sequence the next number.
func (c completer) rows() []offered {
	taken := map[string]bool{}
	for _, line := range c.book.rd.Body(c.name, c.Head) {
		taken[line.Key] = taken[line.Key] || line.Number != c.Number
	}
	if c.Block == "sequence" {
		next := 1
		for taken[fmt.Sprint(next)] {
			next++
		}
		return []offered{{word: fmt.Sprint(next), kind: itemValue}}
	}
	return slices.DeleteFunc(c.figures(), func(o offered) bool { return taken[o.word] && !c.blockIn().practice })
}

// figures are the numbers of the sequence's figures, with what they are.
func (c completer) figures() []offered {
	s := c.blockIn().sequence
	if s == nil {
		return nil
	}
	all := make([]offered, len(s.Figures))
	for i := range s.Figures {
		all[i] = offered{fmt.Sprint(i + 1), words.FigureInWords(answers.FigureSoFarOf(c.book.rd.Ledger, s, i+1, nil)), itemValue}
	}
	return all
}

// blockIn is the block that the place is in.
func (c completer) blockIn() blockIn { return c.book.blockAt(c.name, c.Head, c.Block) }

// named are names that a ledger has, each with what detail says of it.
func named[T any](items []T, of func(T) (word, detail string)) []offered {
	all := make([]offered, len(items))
	for i, item := range items {
		all[i].word, all[i].detail = of(item)
		if all[i].detail == all[i].word { // a name where none was given
			all[i].detail = ""
		}
		all[i].kind = itemName
	}
	return all
}

// plain are words of which nothing more is known.
func plain(list []string) []offered {
	return named(list, func(word string) (string, string) { return word, "" })
}

// slot are the words that may stand in a slot.
func (c completer) slot(slot ledger.Slot) []offered {
	l := c.book.rd.Ledger
	switch slot {
	case ledger.SlotPilot:
		return named(l.Pilots, func(p *season.Pilot) (string, string) { return p.Handle, p.Name })
	case ledger.SlotCoach:
		return named(l.Coaches, func(p *season.Coach) (string, string) { return p.Handle, p.Name })
	case ledger.SlotParty:
		return named(l.Parties(), func(p season.Party) (string, string) { return p.Name(), p.FullName() })
	case ledger.SlotSequence:
		return named(l.Sequences, func(s *season.Sequence) (string, string) {
			return s.Handle, words.SequenceSumSaid(answers.SequenceSumOf(s))
		})
	case ledger.SlotContest:
		return named(l.Contests, func(o *season.Contest) (string, string) { return o.Handle, o.First.String() + " " + o.Name })
	case ledger.SlotFlight:
		return plain(entry.Flights(l))
	case ledger.SlotFigure:
		return c.figures()
	case ledger.SlotJudge:
		return plain(c.judges())
	case ledger.SlotOn:
		return plain(c.codes())
	case ledger.SlotDate:
		return plain(c.dates())
	case ledger.SlotAmount:
		return plain(c.amounts())
	case ledger.SlotMark:
		if c.marked() {
			return nil
		}
		return c.tableSlot(slot, l)
	default:
		return c.tableSlot(slot, l)
	}
}

// tableSlot are the words of the slots that need no look at the place.
func (c completer) tableSlot(slot ledger.Slot, l *season.Ledger) []offered {
	kinds := func(fits func(*season.FaultKind) bool) []offered {
		return named(slices.DeleteFunc(slices.Clone(l.FaultKinds), func(k *season.FaultKind) bool { return !fits(k) }),
			func(k *season.FaultKind) (string, string) { return k.Name, k.Says })
	}
	groups := named(season.Groups, func(g string) (string, string) { return g, words.GroupTitle(g) })
	lists := map[ledger.Slot]func(*season.Ledger) []string{
		ledger.SlotLadder: entry.Ladders, ledger.SlotStyle: entry.Styles, ledger.SlotCategory: entry.Categories,
		ledger.SlotCost: entry.CostKinds, ledger.SlotIncome: entry.IncomeKinds, ledger.SlotCurrency: entry.Currencies,
		ledger.SlotPot: entry.Pots, ledger.SlotRole: entry.DutyRoles, ledger.SlotExpiry: entry.ExpiryWords,
		ledger.SlotElement: elementsOf, ledger.SlotCatalogue: cataloguesOf,
	}
	switch slot {
	case ledger.SlotKind:
		return kinds(func(*season.FaultKind) bool { return true })
	case ledger.SlotSafety:
		return kinds(func(k *season.FaultKind) bool { return k.Safety })
	case ledger.SlotTarget:
		return append(kinds(func(k *season.FaultKind) bool { return !k.Felt && !k.Safety }), groups...)
	case ledger.SlotGroup, ledger.SlotGroupCode:
		return groups
	}
	if list := lists[slot]; list != nil {
		return plain(list(l))
	}
	values := plain(ledger.SlotWords(slot))
	for i := range values {
		values[i].kind = itemValue
	}
	return values
}

// marked reports whether the marks before the place are as many as there are judges, or
// of a judge's sheet as there are lines.
func (c completer) marked() bool {
	in, marks, all := c.blockIn(), len(c.Before)-1, 0
	if all = len(in.panel); c.Before[0].Text == "sheet" {
		marks, all = marks-1, 0
		if s := in.sequence; s != nil {
			all = len(s.Figures)
			for _, k := range []int{s.Positioning, s.Harmony} {
				all += min(k, 1)
			}
		}
	}
	return all > 0 && marks >= all
}

// judges are those of the block's panel that the line does not have yet; where it
// has no panel, the judges and coaches of the ledger.
func (c completer) judges() []string {
	l := c.book.rd.Ledger
	var all []string
	if c.Key == "sheet" || len(c.Before) > 0 && c.Before[0].Text == "sheet" {
		all = slices.Clone(c.blockIn().panel)
		for _, line := range c.book.rd.Body(c.name, c.Head) {
			if line.Key == "sheet" && line.Number != c.Number && len(line.Words) > 1 {
				all = slices.DeleteFunc(all, func(name string) bool { return name == line.Words[1].Text })
			}
		}
		return all
	}
	for _, contest := range slices.Backward(l.Contests) {
		for _, name := range contest.Panel {
			if !slices.Contains(all, name) {
				all = append(all, name)
			}
		}
	}
	all = append(all, entry.Coaches(l)...)
	return slices.DeleteFunc(all, func(name string) bool {
		return slices.ContainsFunc(c.Before, func(w ledger.Word) bool { return w.Text == name })
	})
}

// figure is the figure that the line names before the place.
func (c completer) figure() (season.Figure, bool) {
	s := c.blockIn().sequence
	for _, w := range c.Before {
		n := 0
		if w.Slot == ledger.SlotFigure && s != nil {
			_, _ = fmt.Sscan(w.Text, &n)
		}
		if n >= 1 && n <= len(s.Figures) {
			return s.Figures[n-1], true
		}
	}
	return season.Figure{}, false
}

// codes are those of the figure that the line names.
func (c completer) codes() []string {
	figure, _ := c.figure()
	var all []string
	for _, e := range figure.Elements {
		all = append(all, e.Code)
	}
	return all
}

// dates are the days that are likely: those of the block's contest, and today.
func (c completer) dates() []string {
	var all []string
	if contest := c.blockIn().contest; contest != nil {
		all = append(all, contest.First.String())
		if contest.Last != contest.First {
			all = append(all, contest.Last.String())
		}
	}
	return append(all, c.book.rd.Ledger.AsOf.String())
}

// amounts is an amount in the unit of the kind that the line names, where it has none
// yet.
func (c completer) amounts() []string {
	if slices.ContainsFunc(c.Before, func(w ledger.Word) bool { return w.Slot == ledger.SlotAmount }) {
		return nil
	}
	for _, w := range c.Before {
		for _, k := range c.book.rd.Ledger.FaultKinds {
			if w.Slot == ledger.SlotKind && k.Name == w.Text && k.Unit != "" {
				return []string{words.AmountExamples[k.Unit]}
			}
		}
	}
	return nil
}

// elementsOf are the elements with their K that sequences have, each once.
func elementsOf(l *season.Ledger) []string {
	seen := map[string]bool{}
	var all []string
	for _, s := range l.Sequences {
		for _, figure := range s.Figures {
			for _, e := range figure.Elements {
				if text := fmt.Sprintf("%s:%d", e.Code, e.K); e.Parts == 1 && !seen[text] {
					seen[text] = true
					all = append(all, text)
				}
			}
		}
	}
	slices.Sort(all)
	return all
}

// cataloguesOf are the catalogue words of sequences, each once.
func cataloguesOf(l *season.Ledger) []string {
	var all []string
	for _, s := range l.Sequences {
		if s.Catalogue != "" && !slices.Contains(all, s.Catalogue) {
			all = append(all, s.Catalogue)
		}
	}
	return all
}
