package words

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
)

// The signs behind a deduction, explained beneath the table.
const (
	DoubledSign = "="
	NextSign    = "+"
	UnknownSign = "?"
)

// What the signs mean.
const (
	DoubledText = "noted more than once: the larger counts, once"
	NextText    = "costs the next figure the same"
	UnknownText = "at most: a fault on it has no amount, and its kind has no deduction without one"
)

// What stands beneath the expected grades.
const (
	ExpectedExplained = "expected: 10 minus the seen faults, at least 0.0; given: the panel's mean; difference: expected minus given"
	ZeroedExplained   = "a figure made 0 as a matter of fact is no grade for faults"
)

// FaultRemarks are the remarks on faults, each with what it was noted on, and
// with its place where that is in another video than the first, then what became of
// the matters of safety among them.
func FaultRemarks(d answers.Flight) []string {
	var remarks []string
	first := firstVideo(d)
	for _, f := range d.Faults {
		var said []string
		if f.At != "" && f.Video != first {
			said = append(said, "at "+f.At+" of "+f.Video)
		}
		if f.Remark != "" {
			said = append(said, f.Remark)
		}
		if len(said) > 0 {
			remarks = append(remarks, Where(f)+": "+strings.Join(said, ", "))
		}
	}
	return append(remarks, matterNotes(d)...)
}

// firstVideo is the first of the videos that a flight's page lists, "" where it
// lists none.
func firstVideo(d answers.Flight) string {
	videos := d.Videos
	for _, r := range d.Reviews {
		videos = append(videos[:len(videos):len(videos)], r.Videos...)
	}
	if len(videos) == 0 {
		return ""
	}
	return videos[0]
}

// ExpectedSentence compares expected and given grades over the flight; "" where
// no figure has both.
func ExpectedSentence(d answers.Flight) string {
	if !d.ExpectedAbove.Known() || gradedByNoter(d) {
		return ""
	}
	n := 0
	for _, e := range d.Expected {
		if e.Difference.Known() {
			n++
		}
	}
	text, gave := "on "+Counted(n, "figure", "figures")+" with noted faults ", "the panel gave"
	if len(d.Panel) == 1 {
		gave = d.Panel[0] + " gave"
	}
	above := d.ExpectedAbove.Rat()
	size := report.Exact(new(big.Rat).Abs(above)).Text(MeanDecimals)
	if n > 1 {
		gave += " on average"
	}
	switch {
	case size == report.Int(0).Text(MeanDecimals):
		return text + gave + " what the faults leave"
	case above.Sign() > 0:
		text += fmt.Sprintf("%s %s less than the faults leave", gave, size)
	default:
		text += fmt.Sprintf("%s %s more than the faults leave", gave, size)
	}
	return text
}

// gradedByNoter reports whether the only judge noted every fault: the two grades are
// then one person's.
func gradedByNoter(d answers.Flight) bool {
	return len(d.Panel) == 1 && !slices.ContainsFunc(d.Faults, func(f answers.Fault) bool { return f.By != d.Panel[0] })
}

// Where says what a fault was noted on: "figure 2, line-angle".
func Where(f answers.Fault) string { return LineName("whole flight", f.Figure) + ", " + f.Kind }

// NotedBy says who noted a fault, and that it was felt where no judge saw it.
func NotedBy(f answers.Fault) string {
	switch {
	case f.By != "" && !f.Seen:
		return f.By + ", " + FeltCell
	case !f.Seen:
		return FeltCell
	default:
		return cmp.Or(f.By, SeenCell)
	}
}
