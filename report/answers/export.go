package answers

import (
	"encoding/json"
	"math/big"

	"boxbook/report"
	"boxbook/scoring"
	"boxbook/season"
)

// ExportRow is one judge's mark for one figure, in JSON and in CSV. Used is
// what counted, in grades, and Points are K x Used, both null where the figure
// is undecided, the mark was dropped, or the flight is void: a figure's points
// are the mean of its rows' Points. What is not known is absent.
type ExportRow struct {
	Flight    string     `json:"flight"`
	Date      string     `json:"date"`
	Pilot     string     `json:"pilot"`
	Contest   string     `json:"contest,omitempty"`
	Category  string     `json:"category,omitempty"`
	Programme string     `json:"programme"`
	Figure    FigureName `json:"figure"`
	Label     string     `json:"label,omitempty"`
	K         int        `json:"k"`
	Codes     []string   `json:"codes"`
	// Groups are the trend groups of the figure's elements, each once.
	Groups []string      `json:"groups"`
	Judge  string        `json:"judge"`
	Mark   string        `json:"mark"`
	Kind   MarkKind      `json:"kind"`
	Used   report.Number `json:"used"`
	Points report.Number `json:"points"`
	Void   bool          `json:"void"`
}

// FigureName is a figure's number, or the name of a weighted line where the
// number is 0.
type FigureName struct {
	Number int
	Line   string
}

// MarshalJSON writes the number, or the name.
func (f FigureName) MarshalJSON() ([]byte, error) {
	if f.Number > 0 {
		return json.Marshal(f.Number)
	}
	return json.Marshal(f.Line)
}

// ExportOf are the rows of the flights: by flight, then by figure as the sheet
// stands, each time that it was flown, then by judge as the panel does. It tells how many of the flights are
// through, unless tell is nil.
func ExportOf(flights []*season.Flight, tell func(done, total int)) []ExportRow {
	rows := []ExportRow{}
	for i, f := range flights {
		rows = append(rows, exportRows(f)...)
		if tell != nil {
			tell(i+1, len(flights))
		}
	}
	return rows
}

// exportRows are one flight's rows.
func exportRows(f *season.Flight) []ExportRow {
	if !f.HasMarks() {
		return nil
	}
	head := ExportRow{
		Flight: f.Name, Date: f.Date.String(), Pilot: f.Pilot.Handle, Category: f.Category,
		Programme: string(f.Programme), Void: f.Void != nil,
	}
	if f.Contest != nil {
		head.Contest = f.Contest.Handle
	}
	var rows []ExportRow
	score, flown := f.Score(), f.Flown()
	for i, line := range f.Sheet().Lines {
		row := head
		row.K, row.Codes, row.Groups = line.K, []string{}, []string{}
		if line.Kind == scoring.Figure {
			row.figure(flown[i]+1, f.Sequence.Figures[flown[i]])
		} else {
			row.Figure.Line = line.Kind.String()
		}
		for n, flown := range lineRows(line, score.Lines[i]) {
			marks := line.Marks
			if n > 0 {
				marks = line.Again[n-1]
			}
			for j, mark := range marks {
				row.Judge, row.Mark, row.Kind = f.Panel[j], mark.String(), markKindOf(mark)
				row.count(line.K, flown.Cells[j])
				rows = append(rows, row)
			}
		}
	}
	return rows
}

// lineRows are the scores of a line's rows: one, or several where the figure was
// flown several times.
func lineRows(line scoring.Line, score scoring.LineScore) []scoring.LineScore {
	if len(line.Again) == 0 {
		return []scoring.LineScore{score}
	}
	return score.Rows
}

// figure says which figure the row is about.
func (r *ExportRow) figure(number int, figure season.Figure) {
	r.Figure.Number, r.Label = number, figure.Label
	seen := map[string]bool{"": true} // an element of no group has none to name
	for _, e := range figure.Elements {
		r.Codes = append(r.Codes, e.Code)
		if !seen[e.Group] {
			seen[e.Group] = true
			r.Groups = append(r.Groups, e.Group)
		}
	}
}

// count says what the mark came to.
func (r *ExportRow) count(k int, cell scoring.Cell) {
	r.Used, r.Points = report.Number{}, report.Number{}
	if cell.Used == nil || cell.Dropped || r.Void {
		return
	}
	r.Used = report.Exact(cell.Used)
	r.Points = report.Exact(new(big.Rat).Mul(cell.Used, big.NewRat(int64(k), 1)))
}
