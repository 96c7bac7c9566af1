package words

import (
	"cmp"
	"fmt"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
)

// FigureInWords names a figure with its K: "half Cuban, K 14".
func FigureInWords(d answers.FigureSoFar) string {
	label := d.Label
	if label == "" {
		codes := make([]string, len(d.Elements))
		for i, e := range d.Elements {
			codes[i] = e.Code
		}
		label = strings.Join(codes, " ")
	}
	if label != "" {
		label += ", "
	}
	return label + fmt.Sprintf("K %d", d.K)
}

// FigureSoFar says a figure and how it went so far.
func FigureSoFar(d answers.FigureSoFar) []string {
	said := []string{fmt.Sprintf("Figure %d of %s: %s.", d.Number, d.Sequence, FigureInWords(d))}
	switch {
	case d.Pilot == "":
	case d.Flights == 0:
		said = append(said, fmt.Sprintf("Not graded yet (%s).", d.Pilot))
	default:
		said = append(said, fmt.Sprintf("Mean so far %s, %s (%s).", d.Mean.Text(MeanDecimals), Counted(d.Flights, "flight", "flights"), d.Pilot))
	}
	return said
}

// FaultCost says what a fault noted costs.
func FaultCost(f answers.Fault) []string {
	said := []string{Sentence(cmp.Or(f.Says, f.Kind)) + "."}
	switch {
	case f.Figure == 0:
		said = append(said, "Noted on the whole flight: it costs no figure.")
	case !f.Graded:
		said = append(said, "It costs nothing: a cause, or a matter apart from grades.")
	case !f.Deduction.Known():
		said = append(said, Sentence(UnknownText)+".")
	case f.Points.Known():
		said = append(said, fmt.Sprintf("It costs %s of a grade, %s points.", f.Deduction.Text(1), f.Points.Text(PointDecimals)))
	default:
		said = append(said, fmt.Sprintf("It costs %s of a grade; its points are not known without the sequence.", f.Deduction.Text(1)))
	}
	if f.Graded && f.Next {
		said = append(said, Sentence(NextText)+".")
	}
	if f.Graded && !f.Counted {
		said = append(said, Sentence(DoubledText)+".")
	}
	return said
}

// SequenceSumSaid says what a sequence's K add up to.
func SequenceSumSaid(d answers.SequenceSum) string {
	text := fmt.Sprintf("K %d", d.K)
	if d.Weighted > 0 {
		text += fmt.Sprintf(", with the weighted lines K %d", d.K+d.Weighted)
	}
	return text
}

// SequenceInWords is that with the number of figures.
func SequenceInWords(d answers.SequenceSum) string {
	return fmt.Sprintf("%s: %s, %s.", d.Sequence, Counted(d.Figures, "figure", "figures"), SequenceSumSaid(d))
}

// MeanHint is a row's mean at its end, "" where it is not known.
func MeanHint(mean report.Number) string {
	if !mean.Known() {
		return ""
	}
	return "mean " + mean.Text(MeanDecimals)
}

// TotalHint is a sheet's total at its end, "" where it is not known.
func TotalHint(total report.Number) string {
	if !total.Known() {
		return ""
	}
	return "total " + total.Text(PointDecimals)
}
