package answers

import (
	"math/big"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// ExportFlight is one flight. Points, maximum, percent and source are the record:
// the official total where one was typed, else what the marks come to less the
// penalties; they are absent where neither is known, and of a void flight.
// Official is the total as typed, Penalty the sum of the penalties, 0 of none.
type ExportFlight struct {
	Flight    string        `json:"flight"`
	Date      string        `json:"date"`
	Pilot     string        `json:"pilot"`
	Contest   string        `json:"contest,omitempty"`
	Category  string        `json:"category,omitempty"`
	Programme string        `json:"programme"`
	Sequence  string        `json:"sequence,omitempty"`
	Points    report.Number `json:"points,omitzero"`
	Maximum   report.Number `json:"maximum,omitzero"`
	Percent   report.Number `json:"percent,omitzero"`
	Source    string        `json:"source,omitempty"`
	Official  report.Number `json:"official,omitzero"`
	Penalty   report.Number `json:"penalty"`
	Place     int           `json:"place,omitempty"`
	Of        int           `json:"of,omitempty"`
	Void      bool          `json:"void"`
}

// ExportElement is one element of a decided figure; a figure of which only the K
// is known is one element without a code. Mean is the figure's, Lost what the
// element lost of it, K a fraction where hints share the figure's.
type ExportElement struct {
	Flight string        `json:"flight"`
	Figure int           `json:"figure"`
	Code   string        `json:"code,omitempty"`
	Group  string        `json:"group,omitempty"`
	K      report.Number `json:"k"`
	Mean   report.Number `json:"mean"`
	Lost   report.Number `json:"lost"`
}

// ExportFault is one fault line as typed. Amount is a number of Unit, of a ratio
// the first by the second, absent where none was typed and of a line that is
// missing (1:0); Times how often. Deduction is in grades, Points that by the K of
// what it costs; both absent where not known. Counted is false where another
// observer's note of the same fault counts in its place.
type ExportFault struct {
	Flight    string        `json:"flight"`
	Figure    int           `json:"figure,omitempty"`
	Kind      string        `json:"kind"`
	On        string        `json:"on,omitempty"`
	Group     string        `json:"group,omitempty"`
	Amount    report.Number `json:"amount,omitzero"`
	Unit      string        `json:"unit,omitempty"`
	Times     int           `json:"times"`
	Deduction report.Number `json:"deduction,omitzero"`
	Points    report.Number `json:"points,omitzero"`
	Seen      bool          `json:"seen"`
	Counted   bool          `json:"counted"`
	At        string        `json:"at,omitempty"`
	Video     string        `json:"video,omitempty"`
	By        string        `json:"by,omitempty"`
	Remark    string        `json:"remark,omitempty"`
}

// ExportDrill is one drill: in how many of the flights that could show its target
// it was noted before and since, and the verdict.
type ExportDrill struct {
	Pilot      string    `json:"pilot"`
	Target     string    `json:"target"`
	Date       string    `json:"date"`
	Ended      string    `json:"ended,omitempty"`
	SeenBefore int       `json:"seenBefore"`
	Before     int       `json:"before"`
	SeenSince  int       `json:"seenSince"`
	Since      int       `json:"since"`
	Word       DrillWord `json:"word"`
}

// ExportFlightsOf are the flights, a row each.
func ExportFlightsOf(flights []*season.Flight) []ExportFlight {
	rows := make([]ExportFlight, len(flights))
	season.SideBySide(len(flights), func(i int) { rows[i] = exportFlight(flights[i]) })
	return rows
}

func exportFlight(f *season.Flight) ExportFlight {
	row := ExportFlight{
		Flight: f.Name, Date: f.Date.String(), Pilot: f.Pilot.Handle, Category: f.Category, Programme: string(f.Programme),
		Place: f.Rank, Of: f.Of, Void: f.Void != nil,
	}
	if f.Contest != nil {
		row.Contest = f.Contest.Handle
	}
	if f.Sequence != nil {
		row.Sequence = f.Sequence.Handle
	}
	if f.Official != nil {
		row.Official = report.Exact(f.Official.Points.Rat())
	}
	if f.Counts() {
		record := recordOf(f.Record())
		row.Points, row.Maximum, row.Percent, row.Source = record.Points, record.Maximum, record.Percent, record.Source
	}
	penalty := new(big.Rat)
	for _, p := range f.Penalties {
		penalty.Add(penalty, p.Points.Rat())
	}
	row.Penalty = report.Exact(penalty)
	return row
}

// ExportElementsOf are the elements of the flights' decided figures.
func ExportElementsOf(flights []*season.Flight) []ExportElement {
	rows := []ExportElement{}
	for _, f := range flights {
		for _, figure := range analysis.LossesOf(f).Figures {
			flown := f.Sequence.Figures[figure.Number-1]
			row := ExportElement{Flight: f.Name, Figure: figure.Number, Mean: report.Exact(meanOf(flown.K, figure.Lost))}
			if len(figure.Elements) == 0 {
				row.K, row.Lost = report.Int(int64(flown.K)), report.Exact(figure.Lost)
				rows = append(rows, row)
			}
			for _, part := range figure.Elements {
				row.Code, row.Group = part.Element.Code, part.Element.Group
				row.K, row.Lost = report.Exact(part.Element.ShareK()), report.Exact(part.Lost)
				rows = append(rows, row)
			}
		}
	}
	return rows
}

// meanOf is the mean grade of a figure that lost so much, nil without K.
func meanOf(k int, lost *big.Rat) *big.Rat {
	if k == 0 {
		return nil
	}
	mean := new(big.Rat).Quo(lost, whole(k))
	return mean.Sub(big.NewRat(10, 1), mean)
}

// ExportFaultsOf are the fault lines of the flights.
func ExportFaultsOf(flights []*season.Flight) []ExportFault {
	rows := []ExportFault{}
	for _, f := range flights {
		for i, fault := range faultsOf(f) {
			typed := f.Faults[i]
			line := analysis.FaultLineOf(f, typed)
			rows = append(rows, ExportFault{
				Flight: f.Name, Figure: fault.Figure, Kind: fault.Kind, On: fault.On, Group: line.Group,
				Amount: amountOf(typed.Amount), Unit: string(typed.Amount.Unit), Times: max(typed.Amount.Times, 1),
				Deduction: fault.Deduction, Points: fault.Points, Seen: fault.Seen, Counted: fault.Counted,
				At: fault.At, Video: fault.Video, By: fault.By, Remark: fault.Remark,
			})
		}
	}
	return rows
}

// amountOf is a fault's amount as one number.
func amountOf(a season.Amount) report.Number {
	switch {
	case a.Unit == season.NoUnit, a.Unit == season.Ratio && !a.Second.Positive():
		return report.Number{}
	case a.Unit == season.Ratio:
		return report.Exact(new(big.Rat).Quo(a.Value.Rat(), a.Second.Rat()))
	default:
		return report.Exact(a.Value.Rat())
	}
}

// ExportDrillsOf are the drills of an answer.
func ExportDrillsOf(d Drills) []ExportDrill {
	rows := []ExportDrill{}
	for _, o := range d.Drills {
		rows = append(rows, ExportDrill{
			Pilot: o.Pilot, Target: o.Target, Date: o.Date, Ended: o.Ended,
			SeenBefore: o.Before.Seen, Before: o.Before.Flights, SeenSince: o.After.Seen, Since: o.After.Flights, Word: o.Word,
		})
	}
	return rows
}
