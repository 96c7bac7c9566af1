package calibration

import (
	"fmt"
	"strings"

	"boxbook/season"
)

// Text writes a simulated ledger in the ledger's language: what the simulated
// seasons have of it, and nothing else.
func Text(l *season.Ledger) string {
	var b strings.Builder
	for _, p := range l.Pilots {
		fmt.Fprintf(&b, "pilot %s\n", p.Handle)
	}
	for _, s := range l.Sequences {
		writeSequence(&b, s)
	}
	for _, c := range l.Contests {
		fmt.Fprintf(&b, "contest %s %s..%s\n", c.Handle, c.First, c.Last)
		if len(c.Panel) > 0 {
			fmt.Fprintf(&b, "  panel %s\n", strings.Join(c.Panel, " "))
		}
	}
	for _, f := range l.Flights {
		writeFlight(&b, f)
	}
	for _, d := range l.Drills {
		fmt.Fprintf(&b, "drill %s %s %s\n", d.Date, d.Pilot.Handle, d.Target)
		for _, f := range d.Prompted {
			fmt.Fprintf(&b, "  prompted-by %s\n", f.Name)
		}
	}
	return b.String()
}

func writeSequence(b *strings.Builder, s *season.Sequence) {
	fmt.Fprintf(b, "sequence %s\n  category %s\n  programme %s\n", s.Handle, s.Category, s.Programme)
	for i, figure := range s.Figures {
		fmt.Fprintf(b, "  %d", i+1)
		if len(figure.Elements) == 0 {
			fmt.Fprintf(b, " K %d", figure.K)
		}
		for _, e := range figure.Elements {
			fmt.Fprintf(b, " %s:%d", e.Code, e.K)
		}
		b.WriteString("\n")
	}
}

func writeFlight(b *strings.Builder, f *season.Flight) {
	fmt.Fprintf(b, "flight %s %s %s", f.Date, f.Pilot.Handle, f.Programme)
	if f.Label > 1 {
		fmt.Fprintf(b, " %d", f.Label)
	}
	b.WriteString("\n")
	if f.Contest != nil {
		fmt.Fprintf(b, "  contest %s\n", f.Contest.Handle)
	}
	if f.Sequence != nil {
		fmt.Fprintf(b, "  sequence %s\n", f.Sequence.Handle)
	} else {
		fmt.Fprintf(b, "  category %s\n", f.Category)
	}
	for i, row := range f.Rows.All() {
		fmt.Fprintf(b, "  %d", i+1)
		for _, m := range row.Marks {
			b.WriteString(" " + m.String())
		}
		b.WriteString("\n")
	}
	if f.Official != nil {
		fmt.Fprintf(b, "  official %s of %s\n", f.Official.Points, f.Official.Maximum)
	}
	for _, fault := range f.Faults {
		fmt.Fprintf(b, "  fault %d %s\n", fault.Figure, fault.Kind.Name)
	}
	if len(f.Reviewed) > 0 {
		b.WriteString("  reviewed\n")
	}
}
