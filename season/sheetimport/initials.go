package sheetimport

import (
	"slices"
	"strings"
	"unicode"
)

// byInitials puts the panel's names in the place of full ones that a row or a column of a
// sheet has: P. Kovar is PK, and so is PKovar. Each judge of the panel must be meant by one of them and no
// cell there may name one itself, else the sheet is given back as it is. said lists who is
// who.
func byInitials(g Grid, panel []string) (named Grid, said []string) {
	if len(panel) < 2 || !slices.ContainsFunc(panel, func(name string) bool { return len(name) > 1 }) {
		return g, nil
	}
	for _, line := range linesOfCells(g) {
		meant := meantByInitials(g, line, panel)
		if meant == nil {
			continue
		}
		g.Rows = slices.Clone(g.Rows)
		for _, p := range line {
			name, is := meant[p]
			if !is {
				continue
			}
			row := &g.Rows[p.row]
			row.Cells = slices.Clone(row.Cells)
			said = append(said, strings.TrimSpace(row.Cells[p.cell].Text)+" "+name)
			row.Cells[p.cell].Text = name
		}
		return g, said
	}
	return g, nil
}

// spot is a cell by its places among the rows and the cells of its row.
type spot struct{ row, cell int }

// linesOfCells are the rows in which headings may stand, then as many columns.
func linesOfCells(g Grid) [][]spot {
	var rows [][]spot
	columns := map[int][]spot{}
	for i, row := range g.Rows[:min(headingRows, len(g.Rows))] {
		var line []spot
		for k, c := range row.Cells[:min(widest, len(row.Cells))] {
			line = append(line, spot{i, k})
			if c.Column <= headingRows {
				columns[c.Column] = append(columns[c.Column], spot{i, k})
			}
		}
		rows = append(rows, line)
	}
	for column := 1; column <= headingRows; column++ {
		rows = append(rows, columns[column])
	}
	return rows
}

// meantByInitials tells whom the cells of a line mean by their initials; nil where that is
// not the whole panel, each once.
func meantByInitials(g Grid, line []spot, panel []string) map[spot]string {
	meant, seen := map[spot]string{}, map[string]bool{}
	for _, p := range line {
		c := g.Rows[p.row].Cells[p.cell]
		if c.Kind != Text {
			continue
		}
		if _, names := onPanel(panel, c.Text); names {
			return nil
		}
		name, ok := initialsOn(panel, c.Text)
		if !ok {
			continue
		}
		if seen[name] {
			return nil
		}
		meant[p], seen[name] = name, true
	}
	if len(seen) < len(panel) {
		return nil
	}
	return meant
}

// initialsOn finds the one judge of a panel whose name is the initials of a text of several
// words, or the same words joined: PK and PKovar are P. Kovar. Of a text of joined words,
// PKovar itself, it may also be the surname alone.
func initialsOn(panel []string, text string) (string, bool) {
	forms := judgeForms(text)
	words := nameWords(forms[len(forms)-1])
	joined := len(words) == 1
	if joined {
		words = joinedWords(words[0])
	}
	if len(words) < 2 {
		return "", false
	}
	initials := ""
	for _, word := range words {
		initials += string([]rune(word)[:1])
	}
	found := ""
	for _, name := range panel {
		if strings.EqualFold(name, initials) || strings.EqualFold(strings.Join(nameWords(name), ""), strings.Join(words, "")) ||
			joined && strings.EqualFold(name, words[len(words)-1]) {
			if found != "" {
				return "", false
			}
			found = name
		}
	}
	return found, found != ""
}

// nameWords are the words of a name.
func nameWords(name string) []string {
	return strings.FieldsFunc(name, func(r rune) bool { return unicode.IsSpace(r) || r == '.' || r == '-' })
}

// joinedWords are the initials and the surname that are written as one word, PKovar; a word
// that is no such thing is itself.
func joinedWords(word string) []string {
	letters := []rune(word)
	capitals := 0
	for capitals < len(letters) && unicode.IsUpper(letters[capitals]) {
		capitals++
	}
	if capitals < 2 || len(letters) < capitals+2 || slices.ContainsFunc(letters[capitals:], func(r rune) bool { return !unicode.IsLower(r) }) {
		return []string{word}
	}
	var words []string
	for _, initial := range letters[:capitals-1] {
		words = append(words, string(initial))
	}
	return append(words, string(letters[capitals-1:]))
}

// ownNames are the headings of the columns of marks where each of them is a name of its
// own: letters, and no number of a seat.
func (s *sheet) ownNames(headings Row) []string {
	var names []string
	for _, j := range s.layout.judges {
		text := strings.TrimSpace(headings.Cell(j.column).Text)
		if !strings.ContainsFunc(text, unicode.IsLetter) || strings.ContainsFunc(text, unicode.IsDigit) || slices.Contains(names, text) {
			return nil
		}
		names = append(names, text)
	}
	return names
}
