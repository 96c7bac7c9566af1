package answers

import (
	"cmp"
	"slices"

	"boxbook/season"
)

// Matter is a matter of safety that a flight brought to light. Figure is absent for
// the flight as a whole, Says where the ledger has no words for the kind, Closed
// while the matter stands open.
type Matter struct {
	Flight string  `json:"flight"`
	Date   string  `json:"date"`
	Figure int     `json:"figure,omitempty"`
	Kind   string  `json:"kind"`
	Says   string  `json:"says,omitempty"`
	Remark string  `json:"remark,omitempty"`
	Closed *Closed `json:"closed,omitempty"`
}

// Closed says how a matter was closed. By is a coach, Name the coach's name; both are
// absent where nobody is named. Flight is the one in which the line stands, absent
// where the line stands by itself.
type Closed struct {
	Date   string `json:"date"`
	By     string `json:"by,omitempty"`
	Name   string `json:"name,omitempty"`
	Flight string `json:"flight,omitempty"`
	Remark string `json:"remark,omitempty"`
}

// Closes is a line of a flight that closes what was open of a kind. Noted are the
// flights that had brought it to light, oldest first, empty where nothing was open.
type Closes struct {
	Kind   string   `json:"kind"`
	Says   string   `json:"says,omitempty"`
	Remark string   `json:"remark,omitempty"`
	Noted  []string `json:"noted"`
}

func mattersOf(all []season.Matter) []Matter {
	matters := []Matter{}
	for _, m := range all {
		matters = append(matters, Matter{
			Flight: m.Flight.Name, Date: m.Flight.Date.String(), Figure: m.Fault.Figure, Kind: m.Fault.Kind.Name, Says: m.Fault.Kind.Says,
			Remark: m.Fault.Remark, Closed: closedOf(m.Closing),
		})
	}
	return matters
}

// closedOf is nil where nothing closed the matter.
func closedOf(c *season.Closing) *Closed {
	if c == nil {
		return nil
	}
	d := &Closed{Date: c.Date.String(), Remark: c.Remark}
	if c.By != nil {
		d.By, d.Name = c.By.Handle, cmp.Or(c.By.Name, c.By.Handle)
	}
	if c.Flight != nil {
		d.Flight = c.Flight.Name
	}
	return d
}

// addMatters adds the matters of safety that the flight brought to light, and those
// that its own lines close, as they stand on the ledger's AsOf.
func (d *Flight) addMatters(l *season.Ledger, f *season.Flight) {
	if len(f.Closed) == 0 && !slices.ContainsFunc(f.Faults, func(fault season.Fault) bool { return fault.Safety }) {
		return
	}
	all, _ := season.AllMatters(l, f.Pilot, l.AsOf)
	var own []season.Matter
	for _, c := range f.Closed {
		d.Closes = append(d.Closes, Closes{Kind: c.Kind.Name, Says: c.Kind.Says, Remark: c.Remark, Noted: []string{}})
	}
	for _, m := range all {
		if m.Flight == f {
			own = append(own, m)
		}
		if m.Closing == nil || m.Closing.Flight != f {
			continue
		}
		for i, c := range f.Closed {
			if c.At == m.Closing.At {
				d.Closes[i].Noted = append(d.Closes[i].Noted, m.Flight.Name)
			}
		}
	}
	d.Matters = mattersOf(own)
}
