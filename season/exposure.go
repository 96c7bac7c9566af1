package season

import "slices"

// CouldShow reports whether a figure was flown in which a kind of fault can show:
// one with an element of a group that the kind names, or, in whatever sequence,
// one of which nothing says what it is. A fault that was noted could show. Without
// a sequence nothing is known against it. A practice flight without rows flew the
// sequence that it names if somebody went through it to the end; else it flew no
// figure that is known. (Without that, such a flight would count where the fault
// was noted and nowhere else, and every fault would seem to come back each time.)
func (f *Flight) CouldShow(k *FaultKind) bool {
	return f.noted(k) || f.flewFigure(k.showsIn)
}

// CouldShowIn reports whether a figure of a group was flown, or one of which
// nothing says what it is: where a fault that is counted group by group could
// show.
func (f *Flight) CouldShowIn(group string) bool {
	return f.flewFigure(func(figure Figure) bool { return figure.showsGroup([]string{group}) })
}

// noted reports whether a fault of the kind stands in the flight.
func (f *Flight) noted(k *FaultKind) bool {
	return slices.ContainsFunc(f.Faults, func(fault Fault) bool { return fault.Kind == k })
}

// flewFigure reports whether a figure that fits was flown, as far as is known:
// the rows of a flight, else its whole sequence, in front of judges or where it was
// reviewed. Any figure fits where there is no sequence.
func (f *Flight) flewFigure(fits func(Figure) bool) bool {
	if f.Sequence == nil {
		return f.Contested()
	}
	if !f.Rows.Any() && (f.Contested() || len(f.Reviewed) > 0) {
		return slices.ContainsFunc(f.Sequence.Figures, fits)
	}
	for i := range f.Rows.Len() {
		if f.Rows.Has(i) && fits(f.Sequence.Figures[i]) {
			return true
		}
	}
	return false
}

// showsIn reports whether a figure can show the kind.
func (k *FaultKind) showsIn(figure Figure) bool {
	return len(k.In) == 0 || figure.showsGroup(k.In)
}

// everywhere are the groups that a figure has in its way in and out, whatever its
// elements are: lines and part loops.
var everywhere = []string{"1", "7"}

// CanBeOn reports whether a fault of the kind can be on a figure, as far as is known:
// a kind that names no groups, or one that is everywhere, can be on any, and so can
// every kind where some element of the figure may not be known, since hints may
// leave one out.
func (k *FaultKind) CanBeOn(figure *Figure) bool {
	if len(k.In) == 0 || figure.Hinted || len(figure.Elements) == 0 || slices.ContainsFunc(everywhere, k.ShowsInGroup) {
		return true
	}
	for i := range figure.Elements {
		if group := figure.Elements[i].Group; group == "" || k.ShowsInGroup(group) {
			return true
		}
	}
	return false
}

// ShowsInGroup reports whether the kind can show in a group: one that it names, or
// any where it names none.
func (k *FaultKind) ShowsInGroup(group string) bool {
	return len(k.In) == 0 || slices.Contains(k.In, group)
}

// showsGroup reports whether a figure has an element of one of the groups, or
// none that is known.
func (f Figure) showsGroup(groups []string) bool {
	known := false
	for _, e := range f.Elements {
		known = known || e.Group != ""
		if slices.Contains(groups, e.Group) {
			return true
		}
	}
	return !known
}
