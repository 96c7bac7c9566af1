package words

import (
	"cmp"
	"slices"
	"strings"

	"boxbook/report/answers"
)

// mattersNamed is how many ends of a kind's matters a sentence names.
const mattersNamed = 3

// MatterSaid says whether a matter of safety is open, or when, by whom and how it was
// closed.
func MatterSaid(closed *answers.Closed) string {
	said := matterEnd(closed)
	if closed != nil {
		said = behindRemark(said, closed.Remark)
	}
	return said
}

// matterEnd is MatterSaid without the remark, which the flight has.
func matterEnd(closed *answers.Closed) string {
	if closed == nil {
		return "open"
	}
	by := nobodyNamed
	if closed.By != "" {
		by = "by " + cmp.Or(closed.Name, closed.By)
	}
	return "closed " + closed.Date + " (" + by + ")"
}

// nobodyNamed is said where a closing has no coach.
const nobodyNamed = "nobody named"

func behindRemark(text, remark string) string {
	if remark == "" {
		return text
	}
	return text + ": " + remark
}

// matterNotes say of each matter of safety that a flight brought to light what became
// of it.
func matterNotes(d answers.Flight) []string {
	var notes []string
	for _, m := range d.Matters {
		notes = append(notes, Where(answers.Fault{Figure: m.Figure, Kind: m.Kind})+": "+MatterSaid(m.Closed))
	}
	return notes
}

// closesNotes say what a flight's own lines close.
func closesNotes(d answers.Flight) []string {
	var notes []string
	for _, c := range d.Closes {
		what := cmp.Or(c.Says, c.Kind)
		if len(c.Noted) == 0 {
			notes = append(notes, behindRemark("closes nothing: "+what+" was not open", c.Remark))
			continue
		}
		notes = append(notes, behindRemark("closes a matter of safety: "+what+", noted in "+ListInWords(slices.Compact(slices.Clone(c.Noted)))+" ("+nobodyNamed+")", c.Remark))
	}
	return notes
}

// kindMatters say what became of the matters of a kind, those with one end together,
// what is open first; "" where none is told.
func kindMatters(d answers.Faults, kind string) string {
	type end struct {
		dates []string
		said  string
		open  bool
	}
	var ends []end
	for _, m := range d.Matters {
		if m.Kind != kind {
			continue
		}
		said := matterEnd(m.Closed)
		if n := len(ends); n == 0 || ends[n-1].said != said {
			ends = append(ends, end{said: said, open: m.Closed == nil})
		}
		last := &ends[len(ends)-1]
		if !slices.Contains(last.dates, m.Date) {
			last.dates = append(last.dates, m.Date)
		}
	}
	if len(ends) == 1 {
		return ends[0].said
	}
	var said []string
	for _, e := range ends[max(0, len(ends)-mattersNamed):] {
		text := "that of " + ListInWords(e.dates) + " " + e.said
		if e.open {
			said = slices.Insert(said, 0, text)
		} else {
			said = append(said, text)
		}
	}
	earlier := 0
	for _, e := range ends[:max(0, len(ends)-mattersNamed)] {
		earlier += len(e.dates)
	}
	if earlier > 0 {
		said = append(said, Counted(earlier, "earlier one", "earlier ones")+" closed too")
	}
	return strings.Join(said, "; ")
}
