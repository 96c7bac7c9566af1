package pages

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// LostData says where a flight's points went, in JSON. Total is maximum less
// raw points over the decided lines, penalties apart; figures, elements and
// groups each sum to it together with the weighted lines. Shares are parts of
// Total, from 0 to 1, absent where nothing was lost.
type LostData struct {
	Total       report.Number     `json:"total"`
	Figures     []LostFigureData  `json:"figures"`
	Positioning *LostPart         `json:"positioning,omitempty"`
	Harmony     *LostPart         `json:"harmony,omitempty"`
	Elements    []LostElementData `json:"elements"`
	Groups      []LostGroupData   `json:"groups"`
	// Undecided counts the lines left out.
	Undecided int `json:"undecided,omitempty"`

	whole *big.Rat
	// charged says that faults noted on an element were charged to it.
	charged bool
}

// LostPart is a part of a flight's loss.
type LostPart struct {
	Lost  report.Number `json:"lost"`
	Share report.Number `json:"share,omitzero"`

	exact   *big.Rat
	percent report.Number // the share, for people
}

// lostPartOf makes a part of what was lost out of all that was.
func lostPartOf(lost, total *big.Rat) LostPart {
	part := LostPart{Lost: report.Exact(lost), exact: lost}
	if total.Sign() > 0 {
		share := new(big.Rat).Quo(lost, total)
		part.Share = report.Exact(share)
		part.percent = report.Exact(share.Mul(share, whole(100)))
	}
	return part
}

// LostFigureData is the loss of a figure.
type LostFigureData struct {
	Number int `json:"number"`
	LostPart

	label string
}

// LostElementData is the loss of all elements of a code; the figures without
// elements have no code.
type LostElementData struct {
	Code    string `json:"code"`
	Figures []int  `json:"figures"`
	LostPart
}

// LostGroupData is the loss of a trend group, or of what belongs to none.
type LostGroupData struct {
	Group string `json:"group"`
	LostPart
}

// lostData collects where the points went; nil where the flight has no marks.
func lostData(f *season.Flight) *LostData {
	if !f.HasMarks() {
		return nil
	}
	losses := analysis.LossesOf(f)
	part := func(lost *big.Rat) LostPart { return lostPartOf(lost, losses.Total) }
	d := &LostData{
		Total: report.Exact(losses.Total), Figures: []LostFigureData{}, Elements: []LostElementData{},
		Groups: []LostGroupData{}, Undecided: losses.Undecided, whole: losses.Total,
	}
	for _, figure := range losses.Figures {
		d.Figures = append(d.Figures, LostFigureData{figure.Number, part(figure.Lost), f.Sequence.Figures[figure.Number-1].Label})
		for _, element := range figure.Elements {
			d.charged = d.charged || element.Charged.Sign() > 0
		}
	}
	for _, element := range losses.Elements {
		d.Elements = append(d.Elements, LostElementData{element.Code, element.Figures, part(element.Lost)})
	}
	for _, group := range losses.Groups {
		d.Groups = append(d.Groups, LostGroupData{group.Group, part(group.Lost)})
	}
	for _, line := range []struct {
		lost *big.Rat
		to   **LostPart
	}{{losses.Positioning, &d.Positioning}, {losses.Harmony, &d.Harmony}} {
		if line.lost != nil {
			data := part(line.lost)
			*line.to = &data
		}
	}
	return d
}

// lostRow is a row of a table of losses.
type lostRow struct {
	key, name string
	part      LostPart
}

// weighted are the rows of positioning and harmony, which stand in every table.
func (d *LostData) weighted() []lostRow {
	var rows []lostRow
	if d.Positioning != nil {
		rows = append(rows, lostRow{"", "positioning", *d.Positioning})
	}
	if d.Harmony != nil {
		rows = append(rows, lostRow{"", "harmony", *d.Harmony})
	}
	return rows
}

func (d *LostData) figureRows() []lostRow {
	var rows []lostRow
	for _, f := range d.Figures {
		rows = append(rows, lostRow{fmt.Sprint(f.Number), f.label, f.LostPart})
	}
	return mostFirst(append(rows, d.weighted()...))
}

func (d *LostData) elementRows() []lostRow {
	var rows []lostRow
	for _, e := range d.Elements {
		where := numberedFigures(e.Figures)
		if e.Code == "" {
			where += ", no codes"
		}
		rows = append(rows, lostRow{e.Code, where, e.LostPart})
	}
	return mostFirst(append(rows, d.weighted()...))
}

func (d *LostData) groupRows() []lostRow {
	var rows []lostRow
	for _, g := range d.Groups {
		if name := season.GroupName(g.Group); name != "" {
			rows = append(rows, lostRow{g.Group, name, g.LostPart})
		} else {
			rows = append(rows, lostRow{"", g.Group, g.LostPart})
		}
	}
	return mostFirst(append(rows, d.weighted()...))
}

// numberedFigures writes "figure 3" or "figures 3, 5".
func numberedFigures(numbers []int) string {
	words := make([]string, len(numbers))
	for i, n := range numbers {
		words[i] = fmt.Sprint(n)
	}
	return pluralWord(len(numbers), "figure ", "figures ") + strings.Join(words, ", ")
}

// mostFirst puts the greatest losses first, equal ones as they came.
func mostFirst(rows []lostRow) []lostRow {
	slices.SortStableFunc(rows, func(a, b lostRow) int { return b.part.exact.Cmp(a.part.exact) })
	return rows
}

// lostSections are the section on where the points went; none where the flight
// has no marks.
func lostSections(d *LostData) []report.Section {
	if d == nil {
		return nil
	}
	blocks := []report.Block{&report.Paragraph{Text: lostSentence(d)}}
	if d.whole.Sign() > 0 {
		blocks = append(blocks,
			d.table("by figure", "fig", "figure", d.figureRows()),
			d.table("by element", "code", "where", d.elementRows()),
			d.table("by family", "key", "family", d.groupRows()),
		)
	}
	return []report.Section{{Heading: "Where the points went", Blocks: append(blocks, lostNotes(d))}}
}

// lostSentence says in words what cost most.
func lostSentence(d *LostData) string {
	switch {
	case len(d.figureRows()) == 0:
		return "nothing to share out"
	case d.whole.Sign() == 0:
		return "no points were lost"
	}
	text := fmt.Sprintf("%s points lost, penalties apart", d.Total.Text(pointDecimals))
	if len(d.Figures) > 0 {
		text += "; most on " + d.figureRows()[0].words("figure")
	}
	for _, family := range d.groupRows() {
		if season.IsGroup(family.key) {
			return text + "; by family, most on " + family.words("")
		}
	}
	return text
}

// words say a row: "figure 9, square loop: 42.00".
func (r lostRow) words(before string) string {
	name := r.name
	switch {
	case before != "" && r.key != "" && name != "":
		name = fmt.Sprintf("%s %s, %s", before, r.key, name)
	case before != "" && r.key != "":
		name = before + " " + r.key
	}
	return fmt.Sprintf("%s: %s", name, r.part.Lost.Text(pointDecimals))
}

// shareDecimals are the decimals of a share in percent.
const shareDecimals = 1

// topLosses is how many rows a table of losses shows before it sums the rest up.
const topLosses = 5

// table shows the greatest losses, and the sum of the others.
func (d *LostData) table(title, key, name string, rows []lostRow) *report.Table {
	t := &report.Table{Title: title, Key: 2, Columns: []report.Column{
		{Title: key, Align: keyAlign(key)},
		{Title: name, Flexible: true, Min: 12},
		{Title: "lost", Align: report.Right},
		{Title: "share %", Align: report.Right, Bars: true},
	}}
	cut := len(rows) > topLosses+1
	if cut {
		rest := new(big.Rat)
		for _, row := range rows[topLosses:] {
			rest.Add(rest, row.part.exact)
		}
		more := lostRow{"", fmt.Sprintf("%d more", len(rows)-topLosses), lostPartOf(rest, d.whole)}
		rows = append(slices.Clone(rows[:topLosses]), more)
	}
	for i, row := range rows {
		share := report.Num(row.part.percent, shareDecimals)
		if cut && i == topLosses {
			share = share.Summed()
		}
		t.Rows = append(t.Rows, []report.Cell{report.Text(row.key), report.Text(row.name), num(row.part.Lost), share})
	}
	t.Footer = [][]report.Cell{{report.Empty(), report.Text("all"), num(d.Total), report.Num(lostPartOf(d.whole, d.whole).percent, shareDecimals)}}
	return t
}

// keyAlign puts figure numbers right.
func keyAlign(key string) report.Align {
	if key == "fig" {
		return report.Right
	}
	return report.Left
}

// lostNotes say how the loss was shared out.
func lostNotes(d *LostData) *report.Notes {
	notes := &report.Notes{}
	if d.Undecided > 0 {
		addNote(notes, "%s undecided and left out: the shares are of the decided ones", season.Counted(d.Undecided, "line is", "lines are"))
	}
	if d.whole.Sign() == 0 {
		return notes
	}
	if d.charged {
		addNote(notes, "a fault noted on an element is charged to it first; the rest of a figure's loss is shared in proportion to K")
	} else {
		addNote(notes, "a figure's loss is shared among its elements in proportion to K")
	}
	return notes
}
