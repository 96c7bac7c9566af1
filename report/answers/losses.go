package answers

import (
	"math/big"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// Lost says where a flight's points went, in JSON. Total is maximum less
// raw points over the decided lines, penalties apart; figures, elements and
// groups each sum to it together with the weighted lines. Shares are parts of
// Total, from 0 to 1, absent where nothing was lost.
type Lost struct {
	Total       report.Number `json:"total"`
	Figures     []LostFigure  `json:"figures"`
	Positioning *LostPart     `json:"positioning,omitempty"`
	Harmony     *LostPart     `json:"harmony,omitempty"`
	Elements    []LostElement `json:"elements"`
	Groups      []LostGroup   `json:"groups"`
	// Undecided counts the lines left out.
	Undecided int `json:"undecided,omitempty"`
	// Charged says that faults noted on an element were charged to it.
	Charged bool `json:"charged,omitempty"`
}

// LostPart is a part of a flight's loss. Zeros are what of it was lost in figures that
// count 0 as a matter of fact, which no flying of the other figures costs.
type LostPart struct {
	Lost  report.Number  `json:"lost"`
	Share report.Number  `json:"share,omitzero"`
	Zeros []ZeroedFigure `json:"zeros,omitempty"`
}

// partOf makes a part of what was lost out of all that was, with its zeros.
func partOf(lost, total *big.Rat, zeros ...analysis.ZeroedFigure) LostPart {
	part := LostPart{Lost: report.Exact(lost)}
	for _, z := range zeros {
		part.Zeros = append(part.Zeros, ZeroedFigure{z.Figure, report.Exact(z.Lost)})
	}
	if total.Sign() > 0 {
		part.Share = report.Exact(new(big.Rat).Quo(lost, total))
	}
	return part
}

// LostFigure is the loss of a figure.
type LostFigure struct {
	Number int    `json:"number"`
	Label  string `json:"label,omitempty"`
	LostPart
}

// LostElement is the loss of all elements of a code; the figures without
// elements have no code.
type LostElement struct {
	Code    string `json:"code"`
	Figures []int  `json:"figures"`
	LostPart
}

// NoFamily stands in the place of a trend group for what belongs to none:
// figures without codes or hints, and codes of no group.
const NoFamily = "no family"

// LostGroup is the loss of a trend group, or of what belongs to NoFamily.
type LostGroup struct {
	Group string `json:"group"`
	LostPart
}

// lostOf collects where the points went; nil where the flight has no marks.
func lostOf(f *season.Flight) *Lost {
	if !f.HasMarks() {
		return nil
	}
	losses := analysis.LossesOf(f)
	part := func(lost *big.Rat, zeros ...analysis.ZeroedFigure) LostPart {
		return partOf(lost, losses.Total, zeros...)
	}
	d := &Lost{
		Total: report.Exact(losses.Total), Figures: []LostFigure{}, Elements: []LostElement{},
		Groups: []LostGroup{}, Undecided: losses.Undecided,
	}
	for _, figure := range losses.Figures {
		lost := part(figure.Lost)
		if figure.Zeroed {
			lost = part(figure.Lost, analysis.ZeroedFigure{Figure: figure.Number, Lost: figure.Lost})
		}
		d.Figures = append(d.Figures, LostFigure{figure.Number, f.Sequence.Figures[figure.Number-1].Label, lost})
		for _, element := range figure.Elements {
			d.Charged = d.Charged || element.Charged.Sign() > 0
		}
	}
	for _, element := range losses.Elements {
		d.Elements = append(d.Elements, LostElement{element.Code, element.Figures, part(element.Lost, element.Zeros...)})
	}
	for _, group := range losses.Groups {
		name := group.Group
		if name == "" {
			name = NoFamily
		}
		d.Groups = append(d.Groups, LostGroup{name, part(group.Lost, group.Zeros...)})
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
