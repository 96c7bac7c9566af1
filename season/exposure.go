package season

import "slices"

// CouldShow reports whether a figure was flown in which a kind of fault can show:
// one with an element of a group that the kind names, or, in whatever sequence,
// one of which nothing says what it is. A fault that was noted could show. Without
// a sequence nothing is known against it; a practice flight without rows flew no
// figure that is known.
func (f *Flight) CouldShow(k *FaultKind) bool {
	if slices.ContainsFunc(f.Faults, func(fault Fault) bool { return fault.Kind == k }) {
		return true
	}
	if f.Sequence == nil {
		return f.Contested()
	}
	flown := f.Flown()
	if len(flown) == 0 && f.Contested() {
		return slices.ContainsFunc(f.Sequence.Figures, k.showsIn)
	}
	return slices.ContainsFunc(flown, func(i int) bool { return k.showsIn(f.Sequence.Figures[i]) })
}

// showsIn reports whether a figure can show the kind.
func (k *FaultKind) showsIn(figure Figure) bool {
	known := false
	for _, e := range figure.Elements {
		known = known || e.Group != ""
		if slices.Contains(k.In, e.Group) {
			return true
		}
	}
	return len(k.In) == 0 || !known
}
