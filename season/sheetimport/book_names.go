package sheetimport

import (
	"slices"
	"strings"
)

// judgeWords stand before the number of a judge's seat.
var judgeWords = []string{
	"judge", "j", "richter", "punktrichter", "schiedsrichter", "juge", "juez", "giudice", "juiz", "rozhodčí", "rozhodci", "sędzia", "domare", "dommer", "rechter", "jurylid",
	"tuomari", "bíró", "sodnik", "sudac", "hakem",
}

// nameByPanel finds the judges of worksheets where none of them has a name of the panel: by
// full names whose initials are the panel's, or by the numbers of their seats. Each judge of
// the panel must have one.
func (b *judgeBook) nameByPanel() {
	if len(b.judged) < 2 || slices.ContainsFunc(b.judged, func(j judgeSheet) bool { return j.name != "" }) {
		return
	}
	if said := b.byInitials(); said != nil {
		b.out.Notes = append(b.out.Notes, Note{Text: "the judges are found by their initials: " + listed(said)})
		return
	}
	if b.bySeats() {
		said := "the worksheets' numbers are in the order of the panel: "
		if b.o.PanelOf != "" {
			said = "judges as the panel of " + b.o.PanelOf + ": "
		}
		b.out.Notes = append(b.out.Notes, Note{Text: said + strings.Join(b.o.Panel, " ") + "; --panel gives another order"})
	}
}

// byInitials names the worksheets' judges by their full names, and says who is who; nil
// where these are not the whole panel, each once.
func (b *judgeBook) byInitials() (said []string) {
	if len(b.judged) != len(b.o.Panel) {
		return nil
	}
	var names []string
	for _, j := range b.judged {
		at := slices.IndexFunc(calledBy(j.grid), func(text string) bool {
			name, ok := initialsOn(b.o.Panel, text)
			return ok && !slices.Contains(names, name)
		})
		if at < 0 {
			return nil
		}
		text := calledBy(j.grid)[at]
		name, _ := initialsOn(b.o.Panel, text)
		names, said = append(names, name), append(said, strings.TrimSpace(text)+" "+name)
	}
	for i := range b.judged {
		b.judged[i].name = names[i]
	}
	return said
}

// bySeats names the worksheets' judges by the numbers of their seats, from 1 to as many as
// the panel has.
func (b *judgeBook) bySeats() bool {
	var numbers []int
	for _, j := range b.judged {
		for _, text := range calledBy(j.grid) {
			n, ok := seatOf(Cell{Kind: Text, Text: text})
			word := strings.TrimRight(folded(text), "0123456789 #")
			if ok && n >= 1 && n <= len(b.o.Panel) && slices.Contains(judgeWords, word) && !slices.Contains(numbers, n) {
				numbers = append(numbers, n)
				break
			}
		}
	}
	if len(numbers) != len(b.judged) || len(numbers) != len(b.o.Panel) {
		return false
	}
	for i, n := range numbers {
		b.judged[i].name = b.o.Panel[n-1]
	}
	return true
}

// calledBy are the texts that may say whose a worksheet is: its name, and above its table
// what stands in or beside a cell that begins with the word judge.
func calledBy(g Grid) []string {
	texts := []string{g.Name}
	for _, row := range g.Rows[:min(titleRows, len(g.Rows))] {
		for i, c := range row.Cells {
			if c.Kind != Text {
				continue
			}
			if says(c, judgeHeadings) && i+1 < len(row.Cells) {
				if next := row.Cells[i+1]; next.Kind == Text && !isDigits(next.Text) {
					texts = append(texts, next.Text)
				} else if next.Kind != Empty {
					texts = append(texts, "judge "+next.Text)
				}
			} else if _, found := cutFold(plain(c.Text), "judge"); found {
				texts = append(texts, c.Text)
			}
		}
	}
	return texts
}
