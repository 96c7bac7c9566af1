package entry

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"boxbook/report/display"
	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/ledger"
)

// This file walks a score sheet: its lines by figure or by judge, as the sequence has
// them, and what the marks so far leave open.

// rowLines are the lines of the sequence, each with number, K and label.
func rowLines(s Scene) []Line {
	seq := s.sequence()
	if seq == nil {
		return nil
	}
	var lines []Line
	for i, key := range rowKeys(seq) {
		marks := []string{"8", "7.5", "8.5"}
		if i < len(seq.Figures) {
			marks[1] = "HZ"
		}
		var example []string
		for n := range s.judges() {
			example = append(example, marks[(n+i*(n/len(marks)))%len(marks)]) // no two sheets alike
		}
		line := Line{Key: key, Asks: rowAsks(seq, key, i), Example: strings.Join(example, " ")}
		if s.One("programme") == string(season.Practice) {
			line.Optional = true
			if i < len(seq.Figures) {
				line.Example += AnotherTime + line.Example
			}
		}
		lines = append(lines, line)
	}
	return lines
}

// sequenceText is every line of a sequence as a row's question shows it.
func sequenceText(seq *season.Sequence) string {
	var lines []string
	for i, key := range rowKeys(seq) {
		lines = append(lines, rowAsks(seq, key, i))
	}
	return strings.Join(lines, "\n")
}

// rowAsks shows number, K and label of a line.
func rowAsks(seq *season.Sequence, key string, i int) string {
	switch {
	case i < len(seq.Figures):
		figure := seq.Figures[i]
		label := figure.Label
		if label == "" {
			label = strings.Join(namesOf(figure.Elements, func(e season.Element) string { return e.Code }), " ")
		}
		return strings.TrimRight(fmt.Sprintf("%2d  K %-3d %s", i+1, figure.K, label), " ")
	case key == "harmony":
		return fmt.Sprintf("    K %-3d harmony", seq.Harmony)
	default:
		return fmt.Sprintf("    K %-3d positioning", seq.Positioning)
	}
}

// sheetLines are the judges of the panel, each with a sheet.
func sheetLines(s Scene) []Line {
	seq := s.sequence()
	if seq == nil {
		return nil
	}
	var lines []Line
	keys := rowKeys(seq)
	for i, judge := range s.judges() {
		marks := slices.Repeat([]string{"8"}, len(keys))
		if i%2 == 1 {
			marks[0] = "HZ"
		}
		for n := range min(i/2, len(keys)-1) { // no two sheets alike
			marks[len(keys)-1-n] = "7.5"
		}
		lines = append(lines, Line{
			Key: judge, Asks: "sheet " + judge + ", " + linesNamed(keys), Example: strings.Join(marks, " "),
		})
	}
	return lines
}

// namesSheet says of a judge's name where the marks of a sheet are meant whose sheet is
// asked for, and how to get to the other; "" where the answer begins with none. A seat
// may be called as a mark is, A: it is one where there are as many marks as lines.
func (st step) namesSheet(text string) string {
	words := strings.Fields(text)
	if st.line == nil || !st.field.Keyed || len(words) == 0 {
		return ""
	}
	judges := st.scene.judges()
	at := slices.IndexFunc(judges, func(judge string) bool { return strings.EqualFold(judge, words[0]) })
	if _, _, problem, _ := ledger.ReadMarks(words[0]); at < 0 || problem == "" && len(words) == len(strings.Fields(st.line.Example)) {
		return ""
	}
	said := fmt.Sprintf("this is the sheet of judge %s: its marks are meant", st.line.Key)
	switch named := judges[at]; {
	case at == st.index:
		return said + ", without the name"
	case at < st.index:
		return said + fmt.Sprintf("; `back %s` goes to the sheet of %s", named, named)
	default:
		return said + fmt.Sprintf("; the sheet of %s is asked for behind it", named)
	}
}

// linesNamed names a sheet's marks in their order: "figures 1 to 5, positioning".
func linesNamed(keys []string) string {
	figures := len(keys)
	for figures > 0 && !isNumber(keys[figures-1]) {
		figures--
	}
	named := fmt.Sprintf("figures 1 to %d", figures)
	if figures == 1 {
		named = "figure 1"
	}
	return strings.Join(append([]string{named}, keys[figures:]...), ", ")
}

func isNumber(key string) bool {
	_, err := strconv.Atoi(key)
	return err == nil
}

// rowKeys are the lines of a sequence as a flight writes them.
func rowKeys(seq *season.Sequence) []string {
	if seq == nil {
		return nil
	}
	var keys []string
	for i := range seq.Figures {
		keys = append(keys, fmt.Sprint(i+1))
	}
	if seq.Positioning > 0 {
		keys = append(keys, "positioning")
	}
	if seq.Harmony > 0 {
		keys = append(keys, "harmony")
	}
	return keys
}

// hasHalfZero reports whether a figure so far has a hard zero from exactly half of the
// judges who gave it a mark, and no confirmed one: what it is worth is a ruling.
func hasHalfZero(s Scene) bool { return len(halfZeros(s)) > 0 }

// halfZeros are the lines that wait for a ruling, each with its marks.
func halfZeros(s Scene) (waiting []string) {
	keys := rowKeys(s.sequence())
	for i, row := range s.Answers["row"] {
		if i < len(keys) && slices.ContainsFunc(s.timesFlown(row), halfZero) {
			waiting = append(waiting, keys[i]+": "+row)
		}
	}
	sheets := s.Answers["sheet"]
	for i, key := range keys {
		var marks []string
		for _, sheet := range sheets {
			if words := strings.Fields(sheet); i+1 < len(words) { // behind the judge
				marks = append(marks, words[i+1])
			}
		}
		if row := joined(marks...); halfZero(row) {
			waiting = append(waiting, key+": "+row)
		}
	}
	return waiting
}

// halfZero is that of one figure's marks, as typed.
func halfZero(typed string) bool {
	marks, _, _, _ := ledger.ReadMarks(typed)
	vote := scoring.VoteOn(marks)
	return !vote.Confirmed && vote.Side == scoring.HalfOf
}

// notGraded reports whether nobody has a mark for a figure of a practice flight, as
// typed: it was flown and not graded, and as a row of its own would leave the whole
// flight undecided. A remark keeps the row.
func (s Scene) notGraded(typed string) bool {
	if s.One("programme") != string(season.Practice) || strings.TrimSpace(typed) == "" || strings.Contains(typed, `"`) {
		return false
	}
	marks, _, problem, _ := ledger.ReadMarks(typed)
	return problem == "" && len(marks) > 0 && !slices.ContainsFunc(marks, func(m scoring.Mark) bool { return m.Kind != scoring.Absent })
}

// asRows are the answers with the sheets of a practice flight turned into rows, where
// they have a figure that nobody graded: a sheet has no way to leave one out.
func (s Scene) asRows(keys []string) Answers {
	rows, ok := s.rowsOfSheets(keys)
	if !ok || !slices.ContainsFunc(rows, s.notGraded) {
		return s.Answers
	}
	turned := s.without("sheet")
	turned["row"] = rows
	return turned
}

// rowsOfSheets are the rows that the judges' sheets make; false where they are not all
// there, or have remarks.
func (s Scene) rowsOfSheets(keys []string) (rows []string, ok bool) {
	judges := s.judges()
	if len(judges) == 0 || len(s.Answers["sheet"]) != len(judges) {
		return nil, false
	}
	rows = make([]string, len(keys))
	for _, judge := range judges {
		sheet, found := keyedValue(s.Answers["sheet"], judge)
		marks := strings.Fields(sheet)
		if !found || len(marks) != len(keys) || strings.Contains(sheet, `"`) {
			return nil, false
		}
		for i, mark := range marks {
			rows[i] = joined(rows[i], mark)
		}
	}
	return rows, true
}

// NotGraded names the figures of a practice flight that are left out of what is
// written, since nobody has a mark for them.
func NotGraded(l *season.Ledger, v Answers) []string {
	s := Scene{Answers: v, Ledger: l}
	keys := rowKeys(s.sequence())
	s.Answers = s.asRows(keys)
	var names []string
	for i, row := range s.Answers["row"] {
		if i < len(keys) && !slices.ContainsFunc(s.timesFlown(row), func(marks string) bool { return !s.notGraded(marks) }) {
			names = append(names, lineName(keys[i]))
		}
	}
	return names
}

// lineName is what a line of a sheet is called: figure 3, positioning.
func lineName(key string) string {
	if isNumber(key) {
		return "figure " + key
	}
	return key
}

// otherNumber doubts a panel of another number of judges than the contest's, those whose
// sheets are not to hand counted, where it is not the one that is proposed.
func otherNumber(s Scene, panel string) string {
	c := s.Ledger.ContestNamed(s.One("contest"))
	if c == nil || len(c.Panel) == 0 || panel == latestPanel(s) {
		return ""
	}
	named := slices.DeleteFunc(strings.Fields(panel), func(word string) bool { return word == missingJudges })
	if len(named) == len(c.Panel) {
		return ""
	}
	return fmt.Sprintf("the panel of %s has %d %s, and this names %d", c.Handle, len(c.Panel), display.Plural(len(c.Panel), "judge", "judges"), len(named))
}
