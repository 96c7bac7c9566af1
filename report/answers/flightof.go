package answers

import (
	"math/big"
	"slices"

	"boxbook/report"
	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/analysis"
)

// FlightOf collects a flight's numbers.
func FlightOf(f *season.Flight) Flight {
	d := sheetOf(f)
	d.Official, d.PrintedJudges = officialOf(f, d.Alone()), officialJudges(f.CompareJudges())
	return d
}

// FlightToday is that, with how long ago the flight was on the day that stands for
// today, and what had become of the matters of safety by then.
func FlightToday(l *season.Ledger, f *season.Flight) Flight {
	d := FlightOf(f)
	d.addMatters(l, f)
	if d.Official != nil && l.AsOf != 0 {
		days := int(l.AsOf - f.Date)
		d.Official.Days = &days
	}
	return d
}

// sheetOf is the flight without the search for what would explain a printed
// total, which takes as long as all the rest together and more.
func sheetOf(f *season.Flight) Flight {
	expected := expectedOf(f)
	d := Flight{
		Flight: f.Name, Pilot: f.Pilot.Handle, PilotName: f.Pilot.Name, Date: f.Date.String(), Category: f.Category,
		Programme: string(f.Programme), Label: f.Label, Aircraft: f.Aircraft, Counts: countsOf(f), Marked: f.HasMarks(),
		Panel: listOf(f.Panel), Missing: listOf(f.Missing),
		Figures: []Figure{}, Judges: []Judge{}, Penalties: []Penalty{},
		Place: f.Rank, Of: f.Of, Field: fieldOf(f), Notes: f.Notes, Videos: listOf(f.Videos), Reviews: reviewsOf(f), Flags: []Flag{},
		Lost: lostOf(f), Faults: faultsOf(f), Expected: expected, ExpectedAbove: expectedAbove(expected), Official: printedOf(f),
	}
	d.addNames(f)
	d.addPenalties(f)
	if f.HasMarks() {
		d.addScore(f)
		for _, family := range analysis.FlightFamilies(f) {
			d.Families = append(d.Families, FlightFamily{family.Group, report.Exact(family.K), report.Exact(family.Percent)})
		}
		d.addPanel(f)
	}
	if rec := f.Record(); rec.Source != season.NoRecord && f.Void == nil {
		data := recordOf(rec)
		d.Record, d.Enters = &data, d.Counts == CountsContest && rec.Percent != nil
	}
	return d
}

// reviewsOf lists who went through the video, with what they noted.
func reviewsOf(f *season.Flight) []Review {
	reviews := []Review{}
	for _, r := range f.Reviewed {
		review := Review{Notes: listOf(r.Notes), Videos: r.Videos}
		if r.By != nil {
			review.By, review.Name = r.By.Handle, r.By.Name
		}
		reviews = append(reviews, review)
	}
	return reviews
}

// addNames says where the flight was flown, what, by which rules, and why it is
// void.
func (d *Flight) addNames(f *season.Flight) {
	if f.Contest != nil {
		d.Contest, d.ContestName, d.ContestDate = f.Contest.Handle, f.Contest.Name, f.Contest.First.String()
	}
	if f.Sequence != nil {
		d.Sequence = f.Sequence.Handle
	}
	if f.Style != nil || d.Marked {
		style := StyleOf(f.Style)
		d.RulesDefault, d.Style = f.StyleDefault, &style
	}
	if f.Style != nil {
		d.Rules = f.Style.Name
	}
	if f.Void != nil {
		d.Void = *f.Void
	}
}

// addPenalties adds the penalties as typed and what they come to.
func (d *Flight) addPenalties(f *season.Flight) {
	sum := new(big.Rat)
	for _, p := range f.Penalties {
		sum.Add(sum, p.Points.Rat())
		d.Penalties = append(d.Penalties, Penalty{string(p.Kind), report.Exact(p.Points.Rat()), p.Points.Places, p.Remark})
	}
	if len(f.Penalties) > 0 {
		d.Penalty = report.Exact(sum)
	}
}

// addScore adds the lines and the totals.
func (d *Flight) addScore(f *season.Flight) {
	score, sheet := f.Score(), f.Sheet()
	flown, elements := f.Flown(), elementsOf(f)
	for i, line := range sheet.Lines {
		data := lineOf(line, score.Lines[i])
		figure := 0
		if line.Kind == scoring.Figure {
			figure = flown[i] + 1
		}
		data.DecisionRemark = decisionRemark(f, line.Kind, figure)
		switch line.Kind {
		case scoring.Positioning:
			data.Remark = f.Positioning.Remark
			d.Positioning = &data
		case scoring.Harmony:
			data.Remark = f.Harmony.Remark
			d.Harmony = &data
		default:
			at := flown[i]
			data.Remark = f.Rows.At(at).Remark
			d.Figures = append(d.Figures, Figure{
				Number: at + 1, Label: f.Sequence.Figures[at].Label, Elements: elements[at+1], Line: data, Rows: rowsOf(line, score.Lines[i], f.Rows.At(at)),
			})
		}
	}
	for j, name := range f.Panel {
		judge := Judge{Name: name}
		if score.JudgeTotals != nil {
			judge.Total = report.Exact(score.JudgeTotals[j])
		}
		d.Judges = append(d.Judges, judge)
	}
	d.Raw, d.Penalty, d.Points = report.Exact(score.Raw), report.Exact(score.Penalty), report.Exact(score.Points)
	d.Maximum, d.Percent = report.Int(int64(score.Maximum)), report.Exact(score.Percent)
	if d.Undecided = !score.Decided(); d.Undecided {
		d.Range = &Range{report.Exact(score.Low), report.Exact(score.High)}
	}
}

// decisionRemark is what was noted of the recorded ruling on a line.
func decisionRemark(f *season.Flight, kind scoring.LineKind, figure int) string {
	i := slices.IndexFunc(f.Rulings, func(r season.Ruling) bool { return r.Line == kind && r.Figure == figure })
	if i < 0 {
		return ""
	}
	return f.Rulings[i].Remark
}

// rowsOf are the rows of a figure that was flown several times, none of one that
// was flown once.
func rowsOf(line scoring.Line, score scoring.LineScore, typed season.Row) []Line {
	var rows []Line
	for i, row := range score.Rows {
		one := scoring.Line{Kind: line.Kind, K: line.K, Marks: line.Marks, Decision: line.Decision}
		remark := typed.Remark
		if i > 0 {
			one.Marks, remark = line.Again[i-1], typed.Again[i-1].Remark
		}
		data := lineOf(one, row)
		data.Remark = remark
		rows = append(rows, data)
	}
	return rows
}

// elementOf lists a figure's elements as the sequence has them.
func elementOf(figure season.Figure) []Element {
	elements := []Element{}
	for _, e := range figure.Elements {
		elements = append(elements, Element{Code: e.Code, K: report.Exact(e.ShareK()), Group: e.Group})
	}
	return elements
}

// elementsOf gives the elements of each figure that was flown, by its number,
// with what faults and the panel took from them.
func elementsOf(f *season.Flight) map[int][]Element {
	found, charges := map[int][]Element{}, f.Charges()
	for _, at := range f.Flown() {
		figure := f.Sequence.Figures[at]
		elements := elementOf(figure)
		for i, deducted := range analysis.NotedOnElements(figure, at+1, charges) {
			if deducted.Sign() > 0 {
				elements[i].Deducted = report.Exact(deducted)
			}
		}
		found[at+1] = elements
	}
	for _, figure := range analysis.LossesOf(f).Figures {
		for i, part := range figure.Elements {
			element := &found[figure.Number][i]
			element.Lost = report.Exact(part.Lost)
			if part.Charged.Sign() > 0 {
				element.Charged = report.Exact(part.Charged)
			}
		}
	}
	return found
}

// fieldOf compares the flight with its field; nil where none was typed, or the
// flight has no total, or is void.
func fieldOf(f *season.Flight) *Field {
	field, ok := analysis.FieldOf(f)
	if !ok {
		return nil
	}
	d := &Field{
		Winner: report.Exact(field.Winner), Median: report.Exact(field.Median),
		ToWinner: report.Exact(field.ToWinner), ToMedian: report.Exact(field.ToMedian),
	}
	for _, total := range field.Totals {
		d.Totals = append(d.Totals, report.Exact(total))
	}
	return d
}
