package analysis

import (
	"math"
	"slices"

	"boxbook/season"
)

// FamilyKey is what is followed over time: the figures of a trend group, or one
// figure of a sequence.
type FamilyKey struct {
	Group    string
	Sequence *season.Sequence // nil for a group
	Figure   int
}

// share is the K in a figure of a flight that belongs to the key.
func (k FamilyKey) share(f *season.Flight, fig flownFigure) float64 {
	switch {
	case k.Sequence == nil:
		return groupK(fig.figure, k.Group).float64()
	case f.Sequence == k.Sequence && fig.number == k.Figure:
		return float64(fig.figure.K)
	default:
		return 0
	}
}

// FamilyFlight is one flight of what is followed: the numbers of its decided
// figures with it, and their percent, weighed by the K that belongs to it.
// VersusRest is that less the percent of the flight's other figures, NaN where
// these are too few. Zeroed are the figures of either that count 0 as a matter of
// fact. Faults are those noted on it.
type FamilyFlight struct {
	Flight     *season.Flight
	Figures    []int
	Zeroed     []int
	Percent    float64
	VersusRest float64
	Faults     []season.NotedFault
}

// FamilyOverTime is what is followed, a row a flight with marks that counts, in
// order of date, practice too. Best is a place among All, the rows of all
// seasons, by percent: of those in front of judges in the selection's category, -1
// where there is none.
type FamilyOverTime struct {
	Flights []FamilyFlight
	All     []FamilyFlight
	Best    int
	// VersusRest is the mean over the flights in front of judges that can be
	// compared, of which there are Compared.
	VersusRest float64
	Compared   int
	// WithoutZeros is the same without the flights in which a figure was zeroed, of
	// which there are Zeros; NaN where no other is left.
	WithoutZeros float64
	Zeros        int
}

// FamilyOver follows a family or a figure over the selection's flights.
func FamilyOver(l *season.Ledger, s season.Selection, key FamilyKey) FamilyOverTime {
	l = l.KnownTo(s)
	out := FamilyOverTime{All: key.rows(l.Select(season.Selection{Pilot: s.Pilot})), Flights: key.rows(l.Select(s)), Best: -1}
	for i, row := range out.All {
		if row.Flight.Contested() && (s.Category == "" || row.Flight.Category == s.Category) && (out.Best < 0 || row.Percent > out.All[out.Best].Percent) {
			out.Best = i
		}
	}
	sum, without := 0.0, 0.0
	for _, row := range out.Flights {
		if !row.Flight.Contested() || math.IsNaN(row.VersusRest) {
			continue
		}
		sum, out.Compared = sum+row.VersusRest, out.Compared+1
		if len(row.Zeroed) > 0 {
			out.Zeros++
		} else {
			without += row.VersusRest
		}
	}
	out.VersusRest, out.WithoutZeros = sum/float64(out.Compared), without/float64(out.Compared-out.Zeros)
	return out
}

// rows are the flights with decided figures of the key.
func (k FamilyKey) rows(flights []*season.Flight) []FamilyFlight {
	var rows []FamilyFlight
	for _, f := range flights {
		if !f.Counts() || !f.HasMarks() {
			continue
		}
		figures := decidedFigures(f)
		own, rest := ownAndRest(figures, func(fig flownFigure) float64 { return k.share(f, fig) })
		if own.weight == 0 {
			continue
		}
		row := FamilyFlight{Flight: f, Percent: own.mean(), VersusRest: math.NaN()}
		if rest.count >= restFigures {
			row.VersusRest = row.Percent - rest.mean()
		}
		for _, fig := range figures {
			if k.share(f, fig) > 0 {
				row.Figures = append(row.Figures, fig.number)
			}
			if fig.zeroed {
				row.Zeroed = append(row.Zeroed, fig.number)
			}
		}
		row.Faults = k.faults(f, row.Figures)
		rows = append(rows, row)
	}
	return rows
}

// faults are those noted on the figures, apart from those that are of another
// group.
func (k FamilyKey) faults(f *season.Flight, figures []int) []season.NotedFault {
	return slices.DeleteFunc(slices.Clone(f.Noted()), func(n season.NotedFault) bool {
		return !slices.Contains(figures, n.Figure) || !k.has(f, n)
	})
}

// has reports whether a fault on a figure with the key is of the key: on an element
// of its group or, where nothing says on which element, of a kind that can show in
// the group.
func (k FamilyKey) has(f *season.Flight, n season.NotedFault) bool {
	if k.Sequence != nil {
		return true
	}
	group := groupOf(f, n)
	return group == k.Group || group == "" && n.Kind.ShowsInGroup(k.Group)
}

// Groups are the groups that the key is of, in the order of season.Groups.
func (k FamilyKey) Groups() []string {
	if k.Sequence == nil {
		return []string{k.Group}
	}
	var groups []string
	for _, group := range season.Groups {
		if figureHas(k.Sequence.Figures[k.Figure-1], group) {
			groups = append(groups, group)
		}
	}
	return groups
}
